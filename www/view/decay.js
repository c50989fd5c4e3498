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
    ${now ? html`<details class="figures"><summary>These figures as a table</summary>${guard([now, state.drag === null ? planned : "held"], () => figures(scene, now, planned))}</details>` : nothing}</section>`;
}

/**
 * @param {Scene} scene
 * @param {boolean} planned
 */
function legend(scene, planned) {
  return html`<p class="legend">${sample(svg`<rect class="now" x="1" y="4" width="11" height="5" />`)}today
    ${planned ? html`${sample(svg`<rect class="plan" x="1" y="4" width="11" height="5" />`)}${planName(scene.plan.name)}` : nothing}
    ${sample(svg`<rect class="goalfill" y="2" width="18" height="10" /><path class="goal" d="M0 2h18M0 12h18" />`)}goal
    ${sample(svg`<rect class="unsure" width="16" height="14" />`)}single notes</p>`;
}

/** @param {unknown} drawing */
function sample(drawing) {
  return html`<svg width="18" height="14" aria-hidden="true">${drawing}</svg>`;
}

const GOAL_BANDS = NOMINAL_HZ.map((hz, band) => ({ hz, band })).filter(({ hz }) => hz >= 250 && hz <= 4000);

/**
 * One sentence on what there is to see.
 * @param {PlanReport} report
 * @param {{low_s: number, high_s: number}} goal
 */
function reading(report, goal) {
  const sides = GOAL_BANDS.map(({ band }) => sideOf(report.decay.t20_s[band], goal));
  const out = sides.filter((side) => side !== "inside").length;
  if (out === 0) return "inside the goal in every band from 250 Hz to 4 kHz";
  const runs = runsOf(sides);
  if (runs.length > 3) return `${out} of ${sides.length} bands from 250 Hz to 4 kHz lie outside the goal`;
  const said = runs.map(({ side, from, to }) => `${side} ${from === to ? `at ${frequency(from)}` : `from ${frequency(from)} to ${frequency(to)}`}`).join(", ");
  return out === sides.length ? said : `${said}; otherwise inside the goal`;
}

/**
 * @param {number} value_s
 * @param {{low_s: number, high_s: number}} goal
 * @returns {"too long"|"too short"|"inside"}
 */
function sideOf(value_s, goal) {
  if (value_s > goal.high_s) return "too long";
  return value_s < goal.low_s ? "too short" : "inside";
}

/**
 * Neighbouring bands on the same side of the goal, as one run each.
 * @param {ReturnType<typeof sideOf>[]} sides
 */
function runsOf(sides) {
  /** @type {{side: string, from: number, to: number}[]} */
  const runs = [];
  sides.forEach((side, index) => {
    const { hz } = GOAL_BANDS[index];
    if (side === "inside") return;
    if (side === sides[index - 1]) runs[runs.length - 1].to = hz;
    else runs.push({ side, from: hz, to: hz });
  });
  return runs;
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
