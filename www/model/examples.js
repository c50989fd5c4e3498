// The demo rooms that lie beside the page. Rooms and people are invented.

/**
 * @typedef {object} Example
 * @property {string} file  name of its file in `scenarios/` without the ending
 * @property {string} name
 * @property {string} about  its difficulty in one line
 * @property {import("./format.js").Units} units
 */

/** @type {readonly Readonly<Example>[]} */
export const EXAMPLES = Object.freeze([
  { file: "long-terrace-room", name: "Long terrace room", units: "metric", about: "Old plaster, children, half the room behind the sofa." },
  { file: "rented-corner-room", name: "Rented corner room", units: "metric", about: "No holes in the walls, and one bounce on the window." },
  { file: "concrete-loft", name: "Concrete loft", units: "metric", about: "Large and hard, with sprinklers over the bounce." },
  { file: "square-study", name: "Square study", units: "metric", about: "Full of thin foam: dull, and it still booms." },
  { file: "basement-den", name: "Basement den, in feet", units: "imperial", about: "Low, home-built panels, an escape window." },
  { file: "tall-room", name: "Tall room", units: "metric", about: "A ceiling to leave alone; curtains and two pictures." },
]);
