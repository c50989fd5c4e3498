// The words of the Answer line: the plan in hand and today against the goal, as ranges once they are there.

/**
 * @import { Answer, Bass, Difference, Ranges, Scenario } from "./types.js"
 * @import { Finding } from "./findings.js"
 * @typedef {{text: string, figure?: boolean, word?: boolean, doubt?: boolean}} AnswerPart
 *   figure, word: to be emphasised; doubt: follows the answer, set smaller
 * @typedef {"above"|"inside"|"below"|"undefined"} Verdict   where the plan in hand is, against the goal
 * @typedef {{parts: AnswerPart[], text: string, verdict: Verdict}} AnswerWords
 * @typedef {object} Doubt  How far the ranges have come.
 * @property {Ranges|null} ranges  of the plan in hand
 * @property {Ranges|null} today
 * @property {Difference[]} differences
 * @property {"none"|"coming"|"failed"} missing  why there are none for the plan in hand, if there are none
 * @property {Ranges|null} [beside]   of the plan that it is compared with
 * @property {Bass|null} [bass]       of the plan in hand
 * @property {Bass|null} [todayBass]  of the room as it is, where the plan moves loudspeakers or seat
 * @property {"metric"|"imperial"} [units]
 */
import { compareParts } from "./compare_words.js";
import { confidence, differenceOf, differenceWords, isLikely } from "./doubt.js";
import { boom, needsNothing, sidesDiffer, tooSoft } from "./findings.js";
import { seconds, secondsRange } from "./format.js";
import { planName } from "./words.js";

/** Middle decay that each taste aims at. @type {Readonly<Record<"focused"|"lived-in"|"spacious", readonly [number, number]>>} */
const TASTES_S = Object.freeze({
  // Our choice, placed about trade advice for homes and surveys of furnished living rooms.
  focused: /** @type {const} */ ([0.2, 0.35]), "lived-in": /** @type {const} */ ([0.3, 0.5]), spacious: /** @type {const} */ ([0.4, 0.65]),
});
/** Above this volume both ends of a taste's goal are longer. */
const LARGE_ROOM_M3 = 120;
const LARGE_ROOM_EXTRA_S = 0.1;

/** Why a middle value stands there without its range. @type {Readonly<Record<Doubt["missing"], string>>} */
const MISSING = Object.freeze({
  none: "How sure this is, is not computed yet.",
  coming: "The range is catching up.",
  failed: "The range could not be computed here.",
});
/** @type {Doubt} */
const NO_RANGES = Object.freeze({ ranges: null, today: null, differences: [], missing: "none" });

/** The goal of a document: its own figures, or those of its taste and volume. @param {Scenario} document @returns {{low_s: number, high_s: number}} */
export function goalRange({ goal, room }) {
  if (goal && "low_s" in goal) return { low_s: goal.low_s, high_s: goal.high_s };
  const [low_s, high_s] = TASTES_S[goal?.taste ?? "lived-in"];
  const extra_s = room.width_m * room.length_m * room.height_m > LARGE_ROOM_M3 ? LARGE_ROOM_EXTRA_S : 0;
  return { low_s: hundredths(low_s + extra_s), high_s: hundredths(high_s + extra_s) };
}

/** As it is shown; what is compared must not differ from what is read. @param {number} value_s @returns {number} */
export function hundredths(value_s) {
  return Math.round(value_s * 100) / 100;
}

/** @param {number} value_s @param {{low_s: number, high_s: number}} goal @returns {Verdict} */
export function verdictOf(value_s, { low_s, high_s }) {
  const shown_s = hundredths(value_s);
  if (shown_s > hundredths(high_s)) return "above";
  return shown_s < hundredths(low_s) ? "below" : "inside";
}

/** What the Answer line says. @param {Answer} answer @param {Doubt} [doubt] @returns {AnswerWords} */
export function answerWords(answer, doubt = NO_RANGES) {
  const goal = goalRange(answer.document);
  const value_s = answer.shown.mid.t20_s;
  const verdict = value_s === null || !Number.isFinite(value_s) ? "undefined" : verdictOf(value_s, goal);
  const parts = partsOf(answer, value_s, goal, verdict, doubt);
  return { parts, text: parts.map(({ text }) => text).join(""), verdict };
}

/** @param {Answer} answer @param {number|null} value_s @param {{low_s: number, high_s: number}} goal @param {Verdict} verdict @param {Doubt} doubt @returns {AnswerPart[]} */
function partsOf(answer, value_s, goal, verdict, doubt) {
  if (value_s === null || verdict === "undefined") return [{ text: `${subject(answer)}: too little absorbs here for a decay time. Check the surfaces.` }];
  const found = findingsOf(answer, doubt, goal);
  if (answer.other) return withMore(compareParts(answer, doubt, goal), comparedFindings(answer, doubt, found));
  const alone = found.length === 0 || found[0].lead === SIDES_LEAD ? leaveAlone(answer, doubt) : null;
  const lead = found.length > 0 && found[0].lead !== SIDES_LEAD ? [{ text: `${found[0].lead} ` }] : [];
  const first = alone ?? [...lead, ...firstSentence(answer, value_s, doubt)];
  return [...first, ...goalSentence(goal, verdict, doubt, alone !== null), { text: ` ${doubtSentences(answer, verdict, doubt, found)}`, doubt: true }];
}

/** What two plans beside each other leave unsaid, after their own doubt. @param {AnswerPart[]} parts @param {string} more @returns {AnswerPart[]} */
function withMore(parts, more) {
  return more === "" ? parts : parts.map((part) => (part.doubt ? { ...part, text: `${part.text} ${more}` } : part));
}

/** What stands out while two plans are compared: of the room, and of the plan in hand by its name. @param {Answer} answer @param {Doubt} doubt @param {Finding[]} found @returns {string} */
function comparedFindings(answer, doubt, found) {
  const name = subject(answer);
  const said = found.map(({ lead, more }) => (lead === SIDES_LEAD ? `In ${name} ${decapital(more)}` : lead === SOFT_LEAD ? `${name} is ${decapital(follows(lead, more))}` : follows(lead, more)));
  return [...said, leftAlone(answer, doubt), ...oddWords(answer)].filter(Boolean).join(" ");
}

/** Of two plans, where the room needs neither. @param {Answer} answer @param {Doubt} doubt @returns {string} */
function leftAlone({ document, now }, { today }) {
  if (!today || !needsNothing(today) || !isInside(now.mid.t20_s, document)) return "";
  return `Leave it alone: today\u2019s ${secondsRange(today.mid.low_s, today.mid.high_s)} is already inside your goal.`;
}

/** "Too soft on top." and what follows, in one sentence. @param {string} lead @param {string} more @returns {string} */
function follows(lead, more) {
  return `${lead.replace(".", ":")} ${decapital(more)}`;
}

/** @param {string} text @returns {string} */
function decapital(text) {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}

/** It follows the answer and never begins it. */
const SIDES_LEAD = "Left and right differ.";
const SOFT_LEAD = "Too soft on top.";

/** What stands out; the first may begin the answer. @param {Answer} answer @param {Doubt} doubt @param {{low_s: number, high_s: number}} goal @returns {Finding[]} */
function findingsOf(answer, { ranges, bass = null, todayBass = null, units }, goal) {
  const found = [boom(answer.document, answer.plan, bass, todayBass, units), tooSoft(answer, ranges, goal), sidesDiffer(answer)];
  return found.filter((one) => one !== null);
}

/** Instead of the first sentence, where nothing is placed and nothing is needed. @param {Answer} answer @param {Doubt} doubt @returns {AnswerPart[]|null} */
function leaveAlone({ document, plan }, { ranges }) {
  if (!ranges || !needsNothing(ranges) || (plan > 0 && document.plans[plan].pieces.length > 0)) return null;
  return [{ text: "Leave it alone: today\u2019s " }, { text: secondsRange(ranges.mid.low_s, ranges.mid.high_s), figure: true }, { text: `${afterCheckup(ranges)} is already inside your goal.` }];
}

/** @param {Answer} answer @returns {string} */
function subject({ document, plan }) {
  return plan === 0 ? "Today" : planName(document.plans[plan].name);
}

/** @param {Answer} answer @param {number} value_s @param {Doubt} doubt @returns {AnswerPart[]} */
function firstSentence(answer, value_s, { ranges, today }) {
  const figure = { text: timeText(value_s, ranges), figure: true };
  const about = ranges ? "" : "about ";
  const checked = afterCheckup(ranges);
  if (answer.plan === 0) return [{ text: `Today sound dies away in ${about}` }, figure, { text: `${checked}.` }];
  const lead = { text: `${subject(answer)}: sound should die away in ${about}` };
  const today_s = answer.now.mid.t20_s;
  if (today_s === null || !Number.isFinite(today_s)) return [lead, figure, { text: "; today has no decay time." }];
  const same = hundredths(today_s) === hundredths(value_s) && (!ranges || !today || figure.text === timeText(today_s, today));
  return [lead, figure, { text: same ? `${checked}, the same as today.` : `${checked}, today ${timeText(today_s, today)}.` }];
}

/** Said wherever ranges rest on one. @param {Ranges|null} ranges @returns {string} */
function afterCheckup(ranges) {
  return ranges?.checked ? " after your check-up" : "";
}

/** The range, or the middle value as long as there is none. @param {number} value_s @param {Ranges|null} ranges @returns {string} */
function timeText(value_s, ranges) {
  return ranges ? secondsRange(ranges.mid.low_s, ranges.mid.high_s) : seconds(value_s);
}

/** @param {{low_s: number, high_s: number}} goal @param {Verdict} verdict @param {Doubt} doubt @param {boolean} alone @returns {AnswerPart[]} */
function goalSentence({ low_s, high_s }, verdict, { ranges }, alone) {
  const lead = ` ${alone ? "It" : "Your goal"} is ${secondsRange(low_s, high_s)}: `;
  if (!ranges) return [{ text: `${lead}${verdict} it.` }];
  const { word, rest } = confidence(ranges.mid.goal_met);
  return [{ text: lead }, { text: word, word: true }, { text: `${rest}.` }];
}

/** What follows the answer: what stands out, the difference from today, or why there is no range; and a hint. @param {Answer} answer @param {Verdict} verdict @param {Doubt} doubt @param {Finding[]} found @returns {string} */
function doubtSentences(answer, verdict, doubt, found) {
  const said = found.some(({ lead }) => lead !== SIDES_LEAD) ? "" : hint(answer, verdict, doubt);
  const findings = found.map((one, index) => (index === 0 || one.lead === SIDES_LEAD ? one.more : follows(one.lead, one.more)));
  return [...findings, said, ...oddWords(answer), doubt.ranges ? comparison(answer, doubt.differences) : MISSING[doubt.missing]].filter(Boolean).join(" ");
}

/** What makes the ranges wider than those of other rooms. @param {Answer} answer @returns {string[]} */
export function oddWords({ document, shown }) {
  const booth = (shown.notes ?? []).some((note) => note.startsWith(BOOTH)) ? [`${BOOTH}.`] : [];
  return document.room?.conditions?.includes("not-a-box") ? [...booth, "Ranges are doubled, as the room is no box."] : booth;
}

/** How the core begins its note on a room that absorbs more than any that is lived in. */
const BOOTH = "More like a recording booth than a room: check the surfaces";

/** @param {Answer} answer @param {Difference[]} differences @returns {string} */
function comparison({ document, plan }, differences) {
  const difference = plan === 0 ? null : differenceOf(differences, document.plans[0].name, document.plans[plan].name);
  if (!difference || document.plans[plan].pieces.length === 0 || (difference.low_s === 0 && difference.high_s === 0)) return "";
  const words = differenceWords(difference, "today");
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** @param {number|null} value_s @param {Scenario} document @returns {boolean} */
export function isInside(value_s, document) {
  return value_s !== null && verdictOf(value_s, goalRange(document)) === "inside";
}

/** @param {Answer} answer @param {Verdict} verdict @param {Doubt} doubt @returns {string} */
function hint({ document, plan, now }, verdict, { ranges, today }) {
  const empty = document.plans[plan].pieces.length === 0;
  const met = ranges ? isLikely(ranges.mid.goal_met) : verdict === "inside";
  if (plan === 0 || (empty && ranges && met)) return met ? "Panels would mostly make it duller." : "";
  if (!empty && needsNothing(today) && isInside(now.mid.t20_s, document)) return "Today is inside your goal already: leaving it alone costs nothing.";
  if (empty) return "Put one thing where a bounce mark is and watch the strip.";
  return verdict === "below" ? "That can sound dull: try with less." : "";
}
