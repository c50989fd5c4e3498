/**
 * The places of Fair listen and of reading a recording: folds, as they are loaded only when somebody wants them.
 *
 * @import { ListenPort } from "./listen/region.js"
 * @import { RecordingPort } from "./listen/recording.js"
 */
import { html } from "../vendor.js";
import { origin } from "./origin.js";

/** @param {{commands: {listening: ListenPort & RecordingPort}}} scene */
export function listenPart({ commands: { listening } }) {
  return html`<section class="part listen-part" aria-labelledby="listen-title"><header><h2 id="listen-title">Fair listen</h2><span>for headphones</span></header>
    ${fold("listen", "Hear today and the plan, equally loud", async (place) => (await import("./listen/region.js")).mountListen(place, listening))}${origin("listen", "Fair listen")}
    ${fold("recording", "Read a recording of your room", async (place) => (await import("./listen/recording.js")).mountRecording(place, listening))}${origin("recording", "Recordings")}</section>`;
}

/**
 * @param {string} id @param {string} summary
 * @param {(place: HTMLElement) => Promise<void>} mount  once
 */
function fold(id, summary, mount) {
  /** @param {Event} event */
  const toggled = async (event) => {
    const details = /** @type {HTMLDetailsElement} */ (event.currentTarget);
    const place = /** @type {HTMLElement|null} */ (details.querySelector("[data-place]"));
    if (!details.open || !place || place.dataset.place !== "") return;
    place.dataset.place = "coming";
    try {
      place.replaceChildren();
      await mount(place);
    } catch {
      place.dataset.place = "";
      place.textContent = "This part could not be loaded. Close it and open it again to try once more.";
    }
  };
  return html`<details class="figures" id="fold-${id}" @toggle=${toggled}><summary>${summary}</summary><div data-place=""></div></details>`;
}
