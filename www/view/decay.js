/**
 * The Decay strip with its sentence, and the same figures as a table.
 *
 * @import { PlanReport } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing, svg } from "../vendor.js";
import { NOMINAL_HZ } from "../chart/bands.js";
import { decayChart } from "../chart/decay.js";
import { goalRange } from "../model/answer.js";
import { frequency, number } from "../model/format.js";
import { planName } from "../model/words.js";

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function decayStrip(scene, width_px) {
  const { now, shown, state, viewport } = scene;
  const planned = state.shown > 0 && shown ? shown : null;
  const goal = goalRange(scene.document);
  const wide = viewport.width !== "narrow";
  return html`<section class="part decay-part" aria-labelledby="decay-title"><header><h2 id="decay-title">Decay, band by band</h2>
      <span>${now ? reading(planned ?? now, goal) : nothing}</span></header>
    ${wide ? nothing : legend(scene, planned !== null)}
    ${now ? decayChart({
      now_s: now.decay.t20_s,
      plan_s: planned?.decay.t20_s ?? null,
      planName: planName(scene.plan.name),
      goal,
      limit_hz: (planned ?? now).room.statistics_from_hz,
      width_px,
      height_px: wide ? 165 : 150,
      labelled: wide,
    }) : nothing}
    ${now ? html`<details class="figures"><summary>These figures as a table</summary>${guard([now, planned], () => figures(scene, now, planned))}</details>` : nothing}</section>`;
}

/**
 * @param {Scene} scene
 * @param {boolean} planned
 */
function legend(scene, planned) {
  return html`<p class="legend"><svg width="14" height="10" aria-hidden="true">${svg`<rect class="now" x="1" y="3" width="11" height="5" />`}</svg>today
    ${planned ? html`<svg width="14" height="10" aria-hidden="true">${svg`<rect class="plan" x="1" y="3" width="11" height="5" />`}</svg>${planName(scene.plan.name)}` : nothing}
    <svg width="20" height="14" aria-hidden="true">${svg`<rect class="goalfill" y="2" width="20" height="10" /><path class="goal" d="M0 2h20M0 12h20" />`}</svg>goal
    <svg width="16" height="14" aria-hidden="true">${svg`<rect class="unsure" width="16" height="14" />`}</svg>single notes</p>`;
}

const GOAL_BANDS = NOMINAL_HZ.map((hz, band) => ({ hz, band })).filter(({ hz }) => hz >= 250 && hz <= 4000);

/**
 * One sentence on what there is to see.
 * @param {PlanReport} report
 * @param {{low_s: number, high_s: number}} goal
 */
function reading(report, goal) {
  const bands = GOAL_BANDS.map(({ hz, band }) => ({ hz, value: report.decay.t20_s[band] }));
  const above = bands.filter(({ value }) => value > goal.high_s);
  const below = bands.filter(({ value }) => value < goal.low_s);
  if (above.length === 0 && below.length === 0) return "inside the goal from 250 Hz to 4 kHz";
  if (above.length === bands.length) return "longer than the goal in every band from 250 Hz to 4 kHz";
  if (below.length === bands.length) return "shorter than the goal in every band from 250 Hz to 4 kHz";
  const parts = [above.length > 0 ? `too long ${span(above)}` : "", below.length > 0 ? `too short ${span(below)}` : ""].filter(Boolean);
  return `${parts.join(", ")}; otherwise inside the goal`;
}

/** @param {{hz: number}[]} bands */
function span(bands) {
  const [first, last] = [bands[0].hz, bands[bands.length - 1].hz];
  return first === last ? `at ${frequency(first)}` : `from ${frequency(first)} to ${frequency(last)}`;
}

/**
 * @param {Scene} scene
 * @param {PlanReport} now
 * @param {PlanReport|null} planned
 */
function figures(scene, now, planned) {
  const plan = planName(scene.plan.name);
  /** @param {number} value */
  const cell = (value) => html`<td>${Number.isFinite(value) ? number(value, 2) : "–"}</td>`;
  return html`<div class="scroll"><table><caption>Decay time in seconds. Sabine and Eyring are the classical formulas, for comparison.</caption>
    <thead><tr><th scope="col">Band</th><th scope="col">today</th><th scope="col">Sabine</th><th scope="col">Eyring</th>
      ${planned ? html`<th scope="col">${plan}</th><th scope="col">Sabine, ${plan}</th><th scope="col">Eyring, ${plan}</th>` : nothing}</tr></thead>
    <tbody>${NOMINAL_HZ.map((hz, band) => html`<tr><th scope="row">${frequency(hz)}</th>
      ${cell(now.decay.t20_s[band])}${cell(now.decay.sabine_s[band])}${cell(now.decay.eyring_s[band])}
      ${planned ? html`${cell(planned.decay.t20_s[band])}${cell(planned.decay.sabine_s[band])}${cell(planned.decay.eyring_s[band])}` : nothing}</tr>`)}</tbody></table></div>`;
}
