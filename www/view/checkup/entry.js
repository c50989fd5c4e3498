/**
 * One measured decay: its sentence, its drawing, and its figures as a table in which they can be changed.
 *
 * @import { CheckupEntry, Measured } from "../../model/types.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing } from "../../vendor.js";
import { checkupChart } from "../../chart/checkup.js";
import { readingOf } from "../../model/checkup_words.js";
import { frequency, number } from "../../model/format.js";
import { planName, sentence } from "../../model/words.js";
import { isReadOnly } from "../scene.js";
import { planPick } from "./form.js";
import { timeField } from "./time_field.js";

/** A drawing of octaves needs no more, px. */
const WIDEST_PX = 560;

/**
 * @param {Scene} scene
 * @param {Measured} entry
 * @param {number} index
 * @param {CheckupEntry|null} said  null while it is being computed
 * @param {number} width_px
 */
export function entryPart(scene, entry, index, said, width_px) {
  const name = planName(entry.plan);
  const title = `Measured in ${name === "Now" ? "the room as it is" : name}`;
  return html`<section class="measured" aria-label="Check-up ${index + 1}"><h3>${title}${said && !said.used ? ", not used" : ""}</h3>
    ${said ? html`<p class="says">${sentence(readingOf(said))}. ${said.sentence}</p>
      ${checkupChart({ ...said, label: `${title}: measured and predicted decay by band; the table below has the figures`, width_px: Math.min(width_px, WIDEST_PX) })}
      <p class="axis-words">Decay, s, over frequency, Hz. Cross: measured. Hollow: range as the room is described.${said.after ? " Solid: range after your check-up." : ""}${
        said.counted.every(Boolean) ? "" : " Pale: the room rings at single notes there; shown only."}</p>` : nothing}
    ${table(scene, entry, index, said)}
    ${isReadOnly(scene) ? nothing : html`<p class="acts">${planPick(scene, entry.plan, (plan) => scene.dispatch({ type: "set-measured", index, entry: { ...entry, plan } }))}
      <button type="button" class="word-button" @click=${() => scene.dispatch({ type: "remove-measured", index })}>Remove this check-up</button></p>`}</section>`;
}

/**
 * @param {Scene} scene
 * @param {Measured} entry
 * @param {number} index
 * @param {CheckupEntry|null} said
 */
function table(scene, entry, index, said) {
  return html`<div class="scroll" tabindex="0"><table><caption>Decay in seconds, with 8-in-10 ranges</caption>
    <thead><tr><th scope="col">Band</th><th scope="col">measured</th><th scope="col">as described</th>${said?.after ? html`<th scope="col">after your check-up</th>` : nothing}</tr></thead>
    <tbody>${entry.bands_hz.map((hz, band) => html`<tr><th scope="row">${frequency(hz)}</th><td>${timeField({
      label: `Measured at ${frequency(hz)}`, time_s: entry.decay_s[band], fixed: isReadOnly(scene), commit: (time_s) => scene.dispatch(changed(entry, index, band, time_s)),
    })}</td><td>${span(said?.before, band)}</td>${said?.after ? html`<td>${span(said.after, band)}</td>` : nothing}</tr>`)}</tbody></table></div>`;
}

/** @param {import("../../model/types.js").Predicted|undefined} predicted @param {number} band */
function span(predicted, band) {
  return predicted ? `${number(predicted.low_s[band], 2)}–${number(predicted.high_s[band], 2)}` : "–";
}

/**
 * A figure that is cleared takes its band out, and the last one the whole entry.
 * @param {Measured} entry @param {number} index @param {number} band @param {number|null} time_s
 * @returns {import("../../model/actions.js").Action}
 */
export function changed(entry, index, band, time_s) {
  if (time_s !== null) return { type: "set-measured", index, entry: { ...entry, decay_s: entry.decay_s.map((one, place) => (place === band ? time_s : one)) } };
  if (entry.bands_hz.length === 1) return { type: "remove-measured", index };
  const rest = (/** @type {number[]} */ row) => row.filter((_, place) => place !== band);
  return { type: "set-measured", index, entry: { ...entry, bands_hz: rest(entry.bands_hz), decay_s: rest(entry.decay_s) } };
}
