/**
 * Bounces at the seat as a table: for each surface and loudspeaker how late, how strong today and with the plan, and
 * what lies at the point.
 *
 * @import { PlanReport, Reflection, SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing, svg } from "../vendor.js";
import { number } from "../model/format.js";
import { partName, planName, sentence, surfaceName } from "../model/words.js";

/** In the order of the table. @type {SurfaceName[]} */
const ROWS = ["left", "right", "front", "back", "floor", "ceiling"];

/** The thirds from 1 kHz to 4 kHz, as indices of the 24 bands. */
const PRESENCE_FROM = 13;
const PRESENCE_TO = 19;

/** @param {Scene} scene */
export function bouncesTable(scene) {
  const { now, shown, listening } = scene;
  if (!listening.seat || listening.loudspeakers.length === 0) {
    return html`<section class="part bounces" aria-labelledby="bounces-title"><h2 id="bounces-title">Bounces at the seat</h2>
      <p class="also">Bounces need loudspeakers and a seat; this plan has none.</p></section>`;
  }
  return html`<section class="part bounces" aria-labelledby="bounces-title"><header><h2 id="bounces-title">Bounces at the seat</h2>
      <span>1–4 kHz, dB beside the direct sound</span></header>
    ${now && shown ? table(scene, now, shown) : nothing}</section>`;
}

/**
 * @param {Scene} scene
 * @param {PlanReport} now
 * @param {PlanReport} shown
 */
function table(scene, now, shown) {
  const planned = scene.state.shown > 0;
  const plan = planName(scene.plan.name);
  const pair = [0, 1].slice(0, scene.listening.loudspeakers.length);
  const heads = pair.map((one) => html`
    <th scope="col" class="first">${sign(one)}<span class="roomy"> ${one === 0 ? "left" : "right"},</span> ms</th>
    <th scope="col" class="there">there</th><th scope="col">today</th>${planned ? html`<th scope="col">${plan}</th>` : nothing}`);
  const levels = planned ? `level today and with ${plan}` : "level today";
  return html`<table><caption class="unseen">First bounces: delay after the direct sound, what lies at the point, ${levels}</caption>
    <thead><tr><th scope="col"><span class="unseen">Surface</span></th>${heads}</tr></thead>
    <tbody>${ROWS.map((surface) => html`<tr><th scope="row">${rowName(surface)}</th>
      ${pair.map((one) => cells(scene, surface, find(now, surface, one), find(shown, surface, one)))}</tr>`)}</tbody></table>`;
}

/** @param {SurfaceName} surface */
function rowName(surface) {
  const [first, ...rest] = sentence(surfaceName(surface)).split(" ");
  return html`${first}${rest.length > 0 ? html`<span class="roomy"> ${rest.join(" ")}</span>` : nothing}`;
}

/** @param {number} loudspeaker */
function sign(loudspeaker) {
  return html`<svg class="sign" width="12" height="12" viewBox="-6 -6 12 12" aria-hidden="true">${
    loudspeaker === 0 ? svg`<circle r="4.4" />` : svg`<path d="M0 -5.2L5.2 0L0 5.2L-5.2 0z" />`}</svg>`;
}

/**
 * @param {PlanReport} report
 * @param {SurfaceName} surface
 * @param {number} loudspeaker
 */
function find(report, surface, loudspeaker) {
  return report.reflections.find((one) => one.order === 1 && one.loudspeaker === loudspeaker && one.surfaces[0] === surface);
}

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {Reflection|undefined} today
 * @param {Reflection|undefined} planned
 */
function cells(scene, surface, today, planned) {
  const isPlanned = scene.state.shown > 0;
  const late = planned ?? today;
  return html`<td class="first">${late ? number(late.delay_s * 1000, 1) : "–"}</td><td class="there">${late ? there(scene, surface, late) : ""}</td>
    <td>${level(today)}</td>${isPlanned ? html`<td class="p">${level(planned)}</td>` : nothing}`;
}

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {Reflection} reflection
 */
function there(scene, surface, reflection) {
  if (reflection.pieces.length > 0) return html`<b>${reflection.pieces.map((index) => index + 1).join(", ")}</b>`;
  const part = scene.document.room.surfaces[surface].parts?.[reflection.parts[0]];
  return part ? partName(part).replace(/^the /, "") : "bare";
}

/**
 * The mean energy over the presence bands, as a level.
 * @param {Reflection|undefined} reflection
 */
function level(reflection) {
  if (!reflection) return "–";
  const bands = Array.from(reflection.level_db).slice(PRESENCE_FROM, PRESENCE_TO + 1);
  const mean = bands.reduce((sum, db) => sum + 10 ** (db / 10), 0) / bands.length;
  return mean > 0 ? number(10 * Math.log10(mean)) : "none";
}
