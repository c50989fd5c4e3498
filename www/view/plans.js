/**
 * The Plans bar: the room as it is, the plans, what can be done with the one in hand, and rooms to look at.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing } from "../vendor.js";
import { EXAMPLES } from "../model/examples.js";
import { MOST } from "../model/limits.js";
import { wantsStep } from "../model/live_step.js";
import { planLabel, planName } from "../model/words.js";
import { closeWhenLeft } from "./escape.js";
import { fileActions } from "./filing.js";
import { isReadOnly } from "./scene.js";

/** So many plans, today's among them, have a row together with what can be done with them; more wrap. */
const ON_ONE_ROW = 4;

/** @param {Scene} scene */
export function plansBar(scene) {
  const { document } = scene;
  return html`<nav class="plans ${document.plans.length > ON_ONE_ROW ? "is-many" : ""}" aria-label="Plans">
    ${document.plans.map((_, index) => tab(scene, index))}
    ${document.plans.length < MOST.plans && !isReadOnly(scene)
      ? html`<button type="button" class="tab new" @click=${() => scene.dispatch({ type: "add-plan" })}>New plan</button>` : nothing}
    <i class="gap"></i>
    ${scene.viewport.width === "narrow" ? menu("More", html`${planFields(scene)}${compareChoice(scene)}${whatToDo(scene)}${fairListen()}${hangSheet(scene)}${copyLink(scene)}${fileActions(scene)}${rooms(scene)}${examples(scene)}`) : html`
      ${menus(scene)}${whatToDo(scene)}${fairListen()}${hangSheet(scene)}${scene.viewport.width === "wide" ? nothing : linkAndExamples(scene)}`}
  </nav>`;
}

/**
 * On a wide page they stand in the head, so that the plans have their row.
 * @param {Scene} scene
 */
export function linkAndExamples(scene) {
  return html`${copyLink(scene)}${rooms(scene)}${menu("Examples", examples(scene))}`;
}

/** @param {Scene} scene */
function menus(scene) {
  return html`${scene.state.shown > 0 && !isReadOnly(scene) ? menu("This plan", planFields(scene)) : nothing}
    ${scene.document.plans.length > 1 ? menu("Compare", compareChoice(scene)) : nothing}`;
}

/**
 * A long name is cut on its tab; the whole of it is its title and what is read aloud.
 * @param {Scene} scene
 * @param {number} index
 */
function tab({ document, state: { shown, compared }, dispatch }, index) {
  const name = planLabel(document.plans[index].name);
  return html`<button type="button" class="tab ${compared === index ? "is-compared" : ""}" title=${name} aria-current=${shown === index ? "page" : nothing}
    @click=${() => dispatch({ type: "show-plan", index })}><span>${name}</span></button>`;
}

/** @param {Scene} scene */
function copyLink({ commands }) {
  return html`<button type="button" @click=${commands.copyLink}>Copy link</button>`;
}

/**
 * Opens the region of advice, and asks unless what is on the sheet has its answer there already.
 * @param {Scene} scene
 */
function whatToDo({ commands, state }) {
  return html`<button type="button" @click=${(/** @type {Event} */ event) => {
    closeMenu(event);
    openFold("fold-advice");
    if (state.advice === null || wantsStep(state)) commands.askAdvice(state.shown);
  }}>What should I do?</button>`;
}

function fairListen() {
  return html`<button type="button" @click=${(/** @type {Event} */ event) => {
    closeMenu(event);
    openFold("fold-listen");
  }}>Fair listen</button>`;
}

/** Opens a fold of the page and goes there. @param {string} id */
function openFold(id) {
  const fold = /** @type {HTMLDetailsElement|null} */ (document.getElementById(id));
  if (!fold) return;
  fold.open = true;
  fold.scrollIntoView({ block: "start" });
  fold.querySelector("summary")?.focus();
}

/** @param {Scene} scene */
function hangSheet({ commands }) {
  return html`<button type="button" @click=${(/** @type {Event} */ event) => {
    closeMenu(event);
    commands.openSheet();
  }}>Hang sheet</button>`;
}

/** @param {Scene} scene */
function examples({ commands, dispatch }) {
  return EXAMPLES.map((one) => html`<button type="button" @click=${(/** @type {Event} */ event) => {
    closeMenu(event);
    commands.openExample(one.file);
    dispatch({ type: "set-units", units: one.units });
  }}>${one.name}<small>${one.about}</small></button>`);
}

/**
 * The plan in hand against any other one.
 * @param {Scene} scene
 */
function compareChoice({ document, plan, state: { shown, compared }, dispatch }) {
  if (document.plans.length < 2) return nothing;
  const base = compared ?? 0;
  return html`<p class="also">${planName(plan.name)} compared with:</p>
    ${document.plans.map((other, index) => (index === shown ? nothing : html`<button type="button" class="choice" aria-pressed=${index === base ? "true" : "false"}
      @click=${(/** @type {Event} */ event) => {
        closeMenu(event);
        dispatch({ type: "compare", index });
      }}>${index === 0 ? "Today" : planLabel(other.name)}</button>`))}`;
}

/** @param {Scene} scene */
function planFields(scene) {
  const { state: { shown }, plan, document, dispatch } = scene;
  if (shown === 0 || isReadOnly(scene)) return nothing;
  /** @param {Event} event */
  const rename = (event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    const name = input.value.trim();
    if (name && name !== plan.name) dispatch({ type: "rename-plan", index: shown, name });
    else input.value = plan.name;
  };
  /** @param {Parameters<Scene["dispatch"]>[0]} action @param {string} word */
  const act = (action, word) => html`<button type="button" @click=${(/** @type {Event} */ event) => {
    closeMenu(event);
    dispatch(action);
  }}>${word}</button>`;
  return html`<label class="field"><span class="field-name">Name of this plan</span>
      <input type="text" maxlength=${MOST.text} .value=${plan.name} @change=${rename} /></label>
    ${document.plans.length < MOST.plans ? act({ type: "add-plan" }, "Duplicate") : nothing}
    ${shown > 1 ? act({ type: "move-plan", index: shown, by: -1 }, "Move it left") : nothing}
    ${shown < document.plans.length - 1 ? act({ type: "move-plan", index: shown, by: 1 }, "Move it right") : nothing}
    ${act({ type: "remove-plan", index: shown }, `Remove ${planName(plan.name)}`)}`;
}

/**
 * What this browser keeps is read when the menu is opened, by a part of the page that is loaded then.
 * On a narrow page it stands in the menu's own column, and what follows it would move away under a finger if it closed.
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
  return html`<details class=${isNarrow ? "one-fact" : "menu"} name=${isNarrow ? "rooms" : "plans-menu"} @keydown=${onEscape} @focusout=${isNarrow ? nothing : closeWhenLeft} @toggle=${toggled}><summary>Rooms</summary>
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
  return html`<details class="menu" name="plans-menu" @keydown=${onEscape} @focusout=${closeWhenLeft}><summary>${word}</summary><div class="menu-body">${content}</div></details>`;
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
