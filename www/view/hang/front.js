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
import { partRows, partsTable } from "../parts_table.js";
import { byRows, whole } from "./blocks.js";
import { checkBar, measure, numbersOf } from "./paper.js";

/**
 * @param {Scene} scene
 * @param {HangSurface[]} surfaces
 * @returns {import("./blocks.js").Section}
 */
export function frontPage(scene, surfaces) {
  const { document, plan, state: { units } } = scene;
  const { width_m, length_m, height_m } = document.room;
  const sides = [width_m, length_m, height_m].map((side_m) => measure(side_m, units)).join(" × ");
  const intro = html`<p>${document.title}: ${sides}${units === "metric" ? " m" : ""} (width, length, height), ${volume(width_m * length_m * height_m, units)}.</p>
    <p class="result">${resultSentence(scene)}</p>`;
  const nothingYet = html`<p class="nothing">Nothing to hang yet. The next sheet has the room with its bounce marks: where a first piece would do most.</p>`;
  return {
    title: planLabel(plan.name),
    blocks: [
      whole(intro), ...(surfaces.length > 0 ? [...parts(scene), whole(where(surfaces)), whole(tools(surfaces))] : [whole(nothingYet)]),
      whole(html`<p class="paper-foot">${FOOT}</p>${checkBar}`),
    ],
  };
}

/** @param {Scene} scene */
function parts({ document, plan, state: { units } }) {
  return byRows(partRows(document, plan, units), (rows) => html`<h2>Parts</h2>${partsTable(rows)}`);
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
    numbersOf(items)}`)}.</p>`;
}

/** @param {HangSurface[]} surfaces */
function tools(surfaces) {
  return html`<h2>Tools</h2><p>${sentence(toolsFor(surfaces.flatMap(({ items }) => items)).join(", "))}.</p>`;
}
