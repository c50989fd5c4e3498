/**
 * Seat share: how much of what arrives at the seat is the room. A sentence, the drawing, and the same figures as a table.
 *
 * @import { Offers, PlanReport, Ranges, SeatReport } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing } from "../vendor.js";
import { sharesChart } from "../chart/shares.js";
import { frequency, length, number, percent } from "../model/format.js";
import { OCTAVES_HZ, middleShares, octaveMeans, octaveShares, roomShare } from "../model/shares.js";
import { planLabel, planName } from "../model/words.js";
import { absentNote, missingWords } from "./absent.js";
import { SHORT_LABEL, besideOf, doubtOf } from "./late.js";
import { origin } from "./origin.js";
import { figureFold } from "./rest.js";
import { steady } from "./steady.js";

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function seatShare(scene, width_px) {
  const { shown, state, plan } = scene;
  const beside = besideOf(scene);
  const now = beside.report;
  const planned = state.shown > 0 ? shown : null;
  if (missingWords(scene) !== "") {
    return html`<section class="part share-part" aria-labelledby="share-title"><header><h2 id="share-title">Seat share</h2></header>
      ${absentNote(scene, "What reaches the seat needs loudspeakers and a seat")}</section>`;
  }
  if (!now?.seat || (state.shown > 0 && !planned?.seat)) return nothing;
  const doubt = doubtOf(scene);
  const rest = state.drag === null ? [now, planned, beside.ranges, doubt.ranges, doubt.missing, plan.name, beside.name, state.units] : null;
  return html`<section class="part share-part" aria-labelledby="share-title">
    ${guard([now, planned, beside.ranges, doubt.ranges, plan.name, beside.name, width_px], () => drawing(scene, now, planned, width_px))}
    ${figureFold("These figures as a table", rest, () => tables(scene, now, planned))}
    ${origin("shares", "Seat share")}</section>`;
}

/**
 * @param {Scene} scene
 * @param {PlanReport} now
 * @param {PlanReport|null} planned
 * @param {number} width_px
 */
function drawing(scene, now, planned, width_px) {
  const { ranges } = doubtOf(scene);
  const beside = besideOf(scene);
  const reports = [
    { name: beside.label, look: beside.look, seat: now.seat, ranges: beside.ranges },
    { name: planLabel(scene.plan.name, SHORT_LABEL), look: /** @type {const} */ ("plan"), seat: planned?.seat, ranges },
  ];
  const series = reports.flatMap((one) => (one.seat ? [{
    name: one.name, look: one.look, middle: middleShares(one.seat), octaves: octaveShares(one.seat, one.ranges),
  }] : []));
  return html`<header><h2 id="share-title">Seat share</h2><span>500 Hz to 4 kHz in the bars, octaves below${planned && besideOf(scene).look === "other" ? `; left ${besideOf(scene).label}, right ${planLabel(scene.plan.name, SHORT_LABEL)}` : ""}</span></header>
    ${steady(html`<p class="says">${summary(scene, now, planned)}</p>`, scene.offers.ranges ? longest(scene, planned !== null) : [])}${sharesChart({ series, width_px })}`;
}

/**
 * @param {Scene} scene
 * @param {PlanReport} now
 * @param {PlanReport|null} planned
 */
function summary(scene, now, planned) {
  const { ranges } = doubtOf(scene);
  return summaryOf(scene, now.seat ? shareText(now.seat, besideOf(scene).ranges) : "", planned?.seat ? shareText(planned.seat, ranges) : null);
}

/**
 * "With Plan A the room makes up 62–70 % of what reaches you, today 72–80 %."
 * @param {Scene} scene
 * @param {string} before
 * @param {string|null} after  null while the room as it is is shown
 */
function summaryOf(scene, before, after) {
  if (after === null) return `The room makes up ${before} of what reaches you.`;
  const plan = planName(scene.plan.name);
  if (after === before) return `With ${plan} the room still makes up ${after} of what reaches you.`;
  return `With ${plan} the room makes up ${after} of what reaches you, ${besideOf(scene).name} ${before}.`;
}

/**
 * Before and after the ranges have come.
 * @param {Scene} scene
 * @param {boolean} planned
 */
function longest(scene, planned) {
  return ["about", "88–"].map((lead) => summaryOf(scene, `${lead} ${percent(0.88)}`, planned ? `${lead} ${percent(0.89)}` : null));
}

/**
 * @param {SeatReport} seat
 * @param {Ranges|null} ranges
 */
function shareText(seat, ranges) {
  const { middle, low, high, known } = roomShare(seat, ranges);
  if (!known) return `about ${percent(middle)}`;
  return number(low * 100) === number(high * 100) ? percent(middle) : `${number(low * 100)}–${percent(high)}`;
}

/**
 * @param {Scene} scene
 * @param {PlanReport} now
 * @param {PlanReport|null} planned
 */
function tables(scene, now, planned) {
  const { ranges } = doubtOf(scene);
  const beside = besideOf(scene);
  return html`${planned?.seat ? table(scene, planLabel(scene.plan.name), planned.seat, ranges) : nothing}
    ${now.seat ? table(scene, beside.name, now.seat, beside.ranges) : nothing}
    <p class="from">Direct sound comes straight from the loudspeaker. Early is what arrives in the first 20 ms after it.
      C50 and C80 compare the first 50 or 80 ms with all that follows; above 0 dB the early part is stronger.
      At the critical distance direct and room sound are equally strong.</p>`;
}

/**
 * @param {Scene} scene
 * @param {string} name
 * @param {SeatReport} seat
 * @param {Ranges|null} ranges
 */
function table({ state, offers }, name, seat, ranges) {
  const shares = octaveShares(seat, ranges);
  const early = ranges?.seat ? [octaveMeans(ranges.seat.early_share.low), octaveMeans(ranges.seat.early_share.high)] : null;
  const [c50, c80, critical] = [octaveMeans(seat.c50_db), octaveMeans(seat.c80_db), octaveMeans(seat.critical_distance_m)];
  return html`<div class="scroll" tabindex="0"><table><caption>Seat share, ${name}${offers.ranges ? ", with 8-in-10 ranges" : ""}${ranges?.checked ? ", after your check-up" : ""}</caption>
    <thead><tr><th scope="col">Octave</th><th scope="col">direct</th><th scope="col">first 20 ms</th><th scope="col">later</th>
      <th scope="col">C50, dB</th><th scope="col">C80, dB</th><th scope="col">critical distance</th></tr></thead>
    <tbody>${OCTAVES_HZ.map((hz, index) => html`<tr><th scope="row">${frequency(hz)}</th>
      ${shareCell(offers, shares[index].direct, shares[index].directRange)}
      ${shareCell(offers, shares[index].early, early && { low: early[0][index], high: early[1][index] })}
      ${shareCell(offers, shares[index].late, shares[index].lateRange)}
      <td>${finite(c50[index], (value) => number(value, 1))}</td><td>${finite(c80[index], (value) => number(value, 1))}</td>
      <td>${finite(critical[index], (value) => length(value, state.units))}</td></tr>`)}</tbody></table></div>`;
}

/**
 * A range that is not there leaves its place empty.
 * @param {Offers} offers
 * @param {number} share
 * @param {{low: number, high: number}|null} range
 */
function shareCell(offers, share, range) {
  const known = range && Number.isFinite(range.low + range.high);
  const shown = known ? `${number(range.low * 100)}–${number(range.high * 100)}` : "–";
  return html`<td>${finite(share, percent)}${offers.ranges ? html` <small>${shown}</small>` : nothing}</td>`;
}

/**
 * @param {number} value
 * @param {(value: number) => string} text
 */
function finite(value, text) {
  return Number.isFinite(value) ? text(value) : "–";
}
