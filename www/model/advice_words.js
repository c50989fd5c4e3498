// Advice in sentences. Numbers come from the core; here they are only said.

/**
 * @import { Advice, Bite, Boom, Figures, Found, FreeMove, PlanAdvice, Purpose, Refusal, Steps, SurfaceAdvice, Task, Today } from "./advice_types.js"
 * @import { Piece, Scenario } from "./types.js"
 * @import { Units } from "./format.js"
 */
import { bestOffer, gainOf, heardSteps, leavesAlone, panelsDoNotFix } from "./advice.js";
import { allowedWords, atMostWords, knownMoney } from "./advice_money.js";
import { goalRange } from "./answer.js";
import { confidence, isLikely } from "./doubt.js";
import { frequency, length, money, number, seconds, secondsRange } from "./format.js";
import { isWall } from "./geometry.js";
import { kindName, planName, sentence, surfaceName } from "./words.js";

/** Levels closer than this are not told apart, dB; times, s. */
const SAME_DB = 0.5;
const SAME_S = 0.005;

/** What a task does, for those who wait. @param {Task} task @returns {string} */
export function taskWords(task) {
  if (typeof task === "object") return "surface" in task ? `covering the ${surfaceName(task.surface)}` : "plans for less money";
  return {
    amount: "counting how many are needed", windows: "trying what helps at windows", best: "looking for the best plan", verdict: "drawing how sure today's decay is", free: "moving the seat and the loudspeakers", other: "looking for another way",
    unlimited: "seeing what your limits cost",
  }[task];
}

/** Whether to do anything at all; null until that is known. @param {Advice} advice @returns {string|null} */
export function verdictWords(advice) {
  const { document, plan, found, about } = advice;
  const alone = about && leavesAlone(found, about.objective.figures);
  const best = about && bestOffer(found, about.objective.figures, knownMoney(advice) === "all");
  if (alone === null || !found.verdict || !best) return null;
  const { low_s, high_s } = found.verdict.mid;
  const goal = goalRange(document);
  const times = low_s === null || high_s === null ? "a time that cannot be given" : secondsRange(low_s, high_s);
  const whose = plan === 0 ? "today's" : `${planName(document.plans[plan].name)}'s`;
  const goal_text = secondsRange(goal.low_s, goal.high_s);
  const chance = confidence(found.verdict.mid.goal_met ?? 0);
  const met = isLikely(found.verdict.mid.goal_met ?? 0);
  if (alone) {
    return met ? `Leave it alone: ${whose} ${times} is likely inside your goal of ${goal_text} already, and nothing that may be put here would change much.`
      : `Leave it alone: your goal of ${goal_text} is not met with ${whose} ${times}, but nothing that ${allowedWords(advice)} would change much.`;
  }
  const state = met ? `${sentence(whose)} decay of ${times} is likely inside your goal of ${goal_text}, and it could still be evener or calmer`
    : `With ${whose} ${times} your goal of ${goal_text} ${chance.word === "could go either way" ? chance.word : `is ${chance.word}${chance.rest}`}`;
  return `${state}. The best plan found ${changeWords(best)}.`;
}

/** What the bass asks for; null if pieces can do as much as the seat. @param {Boom|null|undefined} boom @param {Figures} figures @param {Units} units @returns {string|null} */
export function boomWords(boom, figures, units) {
  if (!boom || !panelsDoNotFix(boom, figures)) return null;
  const together = boom.together_hz === null ? "" : `Two bass notes share ${frequency(boom.together_hz)} in this room. `;
  return `Panels will not fix the boom. ${together}Moving the seat ${wayWords(boom.seat_back_m, units)} brings the spread of the bass from ${number(boom.now_db, 1)} to ${number(boom.seat_db, 1)} dB, for nothing; the best plan of pieces leaves it at ${number(boom.plan_db, 1)} dB.`;
}

/** @param {number} back_m @param {Units} units @returns {string} */
function wayWords(back_m, units) {
  return `${length(Math.abs(back_m), units)} ${back_m < 0 ? "forward" : "back"}`;
}

/** What something free does. @param {FreeMove} move @param {Scenario} document @param {number} plan @param {Units} units @returns {string} */
export function freeWords(move, document, plan, units) {
  const effect = [bassWords(move), ...stepsWords(move.before, move.after)].filter((text) => text !== "").join(", ");
  if (move.what === "pieces") {
    const kinds = [...new Set(move.removed.map((index) => kindName(document, document.plans[plan].pieces[index].kit)))];
    const count = move.removed.length;
    return `Take down ${count} ${count === 1 ? "piece" : "pieces"} (${kinds.join(", ")}): ${effect}. What you take down may be worth selling.`;
  }
  return `Move ${whatMoves(move, units)}: ${effect}.${move.bass_db ? "" : " What this does to the bass is not weighed here."}`;
}

/** "the seat 0.40 m forward". @param {FreeMove} move @param {Units} units @returns {string} */
function whatMoves({ what, back_m }, units) {
  return `${what === "seat" ? "the seat" : "both loudspeakers"} ${wayWords(back_m, units)}`;
}

/** The free move that adds most to the best plan; null if none adds anything that counts. @param {Found} found @param {Figures} figures @returns {FreeMove|null} */
export function freeOnTop({ free }, { worth_a_move }) {
  const adds = (/** @type {FreeMove} */ { beside_best }) => beside_best ?? -Infinity;
  const most = [...(free?.free.moves ?? [])].sort((a, b) => adds(b) - adds(a))[0];
  return most && adds(most) >= worth_a_move ? most : null;
}

/** What a free move adds to the best plan. @param {FreeMove} move @param {Units} units @param {string} [whose] @returns {string} */
export function onTopWords(move, units, whose = "the best plan") {
  return `Moving ${whatMoves(move, units)} as well costs nothing and brings ${whose} ${number(move.beside_best ?? 0, 1)} steps more.`;
}

/** @param {FreeMove} move @returns {string} */
function bassWords({ bass_db }) {
  if (!bass_db || Math.abs(bass_db[0] - bass_db[1]) < SAME_DB) return "";
  const [from, to] = bass_db;
  return to < from ? `the bass spreads over ${number(to, 1)} dB instead of ${number(from, 1)} dB` : `the bass grows less even, ${number(to, 1)} dB instead of ${number(from, 1)} dB`;
}

/** What gets better, and what worse. @param {Steps} before @param {Steps} after @returns {string[]} */
function stepsWords(before, after) {
  const words = /** @type {const} */ ({ decay: "the decay comes nearer to your goal", evenness: "low and high grow more even", bounces: "first bounces grow calmer", likeness: "both sides grow more alike" });
  const worse = /** @type {const} */ ({ decay: "the decay moves away from your goal", evenness: "low and high grow less even", bounces: "first bounces grow stronger", likeness: "both sides grow less alike" });
  const keys = /** @type {Purpose[]} */ (Object.keys(words));
  return keys.flatMap((key) => {
    const gain = before[key] - after[key];
    return Math.abs(gain) < 0.1 ? [] : [gain > 0 ? words[key] : `but ${worse[key]}`];
  });
}

/** "brings decay from 0.91 to 0.52 s and first bounces down by 3 dB". @param {Pick<PlanAdvice, "middle_s"|"bounces_db">} plan @returns {string} */
export function changeWords({ middle_s: [from_s, to_s], bounces_db }) {
  const decay = from_s === null || to_s === null || Math.abs(from_s - to_s) < SAME_S ? "leaves the decay as it is" : `brings the decay from ${number(from_s, 2)} to ${seconds(to_s)}`;
  const change_db = bounces_db ? bounces_db[1] - bounces_db[0] : 0;
  if (!bounces_db || Math.abs(change_db) < SAME_DB) return decay;
  return `${decay} and ${change_db < 0 ? "calms" : "strengthens"} first bounces by ${number(Math.abs(change_db), 1)} dB`;
}

/** The next step with what it brings and costs; the words to stop if there is none worth it. @param {Advice} advice @param {Bite|null} bite @param {Units} units @returns {string} */
export function nextWords(advice, bite, units) {
  const { document, found, about } = advice;
  if (!found.best) return "";
  if (!bite) return `Stop here: no single piece that ${allowedWords(advice)} would make a difference that is clearly heard.`;
  const { middle_s, bounces_db } = found.best.plan;
  const names = piecesWords(document, about?.stand_ins ?? [], bite.pieces, units);
  const change = changeWords({ middle_s: [middle_s[0], bite.middle_s], bounces_db: bounces_db && bite.bounces_db !== null ? [bounces_db[0], bite.bounces_db] : null });
  return `${sentence(names)}: this ${change}${costWords(bite.price - found.best.today.price, document)}.`;
}

/** @param {number} price @param {Scenario} document @param {boolean} [atLeast]  not all of it is known @returns {string} */
export function costWords(price, document, atLeast = false) {
  return price > 0 ? `, for ${atLeast ? "at least " : ""}${money(Math.round(price * 100) / 100, document.currency)}` : "";
}

/** One piece or a pair, and where. @param {Scenario} document @param {{id: string, name: string}[]} more kinds beside its own @param {Piece[]} pieces @param {Units} units @returns {string} */
export function piecesWords(document, more, pieces, units) {
  const kit = pieces[0].kit;
  const name = more.find((kind) => kind.id === kit)?.name ?? kindName(document, kit);
  const places = pieces.map((piece) => placeWords(piece, units));
  return `${pieces.length > 1 ? `${pieces.length} × ` : ""}${name} ${places.join(" and ")}`;
}

/** "on the left wall, 1.29 m from the front wall and 0.90 m up". @param {Piece} piece @param {Units} units @returns {string} */
export function placeWords(piece, units) {
  if (piece.place === "corner") return `in the ${piece.edge.replace("-", " ")} corner, from ${length(piece.z_m, units)} up`;
  if (piece.place === "stand") return `standing ${length(piece.x_m, units)} from the left wall and ${length(piece.y_m, units)} from the front wall`;
  const { surface, u_m, v_m } = piece;
  const from = surface === "left" || surface === "right" ? "front" : "left";
  const up = isWall(surface) ? `${length(v_m, units)} up` : `${length(v_m, units)} from the front wall`;
  return `on the ${surfaceName(surface)}, ${length(u_m, units)} from the ${from} wall and ${up}`;
}

/** What a piece is there for. @param {PlanAdvice["reasons"][number]} reason @returns {string} */
export function reasonWords({ purpose, mark }) {
  const where = mark ? ` of the ${["left", "right"][mark[0]]} loudspeaker off the ${surfaceName(mark[1])}` : "";
  return {
    decay: mark ? `shortens the decay, and lies on the bounce${where}` : "shortens the decay",
    evenness: "evens out low and high",
    bounces: mark ? `takes the first bounce${where}` : "calms first bounces from beside their mark",
    likeness: "makes left and right alike",
  }[purpose];
}

/** Why a surface does what it does here. @param {SurfaceAdvice} surface @param {string|null} kind  the name of the only one that was asked for @returns {string} */
export function whyWords({ why, absorption, carries, rule, surface }, kind = null) {
  if (rule) return `${kind === null ? "nothing may" : `${kind} may not`} go there: ${ruleWords(rule)}`;
  const times = carries === null ? "" : ` (${number(carries, 1)} times its share)`;
  return {
    lingers: `${surface === "floor" || surface === "ceiling" ? "sound between floor and ceiling" : "sound that runs level between this pair"} dies last here${times}`,
    "soft-already": `it is soft already (takes ${number(absorption * 100)} % at 1 kHz), so covering it buys less`,
    "pair-is-soft": "the surface that faces it is soft already",
    "hard-and-near": "it is hard, and its bounces are among the first",
    hard: "it is hard",
  }[why];
}

/** @type {Readonly<Record<string, string>>} */
const RULES = Object.freeze({
  bare: "it is kept bare: your limit", "no-drilling": "it would need holes: your limit", looks: "it does not look like what you allow: your limit", depth: "it is deeper than your limit", lowest: "it would reach below your lowest fixing",
  highest: "it would reach above your highest fixing", visible: "no more pieces may be seen: your limit", zone: "a zone there stays clear", door: "a door is there",
  window: "a window is there and must open", opening: "an opening is there", "built-in": "something built in is there", furniture: "furniture stands there",
  way: "a way or the swing of a door is there", route: "it would close the way to walk from a door to the seat or to another door", piece: "another piece is there", listener: "a loudspeaker or the seat is there",
  "direct-sound": "it would stand between a loudspeaker and the seat", "too-large": "it does not fit", elsewhere: "it is not meant for this surface",
});

/** Why a piece may not be somewhere. @param {string} rule @returns {string} */
export function ruleWords(rule) {
  return RULES[rule] ?? rule;
}

/** Marks that no piece may be centred on, each said once. @param {Refusal[]} refusals @returns {string[]} */
export function refusalWords(refusals) {
  const lines = refusals.map(({ surface, loudspeaker, rule, moved }) => {
    const where = loudspeaker === null ? `On the ${surfaceName(surface)}` : `At the bounce mark of the ${["left", "right"][loudspeaker]} loudspeaker on the ${surfaceName(surface)}`;
    return `${where}: ${ruleWords(rule)}${moved ? "; a place beside it is used" : ""}.`;
  });
  return [...new Set(lines)];
}

/** What the limits of the home cost. @param {Advice} advice @returns {string|null} */
export function limitsWords(advice) {
  const { best, unlimited } = advice.found;
  if (!best || !unlimited) return null;
  const lost = gainOf(unlimited.plan) - gainOf(best.plan);
  if (lost < 0.5) return "Your limits cost next to nothing here: without them the best plan would gain no more that is clearly heard.";
  return `Without your limits, ${atMostWords(advice)}the best plan ${changeWords(unlimited.plan)}: your limits cost about ${number(lost, 1)} steps.`;
}

/** What the pieces that are there do already; null where there are none. @param {Today} today @returns {string|null} */
export function todayWords({ pieces, gained }) {
  if (pieces === 0) return null;
  const what = `${pieces === 1 ? "The piece that is" : `The ${pieces} pieces that are`} there already`;
  if (Math.abs(gained) < 0.05) return `${what} ${pieces === 1 ? "makes" : "make"} no difference that counts.`;
  return gained > 0 ? `${what} ${pieces === 1 ? "brings" : "bring"} ${number(gained, 1)} steps beside the bare room.` : `${what} ${pieces === 1 ? "costs" : "cost"} ${number(-gained, 1)} steps: the bare room would be better.`;
}

/** What a plan comes to, in a line. @param {PlanAdvice} plan @param {Advice} advice @returns {string} */
export function planWords(plan, advice) {
  const fresh = plan.reasons.length;
  const gone = plan.removed.length;
  const parts = [fresh > 0 ? `${fresh} new ${fresh === 1 ? "piece" : "pieces"}` : "", gone > 0 ? `${gone} taken down` : ""].filter((part) => part !== "");
  // The price is that of all that is not owned: beside the new pieces, those that the plan in hand buys already.
  const in_all = plan.price > 0 && (advice.found.best?.today.price ?? 0) > 0 ? " in all" : "";
  return `${parts.join(", ") || "No change"}${costWords(plan.price, advice.document, knownMoney(advice) === "part")}${in_all}: ${changeWords(plan)}. ${heardWords(plan)}`;
}

/** @param {PlanAdvice} plan @returns {string} */
function heardWords({ before, after }) {
  return `${number(heardSteps(before), 1)} steps from ideal now, ${number(heardSteps(after), 1)} then.`;
}

/** By how much steps must differ to be told. */
const TOLD = 0.1;

const MORE = /** @type {const} */ ({
  decay: ["the decay lies nearer to your goal", "the decay lies farther from your goal"], evenness: ["low and high die away more evenly", "low and high die away less evenly"],
  bounces: ["first bounces are calmer", "first bounces are stronger"], likeness: ["left and right are more alike", "left and right are less alike"],
});

/** What a plan has more of than a smaller one, the largest difference first, and what it has less of. @param {PlanAdvice} plan @param {PlanAdvice} other @returns {string} */
export function moreWords(plan, other) {
  const keys = /** @type {Purpose[]} */ (Object.keys(MORE));
  const gains = keys.map((key) => ({ key, gain: other.after[key] - plan.after[key] })).sort((a, b) => Math.abs(b.gain) - Math.abs(a.gain));
  const told = (/** @type {boolean} */ isMore) => gains.filter(({ gain }) => Math.abs(gain) >= TOLD && gain > 0 === isMore).map(({ key, gain }) => `${MORE[key][isMore ? 0 : 1]} (${number(Math.abs(gain), 1)} steps)`).join(", ");
  return [told(true), told(false)].filter((text) => text !== "").join("; but ");
}
