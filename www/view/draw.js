/**
 * From metres on a face to pixels of its sheet: points, boxes and path data.
 *
 * @import { Rect } from "../model/types.js"
 * @import { Face } from "./fold.js"
 * @typedef {{x: number, y: number}} Spot  px
 * @typedef {{x: number, y: number, width: number, height: number}} Box  px
 */

/** @param {number} value */
export function px(value) {
  return Math.round(value * 10) / 10;
}

/**
 * @param {Face} face
 * @param {number} u_m
 * @param {number} v_m
 * @returns {Spot}
 */
export function at(face, u_m, v_m) {
  return { x: px(face.x_px + face.ux * u_m + face.vx * v_m), y: px(face.y_px + face.uy * u_m + face.vy * v_m) };
}

/**
 * @param {Face} face
 * @param {Rect} rect
 * @returns {Box}
 */
export function boxOf(face, rect) {
  const a = at(face, rect.u_m, rect.v_m);
  const b = at(face, rect.u_m + rect.width_m, rect.v_m + rect.height_m);
  return { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y), width: px(Math.abs(b.x - a.x)), height: px(Math.abs(b.y - a.y)) };
}

/**
 * @param {Face} face
 * @returns {Box}
 */
export function faceBox(face) {
  return boxOf(face, { u_m: 0, v_m: 0, width_m: face.width_m, height_m: face.height_m });
}

/**
 * Path data of a line between two points of a face.
 * @param {Face} face
 * @param {[number, number]} from_m
 * @param {[number, number]} to_m
 */
export function line(face, from_m, to_m) {
  const a = at(face, ...from_m);
  const b = at(face, ...to_m);
  return `M${a.x} ${a.y}L${b.x} ${b.y}`;
}

/**
 * The box made smaller by the same amount on every side.
 * @param {Box} box
 * @param {number} by
 * @returns {Box}
 */
export function inset(box, by) {
  return {
    x: box.x + by,
    y: box.y + by,
    width: Math.max(0, box.width - 2 * by),
    height: Math.max(0, box.height - 2 * by),
  };
}

/**
 * @param {Box} box
 * @returns {Spot}
 */
export function middle(box) {
  return { x: px(box.x + box.width / 2), y: px(box.y + box.height / 2) };
}
