/**
 * The picture of the answer: the goal, the plan and today along one axis of decay time.
 */
import { nothing, scaleLinear, svg } from "../vendor.js";
import { number } from "../model/format.js";

/**
 * @typedef {object} AnswerData
 * @property {number|null} now_s
 * @property {number|null} plan_s  null while the room as it is is shown
 * @property {string} planName
 * @property {{low_s: number, high_s: number}} goal
 * @property {number} width_px
 */

const HEIGHT_PX = 74;
const BASE_PX = 56;

/** @param {AnswerData} data */
export function answerChart(data) {
  const values = [data.now_s ?? 0, data.plan_s ?? 0, data.goal.high_s].filter(Number.isFinite);
  const top_s = Math.ceil(Math.max(...values) * 10 * 1.15 + 1) / 10;
  const x = scaleLinear().domain([0, top_s]).range([4, data.width_px - 4]);
  return svg`<svg class="chart verdict" viewBox="0 0 ${data.width_px} ${HEIGHT_PX}" width=${data.width_px} height=${HEIGHT_PX}
    role="img" aria-label="The same as the sentence, along one line">
    ${goalRegion(x, data.goal)}${axis(x, top_s)}
    ${mark(x, data.plan_s, 22, "plan", data.planName, data.width_px)}
    ${mark(x, data.now_s, 38, "now", "today", data.width_px)}
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
 * @param {(value: number) => number} x
 * @param {number|null} value_s
 * @param {number} y
 * @param {string} name
 * @param {string} label
 * @param {number} width_px
 */
function mark(x, value_s, y, name, label, width_px) {
  if (value_s === null || !Number.isFinite(value_s)) return nothing;
  const at = x(value_s);
  const before = at > width_px - 80;
  return svg`<rect class=${name} x=${at - 3} y=${y} width="6" height="12" />
    <text class="lab ${name}" x=${before ? at - 9 : at + 9} y=${y + 10} text-anchor=${before ? "end" : "start"}>${label}</text>`;
}
