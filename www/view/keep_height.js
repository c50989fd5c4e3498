/**
 * What stands above the drawing keeps its height while something is held there: if its words grew by a line, the drawing would slide
 * away under the pointer. What needs more room has it once the pointer lets go.
 * @param {HTMLElement} root
 */
export function keepHeight(root) {
  const lead = () => /** @type {HTMLElement|null} */ (root.querySelector(".lead"));
  return {
    hold() {
      const held = lead();
      if (held) Object.assign(held.style, { blockSize: `${held.getBoundingClientRect().height}px`, overflow: "clip" });
    },
    letGo() {
      const held = lead();
      if (held) Object.assign(held.style, { blockSize: "", overflow: "" });
    },
  };
}
