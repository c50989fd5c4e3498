// Pointer and touch on the room sheet and the shelf: events in, actions out; draws nothing.

/**
 * @import { InputPort } from "./port.js"
 * @import { Grab } from "./grabs.js"
 * @typedef {{pointerId: number, x: number, y: number, startPx: number, grab: Grab, started: boolean}} Hold
 */
import { awaitsTap } from "../model/spots.js";
import { grabAt } from "./grabs.js";
import { carried, carriedSpot } from "./port.js";

/** Snap distance on the screen, whatever the zoom. */
const SNAP_PX = 10;
/** How far a press must go to be a drag. */
const START_PX = Object.freeze({ mouse: 4, touch: 8 });

/**
 * Wires drags below `root`. One pointer at a time; Escape, a second finger or a cancelled pointer puts everything back.
 * @param {HTMLElement} root @param {InputPort} port @returns {() => void} detaches
 */
export function attachDrag(root, port) {
  const drags = createDrags(root, port);
  const page = root.ownerDocument;
  const window = /** @type {Window} */ (page.defaultView);
  /** @type {[EventTarget, string, (event: any) => void, AddEventListenerOptions?][]} */
  const wires = [
    [root, "pointerdown", drags.press],
    [window, "pointermove", drags.move],
    [window, "pointerup", drags.lift],
    [window, "pointercancel", drags.lose],
    // A touch is captured by what it pressed first; that this passes to the root is no loss.
    [root, "lostpointercapture", (event) => event.target === root && drags.lose(event)],
    [window, "blur", drags.giveUp],
    [page, "keydown", drags.escape, { capture: true }],
    // Some browsers scroll in spite of `touch-action` on shapes.
    [root, "touchmove", drags.holdStill, { passive: false }],
  ];
  for (const [target, type, listener, options] of wires) target.addEventListener(type, listener, options);
  return () => {
    drags.giveUp();
    for (const [target, type, listener, options] of wires) target.removeEventListener(type, listener, options);
  };
}

/** The course of one drag after the other. @param {HTMLElement} root @param {InputPort} port */
function createDrags(root, port) {
  /** @type {Hold|null} */
  let hold = null;

  /** @param {"end"|"cancel"} how */
  function release(how) {
    const held = hold;
    hold = null;
    if (!held?.started) return;
    if (root.hasPointerCapture(held.pointerId)) root.releasePointerCapture(held.pointerId);
    held.grab[how]();
  }

  return {
    /** @param {PointerEvent} event */
    press(event) {
      if (hold && event.pointerId !== hold.pointerId) release("cancel");
      // A tap that says where something stands takes hold of nothing that lies there.
      else if (!hold && !awaitsTap(port.getState())) hold = holdAt(event, port);
    },
    /** @param {PointerEvent} event */
    move(event) {
      if (!hold || event.pointerId !== hold.pointerId || !(hold.started || begins(hold, event, root))) return;
      const at = port.locate(event);
      const suspended = event.ctrlKey || event.metaKey;
      hold.grab.move(at, at && !suspended ? SNAP_PX * at.metresPerPixel : 0);
    },
    /** @param {PointerEvent} event */
    lift(event) {
      if (event.pointerId === hold?.pointerId) release("end");
    },
    /** @param {PointerEvent} event */
    lose(event) {
      if (event.pointerId === hold?.pointerId) release("cancel");
    },
    giveUp: () => release("cancel"),
    /** @param {KeyboardEvent} event */
    escape(event) {
      if (event.key !== "Escape" || !hold?.started) return;
      event.stopPropagation();
      release("cancel");
    },
    /** @param {TouchEvent} event */
    holdStill(event) {
      if (hold?.started && event.cancelable) event.preventDefault();
    },
  };
}

/** What a press takes hold of; it is selected by it. @param {PointerEvent} event @param {InputPort} port @returns {Hold|null} */
function holdAt(event, port) {
  const grab = event.button === 0 && event.isPrimary ? grabAt(event, port) : null;
  if (!grab) return null;
  const index = carried(event, "data-piece");
  if (index !== null && event.shiftKey) {
    port.dispatch({ type: "select-also", index });
    return null;
  }
  const spot = index === null ? carriedSpot(event) : null;
  if (index !== null) port.dispatch({ type: "select", index });
  else if (spot !== null) port.dispatch({ type: "select-spot", spot });
  const startPx = event.pointerType === "touch" ? START_PX.touch : START_PX.mouse;
  return { pointerId: event.pointerId, x: event.clientX, y: event.clientY, startPx, grab, started: false };
}

/** Starts the drag once the pointer has gone far enough. @param {Hold} hold @param {PointerEvent} event @param {HTMLElement} root @returns {boolean} */
function begins(hold, event, root) {
  if (Math.hypot(event.clientX - hold.x, event.clientY - hold.y) < hold.startPx) return false;
  hold.started = true;
  // On the root, as the element pressed may be drawn anew on another surface.
  root.setPointerCapture(event.pointerId);
  // A browser looks anew, in every frame, for the place of the caret that a click on some text has left: a third of what a move costs.
  root.ownerDocument.getSelection()?.removeAllRanges();
  hold.grab.start();
  return true;
}
