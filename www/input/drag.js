// Pointer and touch on the room sheet and the shelf: events in, actions out; draws nothing.

/**
 * @import { InputPort } from "./port.js"
 * @import { Grab } from "./grabs.js"
 * @typedef {{pointerId: number, x: number, y: number, startPx: number, grab: Grab, started: boolean}} Hold
 */
import { grabAt } from "./grabs.js";
import { carried } from "./port.js";

/** Snap distance on the screen, whatever the zoom. */
const SNAP_PX = 10;
/** How far a press must go to be a drag. */
const START_PX = Object.freeze({ mouse: 4, touch: 8 });

/**
 * Wires drags below `root`. One pointer at a time; Escape, a second finger or a cancelled pointer puts everything back.
 * @param {HTMLElement} root @param {InputPort} port @returns {() => void} detaches
 */
export function attachDrag(root, port) {
  /** @type {Hold|null} */
  let hold = null;
  const { defaultView: window } = root.ownerDocument;

  /** @param {PointerEvent} event */
  function press(event) {
    if (hold) return event.pointerId === hold.pointerId ? undefined : release("cancel");
    if (event.button !== 0 || !event.isPrimary) return;
    const grab = grabAt(event, port);
    if (!grab) return;
    const startPx = event.pointerType === "touch" ? START_PX.touch : START_PX.mouse;
    hold = { pointerId: event.pointerId, x: event.clientX, y: event.clientY, startPx, grab, started: false };
    const index = carried(event, "data-piece");
    if (index !== null) port.dispatch({ type: "select", index });
  }

  /** @param {PointerEvent} event */
  function move(event) {
    if (!hold || event.pointerId !== hold.pointerId) return;
    if (!hold.started) {
      if (Math.hypot(event.clientX - hold.x, event.clientY - hold.y) < hold.startPx) return;
      hold.started = true;
      // On the root, as the element pressed may be drawn anew on another surface.
      root.setPointerCapture(event.pointerId);
      hold.grab.start();
    }
    const at = port.locate(event);
    const suspended = event.ctrlKey || event.metaKey;
    hold.grab.move(at, at && !suspended ? SNAP_PX * at.metresPerPixel : 0);
  }

  /** @param {"end"|"cancel"} how */
  function release(how) {
    const held = hold;
    hold = null;
    if (!held?.started) return;
    if (root.hasPointerCapture(held.pointerId)) root.releasePointerCapture(held.pointerId);
    held.grab[how]();
  }

  /** @param {PointerEvent} event */
  function lift(event) {
    if (event.pointerId === hold?.pointerId) release("end");
  }
  /** @param {PointerEvent} event */
  function lose(event) {
    if (event.pointerId === hold?.pointerId) release("cancel");
  }
  /** @param {KeyboardEvent} event */
  function escape(event) {
    if (event.key !== "Escape" || !hold?.started) return;
    event.stopPropagation();
    release("cancel");
  }
  /** Some browsers scroll in spite of `touch-action` on shapes. @param {TouchEvent} event */
  function holdStill(event) {
    if (hold?.started && event.cancelable) event.preventDefault();
  }
  const giveUp = () => release("cancel");

  root.addEventListener("pointerdown", press);
  window?.addEventListener("pointermove", move);
  window?.addEventListener("pointerup", lift);
  window?.addEventListener("pointercancel", lose);
  window?.addEventListener("blur", giveUp);
  root.addEventListener("lostpointercapture", lose);
  root.addEventListener("touchmove", holdStill, { passive: false });
  root.ownerDocument.addEventListener("keydown", escape, true);
  return () => {
    release("cancel");
    root.removeEventListener("pointerdown", press);
    window?.removeEventListener("pointermove", move);
    window?.removeEventListener("pointerup", lift);
    window?.removeEventListener("pointercancel", lose);
    window?.removeEventListener("blur", giveUp);
    root.removeEventListener("lostpointercapture", lose);
    root.removeEventListener("touchmove", holdStill);
    root.ownerDocument.removeEventListener("keydown", escape, true);
  };
}
