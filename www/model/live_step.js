// When the next step is worked out by itself: once somebody asked for advice, and what is on the sheet is not what it was about.

/** @import { State } from "./types.js" */
import { stillHolds } from "./advising.js";

/** @param {Pick<State, "advice"|"document"|"shown">} state @returns {boolean} */
export function wantsStep({ advice, document, shown }) {
  return advice !== null && !(advice.plan === shown && stillHolds(advice, document));
}
