// Whatever a person does on the page, the core opens the document that comes of it.
import assert from "node:assert/strict";
import { it } from "node:test";
import { initialState, reduce } from "../../www/model/reduce.js";
import { between, seeded } from "../page/support.js";
import { Session, scenario } from "./support.js";

const NAMES = ["long-terrace-room", "rented-corner-room", "tall-room", "square-study", "concrete-loft", "basement-den"];
const SURFACES = ["left", "right", "front", "back", "floor", "ceiling"];
const ROUNDS = 25;
const STEPS = 40;

const session = new Session();
const library = session.library();

/** Fails with the step if the core finds anything wrong. */
function assertOpens(document, step) {
  assert.deepEqual(session.open(document).findings.map(({ message }) => message), [], step);
}

/** Steps of every family with numbers that are often nonsense; each answers with the actions to dispatch. @param {() => number} random */
function wildSteps(random) {
  const pick = (list) => list[Math.floor(random() * list.length)];
  const number = (low, high) => between(random, low, high);
  const some = (count) => Math.floor(random() * count);
  const rect = () => ({ u_m: number(-1, 8), v_m: number(-1, 4), width_m: number(0.01, 5), height_m: number(0.01, 3) });
  const part = () => ({ role: pick(["door", "window", "opening", "built-in", "wall"]), finish: pick(["wooden-door", "window", "brick"]), ...rect(), swing_m: number(0, 4), depth_m: number(0, 6) });
  const typed = () => ({
    u_m: number(-1, 8), v_m: number(-1, 4), x_m: number(-1, 6), y_m: number(-1, 8), turn_deg: number(-500, 500), open: number(-0.5, 1.5),
    edge: pick(["front-left", "back-right"]), width_m: number(0.1, 3),
  });
  const one = (action) => [action];
  return [
    () => one({ type: "set-part", surface: pick(SURFACES), index: pick([null, null, 0]), part: part() }),
    () => one({ type: "remove-part", surface: pick(SURFACES), index: 0 }),
    () => one({ type: "set-zone", index: pick([null, 0]), zone: { surface: pick(SURFACES), ...rect(), margin_m: number(0, 0.8), why: pick(["sprinkler", "heater", "socket"]) } }),
    () => one({ type: "remove-zone", index: 0 }),
    () => one({ type: "place-furnishing", kind: pick(library.furnishings).id, size_m: pick(library.furnishings).size_m }),
    () => one({ type: "move-furnishing", index: some(4), at: { x_m: number(-1, 9), y_m: number(-1, 9), width_m: number(0.1, 4) } }),
    () => one({ type: "set-furnishing", kind: pick(library.furnishings).id, count: some(4) }),
    () => one({ type: "set-own-finish", id: null, surface: pick(SURFACES), values: [0.1, 0.2, 0.3, 0.4, 0.5, random()] }),
    () => one({ type: "set-piece", index: some(6), ...typed() }),
    () => one({ type: "nudge-piece", index: some(6), du_m: number(-1, 1), dv_m: number(-1, 1) }),
    () => one({ type: pick(["mirror-piece", "duplicate-piece", "turn-piece", "remove-piece"]), index: some(6) }),
    () => one({ type: "set-room", width_m: number(2, 7), length_m: number(2, 9), height_m: number(2, 4) }),
    () => one({ type: "set-limit", limit: pick(["min_height_m", "budget", "max_depth_m"]), value: pick([null, number(0, 2)]) }),
    () => one({ type: "set-condition", condition: "rented", on: random() < 0.5 }),
    () => one({ type: "add-measured", entry: { plan: pick(["Now", "A", "Nowhere"]), bands_hz: [500, 1000], decay_s: [number(-1, 25), number(0, 1)] } }),
    () => one({ type: "set-measured", index: some(3), entry: { plan: "Now", bands_hz: [250], decay_s: [number(-1, 25)] } }),
    () => one({ type: "remove-measured", index: some(3) }),
    () => one({ type: "undo" }),
    () => [{ type: "drag-new", kit: pick(library.shelf), by: "pointer" },
      { type: "drag-move", surface: pick(SURFACES), u_m: number(-1, 8), v_m: number(-1, 4), tolerance_m: pick([0, 0.1]) }, { type: "drag-end" }],
  ];
}

it("a thousand wild steps in the six demo rooms leave documents that open", () => {
  let changes = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const random = seeded(round + 1);
    const steps = wildSteps(random);
    const document = scenario(NAMES[round % NAMES.length]);
    let state = { ...initialState(document), shown: document.plans.length - 1 };
    for (let step = 0; step < STEPS; step += 1) {
      const actions = steps[Math.floor(random() * steps.length)]();
      const before = state.document;
      for (const action of actions) state = reduce(state, action, step * 5000);
      if (state.document === before) continue;
      changes += 1;
      assertOpens(state.document, `round ${round}, step ${step}: ${JSON.stringify(actions)}`);
    }
  }
  assert.ok(changes > ROUNDS * STEPS * 0.4, `only ${changes} of ${ROUNDS * STEPS} steps changed anything`);
});

it("every kind of the shelf that finds a place in a demo room lands there", () => {
  const landed = new Set();
  for (const name of NAMES) {
    for (const kit of library.shelf) {
      const picked = reduce(initialState(scenario(name)), { type: "pick", kit, index: null }, 0);
      const [place] = picked.picked?.places ?? [];
      if (!place) continue;
      const state = reduce(picked, { type: "land", surface: place.surface, u_m: place.u_m, v_m: place.v_m, turn_deg: place.turn_deg }, 0);
      assertOpens(state.document, `${name}: ${kit.id}`);
      if (state.document !== picked.document) landed.add(kit.id);
    }
  }
  assert.deepEqual(library.shelf.map(({ id }) => id).filter((id) => !landed.has(id)), []);
});

it("every kind of the shelf has its texts and its absorption", () => {
  assert.ok(library.shelf.length >= 20);
  for (const [index, { id }] of library.shelf.entries()) {
    const note = library.shelf_notes[index];
    assert.equal(note.id, id);
    for (const text of [note.good_for, note.ask_for, note.source]) assert.ok(text.length > 20, id);
    assert.equal(note.absorption.length, 24);
  }
});
