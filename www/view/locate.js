/**
 * From a pointer on the screen to metres on a surface.
 *
 * @import { SurfaceName } from "../model/types.js"
 * @import { Face, Fold } from "./fold.js"
 * @typedef {{surface: SurfaceName, u_m: number, v_m: number, metresPerPixel: number}} Located
 */

/**
 * @param {HTMLElement} root
 * @param {() => Fold|null} getFold  of the page as it is drawn now
 * @returns {(event: {clientX: number, clientY: number}) => Located|null}
 */
export function createLocate(root, getFold) {
  /** Looked up once and not for every move: the page is long. @type {Element[]} */
  let sheets = [];
  return (event) => {
    const fold = getFold();
    if (!fold) return null;
    if (sheets.length === 0 || !sheets.every((sheet) => sheet.isConnected)) sheets = [...root.querySelectorAll("[data-sheet]")];
    for (const sheet of sheets) {
      const found = locateOn(sheet, fold, event);
      if (found) return found;
    }
    return null;
  };
}

/**
 * @param {Element} sheet
 * @param {Fold} fold
 * @param {{clientX: number, clientY: number}} event
 * @returns {Located|null}
 */
function locateOn(sheet, fold, event) {
  const bounds = sheet.getBoundingClientRect();
  const name = sheet.getAttribute("data-sheet") === "ceiling" ? "ceiling" : "box";
  const zoom = bounds.width / fold[name].width_px || 1;
  const x = (event.clientX - bounds.left) / zoom;
  const y = (event.clientY - bounds.top) / zoom;
  for (const face of Object.values(fold.faces)) {
    if (face.sheet !== name) continue;
    const { u_m, v_m } = onFace(face, x, y);
    if (u_m >= 0 && u_m <= face.width_m && v_m >= 0 && v_m <= face.height_m) {
      return { surface: face.surface, u_m, v_m, metresPerPixel: 1 / (fold.scale_px_per_m * zoom) };
    }
  }
  return null;
}

/**
 * The map of the face backwards; its axes are square to each other.
 * @param {Face} face
 * @param {number} x
 * @param {number} y
 */
function onFace(face, x, y) {
  const [dx, dy] = [x - face.x_px, y - face.y_px];
  const across = face.ux * face.ux + face.uy * face.uy;
  const along = face.vx * face.vx + face.vy * face.vy;
  return { u_m: (dx * face.ux + dy * face.uy) / across, v_m: (dx * face.vx + dy * face.vy) / along };
}
