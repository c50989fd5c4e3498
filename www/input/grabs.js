// What a press can take hold of, and what its moves then mean. A grab is started once the pointer has gone far enough.

/**
 * @import { Place3, Room, Scenario } from "../model/types.js"
 * @import { Laid } from "../model/laid.js"
 * @import { InputPort, Located } from "./port.js"
 * @typedef {object} Grab
 * @property {() => void} start
 * @property {(at: Located|null, tolerance_m: number) => void} move
 * @property {() => void} end
 * @property {() => void} cancel
 */
import { kindById, toPoint } from "../model/geometry.js";
import { freshPiece, laidRect, laidSize } from "../model/laid.js";
import { carried, carrier, drawn, drawnPiece } from "./port.js";

/** @param {PointerEvent} event @param {InputPort} port @returns {Grab|null} null if there is nothing to take hold of */
export function grabAt(event, port) {
  const at = port.locate(event);
  const corner = /** @type {"--"|"+-"|"-+"|"++"|null|undefined} */ (carrier(event, "data-grip")?.getAttribute("data-grip"));
  const index = carried(event, "data-piece");
  if (corner && index !== null) return resizeGrab(index, corner, at, port);
  if (index !== null) return moveGrab(index, at, port);
  const kind = carrier(event, "data-kind")?.getAttribute("data-kind");
  if (kind) return newGrab(kind, port);
  const loudspeaker = carried(event, "data-loudspeaker");
  if (loudspeaker !== null) return pointGrab(loudspeaker, at, port);
  if (carrier(event, "data-seat")) return pointGrab(null, at, port);
  const furnishing = carried(event, "data-furnishing");
  return furnishing === null ? null : furnitureGrab(furnishing, at, port);
}

/** Furniture that stands in the plan, moved over it. @param {number} index @param {Located|null} at @param {InputPort} port @returns {Grab|null} */
function furnitureGrab(index, at, port) {
  const place = drawn(port.getState()).room.furnishings?.[index]?.at;
  if (!place || at?.surface !== "floor") return null;
  const offset = { x_m: at.u_m - place.x_m, y_m: at.v_m - place.y_m };
  const gesture = `pointer ${port.now()}`;
  return {
    start: () => {},
    move: (to) => {
      const on = to && onFloor(to, drawn(port.getState()).room);
      if (on) port.dispatch({ type: "move-furnishing", index, at: { x_m: on.x_m - offset.x_m, y_m: on.y_m - offset.y_m }, gesture });
    },
    end: () => {},
    cancel: () => port.dispatch({ type: "cancel-gesture", gesture }),
  };
}

/** How a started drag of a piece ends. @param {InputPort} port */
function dragEnds(port) {
  return {
    end: () => port.dispatch({ type: "drag-end" }),
    cancel: () => port.dispatch({ type: "drag-cancel" }),
  };
}

/**
 * The grip offset is kept, so that a piece does not jump under the pointer.
 * @param {number} index @param {Located|null} at @param {InputPort} port @returns {Grab|null}
 */
function moveGrab(index, at, port) {
  const piece = at && drawnPiece(port.getState(), index, at.surface);
  if (!piece) return null;
  const offset = { u_m: at.u_m - piece.u_m, v_m: at.v_m - piece.v_m };
  return { start: () => port.dispatch({ type: "drag-start", index, by: "pointer" }), move: mover(offset, port), ...dragEnds(port) };
}

/** A new piece is held by its middle. @param {string} id @param {InputPort} port @returns {Grab|null} */
function newGrab(id, port) {
  const kit = port.findKind(id);
  if (!kit) return null;
  const { width_m, height_m } = laidSize(kit, freshPiece(kit, "floor"));
  return {
    start: () => port.dispatch({ type: "drag-new", kit, by: "pointer" }),
    move: mover({ u_m: width_m / 2, v_m: height_m / 2 }, port), ...dragEnds(port),
  };
}

/** @param {{u_m: number, v_m: number}} offset @param {InputPort} port @returns {Grab["move"]} */
function mover(offset, port) {
  return (to, tolerance_m) => {
    const at = to && standsOnFloor(port) ? footOf(to, port) : to;
    port.dispatch(at
      ? { type: "drag-move", surface: at.surface, u_m: at.u_m - offset.u_m, v_m: at.v_m - offset.v_m, tolerance_m }
      : { type: "drag-move", surface: null, u_m: 0, v_m: 0, tolerance_m });
  };
}

/** Whether a stand that was on the floor is under way: it stays there when the pointer goes over a wall. @param {InputPort} port @returns {boolean} */
function standsOnFloor(port) {
  return port.getState().drag?.from?.place === "stand";
}

/** @param {Located} at @param {InputPort} port @returns {Located} on the floor, where there is such a place */
function footOf(at, port) {
  const on = onFloor(at, drawn(port.getState()).room);
  return on ? { ...at, surface: "floor", u_m: on.x_m, v_m: on.y_m } : at;
}

/** The point that a grip stands for: a corner, or one end of a screen. @param {Scenario} document @param {Laid} piece @param {"--"|"+-"|"-+"|"++"} corner @returns {{u_m: number, v_m: number}} */
function heldCorner(document, piece, corner) {
  if (piece.place === "stand") {
    const half_m = ((corner[0] === "+" ? 1 : -1) * (kindById(document, piece.kit)?.width_m ?? 0)) / 2;
    const turn = (piece.turn_deg * Math.PI) / 180;
    return { u_m: piece.x_m + half_m * Math.cos(turn), v_m: piece.y_m + half_m * Math.sin(turn) };
  }
  const rect = laidRect(document, piece);
  return { u_m: rect.u_m + (corner[0] === "+" ? rect.width_m : 0), v_m: rect.v_m + (corner[1] === "+" ? rect.height_m : 0) };
}

/** @param {number} index @param {"--"|"+-"|"-+"|"++"} corner @param {Located|null} at @param {InputPort} port @returns {Grab|null} */
function resizeGrab(index, corner, at, port) {
  const state = port.getState();
  const piece = drawnPiece(state, index);
  if (!piece) return null;
  const held = heldCorner(drawn(state), piece, corner);
  const onSurface = at?.surface === piece.surface;
  const offset = onSurface ? { u_m: at.u_m - held.u_m, v_m: at.v_m - held.v_m } : { u_m: 0, v_m: 0 };
  return {
    start: () => port.dispatch({ type: "resize-start", index }),
    move: (to, tolerance_m) => {
      if (to?.surface !== piece.surface) return;
      port.dispatch({ type: "resize-move", corner, u_m: to.u_m - offset.u_m, v_m: to.v_m - offset.v_m, tolerance_m });
    },
    ...dragEnds(port),
  };
}

/**
 * A loudspeaker, or with null the seat, moved over the floor plan.
 * @param {number|null} index @param {Located|null} at @param {InputPort} port @returns {Grab|null}
 */
function pointGrab(index, at, port) {
  const state = port.getState();
  const listening = drawn(state).plans[state.shown]?.listening ?? drawn(state).listening;
  const point = index === null ? listening.seat : listening.loudspeakers[index];
  if (!point || at?.surface !== "floor") return null;
  const offset = { x_m: at.u_m - point.x_m, y_m: at.v_m - point.y_m };
  const gesture = `pointer ${port.now()}`;
  /** @param {Partial<Place3>} to */
  const move = (to) => port.dispatch(index === null ? { type: "move-seat", to, gesture } : { type: "move-loudspeaker", index, to, gesture });
  return {
    start: () => {},
    move: (to) => {
      const on = to && onFloor(to, drawn(state).room);
      if (on) move({ x_m: on.x_m - offset.x_m, y_m: on.y_m - offset.y_m });
    },
    end: () => {},
    cancel: () => port.dispatch({ type: "cancel-gesture", gesture }),
  };
}

/**
 * Where a pointer is over the floor; past a wall, the foot of that wall.
 * @param {Located} at @param {Room} room @returns {{x_m: number, y_m: number}|null}
 */
function onFloor({ surface, u_m, v_m }, room) {
  if (surface === "floor") return { x_m: u_m, y_m: v_m };
  if (surface === "ceiling") return null;
  const [x_m, y_m] = toPoint(surface, u_m, 0, room);
  return { x_m, y_m };
}
