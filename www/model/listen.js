// Fair listening as rules: which plans, at what gains, and what ten blind rounds mean.

/** @import { Scenario } from "./types.js" */

/** Plans that are heard on one switch. */
const MOST_PLANS = 3;

/**
 * @typedef {object} HeardLevel  of a sound in a plan, at a gain of 1
 * @property {number} loudness_lkfs
 * @property {number} peak           largest sample at either ear
 */

/** Loudness to which every plan is brought at most, LKFS, at the top of the slider. Common practice, no source. */
export const MOST_LKFS = -20;

/** Largest sample that any plan may come to at the top of the slider: a little below where the limiter begins to bend. */
export const MOST_PEAK = 0.65;

/** Levels of the slider, dB; it starts low, and at its top the peaks of every sound stay whole. */
export const LEVEL_DB = Object.freeze({ least: -50, first: -30, most: 0 });

/** Rounds of a blind comparison. */
export const ROUNDS = 10;

/** The sounds that are made here. */
export const SOUNDS = Object.freeze([
  { id: "strings", name: "Plucked strings" },
  { id: "drum", name: "Hand drum" },
  { id: "vowels", name: "Sung vowels" },
  { id: "click", name: "One click" },
  { id: "burst", name: "Bursts of noise" },
]);

/**
 * Today, the plan in hand, and the one it is compared with or the next: at most three, in the order of the document.
 * @param {Scenario} document @param {number} shown @param {number|null} compared @returns {number[]}
 */
export function plansToHear({ plans }, shown, compared) {
  const others = plans.map((_, index) => index).filter((index) => index > 0);
  const first = [shown, compared ?? 0, ...others].filter((index) => index > 0 && index < plans.length);
  return [0, ...[...new Set(first)].slice(0, MOST_PLANS - 1).sort((a, b) => a - b)];
}

/**
 * The loudness that a sound is brought to in every plan, LKFS: the same for all, and so low that no plan's peak is limited.
 * @param {HeardLevel[]} levels @returns {number}
 */
export function targetLkfs(levels) {
  const held = levels.filter(isLoud).map(({ loudness_lkfs, peak }) => loudness_lkfs + 20 * Math.log10(MOST_PEAK / peak));
  return Math.min(MOST_LKFS, ...held);
}

/** What brings each plan to the same loudness, as a factor. @param {HeardLevel[]} levels @returns {number[]} */
export function matchedGains(levels) {
  const target_lkfs = targetLkfs(levels);
  return levels.map((level) => (isLoud(level) ? 10 ** ((target_lkfs - level.loudness_lkfs) / 20) : 0));
}

/** @param {HeardLevel} level */
function isLoud({ loudness_lkfs, peak }) {
  return Number.isFinite(loudness_lkfs) && peak > 0;
}

/**
 * Where the switch stands when other plans are heard: on the same plan as long as it is among them.
 * @param {number[]} before plans by index @param {number[]} after @param {number} chosen @returns {number}
 */
export function stillChosen(before, after, chosen) {
  const kept = after.indexOf(before[chosen]);
  return kept >= 0 ? kept : Math.min(Math.max(0, chosen), after.length - 1);
}

/**
 * @typedef {object} Blind
 * @property {[number, number]} pair  plans by index
 * @property {(0|1)[]} hidden         which of the pair is X, round by round
 * @property {(0|1)[]} guesses
 */

/** @param {[number, number]} pair @param {() => number} chance from 0 to 1, 1 left out @returns {Blind} */
export function startBlind(pair, chance) {
  return { pair, hidden: Array.from({ length: ROUNDS }, () => (chance() < 0.5 ? 0 : 1)), guesses: [] };
}

/** @param {Blind} blind @param {0|1} guess @returns {Blind} */
export function guessed(blind, guess) {
  return blind.guesses.length < ROUNDS ? { ...blind, guesses: [...blind.guesses, guess] } : blind;
}

/** The plan that X is in this round; null when all are done. @param {Blind} blind @returns {number|null} */
export function hiddenPlan({ pair, hidden, guesses }) {
  return guesses.length < ROUNDS ? pair[hidden[guesses.length]] : null;
}

/** @param {Blind} blind @returns {number} */
export function rightGuesses({ hidden, guesses }) {
  return guesses.filter((guess, round) => guess === hidden[round]).length;
}

/**
 * How often guessing alone gives at least so many right.
 *
 * P = Σ_(k ≥ right) (n over k) / 2ⁿ
 * @param {number} right @param {number} [rounds] @returns {number}
 */
export function byChance(right, rounds = ROUNDS) {
  let ways = 1;
  let sum = 0;
  for (let k = 0; k <= rounds; k += 1) {
    if (k >= right) sum += ways;
    ways = (ways * (rounds - k)) / (k + 1);
  }
  return sum / 2 ** rounds;
}

/**
 * What a finished comparison means. Nine of ten is the least that guessing gives in fewer than 5 of 100 tries; eight, in 5.5, is
 * told as not sure.
 * @param {Blind} blind @param {[string, string]} names @returns {string}
 */
export function verdict(blind, [one, other]) {
  const right = rightGuesses(blind);
  const chance = byChance(right);
  const count = `${right} of ${ROUNDS} right.`;
  const often = `Guessing alone gives ${right === ROUNDS ? "that" : "that or more"} in ${inHundred(chance)}.`;
  if (right >= 9) return `${count} You heard the difference between ${one} and ${other}. ${often}`;
  if (right === 8) return `${count} You may have heard it, but not surely. ${often} Ten more rounds would tell.`;
  const reversed = right <= 1 ? " You heard something and took the one for the other." : "";
  return `${count} You did not hear it${reversed ? " as you thought" : ""}: ${often.toLowerCase().replace(/\.$/, "")}.${reversed}${reversed ? "" : " With this sound, the two are alike to you."}`;
}

/** @param {number} share @returns {string} */
function inHundred(share) {
  if (share < 0.01) return `1 of ${Math.round(1 / share)} tries`;
  return `${Math.round(100 * share)} of 100 tries`;
}

/** Up to this size of a sample the limiter changes nothing. */
export const STRAIGHT_TO = 0.7;

/**
 * A limiter without memory: straight at first, then ever flatter towards 1.
 * @param {number} [points] odd, so that silence stays silence @returns {Float32Array<ArrayBuffer>}
 */
export function limiterCurve(points = 4097) {
  const straight = STRAIGHT_TO;
  return Float32Array.from({ length: points }, (_, index) => {
    const x = (2 * LIMITED_TO * index) / (points - 1) - LIMITED_TO;
    const size = Math.abs(x);
    return size <= straight ? x : Math.sign(x) * (straight + (1 - straight) * Math.tanh((size - straight) / (1 - straight)));
  });
}

/** The limiter's curve reaches so far beyond full scale. */
export const LIMITED_TO = 8;
