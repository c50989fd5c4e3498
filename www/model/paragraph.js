// A plan in one plain paragraph, to paste into a message: the room, what goes into it, what that should do and how sure it is.

/**
 * @import { Answer } from "./types.js"
 * @import { Doubt } from "./answer.js"
 * @import { Units } from "./format.js"
 */
import { answerWords } from "./answer.js";
import { FOOT } from "./caution_texts.js";
import { frequency, length, mass, money, number } from "./format.js";
import { costOf, costText, partsOf } from "./money.js";
import { planName } from "./words.js";

/** @param {Answer} answer @param {Doubt} doubt @param {Units} units @returns {string} plain text, one paragraph */
export function planParagraph(answer, doubt, units) {
  const { document, plan } = answer;
  const { width_m, length_m, height_m } = document.room;
  const sides = units === "imperial" ? [width_m, length_m, height_m].map((side_m) => length(side_m, units)).join(" × ")
    : `${[width_m, length_m, height_m].map((side_m) => number(side_m, 2)).join(" × ")} m`;
  // The plan by itself, whatever it is compared with on the screen.
  const alone = answerWords({ ...answer, other: null }, doubt);
  return [`${document.title}, ${sides}.`, piecesSentence(answer), alone.text.trim(), costSentence(answer, units), limitSentence(answer),
    plan > 0 ? "Ranges hold 8 times in 10 if the room is as described." : "", FOOT].filter(Boolean).join(" ").replace(/[\u202f\u00a0]/g, " ").replace(/ +/g, " ");
}

/** "Plan A has 11 pieces: 8 × Thick soft, 100 mm; 1 × Pile rug." @param {Answer} answer @returns {string} */
function piecesSentence({ document, plan }) {
  const { name, pieces } = document.plans[plan];
  if (pieces.length === 0) return plan === 0 ? "" : `${planName(name)} has no pieces yet.`;
  const list = partsOf(document, document.plans[plan]).map(({ kind, indices }) => `${indices.length} × ${kind.name}`).join("; ");
  return `${plan === 0 ? "Today there are" : `${planName(name)} has`} ${pieces.length} ${pieces.length === 1 ? "piece" : "pieces"}: ${list}.`;
}

/** @param {Answer} answer @param {Units} units @returns {string} */
function costSentence({ document, plan }, units) {
  const cost = costOf(document, document.plans[plan]);
  if (cost.pieces === 0) return "";
  const budget = document.limits?.budget;
  const of = budget === undefined || cost.unpriced === cost.pieces ? "" : ` of ${money(budget, document.currency)}`;
  const weight = cost.unweighed === cost.pieces ? "" : `; weight ${cost.unweighed > 0 ? "at least" : "about"} ${mass(cost.mass_kg, units)}`;
  return `Cost: ${costText(cost, document.currency)}${of}${weight}.`;
}

/** @param {Answer} answer @returns {string} */
function limitSentence({ shown }) {
  const limit_hz = shown.room?.statistics_from_hz ?? null;
  return limit_hz === null ? "" : `Below about ${frequency(limit_hz)} the room rings at single notes, which one time cannot describe.`;
}
