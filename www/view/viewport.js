/**
 * How wide the page is: which of its three forms, and what its margins leave.
 *
 * @import { Viewport, Width } from "./scene.js"
 */

/** The same widths as in the style sheets. */
const WIDE = "(min-width: 1200px)";
const NARROW = "(max-width: 699.98px)";

/** Margins at either side, px: a share of a wide page, fixed below. */
const WIDE_MARGIN = 82 / 1440;
const MOST_CONTENT_PX = 1900;
const LEAST_CONTENT_PX = 240;
const MARGIN_PX = { middle: 32, narrow: 20, small: 16 };

/**
 * @param {HTMLElement} root
 * @param {(viewport: Viewport) => void} changed  called at once and whenever the width changes
 */
export function watchViewport(root, changed) {
  const measure = () => changed(viewportOf(root.clientWidth));
  new ResizeObserver(measure).observe(root);
}

/**
 * @param {number} page_px
 * @returns {Viewport}
 */
function viewportOf(page_px) {
  const width = widthOf();
  const margin = width === "wide" ? page_px * WIDE_MARGIN : width === "middle" ? MARGIN_PX.middle : page_px < 360 ? MARGIN_PX.small : MARGIN_PX.narrow;
  return { width, content_px: Math.max(LEAST_CONTENT_PX, Math.min(MOST_CONTENT_PX, Math.round(page_px - 2 * margin))) };
}

/** @returns {Width} */
function widthOf() {
  if (matchMedia(WIDE).matches) return "wide";
  return matchMedia(NARROW).matches ? "narrow" : "middle";
}
