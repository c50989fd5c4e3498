/**
 * Drawings that cost nothing while nobody looks: those that wait for the end of a gesture, and those in closed folds.
 */
import { AsyncDirective, Directive, directive, html, noChange } from "../vendor.js";

/**
 * What a drawing is made from; null: it stays as it is, for instance while something is dragged.
 * @typedef {readonly unknown[]|null} Keys
 */

/** @param {Keys} keys @param {Keys} before */
function areSame(keys, before) {
  return keys === null || (before !== null && keys.length === before.length && keys.every((key, index) => Object.is(key, before[index])));
}

class AtRest extends Directive {
  /** @type {Keys} */
  keys = null;
  isDrawn = false;

  /** @param {Keys} keys @param {() => unknown} draw */
  render(keys, draw) {
    if (this.isDrawn && areSame(keys, this.keys)) return noChange;
    this.isDrawn = true;
    this.keys = keys;
    return draw();
  }
}

/** Draws anew when one of the keys has changed, and not at all while they are null. */
export const atRest = directive(AtRest);

class InFold extends AsyncDirective {
  /** @type {HTMLDetailsElement|null} */
  fold = null;
  /** @type {Keys} */
  keys = null;
  /** What is not drawn yet. @type {(() => unknown)|null} */
  waiting = null;

  /** @param {import("lit-html").ChildPart} part @param {[Keys, () => unknown]} made @returns {unknown} */
  update(part, [keys, draw]) {
    this.fold ??= this.listen(/** @type {HTMLDetailsElement} */ (/** @type {Element} */ (part.parentNode).closest("details")));
    return this.render(keys, draw);
  }

  /** @param {Keys} keys @param {() => unknown} draw @returns {unknown} */
  render(keys, draw) {
    if (!areSame(keys, this.keys)) {
      this.keys = keys;
      this.waiting = draw;
    }
    return this.fold?.open ? this.drawn() : noChange;
  }

  /** @param {HTMLDetailsElement} fold */
  listen(fold) {
    fold.addEventListener("toggle", () => {
      if (fold.open && this.isConnected) this.setValue(this.drawn());
    });
    return fold;
  }

  drawn() {
    const draw = this.waiting;
    this.waiting = null;
    return draw ? draw() : noChange;
  }
}

/** What stands in a fold, drawn once the fold is open. */
export const inFold = directive(InFold);

/**
 * A fold whose content is drawn once it is open.
 * @param {string} summary @param {Keys} keys  what the content is made from; null: it stays as it is @param {() => unknown} draw
 */
export function figureFold(summary, keys, draw) {
  return html`<details class="figures"><summary>${summary}</summary>${inFold(keys, draw)}</details>`;
}
