/**
 * Closes a fold and gives the focus back to its words.
 * @param {KeyboardEvent} event
 */
export function closeOnEscape(event) {
  const details = /** @type {HTMLDetailsElement} */ (event.currentTarget);
  if (event.key !== "Escape" || !details.open) return;
  details.open = false;
  details.querySelector("summary")?.focus();
}
