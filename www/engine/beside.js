// Where the files of this version of the page lie: beside its main script, in a folder that no other version shares.

/** @param {string} path from the main script @returns {URL} */
export function beside(path) {
  const script = /** @type {HTMLScriptElement|null} */ (document.querySelector('script[type="module"][src]'));
  return new URL(path, script?.src ?? document.baseURI);
}
