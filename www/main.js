// Builds store, engine, views and inputs and connects them. One drawing per animation frame, however many actions.

/**
 * @import { Engine } from "./engine/live.js"
 * @import { Dispatch } from "./model/actions.js"
 * @import { State } from "./model/types.js"
 * @import { Refusal } from "./view/kept.js"
 * @import { Scene, Viewport } from "./view/scene.js"
 * @typedef {ReturnType<typeof createStore>} Store
 */
import { compileWhole } from "./engine/core.js";
import { createLater, workerSpawner } from "./engine/later.js";
import { createEngine } from "./engine/live.js";
import { attachInput } from "./input/attach.js";
import { watchHeld } from "./input/held.js";
import { rangesFor } from "./model/late.js";
import { initialState, onSheet, reduce } from "./model/reduce.js";
import { createStore } from "./model/store.js";
import { render } from "./vendor.js";
import { afterwards } from "./view/afterwards.js";
import { createHang } from "./view/hang.js";
import { nextTurn } from "./view/in_turn.js";
import { keepHeight } from "./view/keep_height.js";
import { keepDraft, keptDraft } from "./view/kept.js";
import { createLocate } from "./view/locate.js";
import { missingPage } from "./view/missing.js";
import { createOutside, fetchExample } from "./view/outside.js";
import { page } from "./view/page.js";
import { makeScene } from "./view/scene.js";
import { shelfKinds } from "./view/kit.js";
import { watchViewport } from "./view/viewport.js";

const spawnWorker = workerSpawner(compileWhole);
const FIRST_EXAMPLE = "long-terrace-room";
/** What comes from the workers. */
const OFFERS = { ranges: true, bass: true, draws: navigator.hardwareConcurrency > 1 };
const KEEP_DRAFT_AFTER_MS = 400;
/** Where a browser does not say when it is idle. */
const OFFLINE_AFTER_MS = 2000;
/** What stands below the first screen does not wait longer than this for the first range. */
const START_AFTER_MS = 1500;

/**
 * The words that stand in the page until then are replaced, whatever happens.
 * @param {HTMLElement} root
 */
async function start(root) {
  const engine = await createEngine();
  const { draft, home, refusal } = keptDraft(engine.check);
  const first = draft ?? (await fetchExample(FIRST_EXAMPLE));
  if (!first) throw new Error("the example room did not load");
  // A task for the room as it is, one for the plan, one for the drawing: none of them holds up a tap.
  await breath();
  engine.answer(first, 0);
  await breath();
  root.replaceChildren();
  run(root, engine, initialState(first, { example: draft === null, ...(home && { home }) }), refusal);
}

/** Lets what waits have its turn. */
function breath() {
  return new Promise((resolve) => { setTimeout(resolve); });
}

/**
 * @param {HTMLElement} root
 * @param {Engine} engine
 * @param {State} firstState
 * @param {Refusal|null} refusal  what is wrong with the draft of an earlier visit
 */
function run(root, engine, firstState, refusal) {
  const store = createStore(firstState, reduce);
  const { dispatch, get } = store;
  answerAnew(firstState, dispatch, engine);
  const screen = createScreen(root, store, engine, refusal);
  attachInput(root, {
    dispatch,
    getState: get,
    now: () => performance.now(),
    locate: createLocate(root, () => screen.scene()?.fold ?? null),
    findKind: (id) => shelfKinds({ document: onSheet(get()), library: engine.library }).find((kind) => kind.id === id) ?? null,
    // They may be there only after the next drawing.
    editNumbers: () => requestAnimationFrame(() => document.getElementById("item-u")?.focus()),
    screenAxes: (surface) => screen.scene()?.fold.faces[surface] ?? null,
  });
  followWithWorkers(root, store);
  keepDrafts(store, screen.outside.followAddress);
  addEventListener("hashchange", () => screen.outside.openLink(location.hash));
  if (location.hash.length > 1) screen.outside.openLink(location.hash);
  onceIdle(async () => (await import("./view/offline.js")).keepOffline());
}

/**
 * Acts once: when the range of the first plan has come, when somebody touches the page, or after a while.
 * @param {Pick<Store, "subscribe">} store
 * @param {() => void} act
 */
function onceStarted({ subscribe }, act) {
  const signs = ["pointerdown", "keydown", "wheel", "scroll"];
  const stop = subscribe((next) => {
    if (rangesFor(next.late, onSheet(next), next.shown) !== undefined) begin();
  });
  const timer = setTimeout(begin, START_AFTER_MS);
  for (const sign of signs) addEventListener(sign, begin, { capture: true, passive: true });
  function begin() {
    stop();
    clearTimeout(timer);
    for (const sign of signs) removeEventListener(sign, begin, { capture: true });
    // Out of the way of whatever is being dispatched.
    setTimeout(act);
  }
}

/** @param {() => void} act */
function onceIdle(act) {
  if (typeof requestIdleCallback === "function") requestIdleCallback(act);
  else setTimeout(act, OFFLINE_AFTER_MS);
}

/**
 * Draws the state, once per animation frame; the answer is computed in the same frame if what it rests on has changed.
 * @param {HTMLElement} root
 * @param {Store} store
 * @param {Engine} engine
 * @param {Refusal|null} firstRefusal
 */
function createScreen(root, { dispatch, get, subscribe }, engine, firstRefusal) {
  let refusal = firstRefusal;
  /** @type {Viewport|null} */
  let viewport = null;
  /** @type {Scene|null} */
  let scene = null;
  let frame = 0;
  let stands = false;
  const outside = createOutside({ dispatch, getState: get, check: engine.check, refuse });
  const advisers = adviceCommands({ dispatch, get, subscribe });
  const { openSheet, printFigures } = createHang({
    getScene: () => scene, subscribe,
    failed: () => dispatch({ type: "notify", notice: { text: "The Hang sheet could not be loaded. Check the connection and try again.", tone: "problem" } }),
  });
  const listening = {
    getState: get, subscribe, createListener: async () => (await import("./engine/listener.js")).createListener(),
    useMeasured: (/** @type {import("./model/types.js").Measured} */ entry) => dispatch({ type: "add-measured", entry }),
  };

  function draw() {
    answerAnew(get(), dispatch, engine);
    frame = 0;
    if (!viewport) return;
    scene = makeScene(get(), { dispatch, library: engine.library, offers: OFFERS, commands: { ...outside, openSheet, printFigures, listening, ...advisers }, viewport });
    render(page(scene, refusal && { ...refusal, dismiss: () => refuse(null) }), root);
    if (nextTurn(afterwards.here() !== null)) redraw();
    else if (!stands) afterFirst();
  }
  /** What the first answer does not wait for comes once its range is there, or when somebody does something. */
  function afterFirst() {
    stands = true;
    onceStarted({ subscribe }, () => afterwards.want(dispatch));
  }
  function redraw() {
    frame ||= requestAnimationFrame(draw);
  }
  /** @param {Refusal|null} next */
  function refuse(next) {
    refusal = next;
    redraw();
  }

  subscribe(redraw);
  watchViewport(root, (next) => {
    viewport = next;
    redraw();
  });
  return { outside, scene: () => scene };
}

/**
 * Advice is worked out on request, by workers of its own; from then on the next step follows what is on the sheet.
 * @param {Pick<Store, "dispatch"|"get"|"subscribe">} store
 */
function adviceCommands({ dispatch, get, subscribe }) {
  /** @type {ReturnType<typeof import("./engine/advise.js").createAdvisers>|null} */
  let advisers = null;
  const spawn = () => /** @type {import("./engine/advise.js").AdvicePort} */ (/** @type {unknown} */ (spawnWorker("advice")));
  const commands = {
    /** @param {number} plan @param {string|null} [kit] to cover surfaces with */
    async askAdvice(plan, kit = null) {
      dispatch({ type: "advice-asked", plan, kit });
      const { document } = get();
      const [{ createAdvisers, workersFor }, { createLiveStep }] = await Promise.all([import("./engine/advise.js"), import("./engine/live_step.js")]);
      if (!advisers) {
        advisers = createAdvisers(spawn, workersFor(navigator.hardwareConcurrency), (of, told) => dispatch({ type: "advice-came", document: of, told }));
        subscribe(createLiveStep({
          getState: get, dispatch, advisers: (tell) => createAdvisers(spawn, 1, tell),
          wait: (act, rest_ms) => setTimeout(act, rest_ms), waitNoMore: (timer) => clearTimeout(timer),
        }).follow);
      }
      advisers.ask(document, plan, Infinity, kit);
    },
    /** Surfaces anew beside what else is shown; all of it anew where the workers were stopped. @param {string|null} kit */
    coverWith(kit) {
      const { advice } = get();
      if (!advice) return;
      if (advisers?.cover(advice.document, advice.plan, kit)) dispatch({ type: "advice-covers", kit });
      else commands.askAdvice(advice.plan, kit);
    },
    stopAdvice() {
      advisers?.cancel();
      dispatch({ type: "advice-stopped" });
    },
  };
  return commands;
}

/**
 * @param {State} state
 * @param {Dispatch} dispatch
 * @param {Engine} engine
 */
function answerAnew(state, dispatch, engine) {
  const document = onSheet(state);
  const { answer: last, shown, compared } = state;
  const moving = state.drag !== null && !state.shows.second;
  if (last?.document === document && last.plan === shown && last.compared === compared && (moving || !last.moving)) return;
  const answer = engine.answer(document, shown, compared, moving);
  if (answer) dispatch({ type: "answered", answer });
}

/**
 * Ranges and bass follow what is on the sheet once it rests.
 * @param {HTMLElement} root
 * @param {Store} store
 */
function followWithWorkers(root, { get, dispatch, subscribe }) {
  const { hold, letGo } = keepHeight(root);
  const isHeld = watchHeld(root, { pressed: hold, released: () => { letGo(); later.follow(); } });
  const later = createLater({
    getState: get, dispatch, offers: OFFERS, isHeld, spawn: spawnWorker,
    wait: (act, rest_ms) => setTimeout(act, rest_ms), waitNoMore: (timer) => clearTimeout(timer),
  });
  subscribe(later.follow);
  later.follow();
}

/**
 * Draft and address follow the document after a short rest, the address the plan on the sheet at once; leaving the page does not wait.
 * @param {Store} store
 * @param {() => void} followAddress
 */
function keepDrafts(store, followAddress) {
  let timer = 0;
  store.subscribe((next, previous) => {
    if (next.shown !== previous.shown) followAddress();
    if (next.document === previous.document && next.home === previous.home && next.visiting === previous.visiting) return;
    clearTimeout(timer);
    timer = setTimeout(() => {
      const isKept = keepDraft(store.get());
      if (!isKept) store.dispatch({ type: "notify", notice: { text: "This browser has no room left to keep this: forget another room, or save it as a file.", tone: "problem" } });
      followAddress();
    }, KEEP_DRAFT_AFTER_MS);
  });
  addEventListener("pagehide", () => {
    if (store.get().history.past.length > 0) keepDraft(store.get());
  });
}

const root = document.getElementById("app");
if (root) start(root).catch((error) => {
  root.replaceChildren();
  render(missingPage(error), root);
});
