/**
 * What stands in the room, as words and as counts.
 *
 * @import { Scene } from "./scene.js"
 */
import { html } from "../vendor.js";
import { number } from "../model/format.js";
import { numberField } from "./field.js";
import { isReadOnly } from "./scene.js";
import { furnishingName, isAssumed, lowerFirst, shortName } from "./words.js";

/** @param {Scene} scene */
export function furnishingWords({ document, library }) {
  const counts = countsOf(document);
  const builtIns = Object.values(document.room.surfaces).flatMap((surface) => surface.parts ?? []).filter((part) => part.role === "built-in").length;
  const words = [...counts].map(([kind, count]) => html`<u>${count > 1 ? `${count} × ` : ""}${lowerFirst(shortName(furnishingName(library, document, kind)))}</u>${
    isAssumed(document, "room.furnishings") ? html` <i class="assumed">assumed</i>` : ""}`);
  if (builtIns > 0) words.push(html`<u>${builtIns === 1 ? "built-in" : `${builtIns} built-ins`}</u>`);
  return words.length === 0 ? "nothing" : words.map((word, index) => html`${index === 0 ? "" : ", "}${word}`);
}

/** @param {import("../model/types.js").Scenario} document */
function countsOf(document) {
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const { kind, count } of document.room.furnishings ?? []) counts.set(kind, (counts.get(kind) ?? 0) + count);
  return counts;
}

/** @param {Scene} scene */
export function furnishingFields(scene) {
  const { document, library, dispatch } = scene;
  const counts = countsOf(document);
  return html`<div class="counts">${[...library.furnishings, ...(document.own_furnishings ?? [])].map((one) => html`<div class="count-row">
    ${numberField({
      label: one.name, value: counts.get(one.id) ?? 0, whole: true, fixed: isReadOnly(scene),
      commit: (count) => dispatch({ type: "set-furnishing", kind: one.id, count: count ?? 0 }),
    })}
    <small>${areaWords(one.absorption_area_m2)}${"source" in one ? one.source : ""}</small></div>`)}</div>`;
}

/**
 * What one takes, in words: how large an open window would do the same.
 * @param {number[]} area_m2  six octaves, or the bands of the reader's own
 */
function areaWords(area_m2) {
  return area_m2.length === 6 ? `As ${number(area_m2[2], 1)} m² of open window at 500 Hz. ` : "";
}
