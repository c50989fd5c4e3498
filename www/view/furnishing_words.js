/**
 * What stands in the room, in words.
 *
 * @import { Scene } from "./scene.js"
 */
import { html } from "../vendor.js";
import { furnishingName, isAssumed, lowerFirst, shortName } from "./words.js";

/** How many of each kind. @param {import("../model/types.js").Scenario} document */
export function countsOf(document) {
  /** @type {Map<string, number>} */
  const counts = new Map();
  for (const { kind, count } of document.room.furnishings ?? []) counts.set(kind, (counts.get(kind) ?? 0) + count);
  return counts;
}

/** @param {Scene} scene */
export function furnishingWords({ document, library }) {
  const counts = countsOf(document);
  const builtIns = Object.values(document.room.surfaces).flatMap((surface) => surface.parts ?? []).filter((part) => part.role === "built-in").length;
  const words = [...counts].map(([kind, count]) => html`<u>${count > 1 ? `${count} × ` : ""}${lowerFirst(shortName(furnishingName(library, document, kind)))}</u>${
    isAssumed(document, "room.furnishings") ? html` <i class="assumed">assumed</i>` : ""}`);
  if (builtIns > 0) words.push(html`<u>${builtIns === 1 ? "built-in" : `${builtIns} built-ins`}</u>`);
  return words.length === 0 ? "nothing" : words.map((word, index) => html`${index === 0 ? "" : ", "}${word}`);
}
