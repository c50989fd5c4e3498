// Builds store, engine, views and inputs and connects them. One drawing per animation frame, however many actions.

/**
 * @import { Kind, State } from "./model/types.js"
 * @import { Refusal } from "./view/outside.js"
 * @import { Viewport } from "./view/scene.js"
 */
import { createEngine } from "./engine/live.js";
import { attachInput } from "./input/attach.js";
import { initialState, onSheet, reduce } from "./model/reduce.js";
import { createStore } from "./model/store.js";
import { render } from "./vendor.js";
import { createLocate } from "./view/locate.js";
import { missingPage } from "./view/missing.js";
import { createOutside, fetchExample, keepDraft, keptDraft } from "./view/outside.js";
import { page } from "./view/page.js";
import { makeScene } from "./view/scene.js";
import { shelfKinds } from "./view/kit.js";
import { watchViewport } from "./view/viewport.js";

const FIRST_EXAMPLE = "long-terrace-room";
const KEEP_DRAFT_AFTER_MS = 400;

/**
 * The words that stand in the page until then are replaced, whatever happens.
 * @param {HTMLElement} root
 */
async function start(root) {
  const engine = await createEngine();
  const draft = keptDraft();
  const own = draft && engine.check(draft).findings.length === 0 ? draft : null;
  const first = own ?? (await fetchExample(FIRST_EXAMPLE));
  if (!first) throw new Error("the example room did not load");
  root.replaceChildren();
  run(root, engine, initialState(first, { example: own === null }));
}

/**
 * @param {HTMLElement} root
 * @param {import("./engine/live.js").Engine} engine
 * @param {State} firstState
 */
function run(root, engine, firstState) {
  const store = createStore(firstState, reduce);
  const { dispatch, get } = store;
  /** @type {Refusal|null} */
  let refusal = null;
  /** @type {Viewport} */
  let viewport = { width: "wide", content_px: 0 };
  /** @type {import("./view/scene.js").Scene|null} */
  let scene = null;
  let frame = 0;

  const redraw = () => {
    frame ||= requestAnimationFrame(draw);
  };
  /** @param {Refusal|null} next */
  const refuse = (next) => {
    refusal = next;
    redraw();
  };
  const outside = createOutside({ dispatch, getState: get, check: engine.check, refuse });

  function draw() {
    recompute();
    frame = 0;
    if (viewport.content_px === 0) return;
    scene = makeScene(get(), { dispatch, library: engine.library, commands: outside, viewport });
    render(page(scene, refusal && { ...refusal, dismiss: () => refuse(null) }), root);
  }

  function recompute() {
    const state = get();
    const document = onSheet(state);
    if (state.answer?.document === document && state.answer.plan === state.shown) return;
    const answer = engine.answer(document, state.shown);
    if (answer) dispatch({ type: "answered", answer });
  }

  store.subscribe(redraw);
  keepDrafts(store, outside.followAddress);
  watchViewport(root, (next) => {
    viewport = next;
    redraw();
  });
  attachInput(root, {
    dispatch,
    getState: get,
    locate: createLocate(root, () => scene?.fold ?? null),
    findKind: (id) => (scene ? shelfKinds(scene).find((/** @type {Kind} */ kind) => kind.id === id) ?? null : null),
    now: () => performance.now(),
    editNumbers: () => document.getElementById("item-u")?.focus(),
    screenAxes: (surface) => scene?.fold.faces[surface] ?? null,
  });
  addEventListener("hashchange", () => outside.openLink(location.hash));
  if (location.hash.length > 1) outside.openLink(location.hash);
}

/**
 * Draft and address follow the document after a short rest.
 * @param {{get: () => State, subscribe: (listener: (next: State, previous: State) => void) => unknown}} store
 * @param {() => void} followAddress
 */
function keepDrafts(store, followAddress) {
  let timer = 0;
  store.subscribe((next, previous) => {
    if (next.document === previous.document && next.visiting === previous.visiting) return;
    clearTimeout(timer);
    timer = setTimeout(() => {
      keepDraft(store.get());
      followAddress();
    }, KEEP_DRAFT_AFTER_MS);
  });
}

const root = document.getElementById("app");
if (root) start(root).catch((error) => {
  root.replaceChildren();
  render(missingPage(error), root);
});
