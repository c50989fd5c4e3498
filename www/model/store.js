// The store: one state, changed only by actions, watched by whoever draws.

/**
 * @import { Action, Dispatch } from "./actions.js"
 * @import { State } from "./types.js"
 * @typedef {{get: () => State, dispatch: Dispatch, subscribe: (listener: (next: State, previous: State) => void) => () => void}} Store
 */

/**
 * A store around a reducer. A dispatch from inside a reducer or a listener is an error of the programmer: it would hand
 * listeners states out of order.
 * @param {State} first
 * @param {(state: State, action: Action, now_ms: number) => State} reduce
 * @param {() => number} [now] milliseconds, only differences matter
 * @returns {Store}
 */
export function createStore(first, reduce, now = () => Date.now()) {
  let state = first;
  let busy = false;
  /** @type {Set<(next: State, previous: State) => void>} */
  const listeners = new Set();
  /** @param {Action} action */
  function dispatch(action) {
    if (busy) throw new Error(`dispatch of "${action.type}" inside a dispatch`);
    busy = true;
    try {
      const previous = state;
      state = reduce(state, action, now());
      if (state !== previous) for (const listener of [...listeners]) listener(state, previous);
    } finally {
      busy = false;
    }
  }
  return {
    get: () => state,
    dispatch,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
