// The document as text: in the fragment of a link, and in a file. A link is "1." and the base64url of raw-deflate JSON; the
// first character is the version of the packing. Where another plan than the first was shown, its number follows after a dot.
// What comes back is not validated here.

/**
 * @import { Scenario } from "./types.js"
 * @typedef {"no-link"|"incomplete"|"too-large"|"newer-packing"|"not-json"} LinkProblem
 * @typedef {{document: Scenario, shown?: number, problem?: undefined} | {problem: {code: LinkProblem, message: string}, document?: undefined}} Unpacked
 *   `document` is an object of any shape: let the core look at it before it is shown; `shown`: the plan that was, if the link says so
 */
import { LINK } from "./limits.js";

const PACKING = "1";
const LONGEST_FILE_NAME = 48;
/** The plan that a link need not name: the first after the room as it is. */
const OPENS_WITH = 1;

/** @type {Readonly<Record<LinkProblem, string>>} */
const MESSAGES = Object.freeze({
  "no-link": "This link holds no room.",
  incomplete: "This link is incomplete (often cut by a mail program).",
  "too-large": "This link or file holds more than a room can have (16 KiB packed, 256 KiB unpacked).",
  "newer-packing": "Made with a newer version: this page cannot unpack it. The link is kept as it is.",
  "not-json": "This is not a room saved by this page.",
});

/** @param {LinkProblem} code @returns {Unpacked} */
function fail(code) {
  return { problem: { code, message: MESSAGES[code] } };
}

/**
 * Lengths to the stored 0.1 mm; everything else as it is.
 * @template T
 * @param {T} value @param {string} [key] @returns {T}
 */
export function withStoredLengths(value, key = "") {
  if (Array.isArray(value)) return /** @type {T} */ (/** @type {unknown} */ (value.map((item) => withStoredLengths(item))));
  if (value !== null && typeof value === "object") {
    return /** @type {T} */ (Object.fromEntries(Object.entries(value).map(([name, item]) => [name, withStoredLengths(item, name)])));
  }
  if (typeof value === "number" && key.endsWith("_m")) return /** @type {T} */ (Math.round(value * 1e4) / 1e4);
  return value;
}

/** The document as a fragment, without "#". @param {Scenario} document @param {number} [shown] @returns {Promise<string>} */
export async function pack(document, shown = OPENS_WITH) {
  const text = JSON.stringify(withStoredLengths(document));
  const packed = new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const body = toBase64Url(new Uint8Array(await new Response(packed).arrayBuffer()));
  return `${PACKING}.${body}${shown === OPENS_WITH ? "" : `.${shown}`}`;
}

/** The document of a fragment. Never throws. @param {string} fragment with or without "#" @returns {Promise<Unpacked>} */
export async function unpack(fragment) {
  const plain = fragment.replace(/^#/, "").trim();
  if (plain === "") return fail("no-link");
  const [, version, body, shown] = /^(\w+)\.(.*?)(?:\.(\d))?$/s.exec(plain) ?? [];
  if (version === undefined) return fail("incomplete");
  if (version !== PACKING) return fail(/^[2-9]$/.test(version) ? "newer-packing" : "incomplete");
  if (body.length * 0.75 > LINK.packed_bytes) return fail("too-large");
  const packed = fromBase64Url(body);
  if (!packed || packed.length === 0) return fail("incomplete");
  const text = await inflate(packed);
  if (text === "too-large" || text === "incomplete") return fail(text);
  const unpacked = fromText(text.json);
  return unpacked.document && shown !== undefined ? { ...unpacked, shown: Number(shown) } : unpacked;
}

/** JSON text for saving. @param {Scenario} document @returns {string} */
export function toText(document) {
  return `${JSON.stringify(withStoredLengths(document), null, 2)}\n`;
}

/** A name for the saved file. @param {Scenario} document @returns {string} */
export function fileName(document) {
  const words = document.title.normalize("NFKD").toLowerCase().replace(/[\u0300-\u036f]/g, "").replace(/[^a-z0-9]+/g, "-");
  const trimmed = words.slice(0, LONGEST_FILE_NAME).replace(/^-+|-+$/g, "");
  return `${trimmed || "room"}.json`;
}

/** The document of a file. Never throws. @param {Blob} file @returns {Promise<Unpacked>} */
export async function readFile(file) {
  if (file.size > LINK.unpacked_bytes) return fail("too-large");
  try {
    return fromText(await file.text());
  } catch {
    return fail("not-json");
  }
}

/** The document of JSON text. Never throws. @param {string} text @returns {Unpacked} */
export function fromText(text) {
  if (depthOf(text) > LINK.depth) return fail("not-json");
  try {
    const document = JSON.parse(text.replace(/^\ufeff/, ""));
    const isObject = typeof document === "object" && document !== null && !Array.isArray(document);
    return isObject ? { document } : fail("not-json");
  } catch {
    return fail("not-json");
  }
}

/** How deep brackets nest, those in texts left out; deep nesting is an attack on whoever walks it. @param {string} text @returns {number} */
function depthOf(text) {
  let depth = 0;
  let deepest = 0;
  for (const [sign] of text.matchAll(/"(?:[^"\\]|\\.)*"|[[{\]}]/gs)) {
    if (sign === "[" || sign === "{") deepest = Math.max(deepest, ++depth);
    else if (sign === "]" || sign === "}") depth -= 1;
  }
  return deepest;
}

/**
 * Inflates piece by piece and stops once it is more than a document can be.
 * @param {Uint8Array<ArrayBuffer>} packed @returns {Promise<{json: string}|"too-large"|"incomplete">}
 */
async function inflate(packed) {
  const reader = new Blob([packed]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let json = "";
  let size = 0;
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return { json: json + decoder.decode() };
      size += value.byteLength;
      if (size > LINK.unpacked_bytes) {
        await reader.cancel();
        return "too-large";
      }
      json += decoder.decode(value, { stream: true });
    }
  } catch {
    return "incomplete";
  }
}

/** @param {Uint8Array} bytes @returns {string} */
function toBase64Url(bytes) {
  const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  return btoa(text).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
}

/** @param {string} text @returns {Uint8Array<ArrayBuffer>|null} null if it is not base64url */
function fromBase64Url(text) {
  if (!/^[\w-]*$/.test(text)) return null;
  try {
    return Uint8Array.from(atob(text.replace(/-/g, "+").replace(/_/g, "/")), (sign) => sign.charCodeAt(0));
  } catch {
    return null;
  }
}
