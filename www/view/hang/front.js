/**
 * The first page: what this is for, what it should do and how sure that is, the parts, the tools.
 *
 * @import { HangSurface } from "../../model/hang.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing } from "../../vendor.js";
import { answerWords, goalRange } from "../../model/answer.js";
import { FOOT } from "../../model/cautions.js";
import { confidence } from "../../model/doubt.js";
import { secondsRange, volume } from "../../model/format.js";
import { toolsFor } from "../../model/tools.js";
import { planLabel, planName, sentence, surfaceName } from "../../model/words.js";
import { doubtOf } from "../late.js";
import { partsTable } from "../parts_table.js";
import { checkBar, measure } from "./paper.js";

/**
 * @param {Scene} scene
 * @param {HangSurface[]} surfaces
 */
export function frontPage(scene, surfaces) {
  const { document, plan, state: { units } } = scene;
  const { width_m, length_m, height_m } = document.room;
  const sides = [width_m, length_m, height_m].map((side_m) => measure(side_m, units)).join(" × ");
  return html`<h1>${planLabel(plan.name)}</h1>
    <p>${document.title}: ${sides}${units === "metric" ? " m" : ""} (width, length, height), ${volume(width_m * length_m * height_m, units)}.</p>
    <p class="result">${resultSentence(scene)}</p>
    ${surfaces.length > 0 ? html`<h2>Parts</h2>${partsTable(document, plan, units)}${where(surfaces)}${tools(surfaces)}`
      : html`<p class="nothing">Nothing to hang yet. The next sheet has the room with its bounce marks: where a first piece would do most.</p>`}
    <p class="paper-foot">${FOOT}</p>${checkBar}`;
}

/**
 * The answer of the page with its range, and what follows it; of this plan by itself, whatever it is compared with.
 * @param {Scene} scene
 */
export function resultSentence(scene) {
  const { answer } = scene.state;
  return answer ? answerWords({ ...answer, other: null }, doubtOf(scene)).text.trim() : "The answer was not worked out yet.";
}

/**
 * The same in one line, for the other pages.
 * @param {Scene} scene
 */
export function shortResult(scene) {
  const { ranges } = doubtOf(scene);
  const goal = goalRange(scene.document);
  if (!ranges) return resultSentence(scene);
  const { word, rest } = confidence(ranges.mid.goal_met);
  return `With all of ${planName(scene.plan.name)} up, sound should die away in ${secondsRange(ranges.mid.low_s, ranges.mid.high_s)}. Goal ${secondsRange(goal.low_s, goal.high_s)}: ${word}${rest}.`;
}

/** @param {HangSurface[]} surfaces */
function where(surfaces) {
  return html`<h2>Where</h2><p>${surfaces.map(({ surface, items }, index) => html`${index === 0 ? nothing : "; "}${sentence(surfaceName(surface))}: ${
    items.map((item) => item.index + 1).join(", ")}`)}.</p>`;
}

/** @param {HangSurface[]} surfaces */
function tools(surfaces) {
  return html`<h2>Tools</h2><p>${sentence(toolsFor(surfaces.flatMap(({ items }) => items)).join(", "))}.</p>`;
}
