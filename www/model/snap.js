// Snapping: where a piece would like to hold, axis by axis. The first rule in the order below that is within reach wins.

/**
 * @import { Guide, Rect, Scenario } from "./types.js"
 * @import { Laid } from "./laid.js"
 * @import { Units } from "./format.js"
 * @import { Mark } from "./marks.js"
 * @import { Hold } from "./snap_rows.js"
 * @typedef {{tolerance_m: number, marks?: readonly Mark[], units?: Units}} SnapOptions
 */
import { grown, isSurfacePiece, isWall, opposite, pieceRect, rectCentre, rectOverlap, surfaceSize } from "./geometry.js";
import { rowHolds } from "./snap_rows.js";
import { kindName, surfaceName } from "./words.js";

const RANK = Object.freeze({ mark: 0, mirror: 1, edge: 2, gap: 3, centre: 4, grid: 5 });
const GRID_M = Object.freeze({ metric: 0.05, imperial: 0.0508 });

/**
 * The snapped low corner of a piece.
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece with its surface
 * @param {number|null} exceptIndex @param {Rect} rect where it is wanted @param {SnapOptions} options
 * @returns {{u_m: number, v_m: number, guides: Guide[]}}
 */
export function snap(document, planIndex, piece, exceptIndex, rect, options) {
  if (!(options.tolerance_m > 0)) return { u_m: rect.u_m, v_m: rect.v_m, guides: [] };
  const holds = [
    ...markHolds(piece, rect, options),
    ...mirrorHolds(document, planIndex, piece, exceptIndex, rect, options.tolerance_m),
    ...rowHolds(document, planIndex, piece, exceptIndex, rect, options.tolerance_m, RANK),
    ...centreHolds(document, piece, rect),
    ...gridHolds(rect, options.units ?? "metric"),
  ];
  const u = strongest(holds, "u", rect.u_m, options.tolerance_m);
  const v = strongest(holds, "v", rect.v_m, options.tolerance_m);
  const guides = [u, v].flatMap((hold) => (hold && hold.text !== "" ? [{ axis: hold.axis, at_m: hold.at_m, text: hold.text }] : []));
  return { u_m: u?.low_m ?? rect.u_m, v_m: v?.low_m ?? rect.v_m, guides };
}

/** @param {Hold[]} holds @param {"u"|"v"} axis @param {number} wanted_m @param {number} tolerance_m @returns {Hold|null} */
function strongest(holds, axis, wanted_m, tolerance_m) {
  const reach = (/** @type {Hold} */ hold) => Math.abs(hold.low_m - wanted_m);
  const near = holds.filter((hold) => hold.axis === axis && reach(hold) <= tolerance_m);
  near.sort((a, b) => a.rank - b.rank || reach(a) - reach(b));
  return near[0] ?? null;
}

/** Both axes of a piece centred on a point. @param {{u_m: number, v_m: number}} point @param {Rect} rect @param {string} text @param {number} rank @returns {Hold[]} */
function centredOn(point, rect, text, rank) {
  return [
    { axis: "u", low_m: point.u_m - rect.width_m / 2, at_m: point.u_m, text, rank },
    { axis: "v", low_m: point.v_m - rect.height_m / 2, at_m: point.v_m, text, rank },
  ];
}

/** Only a mark under the piece holds it. @param {Laid} piece @param {Rect} rect @param {SnapOptions} options @returns {Hold[]} */
function markHolds(piece, rect, { marks = [], tolerance_m }) {
  const reach = grown(rect, tolerance_m);
  return marks.filter((mark) => mark.surface === piece.surface
      && rectOverlap(reach, { u_m: mark.u_m - 1e-4, v_m: mark.v_m - 1e-4, width_m: 2e-4, height_m: 2e-4 }))
    .flatMap((mark) => centredOn(mark, rect, "centred on bounce mark", RANK.mark));
}

/**
 * The other side of each piece on the facing wall; on floor and ceiling, of each piece across the room's length axis.
 * @param {Scenario} document @param {number} planIndex @param {Laid} piece @param {number|null} exceptIndex
 * @param {Rect} rect @param {number} tolerance_m @returns {Hold[]}
 */
function mirrorHolds(document, planIndex, piece, exceptIndex, rect, tolerance_m) {
  const wall = isWall(piece.surface);
  const source = wall ? opposite(piece.surface) : piece.surface;
  return document.plans[planIndex].pieces.flatMap((other, index) => {
    if (index === exceptIndex || !isSurfacePiece(other) || other.surface !== source) return [];
    const seen = pieceRect(document, other);
    const mirrored = wall ? seen : { ...seen, u_m: document.room.width_m - seen.u_m - seen.width_m };
    if (!rectOverlap(grown(rect, tolerance_m), mirrored)) return [];
    return centredOn(rectCentre(mirrored), rect, `mirrors ${kindName(document, other.kit)}`, RANK.mirror);
  });
}

/** @param {Scenario} document @param {Laid} piece @param {Rect} rect @returns {Hold[]} */
function centreHolds(document, piece, rect) {
  const size = surfaceSize(document.room, piece.surface);
  const middle = { u_m: size.u_m / 2, v_m: size.v_m / 2 };
  return centredOn(middle, rect, `middle of the ${surfaceName(piece.surface)}`, RANK.centre);
}

/** @param {Rect} rect @param {Units} units @returns {Hold[]} */
function gridHolds(rect, units) {
  const step_m = GRID_M[units];
  const u_m = Math.round(rect.u_m / step_m) * step_m;
  const v_m = Math.round(rect.v_m / step_m) * step_m;
  return [
    { axis: "u", low_m: u_m, at_m: u_m, text: "", rank: RANK.grid },
    { axis: "v", low_m: v_m, at_m: v_m, text: "", rank: RANK.grid },
  ];
}
