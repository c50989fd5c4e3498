/**
 * A page for one surface: what to mind first, the elevation, every piece by its measures, fixing marks, lines to fill in.
 *
 * @import { HangItem, HangSurface } from "../../model/hang.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing } from "../../vendor.js";
import { CAUTION_TEXTS } from "../../model/caution_texts.js";
import { cautions } from "../../model/cautions.js";
import { mass, number } from "../../model/format.js";
import { isWall } from "../../model/geometry.js";
import { hangSize, measuredFrom, seenFrom } from "../../model/hang.js";
import { sentence, surfaceName } from "../../model/words.js";
import { shortName } from "../words.js";
import { byRows, whole } from "./blocks.js";
import { elevation } from "./elevation.js";
import { fixingFigures } from "./fixings.js";
import { shortResult } from "./front.js";
import { bySize, checkBar, measure, tickBox } from "./paper.js";

/**
 * @param {Scene} scene
 * @param {HangSurface} on
 * @param {number} high_px  highest that the surface is drawn
 * @returns {import("./blocks.js").Section}
 */
export function surfacePage(scene, { surface, items }, high_px) {
  const { units } = scene.state;
  const from = measuredFrom(surface);
  const intro = html`<p>${seenFrom(surface)} Measures in ${units === "imperial" ? "feet and inches" : "metres"}, from ${from.away} and from ${from.along}.
      Ring and diamond: where the sound of the left and the right loudspeaker bounces to the seat.</p>
    ${surface === "floor" ? nothing : html`<p class="first-caution">${CAUTION_TEXTS.drilling}</p>`}`;
  return {
    title: sentence(surfaceName(surface)),
    blocks: [
      whole(intro), ...elevation(scene, surface, items, high_px).map(whole), ...byRows(items, (some) => measuresTable(scene, some, from)),
      whole(html`<div class="at-the-wall">${fixingFigures(scene, items)}${fillIn(scene, items)}</div>`), ...surfaceCautions(scene, items),
      whole(html`<p class="sentence">${shortResult(scene)}</p>${checkBar}`),
    ],
  };
}

/**
 * @param {Scene} scene
 * @param {HangItem[]} items
 * @param {ReturnType<typeof measuredFrom>} from
 */
function measuresTable({ state: { units } }, items, { along, away, low }) {
  return html`<table class="measures"><thead>
      <tr><td colspan="2"></td><th scope="colgroup" colspan="2">from ${along}</th><th scope="colgroup" colspan="2">from ${away}</th><td colspan="3"></td></tr>
      <tr><th scope="col">No</th><th scope="col" class="text">Piece</th><th scope="col">near edge</th><th scope="col">centre</th>
      <th scope="col">${low}</th><th scope="col">centre</th><th scope="col">weight</th><th scope="col">up</th><th scope="col">level</th></tr></thead>
    <tbody>${items.map((item) => html`<tr><td>${item.index + 1}</td>
      <td class="text">${shortName(item.kind.name)}, ${bySize(hangSize(item), units)}${held(item, units)}</td>
      <td><b>${measure(item.edge_m, units)}</b></td><td>${measure(item.centre_m, units)}</td><td><b>${measure(item.low_m, units)}</b></td><td>${measure(item.middle_m, units)}</td>
      <td>${item.kind.mass_kg === undefined ? "not known" : mass(item.kind.mass_kg, units)}</td><td>${tickBox}</td><td>${tickBox}</td></tr>`)}</tbody></table>`;
}

/**
 * How it is held: its fixing marks, or where and how it stands.
 * @param {HangItem} item
 * @param {"metric"|"imperial"} units
 */
function held({ how, piece, fixings }, units) {
  const alongs = [...new Set(fixings.map(({ u_m }) => measure(u_m, units)))].join(", ");
  const aways = [...new Set(fixings.map(({ v_m }) => measure(v_m, units)))].join(", ");
  const marks = fixings.length > 0 ? `${how === "rail" || how === "corner" ? "brackets" : "fixing marks"} at ${alongs}; ${how === "overhead" ? "and" : "height"} ${aways}` : "";
  const words = {
    hangs: marks || "no drilling: lean it or hang it from what is there", overhead: marks || "no drilling: your limit", rail: marks || "rail held without drilling",
    corner: marks ? `across the corner, ${marks}, and the same on the other wall` : "across the corner; no drilling: your limit", lies: "lies flat",
    stands: piece.place === "stand" ? `on feet, turned ${number(piece.turn_deg)}°, lower edge ${measure(piece.z_m, units)} up` : "stands in the corner",
  };
  return html`<small>${words[how]}</small>`;
}

/**
 * @param {Scene} scene
 * @param {HangItem[]} items
 */
function fillIn({ document, state: { units } }, items) {
  const { surface } = items[0].piece;
  if (surface === "floor") return html`<div class="fill-in"><p>Kept free of the way out and of doors ${tickBox}</p></div>`;
  const old = (document.room.conditions ?? []).some((one) => one === "old-building" || one === "textured-ceiling");
  return html`<div class="fill-in"><p class="line"><span>${isWall(surface) ? "Wall" : "Ceiling"} type</span></p><p class="line"><span>Fixing used</span></p>
    <p>${tickBox} checked for cables and pipes</p>
    <p>${tickBox} fixing rated above ${ratedAbove(items, units)}, with room to spare</p>
    ${old ? html`<p>${tickBox} old plaster: no dust before it was checked</p>` : nothing}<p>${CAUTION_TEXTS.fixing}</p></div>`;
}

/**
 * A weight that is not known counts as no weight at all, and so names none.
 * @param {HangItem[]} items
 * @param {"metric"|"imperial"} units
 */
function ratedAbove(items, units) {
  const masses = items.map(({ kind }) => kind.mass_kg);
  return masses.includes(undefined) ? "the weight of each piece, not all known" : mass(Math.max(...masses.map((mass_kg) => mass_kg ?? 0)), units);
}

/** What differs from surface to surface; the last page has all of them. @type {ReadonlySet<string>} */
const OF_SURFACE = new Set(["overhead", "sprinkler", "keep-clear", "heat", "way-out", "vent", "tipping", "damp"]);

/**
 * Those of its pieces; the one about drilling stands above the drawing.
 * @param {Scene} scene
 * @param {HangItem[]} items
 */
function surfaceCautions({ document, plan }, items) {
  /** @type {Map<string, string>} */
  const texts = new Map();
  for (const { index } of items) for (const { id, text } of cautions(document, plan, plan.pieces[index])) if (OF_SURFACE.has(id)) texts.set(id, text);
  return byRows([...texts.values()], (some) => html`<ul class="paper-cautions">${some.map((text) => html`<li>${text}</li>`)}</ul>`);
}
