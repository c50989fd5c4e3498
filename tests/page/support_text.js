// Templates of the page as text, for node: enough of what a browser would draw to ask what is in it.

/** @param {any} value a template, a list, a directive that keeps or shows a value, or plain text @returns {string} */
export function textOf(value) {
  if (value === null || value === undefined || typeof value === "symbol" || typeof value === "function" || value === false) return "";
  if (Array.isArray(value)) return value.map(textOf).join("");
  if (value.strings) return value.strings.map((text, index) => text + (index < value.values.length ? textOf(value.values[index]) : "")).join("");
  if (value._$litDirective$) return textOf(typeof value.values[1] === "function" ? value.values[1]() : value.values[0]);
  return String(value);
}

/** The words alone, without tags and with plain spaces. @param {any} value @returns {string} */
export function wordsOf(value) {
  return textOf(value).replace(/<[^>]*>/g, " ").replace(/[\u202f\s]+/g, " ").trim();
}

/** How many elements of a template fit. @param {any} value @param {RegExp} pattern global @returns {number} */
export function countOf(value, pattern) {
  return [...textOf(value).matchAll(pattern)].length;
}
