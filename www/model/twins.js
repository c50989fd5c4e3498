// Left and right alike: the piece across the room's length axis, and the lock that moves it along.

/**
 * @import { Scenario } from "./types.js"
 * @import { Laid } from "./laid.js"
 */
import { isSurfacePiece, opposite } from "./geometry.js";
import { edgeWalls, lay, laidRect } from "./laid.js";
import { laidPieceAt } from "./sheet.js";

/** Two sides nearer than this to being alike are alike, m. */
const ALIKE_M = 2e-3;

/** A piece as it would lie on the other side of the room. @param {Scenario} document @param {Laid} piece @returns {Laid} */
export function across(document, piece) {
  if (piece.place === "corner") return acrossCorner(document, piece);
  if (piece.surface === "left" || piece.surface === "right") return { ...piece, surface: opposite(piece.surface) };
  const { width_m } = laidRect(document, piece);
  const mirrored = { ...piece, u_m: Math.round((document.room.width_m - piece.u_m - width_m) * 1e4) / 1e4 };
  return mirrored.place === "stand" ? { ...mirrored, turn_deg: -mirrored.turn_deg } : mirrored;
}

/** @param {Scenario} document @param {Laid & {place: "corner", edge: string}} piece @returns {Laid} */
function acrossCorner(document, piece) {
  const [side, end] = edgeWalls(piece.edge);
  const other = opposite(side);
  const { kit } = piece;
  return lay(document, { kit, place: "corner", edge: `${end}-${other}`, z_m: piece.v_m }, piece.surface === end ? end : other);
}

/**
 * The piece that lies as this one does, on the other side of the room.
 * @param {Scenario} document @param {number} planIndex @param {number} index @returns {number|null}
 */
export function twinOf(document, planIndex, index) {
  const piece = laidPieceAt(document, planIndex, index);
  if (!piece) return null;
  const wanted = across(document, piece);
  const found = document.plans[planIndex].pieces.findIndex((_other, at) => {
    const other = at === index ? null : laidPieceAt(document, planIndex, at);
    return other !== null && isAlike(other, wanted);
  });
  return found < 0 ? null : found;
}

/** @param {Laid} a @param {Laid} b @returns {boolean} */
function isAlike(a, b) {
  if (a.kit !== b.kit || (a.place ?? "surface") !== (b.place ?? "surface") || Math.abs(a.v_m - b.v_m) > ALIKE_M) return false;
  if (a.place === "corner" && b.place === "corner") return a.edge === b.edge;
  const turned = (/** @type {Laid} */ piece) => (isSurfacePiece(piece) ? piece.turned === true : piece.place === "stand" ? Math.abs(piece.turn_deg) : 0);
  return a.surface === b.surface && Math.abs(a.u_m - b.u_m) <= ALIKE_M && turned(a) === turned(b);
}
