// All inputs of the room sheet and the shelf in one call.

/** @import { InputPort } from "./port.js" */
import { attachDrag } from "./drag.js";
import { attachKeys } from "./keys.js";
import { attachLight } from "./light.js";
import { attachTap } from "./tap.js";

/**
 * Wires pointer, touch, taps and keys. Elements say what they are: `data-sheet` on each drawing, `data-piece`, `data-grip`
 * ("--", "+-", "-+", "++") with `data-piece`, `data-kind` on the shelf, `data-landing`, `data-loudspeaker`, `data-seat`,
 * `data-mark` on bounce marks, `data-bounce` on the rows of their table.
 * @param {HTMLElement} root holds sheets and shelf @param {InputPort} port @returns {() => void} detaches
 */
export function attachInput(root, port) {
  const detachers = [attachDrag(root, port), attachTap(root, port), attachKeys(root, port), attachLight(root, port)];
  return () => {
    for (const detach of detachers) detach();
  };
}
