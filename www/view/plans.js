/**
 * The Plans bar: the room as it is, the plans, what can be done with the one in hand, and rooms to look at.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { EXAMPLES } from "../model/examples.js";
import { MOST } from "../model/limits.js";
import { planName } from "../model/words.js";
import { fileActions } from "./filing.js";
import { isReadOnly } from "./scene.js";

/** @param {Scene} scene */
export function plansBar(scene) {
  const { document, state, dispatch } = scene;
  return html`<nav class="plans" aria-label="Plans">
    ${document.plans.map((plan, index) => html`<button type="button" class="tab" aria-current=${state.shown === index ? "page" : nothing}
      @click=${() => dispatch({ type: "show-plan", index })}>${planName(plan.name)}</button>`)}
    ${document.plans.length < MOST.plans && !isReadOnly(scene)
      ? html`<button type="button" class="tab" @click=${() => dispatch({ type: "add-plan" })}>New plan</button>` : nothing}
    <i class="gap"></i>
    ${scene.viewport.width === "narrow" ? menu("More", html`${planFields(scene)}${copyLink(scene)}${fileActions(scene)}${rooms(scene)}${examples(scene)}`) : html`
      ${state.shown > 0 && !isReadOnly(scene) ? menu("This plan", planFields(scene)) : nothing}${copyLink(scene)}${rooms(scene)}${menu("Examples", examples(scene))}`}
  </nav>`;
}

/** @param {Scene} scene */
function copyLink({ commands }) {
  return html`<button type="button" @click=${commands.copyLink}>Copy link</button>`;
}

/** @param {Scene} scene */
function examples({ commands, dispatch }) {
  return EXAMPLES.map((one) => html`<button type="button" @click=${(/** @type {Event} */ event) => {
    closeMenu(event);
    commands.openExample(one.file);
    dispatch({ type: "set-units", units: one.units });
  }}>${one.name}<small>${one.about}</small></button>`);
}

/** @param {Scene} scene */
function planFields(scene) {
  const { state, plan, dispatch } = scene;
  if (state.shown === 0 || isReadOnly(scene)) return nothing;
  /** @param {Event} event */
  const rename = (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const name = input.value.trim();
    if (name && name !== plan.name) dispatch({ type: "rename-plan", index: state.shown, name });
    else input.value = plan.name;
  };
  return html`<label class="field"><span class="field-name">Name of this plan</span>
      <input type="text" maxlength=${MOST.text} .value=${plan.name} @change=${rename} /></label>
    <button type="button" @click=${(/** @type {Event} */ event) => {
      closeMenu(event);
      dispatch({ type: "remove-plan", index: state.shown });
    }}>Remove ${planName(plan.name)}</button>`;
}

/**
 * What this browser keeps is read when the menu is opened, by a part of the page that is loaded then.
 * @param {Scene} scene
 */
function rooms(scene) {
  /** @param {Event} event */
  const toggled = async (event) => {
    const details = /** @type {HTMLDetailsElement} */ (event.currentTarget);
    const place = /** @type {HTMLElement|null} */ (details.querySelector("[data-rooms]"));
    if (!details.open || !place) return;
    const { showRooms } = await import("./rooms.js");
    showRooms(place, scene, () => closeMenus(details));
  };
  const isNarrow = scene.viewport.width === "narrow";
  return html`<details class=${isNarrow ? "one-fact" : "menu"} name=${isNarrow ? "rooms" : "plans-menu"} @keydown=${onEscape} @toggle=${toggled}><summary>Rooms</summary>
    <div class=${isNarrow ? "rooms-body" : "menu-body"} data-rooms></div></details>`;
}

/** @param {HTMLElement} inside  every menu round it */
function closeMenus(inside) {
  for (let one = inside.closest("details"); one; one = one.parentElement?.closest("details") ?? null) one.open = false;
}

/**
 * @param {string} word
 * @param {unknown} content
 */
function menu(word, content) {
  return html`<details class="menu" name="plans-menu" @keydown=${onEscape}><summary>${word}</summary><div class="menu-body">${content}</div></details>`;
}

/** @param {KeyboardEvent} event */
function onEscape(event) {
  if (event.key !== "Escape") return;
  closeMenu(event);
}

/** @param {Event} event */
function closeMenu(event) {
  const details = /** @type {HTMLElement} */ (event.target).closest("details");
  if (!details?.open) return;
  details.open = false;
  details.querySelector("summary")?.focus();
}
