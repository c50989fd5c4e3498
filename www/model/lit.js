// The bounce that is looked at: its way, its figures, and words for them.

/**
 * @import { Listening, Lit, PlanReport, Place3, Reflection, SurfaceName } from "./types.js"
 */
import { SURFACES } from "./geometry.js";

/** "left 0" for one bounce, "left" for those of all loudspeakers off one surface. @param {Lit} lit @returns {string} */
export function litText({ surface, loudspeaker }) {
  return loudspeaker === null ? surface : `${surface} ${loudspeaker}`;
}

/** @param {string|null|undefined} text @param {Lit["by"]} by @returns {Lit|null} */
export function litFrom(text, by) {
  const [name = "", number] = (text ?? "").split(" ");
  const surface = SURFACES.find((one) => one === name);
  if (!surface) return null;
  return { surface, loudspeaker: number === undefined ? null : Number(number), by };
}

/** Whether a bounce is one of those looked at. @param {Lit|null|undefined} lit @param {SurfaceName} surface @param {number} loudspeaker */
export function isLit(lit, surface, loudspeaker) {
  return lit?.surface === surface && (lit.loudspeaker === null || lit.loudspeaker === loudspeaker);
}

/** @param {PlanReport|null} report @param {SurfaceName} surface @param {number} loudspeaker @returns {Reflection|undefined} */
export function firstBounce(report, surface, loudspeaker) {
  return report?.reflections.find((one) => one.order === 1 && one.loudspeaker === loudspeaker && one.surfaces[0] === surface);
}

/** The first bounces that are looked at, in the order of loudspeakers. @param {PlanReport|null} report @param {Lit|null|undefined} lit @returns {Reflection[]} */
export function litBounces(report, lit) {
  return (report?.reflections ?? []).filter((one) => one.order === 1 && one.surfaces.length > 0 && isLit(lit, one.surfaces[0], one.loudspeaker));
}

/** The straight way from a loudspeaker to the seat, m. @param {Listening} listening @param {number} loudspeaker @returns {number|null} */
export function directDistance({ loudspeakers, seat }, loudspeaker) {
  const from = loudspeakers[loudspeaker];
  return from && seat ? Math.hypot(from.x_m - seat.x_m, from.y_m - seat.y_m, from.z_m - seat.z_m) : null;
}

/** The corners of the way, from the loudspeaker over the point to the seat. @param {Listening} listening @param {Reflection} bounce @returns {[number, number, number][]} */
export function wayOf({ loudspeakers, seat }, { loudspeaker, points_m }) {
  const from = loudspeakers[loudspeaker];
  return from && seat ? [asPoint(from), ...points_m, asPoint(seat)] : [];
}

/** @param {Place3} place @returns {[number, number, number]} */
function asPoint({ x_m, y_m, z_m }) {
  return [x_m, y_m, z_m];
}

/**
 * The bounce that comes next by a key, round and round.
 * @param {Lit} lit @param {1|-1} by @param {number} loudspeakers  how many there are @returns {Lit}
 */
export function nextLit({ surface, loudspeaker }, by, loudspeakers) {
  const all = SURFACES.flatMap((name) => Array.from({ length: loudspeakers }, (_, index) => ({ surface: name, loudspeaker: index })));
  const at = all.findIndex((one) => one.surface === surface && one.loudspeaker === (loudspeaker ?? 0));
  return { ...all[(at + by + all.length) % all.length], by: "focus" };
}
