// Whether a pointer is down on the drawing or the shelf.

/**
 * @param {HTMLElement} root
 * @param {{pressed: () => void, released: () => void}} told  released: after everything else that a lifted pointer does
 * @returns {() => boolean}
 */
export function watchHeld(root, { pressed, released }) {
  let held = false;
  const window = /** @type {Window} */ (root.ownerDocument.defaultView);
  const release = () => {
    if (!held) return;
    held = false;
    released();
  };
  root.addEventListener("pointerdown", (event) => {
    const isOn = event.target instanceof Element && event.target.closest("[data-sheet], [data-kind]") !== null;
    if (isOn === held) return;
    if (!isOn) return release();
    held = true;
    pressed();
  });
  for (const type of ["pointerup", "pointercancel", "blur"]) window.addEventListener(type, release);
  // A browser that swallows the release still says that no button is down.
  window.addEventListener("pointermove", (event) => {
    if (event.buttons === 0) release();
  });
  return () => held;
}
