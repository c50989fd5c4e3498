/**
 * "Why?": what the range and its words mean, and how the plans differ from each other.
 *
 * @import { Doubt } from "../model/answer.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing } from "../vendor.js";
import { CONFIDENCE_WORDS, differenceOf, differenceWords } from "../model/doubt.js";
import { count } from "../model/format.js";
import { planName, sentence } from "../model/words.js";
import { closeOnEscape } from "./escape.js";
import { origin } from "./origin.js";

/**
 * @param {Scene} scene
 * @param {Doubt} doubt
 */
export function why(scene, { ranges, differences: list, missing }) {
  if (missing === "none") return nothing;
  const { document, state } = scene;
  return html`<details class="why" @keydown=${closeOnEscape}><summary>Why?</summary>
    <div class="why-body">${guard([ranges, list.length, document.plans, state.shown], () => html`
      <p>The range holds 8 times in 10, if the room is as described.
        ${ranges ? `We drew it ${count(ranges.draws)} times: ` : "We draw it many times: "}materials, furniture, sizes and the model itself vary.
        Every plan gets the same draws.</p>
      ${differences(scene, list)}
      <p>The words have a fixed meaning. ${CONFIDENCE_WORDS}</p>
      <p>${ranges?.checked ? "It rests on your check-up." : "One measured decay time would narrow it most."} <button type="button" class="word-button" @click=${toCheckup}>${ranges?.checked ? "See it, and what else would make this surer" : "Enter one, and see what else would make this surer"}</button></p>`)}${origin("answer", "The answer")}</div></details>`;
}

/** Opens the check-up and goes there. */
function toCheckup() {
  const fold = document.querySelector("#checkup details");
  if (!(fold instanceof HTMLDetailsElement)) return;
  fold.open = true;
  fold.querySelector("summary")?.focus();
  fold.scrollIntoView({ block: "start" });
}

/**
 * The plan in hand against each other one.
 * @param {Scene} scene
 * @param {import("../model/types.js").Difference[]} list
 */
function differences({ document, state }, list) {
  const { name } = document.plans[state.shown];
  const subject = state.shown === 0 ? "Today" : sentence(planName(name));
  const lines = document.plans.flatMap((other, index) => {
    const difference = index === state.shown ? null : differenceOf(list, other.name, name);
    return difference ? [`${subject} is ${differenceWords(difference, index === 0 ? "today" : planName(other.name))}.`] : [];
  });
  return lines.length > 0 ? html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>` : nothing;
}
