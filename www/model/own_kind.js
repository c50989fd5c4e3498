// A kind of piece from the figures of its data sheet, as a person enters it.

/**
 * @import { AddOwnKind } from "./actions.js"
 * @import { Kind, State } from "./types.js"
 */
import { frequency, number } from "./format.js";
import { commit } from "./history.js";
import { OWN_BANDS_HZ } from "./household.js";
import { MOST, MOST_PRICE, PIECE_SIDE, SHEET } from "./limits.js";
import { problem } from "./plans.js";
import { nameText } from "./sheet.js";

/** Deepest piece that is taken, m. */
export const DEEPEST_M = 1;

/** Puts a kind with own figures on the shelf. @param {State} state @param {AddOwnKind} action @param {number} now_ms @returns {State} */
export function addOwnKind(state, action, now_ms) {
  const wrong = ownKindProblem(action);
  if (wrong !== null) return problem(state, wrong);
  const kit = state.document.kit ?? [];
  if (kit.length >= MOST.kinds) return problem(state, `A document holds at most ${MOST.kinds} kinds of piece.`);
  const made = ownKind(action, kit);
  const next = commit(state, { label: `own figures of ${made.name}`, document: { ...state.document, kit: [...kit, made] } }, now_ms);
  const doubted = doubtedWords(action.values);
  return doubted === null ? next : { ...next, notice: { text: `${made.name} is on the shelf. ${doubted}`, tone: "note" } };
}

/** Why this is no piece; null: it is one. @param {Omit<AddOwnKind, "type">} facts @returns {string|null} */
export function ownKindProblem({ name, values, width_m, height_m, depth_m, price = null }) {
  if (nameText(name) === "") return "A piece needs a name.";
  if (values.length !== OWN_BANDS_HZ.length) return "A piece needs six figures, from 125 Hz to 4 kHz.";
  const low = values.findIndex((value) => !(value >= 0));
  if (low >= 0) return `${frequency(OWN_BANDS_HZ[low])}: a figure below 0 is none; nothing gives back more sound than meets it.`;
  const high = values.findIndex((value) => value > SHEET.most);
  if (high >= 0) return `${frequency(OWN_BANDS_HZ[high])}: ${number(values[high], 2)} is more than a data sheet states; the most taken here is ${SHEET.most}.`;
  if (![width_m, height_m].every((side_m) => side_m >= PIECE_SIDE.least_m && side_m <= PIECE_SIDE.most_m)) return `A side of a piece lies between ${PIECE_SIDE.least_m} and ${PIECE_SIDE.most_m} m.`;
  if (!(depth_m >= 0 && depth_m <= DEEPEST_M)) return `A piece is at most ${DEEPEST_M} m deep.`;
  if (price !== null && !(price >= 0 && price <= MOST_PRICE)) return "A price is a number, zero or more.";
  return null;
}

/** What is odd about figures that are taken all the same; null: nothing. @param {readonly number[]} values @returns {string|null} */
export function doubtedWords(values) {
  const bands = OWN_BANDS_HZ.filter((_, index) => values[index] > SHEET.doubted);
  if (bands.length === 0) return null;
  return `Above ${SHEET.doubted} at ${bands.map((hz) => frequency(hz)).join(", ")}: that is more than its face can take. Small samples read too high; ask how large the tested one was.`;
}

/** @param {AddOwnKind} facts @param {readonly Kind[]} kit @returns {Kind} */
function ownKind({ name, values, width_m, height_m, depth_m, price = null, looks = null }, kit) {
  let number = 1;
  while (kit.some(({ id }) => id === `own-kind-${number}`)) number += 1;
  return {
    id: `own-kind-${number}`, name: nameText(name), width_m, height_m, depth_mm: Math.round(depth_m * 1e4) / 10, ...(price !== null && { price }), ...(looks !== null && { looks }),
    absorber: { bands_hz: [...OWN_BANDS_HZ], absorption: [...values] },
  };
}
