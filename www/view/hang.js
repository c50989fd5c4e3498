/**
 * The way to the Hang sheet: a button and Ctrl+P. The sheet itself is loaded when it is wanted, or while the page rests, and
 * stands beside the page: unseen on the screen until it is opened, and the only thing that prints, unless the figures of the
 * page were asked for.
 *
 * @import { Scenario } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 *
 * @typedef {object} HangPort
 * @property {() => Scene|null} getScene
 * @property {(listener: () => void) => void} subscribe  tells of every change of the state
 * @property {() => void} failed  the sheet could not be loaded
 *
 * @typedef {object} Around  What stands on the sheet beside the scene.
 * @property {string} link     empty until it is packed
 * @property {Date} date
 * @property {() => void} close
 * @property {() => void} print
 */
import { pack } from "../model/files.js";
import { isCatchingUp } from "./answer.js";

/** Ranges on their way are waited for before printing, at most so long, ms. */
const WAIT_FOR_RANGES_MS = 3000;
const LOOK_AGAIN_MS = 50;

/** After this the page has surely drawn what it opened with, ms. */
const LOAD_AFTER_MS = 4000;

/** The link follows a change after this rest, ms: a drag never pays for it. */
const REST_MS = 500;

/** @param {HangPort} port */
export function createHang({ getScene, subscribe, failed }) {
  const container = document.body.appendChild(Object.assign(document.createElement("div"), { className: "hang", role: "main", ariaLabel: "Hang sheet" }));
  /** @type {typeof import("./hang/sheet.js")|null} */
  let sheet = null;
  /** @type {{document: Scenario|null, shown: number, address: string}} */
  let link = { document: null, shown: 0, address: "" };
  let isOpen = false;
  /** @param {boolean} on  the page itself prints */
  const figures = (on) => document.documentElement.classList.toggle("prints-figures", on);

  /** @param {Scene} scene */
  const isLinked = ({ document, state }) => link.document === document && link.shown === state.shown;

  function draw() {
    const scene = getScene();
    if (!sheet || !scene) return;
    const address = isLinked(scene) ? link.address : "";
    sheet.drawSheet(container, scene, { link: address, date: new Date(), close: () => show(false), print: () => print() });
  }
  /** @param {boolean} open */
  function show(open) {
    isOpen = open;
    document.documentElement.classList.toggle("is-hanging", open);
    if (open) container.querySelector("button")?.focus();
    scrollTo(0, 0);
  }
  /** What prints must be at hand: the browser does not wait once it prints. */
  async function load() {
    sheet ??= await import("./hang/sheet.js");
    const scene = getScene();
    if (!scene || isLinked(scene)) return;
    const { document, state: { shown } } = scene;
    link = { document, shown, address: `${location.href.split("#")[0]}#${await pack(document, shown)}` };
  }
  async function prepare() {
    await load();
    draw();
  }
  async function printSheet() {
    await Promise.all([prepare(), document.fonts.ready]);
    for (let waited = 0; waited < WAIT_FOR_RANGES_MS && stillComing(getScene()); waited += LOOK_AGAIN_MS) await pause(LOOK_AGAIN_MS);
    await prepare();
    print();
  }

  async function printFigures() {
    await document.fonts.ready;
    figures(true);
    print();
  }

  addEventListener("beforeprint", draw);
  addEventListener("afterprint", () => figures(false));
  addEventListener("keydown", (event) => {
    if (event.key === "Escape" && isOpen) show(false);
    if (event.key.toLowerCase() !== "p" || !(event.ctrlKey || event.metaKey) || event.shiftKey || event.altKey) return;
    event.preventDefault();
    printSheet().catch(failed);
  });
  // Whoever wants it later asks anew.
  setTimeout(() => load().catch(() => {}), LOAD_AFTER_MS);
  let timer = 0;
  subscribe(() => {
    if (!sheet) return;
    clearTimeout(timer);
    timer = setTimeout(isOpen ? prepare : load, isOpen ? LOOK_AGAIN_MS : REST_MS);
  });
  return { openSheet: () => { prepare().then(() => show(true), failed); }, printFigures };
}

/** @param {Scene|null} scene */
function stillComing(scene) {
  return scene !== null && isCatchingUp(scene);
}

/** @param {number} rest_ms */
function pause(rest_ms) {
  return new Promise((resolve) => setTimeout(resolve, rest_ms));
}
