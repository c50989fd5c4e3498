// Lighting bounces: pointing at a mark or a row of the Bounce table, going to it by keys, tapping it. Marks let the pointer
// through to the pieces below, so which one is meant is a matter of place.

/**
 * @import { Lit } from "../model/types.js"
 * @import { InputPort, Located } from "./port.js"
 */
import { litFrom, litText, nextLit } from "../model/lit.js";
import { bounceMarks, listeningOf } from "../model/marks.js";
import { awaitsTap } from "../model/spots.js";
import { carrier, drawn } from "./port.js";

/** A pointer this near to a mark means it, px. */
const NEAR_PX = Object.freeze({ mouse: 13, touch: 24 });
/** What is shown beside a mark can be gone to without losing it, px. */
const STAYS_PX = 60;

/** @param {HTMLElement} root @param {InputPort} port @returns {() => void} detaches */
export function attachLight(root, port) {
  const light = createLight(root, port);
  /** @type {[EventTarget, string, (event: any) => void, AddEventListenerOptions?][]} */
  const wires = [
    [root, "pointermove", light.point], [root, "click", light.tap], [root, "focusin", light.enter], [root, "focusout", light.leave],
    // Before the keys of the sheet, to which arrows mean other things; Escape also where nothing has the focus.
    [root.ownerDocument, "keydown", light.key, { capture: true }],
  ];
  for (const [target, type, listener, options] of wires) target.addEventListener(type, listener, options);
  return () => {
    for (const [target, type, listener, options] of wires) target.removeEventListener(type, listener, options);
  };
}

/** @param {HTMLElement} root @param {InputPort} port */
function createLight(root, port) {
  const now = () => port.getState().shows.lit ?? null;
  /** @param {Lit|null} lit */
  function show(lit) {
    const before = now();
    if (lit?.surface === before?.surface && lit?.loudspeaker === before?.loudspeaker && lit?.by === before?.by) return;
    port.dispatch({ type: "show", shows: { lit } });
  }
  return {
    /** @param {PointerEvent} event */
    point(event) {
      const { drag, picked } = port.getState();
      if (event.pointerType === "touch" || event.buttons !== 0 || drag || picked || now()?.by === "tap") return;
      const meant = meantBy(event, port, NEAR_PX.mouse);
      if (meant) show({ ...meant, by: "hover" });
      else if (now()?.by === "hover" && !staysNear(event, port, now())) show(null);
    },
    /** @param {PointerEvent} event */
    tap(event) {
      const state = port.getState();
      if (carrier(event, "data-show-mark")) return goToMark(root, port);
      if (state.picked || awaitsTap(state) || !carrier(event, "data-sheet") && !carrier(event, "data-bounce")) return;
      const meant = meantBy(event, port, event.pointerType === "touch" ? NEAR_PX.touch : NEAR_PX.mouse);
      if (meant) show({ ...meant, by: "tap" });
      else if (now()?.by === "tap") show(null);
    },
    /** @param {FocusEvent} event */
    enter(event) {
      const meant = litFrom(markText(event), "focus");
      const before = now();
      // A row that is gone to from one of its marks keeps that mark.
      if (meant && !(meant.loudspeaker === null && before?.surface === meant.surface)) show(meant);
    },
    /** @param {FocusEvent} event */
    leave(event) {
      const next = event.relatedTarget;
      if (now()?.by === "focus" && !(next instanceof Element && next.closest("[data-mark], [data-bounce], [data-show-mark]"))) show(null);
    },
    /** @param {KeyboardEvent} event */
    key(event) {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const done = carrier(event, "data-mark") ? onMark(event, root, port) : carrier(event, "data-bounce") ? onRow(event, root, port) : false;
      if (done) event.preventDefault();
      else if (event.key === "Escape" && now() && !port.getState().drag) show(null);
    },
  };
}

/** @param {Event} event @returns {string|null} */
function markText(event) {
  return carrier(event, "data-mark")?.getAttribute("data-mark") ?? carrier(event, "data-bounce")?.getAttribute("data-bounce") ?? null;
}

/** The row under the pointer, or the mark near it. @param {MouseEvent} event @param {InputPort} port @param {number} near_px @returns {Omit<Lit, "by">|null} */
function meantBy(event, port, near_px) {
  const row = carrier(event, "data-bounce");
  if (row) return litFrom(row.getAttribute("data-bounce"), "hover");
  const at = carrier(event, "data-sheet") ? port.locate(event) : null;
  return at ? nearestMark(at, port, near_px) : null;
}

/** @param {Located} at @param {InputPort} port @param {number} near_px @returns {Omit<Lit, "by">|null} */
function nearestMark(at, port, near_px) {
  const state = port.getState();
  const away = (/** @type {{u_m: number, v_m: number}} */ mark) => Math.hypot(mark.u_m - at.u_m, mark.v_m - at.v_m) / at.metresPerPixel;
  const near = bounceMarks(drawn(state), state.shown).filter((mark) => mark.surface === at.surface && away(mark) <= near_px);
  const nearest = near.sort((a, b) => away(a) - away(b))[0];
  return nearest ? { surface: nearest.surface, loudspeaker: nearest.loudspeaker } : null;
}

/** Whether the pointer is still beside what it lit. @param {MouseEvent} event @param {InputPort} port @param {Lit|null} lit */
function staysNear(event, port, lit) {
  const at = carrier(event, "data-sheet") ? port.locate(event) : null;
  return at !== null && at.surface === lit?.surface && nearestMark(at, port, STAYS_PX) !== null;
}

/**
 * Arrows on a mark go round all of them; Enter goes to the row of the table.
 * @param {KeyboardEvent} event @param {HTMLElement} root @param {InputPort} port
 */
function onMark(event, root, port) {
  const here = litFrom(markText(event), "focus");
  const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
  if (!here) return false;
  if (event.key === "Enter" || event.key === " ") focusSoon(root, `tr[data-bounce="${here.surface}"]`);
  else if (by) {
    const state = port.getState();
    const next = nextLit(here, by > 0 ? 1 : -1, listeningOf(drawn(state), state.shown).loudspeakers.length);
    port.dispatch({ type: "show", shows: { lit: next } });
    port.dispatch({ type: "face", surface: next.surface });
    focusSoon(root, `[data-mark="${litText(next)}"]`);
  } else return false;
  return true;
}

/**
 * Up and down go from row to row, left and right choose the loudspeaker, Enter goes to the mark on the drawing.
 * @param {KeyboardEvent} event @param {HTMLElement} root @param {InputPort} port
 */
function onRow(event, root, port) {
  const row = carrier(event, "data-bounce")?.closest("tr");
  const here = litFrom(row?.getAttribute("data-bounce"), "focus");
  if (!row || !here) return false;
  const next = { ArrowDown: row.nextElementSibling, ArrowUp: row.previousElementSibling }[event.key];
  if (next instanceof HTMLElement) next.focus();
  else if (event.key === "ArrowLeft" || event.key === "ArrowRight") {
    port.dispatch({ type: "show", shows: { lit: { ...here, loudspeaker: event.key === "ArrowLeft" ? 0 : 1 } } });
  } else if (event.key === "Enter") goToMark(root, port);
  else return event.key === "ArrowDown" || event.key === "ArrowUp";
  return true;
}

/** The mark of the bounce that is lit, in view and with the focus. @param {HTMLElement} root @param {InputPort} port */
function goToMark(root, port) {
  const { lit } = port.getState().shows;
  if (!lit) return;
  const one = { ...lit, loudspeaker: lit.loudspeaker ?? 0 };
  port.dispatch({ type: "face", surface: lit.surface });
  focusSoon(root, `[data-mark="${litText(one)}"]`);
}

/** Once it is drawn. @param {HTMLElement} root @param {string} selector */
function focusSoon(root, selector) {
  const window = /** @type {Window} */ (root.ownerDocument.defaultView);
  window.requestAnimationFrame(() => {
    const found = /** @type {HTMLElement|null} */ (root.querySelector(selector));
    found?.scrollIntoView({ block: "center" });
    found?.focus();
  });
}
