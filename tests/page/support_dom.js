// As much of a page as the inputs need, for node: elements with attributes and parents, events with a target.

/** An element that answers `closest` for attribute and name selectors. */
class FakeElement extends EventTarget {
  /** @param {string} name @param {Record<string, string>} attributes @param {FakeElement|null} parent */
  constructor(name, attributes = {}, parent = null) {
    super();
    this.name = name;
    this.attributes = attributes;
    this.parent = parent;
    this.captured = new Set();
  }

  getAttribute(name) {
    return this.attributes[name] ?? null;
  }

  closest(selectors) {
    const fits = (selector) => {
      const [, attribute, value] = /^\[([\w-]+)(?:='(\w+)')?\]$/.exec(selector) ?? [];
      if (!attribute) return this.name === selector;
      return attribute in this.attributes && (value === undefined || this.attributes[attribute] === value);
    };
    return selectors.split(", ").some(fits) ? this : this.parent?.closest(selectors) ?? null;
  }

  setPointerCapture(id) {
    this.captured.add(id);
  }

  releasePointerCapture(id) {
    this.captured.delete(id);
  }

  hasPointerCapture(id) {
    return this.captured.has(id);
  }

  querySelector() {
    return null;
  }
}

globalThis.Element ??= FakeElement;

/**
 * A page with a root, one sheet, and a way to make elements on it; `fire` sends an event as the browser would, without bubbling
 * between fakes: to the root, then the document, then the window.
 */
export function fakePage() {
  const window = Object.assign(new EventTarget(), { requestAnimationFrame: () => 0 });
  const page = Object.assign(new EventTarget(), { defaultView: window, getSelection: () => null });
  const root = Object.assign(new FakeElement("div"), { ownerDocument: page });
  const sheet = new FakeElement("svg", { "data-sheet": "box" }, root);
  /** @param {string} type @param {FakeElement} target @param {object} [fields] */
  function fire(type, target, fields = {}) {
    const event = Object.assign(new Event(type, { cancelable: true }), fields);
    Object.defineProperty(event, "target", { value: target });
    for (const place of [root, page, window]) place.dispatchEvent(event);
    return event;
  }
  return { root, sheet, fire, element: (attributes, parent = sheet, name = "g") => new FakeElement(name, attributes, parent) };
}
