/**
 * The check-up: what would make the range surer, the decays that were measured, and a form for another one.
 *
 * @import { Scene } from "../scene.js"
 */
import { html, nothing } from "../../vendor.js";
import { CLAP } from "../../model/caution_texts.js";
import { secondsRange } from "../../model/format.js";
import { factorWords, surerList } from "../../model/checkup_words.js";
import { planName } from "../../model/words.js";
import { isReadOnly } from "../scene.js";
import { entryPart } from "./entry.js";
import { entryForm } from "./form.js";

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function checkupBody(scene, width_px) {
  const { state, document } = scene;
  const last = state.checkup;
  const fresh = last?.document === document && last.plan === state.shown;
  const result = fresh ? last.result : null;
  const report = result?.checkup ?? null;
  const measured = document.measured ?? [];
  return html`<div class="checkup" aria-busy=${fresh ? "false" : "true"}>
    ${surerPart(scene, fresh, result)}
    <p class="caution">${CLAP} Measure from the seat, loudspeakers as the source if you can, doors and windows as usual.</p>
    ${measured.length > 0 ? html`<p class="says" role="status">${report ? report.sentence : fresh ? "The check-up could not be computed here." : "The check-up is catching up."}</p>` : nothing}
    ${report ? learnt(report) : nothing}${report ? causes(report) : nothing}
    ${measured.map((entry, index) => entryPart(scene, entry, index, report?.entries[index] ?? null, width_px))}
    ${isReadOnly(scene) ? nothing : entryForm(scene)}</div>`;
}

/**
 * @param {Scene} scene
 * @param {boolean} fresh
 * @param {import("../../model/types.js").Checkup|null} result
 */
function surerPart({ plan }, fresh, result) {
  const name = planName(plan.name);
  return html`<section aria-labelledby="surer-title"><h3 id="surer-title">What would make this surer?</h3>
    ${result ? html`<p class="also">For ${name === "Now" ? "the room as it is" : name}, now ${secondsRange(result.surer.now.low_s, result.surer.now.high_s)}: what it would be if you knew one of these to be as ${
      result.checkup?.used ? "your check-up makes likeliest" : "described"}.</p>
      <ol class="surer">${surerList(result.surer).map(({ what, how, then, narrower }) => html`<li><b>${what}.</b> ${how} Then ${then} (${narrower}).</li>`)}</ol>`
    : html`<p class="also">${fresh ? "This could not be computed here." : "Being computed."}</p>`}</section>`;
}

/** @param {import("../../model/types.js").CheckupReport} report */
function learnt({ learnt: list }) {
  return list.length === 0 ? nothing : html`<details class="one-fact"><summary>What the room turned out to absorb</summary>
    <ul>${list.map((one) => html`<li>${one.words}: ${factorWords(one)}.</li>`)}</ul></details>`;
}

/** @param {import("../../model/types.js").CheckupReport} report */
function causes({ causes: list }) {
  return list.length === 0 ? nothing : html`<div role="status"><p>Likely causes, the one that fits best first:</p>
    <ol>${list.map(({ words }) => html`<li>${words}.</li>`)}</ol></div>`;
}
