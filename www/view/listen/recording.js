/**
 * Read a recording: the response of a room out of a WAV file, as decay times and clarity. The file stays on this device.
 *
 * @import { ListenerClient } from "../../engine/listener.js"
 * @import { BandRead, Reading } from "../../model/recording.js"
 * @import { Measured, State } from "../../model/types.js"
 *
 * @typedef {object} RecordingPort
 * @property {() => State} getState
 * @property {() => Promise<ListenerClient>} createListener
 * @property {((entry: Measured) => void)} [useMeasured]  takes a measured decay into the document; none where nothing can
 */
import { html, nothing, render } from "../../vendor.js";
import { CLAP } from "../../model/caution_texts.js";
import { measuredOf, readingInWords } from "../../model/recording.js";
import { planName } from "../../model/words.js";

/** Larger files are not even loaded, bytes; the core has the same limit. */
const MOST_BYTES = 64 * 2 ** 20;

/** @param {HTMLElement} place @param {RecordingPort} port */
export function mountRecording(place, port) {
  /** @type {ListenerClient|null} */
  let listener = null;
  const view = { words: "", reading: /** @type {Reading|null} */ (null), plan: 0, thirds: false };
  const draw = () => render(part(view, port, { take, ...setters }), place);
  const setters = {
    /** @param {number} plan */
    plan: (plan) => { view.plan = plan; draw(); },
    /** @param {boolean} thirds */
    thirds: (thirds) => { view.thirds = thirds; draw(); },
  };
  /** @param {File|undefined} file */
  async function take(file) {
    if (!file) return;
    Object.assign(view, { words: "Being read.", reading: null });
    draw();
    try {
      if (file.size > MOST_BYTES) throw new Error(`${file.name} has ${Math.round(file.size / 2 ** 20)} MB; at most ${MOST_BYTES / 2 ** 20} MB are read. Cut the silence off its end.`);
      listener ??= await port.createListener();
      const reading = await listener.read(new Uint8Array(await file.arrayBuffer()));
      if (reading.problem) view.words = reading.problem;
      else Object.assign(view, { reading, words: readingInWords(reading) });
    } catch (error) {
      view.words = error instanceof Error ? error.message : "This file could not be read.";
    }
    draw();
  }
  draw();
}

/**
 * @param {{words: string, reading: Reading|null, plan: number, thirds: boolean}} view
 * @param {RecordingPort} port
 * @param {{take: (file: File|undefined) => void, plan: (plan: number) => void, thirds: (thirds: boolean) => void}} act
 */
function part({ words, reading, plan, thirds }, port, act) {
  return html`<div class="listen">
    <p>A WAV file of the room's impulse response: of a sweep turned into one, or of a short sound. 16, 24 or 32 bits, one or two channels. It never leaves this device.</p>
    <p class="caution">${CLAP}</p>
    <label class="field"><span class="field-name">Recording, WAV</span>
      <input type="file" accept=".wav,audio/wav,audio/x-wav" @change=${(/** @type {Event} */ event) => act.take(/** @type {HTMLInputElement} */ (event.target).files?.[0])} /></label>
    <p role="status" aria-live="polite" class="listen-words">${words}</p>
    ${reading ? html`${bandTable(thirds ? reading.thirds : reading.octaves)}
      <label class="tick"><input type="checkbox" .checked=${thirds} @change=${(/** @type {Event} */ event) => act.thirds(/** @type {HTMLInputElement} */ (event.target).checked)} /> third octaves</label>
      ${useIt(reading, plan, port, act)}` : nothing}</div>`;
}

/**
 * @param {Reading} reading @param {number} plan @param {RecordingPort} port
 * @param {{plan: (plan: number) => void}} act
 */
function useIt(reading, plan, { getState, useMeasured }, act) {
  const { plans } = getState().document;
  const entry = measuredOf(reading, plans[plan]?.name ?? plans[0].name);
  if (!entry || !useMeasured) return nothing;
  return html`<div class="listen-row"><label class="field"><span class="field-name">Recorded in the room as in</span>
    <select @change=${(/** @type {Event} */ event) => act.plan(Number(/** @type {HTMLSelectElement} */ (event.target).value))}>
      ${plans.map(({ name }, index) => html`<option value=${index} ?selected=${index === plan}>${index === 0 ? "Today" : planName(name)}</option>`)}</select></label>
    <button type="button" @click=${() => useMeasured(entry)}>Use T20 of the octaves for the check-up</button></div>`;
}

/** @param {BandRead[]} bands */
function bandTable(bands) {
  return html`<div class="scroll" tabindex="0"><table><caption>As ISO 3382 reads a response. Times in s, clarity in dB.</caption>
    <thead><tr><th scope="col">Hz</th><th scope="col">EDT</th><th scope="col">T20</th><th scope="col">T30</th><th scope="col">C50</th><th scope="col">C80</th><th scope="col">above noise</th><th scope="col">not told</th></tr></thead>
    <tbody>${bands.map((band) => html`<tr><th scope="row">${band.center_hz}</th><td>${figure(band.edt_s, 2)}</td><td>${figure(band.t20_s, 2)}</td><td>${figure(band.t30_s, 2)}</td>
      <td>${figure(band.c50_db, 1)}</td><td>${figure(band.c80_db, 1)}</td><td>${band.above_noise_db === null ? "–" : `${band.above_noise_db.toFixed(0)} dB`}</td><td class="why-not">${band.refused.join(" ")}</td></tr>`)}</tbody></table></div>`;
}

/** @param {number|null} value @param {number} digits */
function figure(value, digits) {
  return value === null ? "–" : value.toFixed(digits);
}
