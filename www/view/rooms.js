/**
 * The rooms that this browser keeps, in a menu: go to one, forget one, start another. Read when the menu is opened.
 *
 * @import { Scene } from "./scene.js"
 */
import { html, nothing, render } from "../vendor.js";
import { openStart } from "./start.js";

/**
 * @param {HTMLElement} place
 * @param {Pick<Scene, "commands"|"dispatch">} scene
 * @param {() => void} close  the menu
 */
export function showRooms(place, { commands }, close) {
  const again = () => showRooms(place, { commands, dispatch: () => {} }, close);
  const rooms = commands.rooms();
  render(html`<p class="also">Every room you change is kept in this browser and nowhere else.</p>
    ${rooms.length === 0 ? html`<p class="also">No other room is kept yet.</p>` : html`<ul class="rooms" aria-label="Kept rooms">${rooms.map(({ id, title, kept_ms }) => html`<li>
      <button type="button" @click=${() => { close(); commands.openRoom(id); }}>${title}<small>${when(kept_ms)}</small></button>
      <button type="button" class="word-button" aria-label="Forget ${title}" @click=${() => { commands.forgetRoom(id); again(); }}>forget</button></li>`)}</ul>`}
    <button type="button" @click=${() => { close(); openStart(); }}>Start over with a new room</button>
    ${rooms.length > 0 ? html`<button type="button" @click=${() => { commands.forgetDraft(); again(); }}>Forget all rooms</button>` : nothing}`, place);
}

/** @param {number} kept_ms */
function when(kept_ms) {
  return `kept ${new Date(kept_ms).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" })}`;
}
