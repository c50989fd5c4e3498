/**
 * Pick, then place: the numbered places where the picked piece may land. The way without dragging.
 *
 * @import { Face } from "./fold.js"
 * @import { Scene } from "./scene.js"
 */
import { nothing, svg } from "../vendor.js";
import { laidSize } from "../model/laid.js";
import { surfaceName } from "../model/words.js";
import { boxOf, middle } from "./draw.js";

/**
 * @param {Scene} scene
 * @param {Face} face
 */
export function landingPlaces(scene, face) {
  const picked = scene.state.picked;
  if (!picked) return nothing;
  return picked.places.map((place, index) => {
    if (place.surface !== face.surface) return nothing;
    const box = boxOf(face, { u_m: place.u_m, v_m: place.v_m, ...laidSize(picked.kind, place) });
    const centre = middle(box);
    return svg`<g class="landing" role="button" tabindex="0" data-landing=${index}
      aria-label="Place ${index + 1}: ${surfaceName(place.surface)}, ${place.why}">
      <rect class="hit" x=${centre.x - 22} y=${centre.y - 22} width="44" height="44" />
      <rect class="place" x=${box.x} y=${box.y} width=${box.width} height=${box.height} />
      <circle class="number" cx=${centre.x} cy=${centre.y} r="12" />
      <text class="num" x=${centre.x} y=${centre.y + 4.3} text-anchor="middle">${index + 1}</text>
      <text class="hover-name halo" x=${box.x + box.width + 8} y=${box.y + 12}>${place.why}</text>
    </g>`;
  });
}
