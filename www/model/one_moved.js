// What a drag changes of a document: mostly one piece of the plan in hand, and the rest stays the same objects.

/** @import { Scenario } from "./types.js" */

/**
 * The only piece in which two documents differ.
 * @param {Scenario} before @param {Scenario} after @param {number} plan that it is in
 * @returns {number|null} its index; null if they differ in anything else, or in nothing
 */
export function onlyPieceMoved(before, after, plan) {
  const [old, now] = [before.plans[plan], after.plans[plan]];
  if (!old || !now || !sameBut(before, after, "plans") || !sameBut(old, now, "pieces")) return null;
  if (before.plans.length !== after.plans.length || old.pieces.length !== now.pieces.length) return null;
  if (after.plans.some((one, index) => index !== plan && one !== before.plans[index])) return null;
  const moved = now.pieces.flatMap((piece, index) => (piece === old.pieces[index] ? [] : [index]));
  return moved.length === 1 ? moved[0] : null;
}

/** Whether two objects hold the same but for one key. @template {object} T @param {T} a @param {T} b @param {keyof T} key */
function sameBut(a, b, key) {
  const names = /** @type {(keyof T)[]} */ (Object.keys(a));
  return names.length === Object.keys(b).length && names.every((name) => name === key || a[name] === b[name]);
}
