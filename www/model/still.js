// Moves of a pointer that move nothing: the piece holds at its guide or at the grid. What is as it was stays the same object,
// so that nothing is computed or drawn anew.

/** @import { Drag, Rect, State } from "./types.js" @import { Placed } from "./placing.js" */
import { sameSpot } from "./laid.js";
import { laidPieceAt, withPiece } from "./sheet.js";

/**
 * The document of a drag with the piece where it was placed.
 * @param {State} state @param {Drag} drag @param {Placed} placed legal
 */
export function documentWith({ shown }, drag, { piece }) {
  const last = drag.legal ? laidPieceAt(drag.document, shown, drag.index) : null;
  return last && sameSpot(last, piece) ? drag.document : withPiece(drag.base, shown, drag.index, piece);
}

/** The state with the drag as a move leaves it. @param {State} state @param {Drag} drag @param {State["surface"]} surface @returns {State} */
export function afterMove(state, drag, surface) {
  return state.drag && state.surface === surface && isSame(state.drag, drag) ? state : { ...state, surface, drag };
}

/** @param {Drag} a @param {Drag} b of the same gesture */
function isSame(a, b) {
  return a.document === b.document && a.over === b.over && a.legal === b.legal && a.reason === b.reason && sameRect(a.wanted, b.wanted)
    && a.guides.length === b.guides.length && a.guides.every(({ axis, at_m, text }, index) => {
      const other = b.guides[index];
      return axis === other.axis && at_m === other.at_m && text === other.text;
    });
}

/** @param {Rect|null} a @param {Rect|null} b */
function sameRect(a, b) {
  return a === b || (a !== null && b !== null && a.u_m === b.u_m && a.v_m === b.v_m && a.width_m === b.width_m && a.height_m === b.height_m);
}
