/**
 * The last page: what to mind in full, what was assumed, how to check it afterwards, and the way back to the plan.
 *
 * @import { KeepClear } from "../../model/types.js"
 * @import { Around } from "../hang.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing } from "../../vendor.js";
import { assumedWords } from "../../model/assumed_words.js";
import { CLAP } from "../../model/caution_texts.js";
import { cautions } from "../../model/cautions.js";
import { frequency, length, number } from "../../model/format.js";
import { defaultMargin } from "../../model/parts.js";
import { OCTAVES_HZ, octaveMeans } from "../../model/shares.js";
import { VERSION } from "../../model/version.js";
import { planLabel, surfaceName } from "../../model/words.js";
import { doubtOf } from "../late.js";
import { byRows, whole } from "./blocks.js";
import { codeSquare } from "./square.js";

/**
 * @param {Scene} scene
 * @param {Around} around
 * @returns {import("./blocks.js").Section}
 */
export function lastPage(scene, around) {
  const { document, plan, shown } = scene;
  const assumed = assumedWords(document);
  const notes = shown?.notes ?? [];
  const minded = [...cautions(document, plan, null).map(({ text }) => text), ...narrowZones(scene).map((zone) => narrowWords(zone, scene.state.units))];
  return {
    title: "Mind, assume, check",
    blocks: [
      ...byRows(minded, (texts) => html`<h2>Cautions</h2><ul class="paper-cautions">${texts.map((text) => html`<li>${text}</li>`)}</ul>`),
      whole(html`<h2>Assumed</h2><p>${assumed.length > 0 ? `Nobody has looked at these yet: ${assumed.join(", ")}.` : "Everything that was asked for was entered or confirmed."}
      Ranges hold 8 times in 10 if the room is as described. ${notes.join(" ")}</p>`),
      whole(html`<h2>Check afterwards</h2><p>Listen first: the same record, the same loudness, before and after. Then measure the decay at the seat with any measuring program,
      octave by octave, and write it here; entered on the page, it narrows all ranges. ${CLAP}</p>${checkTable(scene)}`),
      whole(html`<h2>The plan again</h2>${wayBack(around)}<p class="version">Seatward ${VERSION}</p>`),
    ],
  };
}

/**
 * Zones with less margin than the page plans with: that is the person's own choice, and it is said.
 * @param {Scene} scene
 * @returns {KeepClear[]}
 */
function narrowZones({ document }) {
  return (document.room.keep_clear ?? []).filter(({ why, margin_m }) => margin_m < defaultMargin(why) - 1e-6);
}

/**
 * @param {KeepClear} zone
 * @param {"metric"|"imperial"} units
 */
function narrowWords({ why, surface, margin_m }, units) {
  return `The margin round the ${why} on the ${surfaceName(surface)} was set to ${length(margin_m, units)}, less than the ${length(defaultMargin(why), units)} that this page plans with.`;
}

/** What the head of a row has room for. */
const SHORT = 16;

/** @param {Scene} scene */
function checkTable(scene) {
  const { now, shown, plan, state } = scene;
  if (!now || !shown) return nothing;
  const { ranges, today } = doubtOf(scene);
  const octaves = [1, 2, 3, 4, 5, 6];
  /** @param {import("../../model/types.js").PlanReport} report @param {typeof ranges} range */
  const cells = (report, range) => {
    const middle = octaveMeans(report.decay.t20_s);
    const [low, high] = range ? [octaveMeans(range.decay.low_s), octaveMeans(range.decay.high_s)] : [middle, middle];
    return octaves.map((octave) => html`<td>${!Number.isFinite(middle[octave]) ? "–" : range ? `${number(low[octave], 2)}–${number(high[octave], 2)}` : `about ${number(middle[octave], 2)}`}</td>`);
  };
  return html`<table class="to-measure"><thead><tr><th scope="col" class="text">Decay, s</th>${octaves.map((octave) => html`<th scope="col">${frequency(OCTAVES_HZ[octave])}</th>`)}</tr></thead>
    <tbody><tr><th scope="row" class="text">today</th>${cells(now, today)}</tr>
      ${state.shown > 0 ? html`<tr><th scope="row" class="text">${planLabel(plan.name, SHORT)}</th>${cells(shown, ranges)}</tr>` : nothing}
      <tr class="blank"><th scope="row" class="text">measured</th>${octaves.map(() => html`<td></td>`)}</tr></tbody></table>`;
}

/** @param {Around} around */
function wayBack({ link }) {
  if (link === "") return html`<p>The link was not ready. Open the sheet once more before printing.</p>`;
  const square = codeSquare(link);
  const anchor = html`<a class="link" href=${link} target="_blank" rel="noopener">the link of this plan</a>`;
  // Nobody types some thousand characters off paper: what is printed is the square, and on a screen the link can be pressed.
  return square ? html`<p>Point a camera at the square, or on a screen press ${anchor}.</p>${square}`
    : html`<p>This plan is too long for a code square, so paper cannot hold it. On a screen press ${anchor}, and keep the file of the plan.</p>`;
}
