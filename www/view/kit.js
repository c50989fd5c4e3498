/**
 * The Kit shelf: kinds of piece standing on a double line at the drawing's scale. What is picked up is what is placed.
 *
 * @import { Kind, ShelfGroup } from "../model/types.js"
 * @import { Box } from "./draw.js"
 * @import { Scene } from "./scene.js"
 */
import { html, nothing, svg } from "../vendor.js";
import { sixBars } from "../chart/absorption.js";
import { depth, money } from "../model/format.js";
import { SHELF_GROUPS, isVariant, kindDepth, shelfGroup } from "../model/kinds.js";
import { priceOfOne } from "../model/money.js";
import { hiddenTexts, withinLimits } from "../model/shelf_limits.js";
import { numberField } from "./field.js";
import { absorptionOf, kindsFold } from "./kinds.js";
import { ownKindFold } from "./own_kind.js";
import { patternOf } from "./patterns.js";
import { body } from "./piece.js";
import { reachPlaces } from "./reach.js";
import { isReadOnly } from "./scene.js";

/** The height of a piece's place on the shelf, and its widest, px. */
const SHELF_PX = 74;
const SLOT_PX = 44;

/** The scale of the shelf is that of the drawing, between these, px/m. */
const LEAST_SCALE = 30;
const MOST_SCALE = 60;

/**
 * @param {Scene} scene
 * @param {number} scale_px_per_m
 */
export function kitShelf(scene, scale_px_per_m) {
  const { kinds: all, ...hidden } = withinLimits(scene.document, shelfKinds(scene));
  // What a person's own kinds look like must be sayable while the limit hides them.
  const own = hidden.unlike.filter((kind) => scene.document.kit?.includes(kind));
  const group = groupShown(scene, all);
  const kinds = all.filter((kind) => shelfGroup(kind) === group);
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, scale_px_per_m));
  const isTrue = Math.abs(scale - scale_px_per_m) < 0.5;
  const says = isReadOnly(scene) ? "" : `${isTrue ? "To the same scale" : "Not to scale"}; drag one, or pick and place`;
  return html`<section class="kit" aria-labelledby="kit-title"><header><h2 id="kit-title">Kit shelf</h2>${groupTabs(scene, all, group)}${kindsFold(scene, [...kinds, ...own])}</header>
    <ul class="slots" tabindex="0" title=${says} aria-label="Kinds: ${GROUP_WORDS[group]}">${kinds.map((kind) => slot(scene, kind, scale))}</ul>
    ${hiddenTexts(scene.document, hidden).map((text) => html`<p class="kit-note">${text}</p>`)}
    <div class="kit-foot"><p class="kit-note">Panels change the sound <em>inside</em> the room. They do not keep it from the neighbours.</p>${ownKindFold(scene)}</div></section>`;
}

/** @type {Record<ShelfGroup, string>} */
const GROUP_WORDS = { soft: "soft", boards: "boards", bass: "bass", cloth: "curtains", floor: "rugs", scatter: "scatter", stands: "stands" };

/**
 * The group that was chosen, or the first that has any kind.
 * @param {Scene} scene
 * @param {Kind[]} kinds
 */
function groupShown({ state }, kinds) {
  const has = (/** @type {ShelfGroup} */ group) => kinds.some((kind) => shelfGroup(kind) === group);
  const chosen = state.shows.shelf;
  return chosen && has(chosen) ? chosen : SHELF_GROUPS.find(has) ?? "soft";
}

/**
 * @param {Scene} scene
 * @param {Kind[]} kinds
 * @param {ShelfGroup} shown
 */
function groupTabs({ dispatch }, kinds, shown) {
  const groups = SHELF_GROUPS.filter((group) => kinds.some((kind) => shelfGroup(kind) === group));
  return html`<nav class="kit-groups" aria-label="Groups of the shelf">${groups.map((group) => html`<button type="button"
    aria-pressed=${group === shown ? "true" : "false"} @click=${() => dispatch({ type: "show", shows: { shelf: group } })}>${GROUP_WORDS[group]}</button>`)}</nav>`;
}

/**
 * The document's own kinds first, then what the library offers beside them.
 * @param {Pick<Scene, "document"|"library">} scene
 * @returns {Kind[]}
 */
export function shelfKinds({ document, library }) {
  const own = (document.kit ?? []).filter((kind) => !isVariant(kind));
  return [...own, ...library.shelf.filter((kind) => !own.some((one) => one.id === kind.id))];
}

/**
 * @param {Scene} scene
 * @param {Kind} kind
 * @param {number} scale
 */
function slot(scene, kind, scale) {
  const { state, dispatch } = scene;
  const picked = state.picked?.index === null && state.picked.kit === kind.id;
  /** @param {MouseEvent} event  without clicks where a key was pressed */
  const act = ({ detail }) => {
    dispatch(picked ? { type: "put-down" } : { type: "pick", kit: kind, index: null });
    if (!picked) reachPlaces(detail === 0);
  };
  const absorption = absorptionOf(scene, kind);
  return html`<li class="slot" title=${kind.name}>
    <span class="handle" data-kind=${kind.id}>${standingPiece(kind, scale)}</span>
    <span class="slot-name">${shelfName(kind.name)}</span>
    <span class="slot-fact">${depth(kindDepth(kind), state.units)}</span>
    <span class="slot-bars">${absorption ? sixBars(absorption) : nothing}</span>
    <span class="slot-do">${priceOf(scene, kind)}
      ${isReadOnly(scene) ? nothing : html`<button type="button" class="pick" data-pick=${kind.id} aria-pressed=${picked ? "true" : "false"}
      aria-label=${picked ? `Put ${kind.name} back` : `Pick ${kind.name}, then choose a place`} @click=${act}>${picked ? "back" : "pick"}</button>`}</span></li>`;
}

/**
 * The name without its measures, which stand below it, and without what follows a second comma.
 * @param {string} name
 */
function shelfName(name) {
  return name.split(/, \d| \(/)[0].split(",").slice(0, 2).join(",");
}

/**
 * @param {Scene} scene
 * @param {Kind} kind
 */
function priceOf(scene, kind) {
  const price = priceOfOne(kind);
  if (isReadOnly(scene)) return price === null ? nothing : html`<span>${money(price, scene.document.currency)}</span>`;
  return html`<span class="price" title="price of one">${numberField({
    label: "price", aloud: `Price of one ${kind.name}`, bare: true, value: price ?? undefined,
    commit: (price) => scene.dispatch({ type: "set-kind", id: kind.id, price, kind }),
  })}</span>`;
}

/**
 * @param {Kind} kind
 * @param {number} scale
 */
function standingPiece(kind, scale) {
  const [width, height] = [kind.width_m * scale, kind.height_m * scale];
  const fits = width <= SLOT_PX - 2 && height <= SHELF_PX - 1;
  const slot_px = fits ? Math.max(24, width + 2) : SLOT_PX;
  return svg`<svg class="piece shelf" viewBox="0 0 ${slot_px} ${SHELF_PX}" width=${slot_px} height=${SHELF_PX} aria-hidden="true">
    ${fits ? body(standOn(slot_px, width, height), patternOf(kind), { set: "s" }) : large(kind, scale)}</svg>`;
}

/**
 * @param {number} slot_px
 * @param {number} width
 * @param {number} height
 * @returns {Box}
 */
function standOn(slot_px, width, height) {
  return { x: (slot_px - width) / 2, y: SHELF_PX - height, width, height };
}

/**
 * A rug lies rolled up; anything else too large for its slot is drawn smaller and cut by a break line.
 * @param {Kind} kind
 * @param {number} scale
 */
function large(kind, scale) {
  if (patternOf(kind) === "rug") return rolled();
  const width = Math.min(SLOT_PX - 8, kind.width_m * scale);
  const height = Math.min(SHELF_PX - 4, kind.height_m * scale);
  const box = standOn(SLOT_PX, width, height);
  return svg`${body(box, patternOf(kind), { set: "s" })}<path class="break" d="M${box.x - 4} ${box.y + 14}l${width / 2 + 2} -5v8l${width / 2 + 6} -5" />`;
}

function rolled() {
  const box = { x: 1, y: SHELF_PX - 17, width: 40, height: 17 };
  return svg`<rect class="ground" x=${box.x} y=${box.y} width=${box.width} height=${box.height} rx="8.5" />
    <rect class="fill" fill="url(#s-rug)" x=${box.x} y=${box.y} width=${box.width} height=${box.height} rx="8.5" />
    <circle class="ground" cx="32.5" cy=${SHELF_PX - 8.5} r="8.5" /><circle class="fill" fill="none" cx="32.5" cy=${SHELF_PX - 8.5} r="8.5" />
    <path class="edge" d="M32.5 ${SHELF_PX - 8.5}a2.5 2.5 0 0 1 2.5 2.5a4.5 4.5 0 0 1 -7 -3.5a5.5 5.5 0 0 1 10 -1.5" />`;
}
