/**
 * The picture of the answer: the goal, the plan and today along one axis of decay time.
 */
import { guard, nothing, scaleLinear, svg } from "../vendor.js";
import { number } from "../model/format.js";

/**
 * @typedef {object} AnswerData
 * @property {number|null} now_s
 * @property {number|null} plan_s  null while the room as it is is shown
 * @property {{low_s: number, high_s: number}|null} now_range   8 times in 10
 * @property {{low_s: number, high_s: number}|null} plan_range
 * @property {boolean} waiting  the range of what is shown is on its way
 * @property {string} planName
 * @property {string} [nowName]  what stands beside it; "today" without
 * @property {"now"|"other"} [nowLook]
 * @property {{low_s: number, high_s: number}} goal
 * @property {number} width_px
 */

const HEIGHT_PX = 74;
const BASE_PX = 56;

/** @param {AnswerData} data */
export function answerChart(data) {
  const ends = [data.now_range?.high_s ?? 0, data.plan_s === null ? 0 : data.plan_range?.high_s ?? 0];
  const values = [data.now_s ?? 0, data.plan_s ?? 0, data.goal.high_s, ...ends].filter(Number.isFinite);
  const top_s = Math.ceil(Math.max(...values) * 10 * 1.15 + 1) / 10;
  const x = scaleLinear().domain([0, top_s]).range([4, data.width_px - 4]);
  return svg`<svg class="chart verdict" viewBox="0 0 ${data.width_px} ${HEIGHT_PX}" width=${data.width_px} height=${HEIGHT_PX}
    role="img" aria-label="The same as the sentence, along one line">
    ${guard([top_s, data.width_px, data.goal.low_s, data.goal.high_s], () => svg`${goalRegion(x, data.goal)}${axis(x, top_s)}`)}
    ${mark(x, data.plan_s, data.plan_range, 22, data.waiting ? "plan waits" : "plan", data.planName, data.width_px)}
    ${mark(x, data.now_s, data.now_range, 38, data.nowLook ?? "now", data.nowName ?? "today", data.width_px)}
  </svg>`;
}

/**
 * @param {(value: number) => number} x
 * @param {{low_s: number, high_s: number}} goal
 */
function goalRegion(x, goal) {
  const [low, high] = [x(goal.low_s), x(goal.high_s)];
  return svg`<rect class="goalfill" x=${low} y="16" width=${high - low} height=${BASE_PX - 16} />
    <path class="goal" d="M${low} ${BASE_PX}V16M${high} ${BASE_PX}V16" />
    <text class="lab" x=${(low + high) / 2} y="11" text-anchor="middle">goal</text>`;
}

/**
 * @param {(value: number) => number} x
 * @param {number} top_s
 */
function axis(x, top_s) {
  const tenths = Array.from({ length: Math.floor(top_s * 10 + 0.01) + 1 }, (_, index) => index);
  const labelled = top_s > 3 ? 10 : 5;
  const drawn = top_s > 3 ? tenths.filter((index) => index % 5 === 0) : tenths;
  const ticks = drawn.map((index) => `M${x(index / 10).toFixed(1)} ${BASE_PX}v${index % labelled === 0 ? 6 : 3}`).join("");
  const named = tenths.filter((index) => index % labelled === 0);
  return svg`<path class="base" d="M4 ${BASE_PX}H${x(top_s)}" /><path class="thin" d=${ticks} />
    ${named.map((index) => svg`<text class="ax" x=${x(index / 10)} y="73" text-anchor=${index === 0 ? "start" : "middle"}>${
      index === 0 ? "0" : `${number(index / 10, 1)} s`}</text>`)}`;
}

/**
 * A bar for the range with a tick for the middle; without a range, the middle alone.
 * @param {(value: number) => number} x
 * @param {number|null} value_s
 * @param {{low_s: number, high_s: number}|null} range
 * @param {number} y
 * @param {string} name
 * @param {string} label
 * @param {number} width_px
 */
function mark(x, value_s, range, y, name, label, width_px) {
  if (value_s === null || !Number.isFinite(value_s)) return nothing;
  const at = tenth(x(value_s));
  const [from, to] = range ? [tenth(x(range.low_s)), tenth(x(range.high_s))] : [at - 3, at + 3];
  const before = to > width_px - 74;
  return svg`<rect class=${name} x=${from} y=${y} width=${Math.max(2, to - from)} height="12" />
    ${range ? svg`<path class="middle ${name}" d=${name.startsWith("plan") ? `M${at} ${y}v12` : `M${at} ${y - 2}v16`} />` : nothing}
    <text class="lab ${name}" x=${before ? from - 6 : to + 6} y=${y + 10} text-anchor=${before ? "end" : "start"}>${label}</text>`;
}

/** Less than a tenth of a pixel is not seen and not drawn anew. @param {number} value_px */
function tenth(value_px) {
  return Math.round(value_px * 10) / 10;
}
