/**
 * Ways out of a fold: the Escape key, and the focus that goes on to something else.
 */

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

/**
 * Closes a fold once the focus is on something beside it, which it might cover. A click on blank ground, a dialog of the browser and
 * another window take the focus nowhere on the page, so that the fold stays.
 * @param {FocusEvent} event
 */
export function closeWhenLeft(event) {
  const details = /** @type {HTMLDetailsElement} */ (event.currentTarget);
  const { relatedTarget } = event;
  if (relatedTarget instanceof Node && !details.contains(relatedTarget)) details.open = false;
}
