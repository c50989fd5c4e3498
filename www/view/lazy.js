/**
 * Parts that are rarely looked at and loaded when they are: the first visit does not wait for them.
 *
 * @import { Dispatch } from "../model/actions.js"
 */
import { html, nothing } from "../vendor.js";

/**
 * @template T
 * @typedef {object} LazyPart
 * @property {() => T|null} here               the module once it is there
 * @property {(dispatch: Dispatch) => void} want  loads it, once; the page is drawn anew when it has come
 * @property {() => unknown} words             what stands in its place until then
 */

/**
 * @template T
 * @param {() => Promise<T>} load
 * @returns {LazyPart<T>}
 */
export function lazyPart(load) {
  /** @type {T|null} */
  let part = null;
  /** @type {"none"|"coming"|"failed"} */
  let state = "none";
  /** @param {Dispatch} dispatch */
  async function want(dispatch) {
    if (part || state === "coming") return;
    state = "coming";
    try {
      part = await load();
    } catch {
      state = "failed";
    }
    // Nothing of the state changes but its identity, which asks for a drawing.
    dispatch({ type: "show", shows: {} });
  }
  return {
    here: () => part,
    want,
    words: () => (part ? nothing : html`<p class="also">${state === "failed" ? "This part could not be loaded. Close it and open it again to try once more." : "Being loaded."}</p>`),
  };
}

/**
 * A fold whose content is loaded when it is first opened.
 * @template T
 * @param {{part: LazyPart<T>, dispatch: Dispatch, summary: string, name?: string, id?: string, body: (part: T) => unknown}} fold
 */
export function lazyFold({ part, dispatch, summary, name = "figures", id, body }) {
  const module = part.here();
  return html`<details id=${id ?? nothing} class=${name} @toggle=${(/** @type {Event} */ event) => {
    if (/** @type {HTMLDetailsElement} */ (event.currentTarget).open) part.want(dispatch);
  }}><summary>${summary}</summary>${module ? body(module) : part.words()}</details>`;
}
