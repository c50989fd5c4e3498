// What counts, how much, and where advice stops, in words. Every number comes from the core, where it is said once.

/** @import { Advice, Figures } from "./advice_types.js" */
import { number, secondsRange } from "./format.js";

/** "25 %" of a ratio of 1.25. @param {number} ratio @returns {string} */
function over(ratio) {
  return `${number(100 * (ratio - 1))}\u202f%`;
}

/** @param {number} time_s @returns {string} */
function milliseconds(time_s) {
  return `${number(1000 * time_s)}\u202fms`;
}

/** What counts, and how much. @param {NonNullable<Advice["about"]>} about @returns {string[]} */
export function objectiveWords({ is_priced, objective: { weights, figures, goal_s, budget } }) {
  const step = (/** @type {number} */ value) => number(value, 2);
  const by = over(figures.step_ratio);
  const louder = `${number(figures.step_db)} dB`;
  return [
    `Everything is counted in steps, and fewer are better. One step is one clear difference: a decay longer or shorter by ${by}, or early sound louder by ${louder}.`,
    `Decay in the middle of the range: ${step(weights.decay)} for each ${by} outside of your goal of ${secondsRange(goal_s[0], goal_s[1])}, drawn in by ${over(figures.inside)} at both ends, as the prediction is not that sure.`,
    `Evenness: ${step(weights.evenness)} for each ${by}, on the mean over octaves from 125 Hz to 4 kHz, by which one strays more than ${over(figures.even)} from the middle (125 Hz may be longer by ${over(figures.even_low)}); ${step(weights.tilt)} for each ${by} by which the low end lasts more than ${number(figures.tilt, 1)} times as long as the treble.`,
    `First bounces: ${step(weights.bounces)} for each ${louder} by which a loudspeaker's bounces together, 500 Hz to 4 kHz, are louder than ${number(-figures.quiet_db)} dB below its direct sound; those later than ${milliseconds(figures.counts_until_s)} count less, from ${milliseconds(figures.counts_not_from_s)} on not at all. Your taste sets this weight.`,
    `Left and right: ${step(weights.likeness)} for each ${louder} between the bounces of both sides beyond ${number(figures.alike_db)} dB; what lies ${number(-figures.faint_db)} dB below the direct sound or lower hardly counts.`,
    `Effort: ${step(weights.piece)} for each new piece, ${step(weights.lone)} for one without its like on the other side${budget && is_priced ? `, ${step(weights.money)} for the whole of your money` : ""}.`,
    `Moving the seat or the loudspeakers also counts the bass at the seat: one step for each ${number(figures.bass_step_db, 1)} dB by which it spreads less over its third-octaves. Nothing else counts bass below 125 Hz.`,
    ...stopWords(figures, is_priced),
    "Weights and limits are our choice.",
  ];
}

/** From where on advice acts or stops. @param {Figures} figures @param {boolean} is_priced @returns {string[]} */
function stopWords(figures, is_priced) {
  const step = (/** @type {number} */ value) => number(value, 2);
  return [
    `Leave it alone: if the best plan, its effort counted, gains less than ${step(figures.not_worth_it)} steps; where the goal is likely met, less than ${step(figures.worth_it)}.`,
    `Stop here: if the next piece gains less than ${step(figures.stop_below)} steps. What is free is named from ${step(figures.worth_a_move)} steps on.`,
    `The thrifty plan keeps ${number(100 * figures.most_of_it)}\u202f% of the gain for at most ${number(100 * figures.less_money)}\u202f% of ${is_priced ? "the money, or of the new pieces where not all prices are known" : "the new pieces"}; if all else gains less than ${step(figures.not_worth_it)} steps more, it is offered as the best. Another way keeps at least ${number(100 * figures.near_the_best)}\u202f% of the gain. More changes little once ${number(100 * figures.nearly_all)}\u202f% of the gain is there.`,
    `Panels do not fix the boom where the seat does at least ${number(figures.seat_times_more)} times as much for the bass as they do, and ${number(figures.seat_at_least_db)} dB or more.`,
  ];
}
