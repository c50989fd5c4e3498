/**
 * Bounces off things that stand in the room, and what stands in the way of a bounce.
 *
 * @import { PlanReport, Reflection } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { number } from "../model/format.js";
import { sentence } from "../model/words.js";
import { presenceLevel } from "./levels.js";
import { figureFold } from "./rest.js";
import { furnishingName, lowerFirst, shortName } from "./words.js";

/**
 * "behind the sofa", "behind 4", or nothing if the path is free.
 * @param {Scene} scene
 * @param {Reflection} reflection
 */
export function inTheWay({ document, library }, { blocked_by = [], screened_by = [] }) {
  const things = blocked_by.flatMap((index) => {
    const kind = document.room.furnishings?.[index]?.kind;
    return kind ? [lowerFirst(shortName(furnishingName(library, document, kind)))] : [];
  });
  const names = [...new Set([...things, ...screened_by.map((index) => String(index + 1))])];
  return names.length > 0 ? `behind ${names.join(", ")}` : "";
}

/** First bounces that meet no surface of the room. @param {PlanReport|null} report */
function offThings(report) {
  return (report?.reflections ?? []).filter((one) => one.order === 1 && one.surfaces.length === 0);
}

/** @param {Reflection} one */
function keyOf(one) {
  return `${one.loudspeaker} ${one.furnishing ?? `piece ${one.pieces[0]}`} ${one.direction.map((part) => part.toFixed(2))}`;
}

/** @param {Scene} scene */
export function thingBounces(scene) {
  const { now, shown, state } = scene;
  const rows = offThings(shown).sort((a, b) => a.delay_s - b.delay_s);
  if (rows.length === 0) return nothing;
  const today = new Map(offThings(now).map((one) => [keyOf(one), one]));
  return figureFold(`${rows.length === 1 ? "1 bounce" : `${rows.length} bounces`} off furniture and screens`, [now, shown, state.document], () => html`<table><thead><tr><th scope="col" class="text">Off</th><th scope="col">from</th><th scope="col">ms</th><th scope="col">today</th>${state.shown > 0 ? html`<th scope="col">plan</th>` : nothing}</tr></thead>
    <tbody>${rows.map((one) => html`<tr><th scope="row" class="text">${thingName(scene, one)}${inTheWay(scene, one) ? html` <small>${inTheWay(scene, one)}</small>` : nothing}</th>
      <td>${one.loudspeaker === 0 ? "left" : "right"}</td><td>${number(one.delay_s * 1000, 1)}</td>
      <td>${presenceLevel(today.get(keyOf(one)))}</td>${state.shown > 0 ? html`<td class="p">${presenceLevel(one)}</td>` : nothing}</tr>`)}</tbody></table>`);
}

/**
 * @param {Scene} scene
 * @param {Reflection} one
 */
function thingName({ document, library, plan }, one) {
  const kind = one.furnishing === undefined ? undefined : document.room.furnishings?.[one.furnishing]?.kind;
  if (kind) return sentence(shortName(furnishingName(library, document, kind)));
  const piece = plan.pieces[one.pieces[0]];
  return piece ? `Piece ${one.pieces[0] + 1}` : "a thing";
}
