/**
 * Fair listen: today and the plans on one switch, at one loudness, on headphones; and blind, whether the difference is heard.
 *
 * @import { ListenerClient } from "../../engine/listener.js"
 * @import { Blind } from "../../model/listen.js"
 * @import { Scenario, State } from "../../model/types.js"
 *
 * @typedef {object} ListenPort
 * @property {() => State} getState
 * @property {(listener: () => void) => void} subscribe  tells of every change of the state
 * @property {() => Promise<ListenerClient>} createListener  starts the worker that renders
 */
import { html, nothing, render } from "../../vendor.js";
import { LEVEL_DB, ROUNDS, SOUNDS, guessed, hiddenPlan, plansToHear, startBlind, stillChosen, verdict } from "../../model/listen.js";
import { planName } from "../../model/words.js";
import { MOST_OWN_S, createPlayer, onBoth, ownSound } from "./player.js";
import { cautionWords, whatItIs } from "./words.js";

/** A document rests this long before its plans are rendered anew, ms. */
const REST_MS = 400;

/** @param {HTMLElement} place @param {ListenPort} port */
export async function mountListen(place, port) {
  const view = {
    listener: await port.createListener(),
    plans: /** @type {number[]} */ ([]),
    chosen: 0,
    sound: /** @type {string} */ (SOUNDS[0].id),
    ownName: "",
    level_db: /** @type {number} */ (LEVEL_DB.first),
    busy: false,
    words: "",
    blind: /** @type {Blind|null} */ (null),
  };
  const player = createPlayer(view.listener, view);
  /** @type {Scenario|null} */
  let rendered = null;
  let timer = 0;

  const draw = () => render(region(view, port.getState().document, player, act), place);
  /** @param {unknown} error */
  const say = (error) => { view.words = error instanceof Error ? error.message : String(error); };
  /** Sets the page to what an action does, and says what went wrong. @param {() => Promise<void>|void} action */
  async function attempt(action) {
    const wasBusy = view.busy;
    view.words = "";
    try {
      await action();
    } catch (error) {
      say(error);
    }
    // What was under way before goes on.
    if (!wasBusy) view.busy = false;
    draw();
  }
  /** What is heard, for the document as it is. */
  async function renderPlans() {
    const { document, shown, compared } = port.getState();
    const plans = plansToHear(document, shown, compared);
    if (rendered === document && plans.join() === view.plans.join()) return;
    view.busy = true;
    draw();
    await player.render(document, plans);
    rendered = document;
    if (plans.join() !== view.plans.join()) view.blind = null;
    view.chosen = view.blind ? view.chosen : stillChosen(view.plans, plans, view.chosen);
    view.plans = plans;
    player.choose(heardNow(view));
    view.busy = false;
  }
  async function loadSound() {
    if (view.sound !== "own") player.setSound(onBoth(await view.listener.dry(view.sound)));
    rendered = null;
  }
  const act = {
    play: () => attempt(async () => {
      if (view.busy) return;
      if (player.isPlaying()) return player.stop();
      await player.begin();
      if (!rendered) await loadSound();
      await renderPlans();
      player.choose(heardNow(view));
      player.play();
    }),
    /** @param {number} index */
    choose: (index) => attempt(() => {
      view.chosen = index;
      player.choose(heardNow(view));
    }),
    /** @param {number} level_db */
    level: (level_db) => attempt(() => {
      view.level_db = level_db;
      player.setLevel(level_db);
    }),
    /** @param {string} sound */
    sound: (sound) => attempt(async () => {
      view.sound = sound;
      await loadSound();
      if (player.isPlaying()) await renderPlans();
    }),
    /** @param {File|undefined} file */
    own: (file) => attempt(async () => {
      if (!file) return;
      const buffer = await ownSound(file);
      Object.assign(view, { sound: "own", ownName: file.name });
      player.setSound(buffer);
      rendered = null;
      if (player.isPlaying()) await renderPlans();
    }),
    save: () => attempt(async () => {
      if (!rendered) await loadSound();
      await renderPlans();
      saveBytes(await player.saved(heardNow(view)), `${planName(port.getState().document.plans[view.plans[heardNow(view)]].name)}.wav`);
    }),
    /** @param {[number, number]} pair */
    startBlind: (pair) => attempt(() => {
      view.blind = startBlind(pair, chance);
      view.chosen = X;
      player.choose(heardNow(view));
    }),
    /** @param {0|1} guess */
    guess: (guess) => attempt(() => {
      if (view.blind) view.blind = guessed(view.blind, guess);
      view.chosen = view.blind && hiddenPlan(view.blind) !== null ? X : 0;
      player.choose(heardNow(view));
    }),
    endBlind: () => attempt(() => {
      view.blind = null;
      view.chosen = 0;
      player.choose(heardNow(view));
    }),
  };

  port.subscribe(() => {
    clearTimeout(timer);
    timer = setTimeout(() => attempt(async () => {
      if (rendered && port.getState().drag === null) await renderPlans();
    }), REST_MS);
  });
  view.plans = plansToHear(port.getState().document, port.getState().shown, port.getState().compared);
  draw();
}

/** Stands for the hidden plan on the switch. */
const X = -1;

/** @typedef {{plans: number[], chosen: number, sound: string, ownName: string, level_db: number, busy: boolean, words: string, blind: Blind|null}} View */

/** Which of the plans that are heard is to be heard now. @param {View} view @returns {number} */
function heardNow({ plans, chosen, blind }) {
  if (chosen !== X) return chosen;
  return Math.max(0, plans.indexOf(blind ? hiddenPlan(blind) ?? 0 : 0));
}

function chance() {
  return crypto.getRandomValues(new Uint32Array(1))[0] / 2 ** 32;
}

/** @param {Uint8Array<ArrayBuffer>} bytes @param {string} name */
function saveBytes(bytes, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([bytes], { type: "audio/wav" }));
  link.download = name.replace(/[^\p{L}\p{N} ._-]/gu, "");
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

/**
 * @param {View} view @param {Scenario} document
 * @param {ReturnType<typeof createPlayer>} player
 * @param {Record<string, (...values: any[]) => void>} act
 */
function region(view, document, player, act) {
  const names = view.plans.map((plan) => (plan === 0 ? "Today" : planName(document.plans[plan]?.name ?? "")));
  return html`<div class="listen">
    <p>Put on headphones. You hear the same sound in the room as it is and with a plan, at the same loudness. <strong>This shows the difference between the plans, not how your room will sound.</strong></p>
    ${cautionWords()}
    <div class="listen-row">
      <button type="button" class="listen-play" aria-busy=${view.busy ? "true" : "false"} @click=${act.play}>${player.isPlaying() ? "Stop" : "Play"}</button>
      ${switchButtons(view, names, act)}
    </div>
    <div class="listen-row">${levelField(view, act)}${soundField(view, act)}
      <label class="field"><span class="field-name">A sound of your own, up to ${MOST_OWN_S} s; it stays on this device</span>
        <input type="file" accept="audio/*" @change=${(/** @type {Event} */ event) => act.own(/** @type {HTMLInputElement} */ (event.target).files?.[0])} /></label>
      <button type="button" ?disabled=${view.busy || view.blind !== null} @click=${act.save}>Save what is heard as WAV</button></div>
    <p role="status" aria-live="polite" class="listen-words">${status(view, names, player)}</p>
    ${blindPart(view, names, act)}
    ${whatItIs(player.levels())}
  </div>`;
}

/** @param {View} view @param {string[]} names @param {ReturnType<typeof createPlayer>} player */
function status(view, names, player) {
  if (view.words) return view.words;
  if (view.busy) return "Being rendered.";
  if (!player.isPlaying()) return "Nothing plays until you press Play.";
  const now = view.chosen === X ? "X" : names[view.chosen];
  return `You hear ${now}${view.sound === "own" ? `, ${view.ownName}` : ""}.`;
}

/** @param {View} view @param {string[]} names @param {Record<string, (...values: any[]) => void>} act */
function switchButtons({ plans, chosen, blind }, names, act) {
  const shown = names.map((name, index) => ({ name, index })).filter(({ index }) => !blind || blind.pair.includes(plans[index]));
  const choices = blind && hiddenPlan(blind) !== null ? [...shown, { name: "X", index: X }] : shown;
  return html`<div class="listen-switch" role="group" aria-label="What you hear">${choices.map(({ name, index }) => html`<button type="button" class="tab" aria-pressed=${chosen === index ? "true" : "false"} @click=${() => act.choose(index)}>${name}</button>`)}</div>`;
}

/** @param {View} view @param {Record<string, (...values: any[]) => void>} act */
function levelField({ level_db }, act) {
  return html`<label class="field"><span class="field-name">Level; starts low</span>
    <input type="range" min=${LEVEL_DB.least} max=${LEVEL_DB.most} step="1" .value=${String(level_db)} aria-valuetext="${level_db} dB"
      @input=${(/** @type {Event} */ event) => act.level(Number(/** @type {HTMLInputElement} */ (event.target).value))} /></label>`;
}

/** @param {View} view @param {Record<string, (...values: any[]) => void>} act */
function soundField({ sound, ownName }, act) {
  return html`<label class="field"><span class="field-name">Sound</span>
    <select @change=${(/** @type {Event} */ event) => act.sound(/** @type {HTMLSelectElement} */ (event.target).value)}>
      ${SOUNDS.map(({ id, name }) => html`<option value=${id} ?selected=${sound === id}>${name}</option>`)}
      ${ownName ? html`<option value="own" ?selected=${sound === "own"}>${ownName}</option>` : nothing}</select></label>`;
}

/** @param {View} view @param {string[]} names @param {Record<string, (...values: any[]) => void>} act */
function blindPart({ plans, blind }, names, act) {
  const pairName = (/** @type {number} */ plan) => names[plans.indexOf(plan)];
  if (!blind) {
    return html`<details class="figures"><summary>Do you really hear it? Ten blind rounds</summary>
      <p>X is one of two plans, by chance. Listen to both and to X as long as you like, then say which X is.</p>
      ${plans.slice(1).map((plan) => html`<button type="button" @click=${() => act.startBlind([0, plan])}>Today against ${pairName(plan)}</button> `)}
      ${plans.length > 2 ? html`<button type="button" @click=${() => act.startBlind([plans[1], plans[2]])}>${pairName(plans[1])} against ${pairName(plans[2])}</button>` : nothing}
      ${plans.length < 2 ? html`<p>There is no plan to compare with yet.</p>` : nothing}</details>`;
  }
  const [one, other] = blind.pair.map(pairName);
  const isDone = blind.guesses.length >= ROUNDS;
  return html`<section class="listen-blind" aria-label="Blind rounds">
    ${isDone ? html`<p role="status">${verdict(blind, [one, other])}</p>` : html`<p role="status">Round ${blind.guesses.length + 1} of ${ROUNDS}. Which one is X?</p>
    <button type="button" @click=${() => act.guess(0)}>X is ${one}</button> <button type="button" @click=${() => act.guess(1)}>X is ${other}</button>`}
    <button type="button" @click=${act.endBlind}>${isDone ? "Close" : "End it"}</button></section>`;
}
