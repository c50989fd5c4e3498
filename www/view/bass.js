/**
 * The Bass page: what matters in words, then the map over the floor, then the response with its notes, then the figures.
 * Until the first figures come their places are kept empty, so that nothing moves; later ones replace those before.
 *
 * @import { Bass } from "../model/types.js"
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing } from "../vendor.js";
import { bassMap, bassMapHeight, besideAverage } from "../chart/bassmap.js";
import { curvesChart } from "../chart/curves.js";
import { behindSentences, coincidentSentences, firstLayer, layerOf, wayOf, weightOf } from "../model/bass_words.js";
import { frequency, length, number, percent, seconds } from "../model/format.js";
import { evenWords, longestWords, loudWords, sampled } from "../model/map_words.js";
import { planLabel, planName } from "../model/words.js";
import { absentNote, missingWords } from "./absent.js";
import { SHORT_LABEL } from "./late.js";
import { origin } from "./origin.js";
import { figureFold } from "./rest.js";
import { steady } from "./steady.js";
import { isReadOnly } from "./scene.js";

/** The response beside the notes, Hz; the whole of it is a part of its own. */
const BASS = Object.freeze({ from_hz: 20, to_hz: 300 });

/** Wide enough for the words beside the map, px. */
const BESIDE_PX = 620;
const WORDS_PX = 270;
const MAP_HEIGHT_PX = 250;
const RESPONSE_HEIGHT_PX = 180;

/**
 * @param {Scene} scene
 * @param {number} width_px
 */
export function bassPart(scene, width_px) {
  const { state, document, offers, plan } = scene;
  if (!offers.bass) return nothing;
  const last = state.bass;
  const isFresh = last?.document === document && last.plan === state.shown;
  return html`<section class="part bass-part ${isFresh ? "" : "is-stale"}" aria-labelledby="bass-title" aria-busy=${isFresh ? "false" : "true"}>
    <header><h2 id="bass-title">Bass, note by note</h2><span>${status(isFresh, last?.bass, planName(plan.name))}</span></header>
    ${guard([last, state.compared === null ? null : state.otherBass, isFresh || listens(scene), missingWords(scene), isReadOnly(scene), width_px, state.shows, state.units], () => (
      missingWords(scene) !== "" ? absentNote(scene, "The bass at the seat needs loudspeakers and a seat") : last?.bass || (!isFresh && listens(scene)) ? body(scene, last?.bass ?? null, width_px) : nothing))}${origin("bass", "Bass")}</section>`;
}

/**
 * Whether there is something to compute.
 * @param {Scene} scene
 */
function listens({ listening }) {
  return listening.seat !== undefined && listening.loudspeakers.length > 1;
}

/**
 * @param {boolean} isFresh
 * @param {Bass|null|undefined} bass
 * @param {string} plan
 */
function status(isFresh, bass, plan) {
  if (!isFresh) return bass ? "as before the last change; catching up" : "being computed";
  return bass ? `${plan === "Now" ? "the room as it is" : plan}, 20 to 300 Hz` : "this needs loudspeakers and a seat";
}

/**
 * @param {Scene} scene
 * @param {Bass|null} bass  null: on its way
 * @param {number} width_px
 */
function body(scene, bass, width_px) {
  const isWide = width_px >= BESIDE_PX;
  const beside = besideBass(scene);
  const map_px = isWide ? width_px - WORDS_PX - 26 : width_px;
  return html`<div class="bass-lead ${isWide ? "is-beside" : ""}"><div class="bass-words">${bass ? words(scene, bass) : nothing}${beside ? besideWords(scene, beside) : nothing}</div>
      ${map(scene, bass, map_px)}</div>
    <p class="says">Bass at the seat from both loudspeakers, in dB over Hz. Thin: as it is. Thick: as ears blend it, in third-octaves. Figures on top name the notes that matter.${
      beside ? ` Dashed: ${beside.name}, in third-octaves.` : nothing}</p>
    ${bass ? response(bass, width_px, beside, planLabel(scene.plan.name, SHORT_LABEL)) : blank(width_px, RESPONSE_HEIGHT_PX)}
    ${figureFold("The notes as a table", [bass, beside?.bass, beside?.name], () => (bass ? notes(bass, beside) : nothing))}
    ${figureFold("The map as a table", [bass, scene.state.shows.layer, scene.state.units], () => (bass ? mapTable(scene, bass) : nothing))}`;
}

/** @typedef {{name: string, label: string, bass: Bass}} BesideBass  of the plan compared with */

/**
 * @param {Scene} scene
 * @returns {BesideBass|null}
 */
function besideBass({ state: { compared, otherBass }, document }) {
  if (compared === null || otherBass?.plan !== compared || !otherBass.bass || !document.plans[compared]) return null;
  const { name } = document.plans[compared];
  return { name: planName(name), label: planLabel(name, SHORT_LABEL), bass: otherBass.bass };
}

/**
 * What matters most there, and what both say alike.
 * @param {Scene} scene
 * @param {BesideBass} beside
 */
function besideWords({ state }, { name, bass }) {
  const [first = ""] = bass.words;
  const alike = first === state.bass?.bass?.words[0];
  return html`<p class="beside-words"><b>${name}</b>, beside it: ${alike ? "the same leads here." : first}${bass.thin && bass.thin !== state.bass?.bass?.thin ? ` ${bass.thin}` : ""}</p>`;
}

/**
 * The place of a drawing that is on its way.
 * @param {number} width_px
 * @param {number} height_px
 */
function blank(width_px, height_px) {
  return html`<svg class="chart" width=${width_px} height=${height_px} aria-hidden="true"></svg>`;
}

/**
 * @param {Bass} bass
 * @param {number} width_px
 * @param {BesideBass|null} beside
 * @param {string} plan  whose bass it is
 */
function response(bass, width_px, beside, plan) {
  const other = beside?.bass.response.third_octave;
  return curvesChart({
    label: "Level at the seat from 20 to 300 Hz, with the notes of the room",
    curves: [
      { name: "as it is", look: "raw", frequency_hz: bass.response.frequency_hz, level_db: bass.response.both_db },
      { name: other ? plan : "third-octaves", look: "third", frequency_hz: bass.response.third_octave.frequency_hz, level_db: bass.response.third_octave.both_db },
      ...(beside && other ? [{ name: beside.label, look: "right", frequency_hz: other.frequency_hz, level_db: other.both_db }] : []),
    ],
    ...BASS, notes: bass.modes.map((mode) => ({ frequency_hz: mode.frequency_hz, weight: weightOf(mode) })),
    stops_at_hz: bass.stops_at_hz, width_px, height_px: RESPONSE_HEIGHT_PX, named: width_px >= BESIDE_PX,
  });
}

/**
 * @param {Scene} scene
 * @param {Bass} bass
 */
function words({ state }, bass) {
  const [first, ...rest] = bass.words;
  const others = [...rest, ...coincidentSentences(bass), ...behindSentences(bass.behind, state.units), ...(bass.thin ? [bass.thin] : [])];
  return html`${first ? html`<p class="lead-words">${first}</p>` : nothing}
    <ul class="plain">${[...new Set(others)].map((one) => html`<li>${one}</li>`)}</ul>`;
}

/**
 * @param {Scene} scene
 * @param {Bass|null} bass
 * @param {number} width_px
 */
function map(scene, bass, width_px) {
  const frame = { room: scene.document.room, width_px, height_px: MAP_HEIGHT_PX };
  const layers = bass ? Array.from(bass.map.frequency_hz) : [];
  const layer = bass ? Math.min(scene.state.shows.layer ?? firstLayer(bass), layers.length - 1) : 0;
  const { seat, loudspeakers } = scene.listening;
  const { units } = scene.state;
  const longest = longestWords(units);
  return html`<div class="bass-map"><p class="says">Over the floor at ear height, beside the average. ${layerPick(scene, layers, layer)}</p>
    ${steady(html`<p class="says">${bass ? loudWords(bass.map, layerOf(bass.map, layer), layers[layer], scene.document.room, units) : nothing}</p>`, [longest.loud])}
    ${bass ? bassMap({ ...frame, x_m: bass.map.x_m, y_m: bass.map.y_m, level_db: layerOf(bass.map, layer), seat, loudspeakers })
      : blank(width_px, bassMapHeight(frame))}
    ${steady(html`<p class="says">${bass ? evenWords(bass.map, scene.document.room, seat, units) : nothing}</p>`, [longest.even])}</div>`;
}

/**
 * The band that the map shows, to choose.
 * @param {Scene} scene
 * @param {number[]} layers  Hz
 * @param {number} layer
 */
function layerPick({ dispatch }, layers, layer) {
  return html`<label class="pick-one">Round <select ?disabled=${layers.length < 2} @change=${(/** @type {Event} */ event) => dispatch({
    type: "show", shows: { layer: Number(/** @type {HTMLSelectElement} */ (event.target).value) },
  })}>${layers.map((hz, index) => html`<option value=${index} .selected=${index === layer}>${bandName(hz)}</option>`)}</select></label>`;
}

/** Low bands have halves: 31.5 Hz. @param {number} hz */
function bandName(hz) {
  return hz < 100 && !Number.isInteger(hz) ? `${number(hz, 1)}\u202fHz` : frequency(hz);
}

/**
 * @param {Bass} bass
 * @param {BesideBass|null} beside
 */
function notes({ modes }, beside) {
  const decay = (/** @type {number|undefined} */ decay_s) => (decay_s !== undefined && Number.isFinite(decay_s) ? seconds(decay_s) : "–");
  const there = (/** @type {typeof modes[number]} */ mode) => beside?.bass.modes.find((one) => one.n.join() === mode.n.join());
  return html`<div class="scroll" tabindex="0"><table><caption>Notes of the room. Fed: how strongly the loudspeakers drive it. Heard: how much of it is left at the seat.</caption>
    <thead><tr><th scope="col">Note</th><th scope="col" class="text">runs</th><th scope="col">dies away in</th>${beside ? html`<th scope="col">in ${beside.label}</th>` : nothing}<th scope="col">fed</th><th scope="col">heard</th><th scope="col" class="text">in words</th></tr></thead>
    <tbody>${modes.map((mode) => html`<tr><th scope="row">${number(mode.frequency_hz, 1)}\u202fHz</th><td class="text">${wayOf(mode)}</td>
      <td>${decay(mode.decay_s)}</td>${beside ? html`<td>${decay(there(mode)?.decay_s)}</td>` : nothing}<td>${percent(mode.fed)}</td><td>${percent(mode.heard)}</td><td class="text">${mode.note}</td></tr>`)}</tbody></table></div>`;
}

/** Rows and columns of the table of the map at most. */
const MOST_ROWS = 18;
const MOST_COLUMNS = 8;

/**
 * The layer that is drawn, beside its average, at every few places.
 * @param {Scene} scene
 * @param {Bass} bass
 */
function mapTable({ state }, bass) {
  const { map } = bass;
  const layer = Math.min(state.shows.layer ?? firstLayer(bass), map.frequency_hz.length - 1);
  const levels = besideAverage(layerOf(map, layer));
  const [rows, columns] = [sampled(map.y_m, MOST_ROWS), sampled(map.x_m, MOST_COLUMNS)];
  return html`<div class="scroll" tabindex="0"><table><caption>Level round ${bandName(map.frequency_hz[layer])}, dB beside the average over the floor. Down: from the front wall. Across: from the left wall.</caption>
    <thead><tr><td></td>${columns.map((x) => html`<th scope="col">${length(map.x_m[x], state.units)}</th>`)}</tr></thead>
    <tbody>${rows.map((y) => html`<tr><th scope="row">${length(map.y_m[y], state.units)}</th>${columns.map((x) => html`<td>${number(levels[y * map.nx + x])}</td>`)}</tr>`)}</tbody></table></div>`;
}
