/**
 * What the next piece buys: piece after piece along the best order, what each brings by itself and for its money, from what the
 * pieces that are there bring already.
 *
 * @import { Advice } from "../model/advice_types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { gainsChart } from "../chart/gains.js";
import { eachBite, flatFrom } from "../model/advice.js";
import { piecesWords, todayWords } from "../model/advice_words.js";
import { money, number, seconds } from "../model/format.js";
import { WIDEST_PX, spendingOf } from "./advice_money.js";

/**
 * @param {Scene} scene
 * @param {Advice} advice
 * @param {number} width_px
 */
export function bitesPart(scene, advice, width_px) {
  const { best } = advice.found;
  if (!best || !advice.about || best.order.length === 0) return nothing;
  const spending = spendingOf(advice);
  const bites = eachBite(best.order, best.today);
  const flat = flatFrom(bites, advice.about.objective.figures);
  const counts = bites.map((_, index) => bites.slice(0, index + 1).reduce((sum, { pieces }) => sum + pieces.length, 0));
  const spent = (/** @type {number} */ index) => (spending.isPriced ? bites[index].price : counts[index]);
  const today = spending.today(best.today);
  const already = todayWords(best.today);
  return html`<h3>What the next piece buys</h3>${already ? html`<p class="says">${already}</p>` : nothing}
    ${gainsChart({ title: `Gain in steps, piece after piece, over ${spending.name.toLowerCase()}`, today, points: bites.map((bite, index) => ({ spent: spent(index), gained: today.gained + bite.gained })), flat_from: flat === null ? null : spent(flat), at: null, width_px: Math.min(WIDEST_PX, width_px), say: spending.say })}
    <p class="says">${flat === null ? "Up to its end each piece of this order still adds something." : `The curve flattens after ${counts[flat] === 1 ? "the first piece" : `${counts[flat]} pieces`}${spending.isPriced ? `, at about ${spending.say(bites[flat].price)}${spending.of_what}` : ""}: what comes later changes little.`}</p>
    ${table(scene, advice, bites, spending)}`;
}

/**
 * @param {Scene} scene
 * @param {Advice} advice
 * @param {ReturnType<typeof eachBite>} bites
 * @param {ReturnType<typeof spendingOf>} spending
 */
function table({ state }, { document, about }, bites, { isPriced, of_what }) {
  return html`<details class="figures"><summary>Piece after piece</summary><div class="wide-table"><table>
    <thead><tr><th scope="col">next</th><th scope="col">gain</th><th scope="col">gain per piece</th>${isPriced ? html`<th scope="col">gain per ${money(100, document.currency)}</th><th scope="col">${of_what === "" ? "spent" : "known prices"} by then</th>` : nothing}<th scope="col">decay then</th></tr></thead>
    <tbody>${bites.map((bite) => html`<tr><th scope="row">${piecesWords(document, about?.stand_ins ?? [], bite.pieces, state.units)}</th><td>${steps(bite.gain)}</td><td>${steps(bite.per_piece)}</td>
      ${isPriced ? html`<td>${bite.per_hundred === null ? "–" : steps(bite.per_hundred)}</td><td>${money(Math.round(bite.price), document.currency)}</td>` : nothing}<td>${bite.middle_s === null ? "–" : seconds(bite.middle_s)}</td></tr>`)}</tbody></table></div></details>`;
}

/** @param {number} gain @returns {string} */
function steps(gain) {
  return `${number(gain, 2)} steps`;
}
