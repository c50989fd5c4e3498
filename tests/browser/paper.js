// Reads what a PDF says, line by line, and turns its pages into pictures.
import { createCanvas } from "@napi-rs/canvas";
import jsqr from "jsqr";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

/**
 * @typedef {{text: string, y: number, sizes_pt: number[]}} Line
 * @typedef {{lines: Line[], text: string}} Sheet
 */

/** Pieces of text whose baselines are this near stand in one line, points. */
const ONE_LINE_PT = 2;

/** jsQR is a CommonJS module, whose function some loaders hand over inside of it. @type {typeof jsqr.default} */
const readSquare = /** @type {any} */ (jsqr).default ?? jsqr;

/** @param {Uint8Array} bytes */
function opened(bytes) {
  return getDocument({ data: new Uint8Array(bytes), verbosity: 0, useSystemFonts: false }).promise;
}

/** Every page of a PDF by its lines, from the top. @param {Uint8Array} bytes @returns {Promise<Sheet[]>} */
export async function sheetsOf(bytes) {
  const pdf = await opened(bytes);
  const sheets = [];
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const { items } = await (await pdf.getPage(number)).getTextContent();
    const lines = linesOf(items.flatMap((item) => ("str" in item && item.str.trim() !== "" ? [item] : [])));
    sheets.push({ lines, text: lines.map(({ text }) => text).join("\n") });
  }
  return sheets;
}

/** @param {{str: string, transform: number[], width: number}[]} items @returns {Line[]} */
function linesOf(items) {
  /** @type {{y: number, items: typeof items}[]} */
  const rows = [];
  for (const item of items) {
    const y = item.transform[5];
    const row = rows.find((one) => Math.abs(one.y - y) < ONE_LINE_PT);
    if (row) row.items.push(item);
    else rows.push({ y, items: [item] });
  }
  return rows.sort((a, b) => b.y - a.y).map((row) => ({
    y: row.y, sizes_pt: row.items.map(({ transform }) => Math.hypot(transform[2], transform[3])),
    text: joined(row.items.sort((a, b) => a.transform[4] - b.transform[4])),
  }));
}

/** Words apart where there is a gap between them. @param {{str: string, transform: number[], width: number}[]} items */
function joined(items) {
  let text = "";
  let end = -Infinity;
  for (const { str, transform, width } of items) {
    text += transform[4] - end > 0.8 && text !== "" ? ` ${str}` : str;
    end = transform[4] + width;
  }
  return text.replace(/[\u202f\u00a0]/g, " ").replace(/ +/g, " ").trim();
}

/** A page as a picture. @param {Uint8Array} bytes @param {number} number from 1 @param {number} scale pixels for each point */
export async function pictureOf(bytes, number, scale) {
  const page = await (await opened(bytes)).getPage(number);
  const viewport = page.getViewport({ scale });
  const canvas = createCanvas(viewport.width, viewport.height);
  const context = canvas.getContext("2d");
  context.fillStyle = "#fff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  await page.render({ canvas: null, canvasContext: /** @type {any} */ (context), viewport }).promise;
  return context.getImageData(0, 0, canvas.width, canvas.height);
}

/** What the code square of a page says, as a camera would read it; null without one. @param {Uint8Array} bytes @param {number} number from 1 */
export async function squareOf(bytes, number) {
  const { data, width, height } = await pictureOf(bytes, number, 3);
  return readSquare(new Uint8ClampedArray(data), width, height)?.data ?? null;
}
