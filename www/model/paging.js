// Which blocks of a section stand on which sheet: each sheet is filled from the top, and a block that has rows goes on with
// its next row, under its heading again.

/**
 * @typedef {{before_px: number, rows_px: number[]}} BlockHeight  Its heading, and each of its rows; a block that stays whole has one.
 * @typedef {{block: number, from: number, to: number}} Stretch    Rows of a block, the last not among them.
 */

/**
 * What is taller than a whole sheet stands on one of its own.
 * @param {BlockHeight[]} blocks
 * @param {number} room_px  of a sheet
 * @returns {Stretch[][]} sheet by sheet
 */
export function sheetsOfBlocks(blocks, room_px) {
  /** @type {Stretch[][]} */
  const sheets = [[]];
  let left_px = room_px;
  blocks.forEach(({ before_px, rows_px }, block) => rows_px.forEach((row_px, row) => {
    const stretch = sheets[sheets.length - 1].at(-1);
    const goesOn = stretch?.block === block;
    const needs_px = row_px + (goesOn ? 0 : before_px);
    if (needs_px <= left_px && goesOn) stretch.to = row + 1;
    else if (needs_px <= left_px || !stretch) sheets[sheets.length - 1].push({ block, from: row, to: row + 1 });
    else {
      sheets.push([{ block, from: row, to: row + 1 }]);
      left_px = room_px - before_px - row_px;
      return;
    }
    left_px -= needs_px;
  }));
  return sheets;
}
