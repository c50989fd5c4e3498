/**
 * On a narrow page: which surface is shown, its neighbours as words, a small opened box; and the bar at the foot.
 *
 * @import { SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, svg } from "../vendor.js";
import { sentence, surfaceName } from "../model/words.js";
import { READING_ORDER } from "./words.js";

/** The way round: floor, the four walls in turn, ceiling. @type {SurfaceName[]} */
const ROUND = ["floor", "left", "back", "right", "front", "ceiling"];

/** @param {Scene} scene */
export function turnNav({ state, dispatch, document }) {
  const place = ROUND.indexOf(state.surface);
  const before = ROUND[(place + ROUND.length - 1) % ROUND.length];
  const after = ROUND[(place + 1) % ROUND.length];
  return html`<nav class="turn" aria-label="Surfaces">
    <button type="button" @click=${() => dispatch({ type: "face", surface: before })}><span aria-hidden="true">← </span>${sentence(surfaceName(before))}<span class="unseen">, previous surface</span></button>
    <span class="now-at">${boxMap(state.surface, document.room)}<b>${sentence(surfaceName(state.surface))}</b></span>
    <button type="button" @click=${() => dispatch({ type: "face", surface: after })}>${sentence(surfaceName(after))}<span class="unseen">, next surface</span><span aria-hidden="true"> →</span></button></nav>`;
}

/**
 * @param {SurfaceName} here
 * @param {{width_m: number, length_m: number, height_m: number}} room
 */
function boxMap(here, room) {
  const scale = 40 / (room.length_m + 2 * room.height_m);
  const [across, down, wall] = [room.length_m * scale, room.width_m * scale, room.height_m * scale];
  /** @type {Record<SurfaceName, [number, number, number, number]>} */
  const boxes = {
    floor: [wall, wall, across, down],
    right: [wall, 0, across, wall],
    left: [wall, wall + down, across, wall],
    front: [0, wall, wall, down],
    back: [wall + across, wall, wall, down],
    ceiling: [wall, wall, across, down],
  };
  const height = down + 2 * wall + 2;
  return html`<svg class="boxmap" viewBox="-1 -1 42 ${height}" width="42" height=${height} aria-hidden="true">
    ${READING_ORDER.filter((name) => name !== "ceiling").map((name) => {
      const [x, y, width, high] = boxes[name];
      return svg`<rect class="bm ${name === here ? "here" : ""}" x=${x} y=${y} width=${width} height=${high} />`;
    })}
    ${here === "ceiling" ? svg`<path class="bm" d="M${wall} ${wall}l${across} ${down}m0 ${-down}l${-across} ${down}" />` : ""}</svg>`;
}

/** What stands at either end of the surface as it is faced. @type {Partial<Record<SurfaceName, [string, string]>>} */
const ENDS = {
  left: ["back", "loudspeaker end"],
  right: ["loudspeaker end", "back"],
  front: ["left", "right"],
  back: ["right", "left"],
};

/** @param {Scene} scene */
export function endWords({ state }) {
  const [a, b] = ENDS[state.surface] ?? ["", ""];
  return html`<p class="ends" aria-hidden="true"><span>${a}</span><span>${b}</span></p>`;
}

/** @param {Scene} scene */
export function footBar(scene) {
  return html`<nav class="foot" aria-label="Parts of the page">
    <a class="do solid" href="#kit" @click=${jump}>Add a piece</a><a href="#parts" @click=${jump}>Parts</a>
    <a href="#room" @click=${jump}>Room</a><a href="#notes" @click=${jump}>Cautions</a></nav>`;
}

/**
 * Jumps without touching the address, whose fragment is the shared plan.
 * @param {Event} event
 */
function jump(event) {
  event.preventDefault();
  const name = /** @type {HTMLAnchorElement} */ (event.currentTarget).hash.slice(1);
  const target = document.querySelector({ kit: ".kit", parts: ".parts", room: ".facts", notes: ".notes" }[name] ?? "main");
  target?.scrollIntoView({ block: "start" });
  /** @type {HTMLElement|null} */ (target?.querySelector("button, summary, input, a"))?.focus({ preventScroll: true });
}
