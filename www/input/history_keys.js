// Undo and redo by keys, everywhere but where one types.

/** @import { InputPort } from "./port.js" */
import { isTyping } from "./port.js";

/** @param {KeyboardEvent} event @param {InputPort} port */
export function undoByKey(event, port) {
  if (event.defaultPrevented || isTyping(event) || !(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const redo = (key === "z" && event.shiftKey) || (key === "y" && !event.shiftKey);
  if (!redo && key !== "z") return;
  event.preventDefault();
  port.dispatch({ type: redo ? "redo" : "undo" });
}
