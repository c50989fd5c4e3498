/** @import { Scenario } from "./types.js" */

/** The plan with which a document opens unless something else is said: the first after the room as it is. @param {Scenario} document @returns {number} */
export function firstShown(document) {
  return Math.min(1, document.plans.length - 1);
}
