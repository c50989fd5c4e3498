// What differs between two plans: the pieces that only one of them has, and where loudspeakers and seat stand.

/**
 * @import { Plan, Scenario } from "./types.js"
 * @typedef {{here: number[], there: number[], moved: boolean}} Differing
 *   here, there: indices of pieces that the other plan does not have in the same place; moved: loudspeakers or seat differ
 */
import { lay, sameSpot } from "./laid.js";

/** @param {Scenario} document @param {number} here @param {number} there plans @returns {Differing} */
export function differing(document, here, there) {
  const [one, other] = [document.plans[here], document.plans[there]];
  if (!one || !other) return { here: [], there: [], moved: false };
  const place = (/** @type {Plan} */ plan) => JSON.stringify(plan.listening ?? document.listening);
  return { here: without(document, one, other), there: without(document, other, one), moved: place(one) !== place(other) };
}

/** The pieces of a plan that the other one lacks; two alike in one place count twice. @param {Scenario} document @param {Plan} plan @param {Plan} other @returns {number[]} */
function without(document, plan, other) {
  const left = other.pieces.map((piece) => lay(document, piece));
  return plan.pieces.flatMap((piece, index) => {
    const laid = lay(document, piece);
    const match = left.findIndex((one) => sameSpot(laid, one));
    if (match < 0) return [index];
    left.splice(match, 1);
    return [];
  });
}
