/**
 * Bounces at the seat as a table: for each surface and loudspeaker how late, how strong today and with the plan, and
 * what lies at the point.
 *
 * @import { Lit, PlanReport, Reflection, SurfaceName } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing, svg } from "../vendor.js";
import { milliseconds, number } from "../model/format.js";
import { firstBounce, isLit } from "../model/lit.js";
import { partName, planLabel, sentence, surfaceName } from "../model/words.js";
import { absentNote } from "./absent.js";
import { SHORT_LABEL, besideOf } from "./late.js";
import { presenceLevel, presenceOf } from "./levels.js";
import { inTheWay } from "./things.js";

/** In the order of the table. @type {SurfaceName[]} */
const ROWS = ["left", "right", "front", "back", "floor", "ceiling"];

/** @param {Scene} scene */
export function bouncesTable(scene) {
  const { shown, listening } = scene;
  const beside = besideOf(scene);
  if (!listening.seat || listening.loudspeakers.length === 0) {
    return html`<section class="part bounces" aria-labelledby="bounces-title"><h2 id="bounces-title">Bounces at the seat</h2>
      ${absentNote(scene, "Bounces need loudspeakers and a seat")}</section>`;
  }
  return html`<section class="part bounces" aria-labelledby="bounces-title" tabindex=${scene.viewport.width === "narrow" ? 0 : nothing}><header><h2 id="bounces-title">Bounces at the seat</h2>
      <span>${beside.report ? reading(shown ?? beside.report) : nothing} Levels 1–4 kHz, dB beside the direct sound</span></header>
    ${beside.report && shown ? table(scene, beside.report, shown, beside.label) : nothing}</section>`;
}

/**
 * The one to look at first.
 * @param {PlanReport} report
 */
function reading({ reflections }) {
  const first = reflections.filter((one) => one.order === 1 && one.surfaces.length > 0);
  if (first.length === 0) return nothing;
  const strongest = first.reduce((a, b) => (presenceOf(b.level_db) > presenceOf(a.level_db) ? b : a));
  return `Strongest: ${surfaceName(strongest.surfaces[0])}, ${presenceLevel(strongest)}\u202fdB, ${milliseconds(strongest.delay_s)} late.`;
}

/**
 * A row is drawn anew only if one of its figures changes, which in a drag is seldom.
 * @param {Scene} scene
 * @param {PlanReport} now
 * @param {PlanReport} shown
 * @param {string} beside  what `now` is
 */
function table(scene, now, shown, beside) {
  const planned = scene.state.shown > 0;
  const plan = planLabel(scene.plan.name, SHORT_LABEL);
  const pair = [0, 1].slice(0, scene.listening.loudspeakers.length);
  const { lit } = scene.state.shows;
  const levels = planned ? `level ${beside === "today" ? beside : `with ${beside}`} and with ${plan}` : "level today";
  return html`<table><caption class="unseen">First bounces: delay after the direct sound, what lies at the point, ${levels}</caption>
    <thead>${guard([pair.length, planned, plan, beside], () => headRow(pair, planned, plan, beside))}</thead>
    <tbody>${ROWS.map((surface) => {
      const cells = pair.map((one) => cellsOf(scene, surface, firstBounce(now, surface, one), firstBounce(shown, surface, one)));
      return guard([surface, planned, lit?.surface === surface && lit, ...cells.flatMap((texts) => Object.values(texts))], () => bodyRow(surface, cells, planned, lit ?? null));
    })}</tbody></table>`;
}

/**
 * @param {number[]} pair
 * @param {boolean} planned
 * @param {string} plan
 * @param {string} beside
 */
function headRow(pair, planned, plan, beside) {
  return html`<tr><th scope="col"><span class="unseen">Surface</span></th>${pair.map((one) => html`
    <th scope="col" class="first">${sign(one)}<span class="roomy"> ${one === 0 ? "left" : "right"},</span> ms</th>
    <th scope="col" class="there">there</th><th scope="col">${beside}</th>${planned ? html`<th scope="col">${plan}</th>` : nothing}`)}</tr>`;
}

/**
 * A row lights its marks while it is pointed at or has the focus, and its marks light it. Tab stops at the first row or at
 * the one that is lit; arrows go on.
 * @param {SurfaceName} surface
 * @param {Cells[]} cells  of each loudspeaker
 * @param {boolean} planned
 * @param {Lit|null} lit
 */
function bodyRow(surface, cells, planned, lit) {
  const isHere = lit?.surface === surface;
  return html`<tr class=${isHere ? "is-lit" : ""} data-bounce=${surface} tabindex=${isHere || (!lit && surface === ROWS[0]) ? 0 : -1}><th scope="row">${rowName(surface)}</th>${cells.map((texts, one) => {
    const name = isLit(lit, surface, one) ? " is-lit" : "";
    const key = `${surface} ${one}`;
    return html`
    <td class="first${name}" data-bounce=${key}>${texts.delay}</td><td class="there${name}" data-bounce=${key} title=${texts.there}>${texts.isPiece ? html`<b>${texts.there}</b>` : texts.there}</td>
    <td class=${name.trim()} data-bounce=${key}>${texts.today}</td>${planned ? html`<td class="p${name}" data-bounce=${key}>${texts.planned}</td>` : nothing}`;
  })}</tr>`;
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

/** @typedef {{delay: string, there: string, isPiece: boolean, today: string, planned: string}} Cells */

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {Reflection|undefined} today
 * @param {Reflection|undefined} planned
 * @returns {Cells}
 */
function cellsOf(scene, surface, today, planned) {
  const late = planned ?? today;
  return {
    delay: late ? number(late.delay_s * 1000, 1) : "–", there: late ? there(scene, surface, late) : "",
    isPiece: late !== undefined && late.pieces.length > 0 && inTheWay(scene, late) === "", today: presenceLevel(today), planned: presenceLevel(planned),
  };
}

/**
 * @param {Scene} scene
 * @param {SurfaceName} surface
 * @param {Reflection} reflection
 */
function there(scene, surface, reflection) {
  const before = inTheWay(scene, reflection);
  if (before) return before;
  if (reflection.pieces.length > 0) return reflection.pieces.map((index) => index + 1).join(", ");
  const part = scene.document.room.surfaces[surface].parts?.[reflection.parts[0]];
  return part ? partName(part).replace(/^the /, "") : "bare";
}
