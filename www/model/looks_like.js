// The limit on what pieces may be taken for: a picture, or furniture. Curtains and rugs are furniture that a home has anyway.

/** @import { Kind, Looks, Piece, Scenario, SurfaceName } from "./types.js" */
import { isRug } from "./kinds.js";

/** Every look that a kind may have beside that of a panel, in words. @type {readonly (readonly [Looks, string])[]} */
export const LOOKS = Object.freeze([["picture", "a picture"], ["furniture", "furniture"]]);

/** What a kind is taken for where it is meant to be; null: plainly a panel. @param {Kind} kind @returns {Looks|null} */
export function looksOf(kind) {
  return kind.looks ?? (kind.stands === "curtain" || isRug(kind) ? "furniture" : null);
}

/** The same of a piece in its place, as the core takes it. @param {Kind} kind @param {Piece["place"]} place @param {SurfaceName} surface @returns {Looks|null} */
function looksAt(kind, place, surface) {
  const belongs = place === "curtain" || (surface === "floor" && place !== "stand" && place !== "corner");
  return kind.looks ?? (belongs ? "furniture" : null);
}

/** @param {Pick<Scenario, "limits">} document @param {Looks|null} looks @returns {boolean} */
function isAllowed({ limits }, looks) {
  return limits?.looks_like === undefined || (looks !== null && limits.looks_like.includes(looks));
}

/** Whether the home allows what a kind looks like. @param {Pick<Scenario, "limits">} document @param {Kind} kind @returns {boolean} */
export function mayLook(document, kind) {
  return isAllowed(document, looksOf(kind));
}

/** "only what looks like a picture or furniture"; empty without the limit. @param {Pick<Scenario, "limits">} document @returns {string} */
export function looksLimit({ limits }) {
  const words = LOOKS.flatMap(([look, name]) => (limits?.looks_like?.includes(look) ? [name] : []));
  return words.length === 0 ? "" : `only what looks like ${words.join(" or ")}`;
}

/**
 * Why a new piece may not be there; null: it may, as far as its looks go.
 * @param {Scenario} document @param {Kind|null} kind @param {Piece["place"]} place @param {SurfaceName} surface @returns {string|null}
 */
export function looksReason(document, kind, place, surface) {
  if (!kind || isAllowed(document, looksAt(kind, place, surface))) return null;
  return `looks like ${lookWords(looksAt(kind, place, surface))}: your limit is ${looksLimit(document)}`;
}

/** @param {Looks|null} looks @returns {string} */
export function lookWords(looks) {
  return LOOKS.find(([look]) => look === looks)?.[1] ?? "a panel";
}
