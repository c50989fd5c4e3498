// Whether a pointer is down on the drawing or the shelf.

/**
 * @param {HTMLElement} root @param {() => void} released  called after everything else that a lifted pointer does
 * @returns {() => boolean}
 */
export function watchHeld(root, released) {
  let held = false;
  const window = /** @type {Window} */ (root.ownerDocument.defaultView);
  const release = () => {
    if (!held) return;
    held = false;
    released();
  };
  root.addEventListener("pointerdown", (event) => {
    held = event.target instanceof Element && event.target.closest("[data-sheet], [data-kind]") !== null;
  });
  for (const type of ["pointerup", "pointercancel", "blur"]) window.addEventListener(type, release);
  // A browser that swallows the release still says that no button is down.
  window.addEventListener("pointermove", (event) => {
    if (event.buttons === 0) release();
  });
  return () => held;
}
