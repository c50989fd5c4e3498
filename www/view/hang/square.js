/** The code square of a link, or why there is none. */
import { codeSquares, svg } from "../../vendor.js";

/** @type {Awaited<ReturnType<typeof codeSquares>>["default"]|null} */
let qrcode = null;

/** Empty space round the square that a reader needs, modules. */
const QUIET = 4;
/** Printed size of a module: smaller ones blur on paper, mm. */
const MODULE_MM = 0.6;
/** More than this fits into no square of the lowest correction, characters. */
export const LONGEST_LINK = 2953;

/** Loads what draws squares. */
export async function loadSquares() {
  qrcode ??= (await codeSquares()).default;
}

/**
 * @param {string} link
 * @returns {unknown} null: the link is too long for a square
 */
export function codeSquare(link) {
  if (!qrcode || link.length > LONGEST_LINK) return null;
  const code = qrcode(0, "L");
  code.addData(link, "Byte");
  code.make();
  const count = code.getModuleCount();
  const side = count + 2 * QUIET;
  let path = "";
  for (let row = 0; row < count; row += 1) for (let column = 0; column < count; column += 1) if (code.isDark(row, column)) path += `M${column + QUIET} ${row + QUIET}h1v1h-1z`;
  const size = `${(side * MODULE_MM).toFixed(1)}mm`;
  return svg`<svg class="square" viewBox="0 0 ${side} ${side}" width=${size} height=${size} role="img" aria-label="Code square of the link below" shape-rendering="crispEdges">
    <rect width=${side} height=${side} fill="#fff" /><path d=${path} fill="#000" /></svg>`;
}
