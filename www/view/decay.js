/**
 * The Decay strip with its sentence, and the same figures as a table.
 *
 * @import { PlanReport } from "../model/types.js"
 * @import { Beside } from "./late.js"
 * @import { Scene } from "./scene.js"
 * @typedef {{low_s: Float64Array, high_s: Float64Array}} Span  8 times in 10
 */
import { guard, html, nothing, svg } from "../vendor.js";
import { NOMINAL_HZ } from "../chart/bands.js";
import { decayChart } from "../chart/decay.js";
import { goalRange } from "../model/answer.js";
import { frequency, number } from "../model/format.js";
import { planLabel, planName } from "../model/words.js";
import { fieldWords } from "./field_words.js";
import { SHORT_LABEL, besideOf, doubtOf } from "./late.js";
import { origin } from "./origin.js";
import { figureFold } from "./rest.js";

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function decayStrip(scene, width_px) {
  const { shown, state, viewport } = scene;
  const beside = besideOf(scene);
  const now = beside.report;
  const planned = state.shown > 0 && shown ? shown : null;
  const goal = goalRange(scene.document);
  const wide = viewport.width !== "narrow";
  const doubt = doubtOf(scene);
  const now_range = (planned ? beside.ranges : doubt.ranges)?.decay ?? null;
  const plan_range = (planned && doubt.ranges?.decay) ?? null;
  return html`<section class="part decay-part" aria-labelledby="decay-title"><header><h2 id="decay-title">Decay, band by band${doubt.ranges?.checked ? ", after your check-up" : ""}</h2>
      <span>${now ? reading(planned ?? now, goal, planned ? plan_range : now_range) : nothing}</span></header>
    ${wide ? nothing : legend(scene, beside, planned !== null)}
    ${now ? decayChart({
      now_s: now.decay.t20_s,
      plan_s: planned?.decay.t20_s ?? null,
      now_range,
      plan_range,
      waiting: doubt.ranges === null && doubt.missing === "coming",
      planName: planLabel(scene.plan.name, SHORT_LABEL),
      nowName: beside.label,
      nowLook: beside.look,
      goal,
      limit_hz: (planned ?? now).room.statistics_from_hz,
      width_px,
      height_px: wide ? 165 : 150,
      labelled: wide,
    }) : nothing}
    ${now ? figureFold("These figures as a table", state.drag === null ? [now, planned, now_range, plan_range, beside.name] : null, () => figures(scene, now, planned, now_range, plan_range, beside.name)) : nothing}
    ${origin("decay", "Decay")}${guard([planned ?? now], () => fieldWords(planned ?? now))}</section>`;
}

/**
 * @param {Scene} scene
 * @param {Beside} beside
 * @param {boolean} planned
 */
function legend(scene, { name, look }, planned) {
  return html`<p class="legend">${sample(svg`<rect class=${look} x="1" y="4" width="11" height="5" />`)}${name}
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
 * @param {Span|null} range
 */
function reading(report, goal, range) {
  const sides = GOAL_BANDS.map(({ band }) => (range
    ? sideOf(range.low_s[band], range.high_s[band], goal)
    : sideOf(report.decay.t20_s[band], report.decay.t20_s[band], goal)));
  const out = sides.filter((side) => side !== "inside").length;
  const whole = range ? "the whole range lies inside" : "inside";
  if (out === 0) return `${whole} the goal in every band from 250 Hz to 4 kHz`;
  const runs = runsOf(sides);
  if (runs.length > 3) return `${out} of ${sides.length} bands from 250 Hz to 4 kHz lie ${range ? "at least partly " : ""}outside the goal`;
  const said = runs.map(({ side, from, to }) => `${side} ${from === to ? `at ${frequency(from)}` : `from ${frequency(from)} to ${frequency(to)}`}`).join(", ");
  return out === sides.length ? said : `${said}; otherwise inside the goal`;
}

/**
 * Where the goal is crossed within the range, it could go either way.
 * @param {number} low_s
 * @param {number} high_s
 * @param {{low_s: number, high_s: number}} goal
 * @returns {"too long"|"too short"|"in doubt"|"inside"}
 */
function sideOf(low_s, high_s, goal) {
  if (low_s > goal.high_s) return "too long";
  if (high_s < goal.low_s) return "too short";
  return high_s > goal.high_s || low_s < goal.low_s ? "in doubt" : "inside";
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
 * @param {Span|null} now_range
 * @param {Span|null} plan_range
 * @param {string} beside  what the first figures are of
 */
function figures(scene, now, planned, now_range, plan_range, beside) {
  const plan = planLabel(scene.plan.name);
  const { ranges } = scene.offers;
  return html`<div class="scroll" tabindex="0"><table><caption>Decay time in seconds${ranges ? ", with its 8-in-10 range" : ""}${doubtOf(scene).ranges?.checked ? ", after your check-up" : ""}. Sabine and Eyring are the classical formulas, for comparison.</caption>
    <thead><tr><th scope="col">Band</th>${heads(beside, ranges)}<th scope="col">Sabine</th><th scope="col">Eyring</th>
      ${planned ? html`${heads(plan, ranges)}<th scope="col">Sabine, ${plan}</th><th scope="col">Eyring, ${plan}</th>` : nothing}</tr></thead>
    <tbody>${NOMINAL_HZ.map((hz, band) => html`<tr><th scope="row">${frequency(hz)}</th>
      ${cells(now, ranges, now_range, band)}${planned ? cells(planned, ranges, plan_range, band) : nothing}</tr>`)}</tbody></table></div>`;
}

/**
 * @param {string} name
 * @param {boolean} ranged  whether ranges are there or will be
 */
function heads(name, ranged) {
  return html`<th scope="col">${name}</th>${ranged ? html`<th scope="col">range</th>` : nothing}`;
}

/**
 * @param {PlanReport} report
 * @param {boolean} ranged
 * @param {Span|null} range
 * @param {number} band
 */
function cells({ decay }, ranged, range, band) {
  /** @param {number} value */
  const text = (value) => (Number.isFinite(value) ? number(value, 2) : "–");
  const span = range ? `${text(range.low_s[band])}–${text(range.high_s[band])}` : "–";
  return html`<td>${text(decay.t20_s[band])}</td>${ranged ? html`<td>${span}</td>` : nothing}
    <td>${text(decay.sabine_s[band])}</td><td>${text(decay.eyring_s[band])}</td>`;
}
