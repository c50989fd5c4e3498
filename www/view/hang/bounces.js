/**
 * The sheet with nothing to hang: the room and its bounce marks.
 *
 * @import { SurfaceName } from "../../model/types.js"
 * @import { Scene } from "../scene.js"
 */
import { html, nothing } from "../../vendor.js";
import { measuredFrom } from "../../model/hang.js";
import { bounceMarks } from "../../model/marks.js";
import { SURFACES } from "../../model/geometry.js";
import { sentence, surfaceName } from "../../model/words.js";
import { byRows, whole } from "./blocks.js";
import { smallElevation } from "./elevation.js";
import { measure } from "./paper.js";

const SMALL = Object.freeze({ width_px: 312, height_px: 150 });

/** @param {Scene} scene @returns {import("./blocks.js").Section} */
export function bouncePage(scene) {
  const { document, state: { shown, units } } = scene;
  const marks = bounceMarks(document, shown);
  const intro = html`<p>Nothing to hang yet. Ring and diamond: where the sound of the left and the right loudspeaker bounces to the seat.
      Walls are drawn as you face them, ceiling and floor from above with the front wall on top.</p>
    ${marks.length === 0 ? html`<p>Bounces need loudspeakers and a seat; this plan has none.</p>` : nothing}`;
  const rows = SURFACES.flatMap((surface) => marks.filter((mark) => mark.surface === surface).map(({ loudspeaker, u_m, v_m }) => {
    const { along, away } = measuredFrom(surface);
    return html`<tr><td class="text">${sentence(surfaceName(surface))}</td><td class="text">${loudspeaker === 0 ? "left, ring" : "right, diamond"}</td>
      <td>${along}</td><td><b>${measure(u_m, units)}</b></td><td>${away}</td><td><b>${measure(v_m, units)}</b></td></tr>`;
  }));
  const figure = (/** @type {SurfaceName} */ surface) => html`<figure><figcaption>${sentence(surfaceName(surface))}</figcaption>${smallElevation(scene, surface, SMALL)}</figure>`;
  const pairs = [SURFACES.slice(0, 2), SURFACES.slice(2, 4), SURFACES.slice(4)];
  return { title: "Bounce marks", blocks: [whole(intro), ...byRows(rows, marksTable), ...pairs.map((pair) => whole(html`<div class="six">${pair.map(figure)}</div>`))] };
}

/** @param {unknown[]} rows */
function marksTable(rows) {
  return html`<table class="measures"><thead>
    <tr><th scope="col" class="text">Surface</th><th scope="col" class="text">Loudspeaker</th><th scope="col">from</th><th></th><th scope="col">from</th><th></th></tr></thead>
    <tbody>${rows}</tbody></table>`;
}
