// Corner pieces, stands and curtains: dragged, typed and moved by keys like panels, and stopped by what must stay free.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { shelfGroup, kindDepth } from "../../www/model/kinds.js";
import { landingPlaces } from "../../www/model/landing.js";
import { freshPiece, lay, laidRect, stored } from "../../www/model/laid.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { frozen, kind, sample } from "./support.js";

const corner = kind("corner", 0.6, 1.2, { stands: "corner", name: "Corner piece" });
const screen = kind("screen", 0.8, 1.8, { stands: "stand", name: "Screen" });
const curtain = kind("curtain", 1.5, 2.3, { stands: "curtain", name: "Curtain", fullness: 2, absorber: { layers: [{ cloth: { flow_resistance_pa_s_per_m: 2000 } }, { gap: { thickness_mm: 100 } }] } });
const LEG_M = 0.4243;

/** A state of the sample room. @param {object} [changes] */
function start({ pieces = [], parts = {}, ...room } = {}) {
  const document = sample({ kit: [kind(), corner, screen, curtain], pieces });
  Object.assign(document.room, room);
  for (const [surface, list] of Object.entries(parts)) document.room.surfaces[surface] = { ...document.room.surfaces[surface], parts: list };
  return initialState(frozen(document));
}

/** A new piece dragged to where its low corner is wanted, and let go. */
function dropped(state, kit, surface, u_m, v_m) {
  let next = reduce(state, { type: "drag-new", kit, by: "pointer" }, 0);
  next = reduce(next, { type: "drag-move", surface, u_m, v_m, tolerance_m: 0 }, 0);
  return { held: next, state: reduce(next, { type: "drag-end" }, 0) };
}

/** The last piece of plan A. */
const last = (state) => state.document.plans[1].pieces.at(-1);

describe("a corner piece", () => {
  it("goes up the corner that is nearest on a wall and on the floor, as one step", () => {
    const back = dropped(start(), corner, "left", 4.8, 0.2).state;
    assert.deepEqual(last(back), { kit: "corner", place: "corner", edge: "back-left", z_m: 0.2 });
    assert.equal(back.history.past.length, 1);
    assert.deepEqual(last(dropped(start(), corner, "front", 3.2, 0).state), { kit: "corner", place: "corner", edge: "front-right", z_m: 0 });
    assert.equal(last(dropped(start(), corner, "floor", 3, 5).state).edge, "back-right");
  });

  it("covers its leg of both walls", () => {
    const piece = { kit: "corner", place: "corner", edge: "back-right", z_m: 0.1 };
    const { document } = start({ pieces: [piece] });
    assert.deepEqual(laidRect(document, lay(document, piece, "right")), { u_m: 5.5757, v_m: 0.1, width_m: LEG_M, height_m: 1.2 });
    assert.deepEqual(laidRect(document, lay(document, piece, "back")), { u_m: 3.5757, v_m: 0.1, width_m: LEG_M, height_m: 1.2 });
    assert.deepEqual(stored(document, lay(document, piece, "back")), piece);
  });

  it("is not put on the ceiling, and says why", () => {
    const { held, state } = dropped(start(), corner, "ceiling", 1, 1);
    assert.equal(held.drag.legal, false);
    assert.match(state.notice.text, /where two walls meet/);
    assert.equal(state.document.plans[1].pieces.length, 0);
  });

  it("slides over what hangs on its other wall", () => {
    const panel = { kit: "thick", surface: "front", u_m: 0.1, v_m: 0 };
    const { held, state } = dropped(start({ pieces: [panel] }), corner, "left", 0, 1.1);
    assert.equal(last(state).z_m, 1.2);
    assert.match(held.drag.reason, /stops at Thick soft/);
  });

  it("keeps off a door beside the edge at every height of the door", () => {
    const door = { role: "door", finish: "door-solid", u_m: 0.1, v_m: 0, width_m: 0.8, height_m: 2.0 };
    const { held } = dropped(start({ parts: { front: [door] } }), corner, "left", 0, 0.4);
    assert.equal(held.drag.legal, false);
    assert.match(held.drag.reason, /the door is in the way/);
  });
});

describe("a stand", () => {
  it("stands on the floor with its middle where it was let go, and nowhere else", () => {
    const { state } = dropped(start(), screen, "floor", 0.6, 2.025);
    assert.deepEqual(last(state), { kit: "screen", place: "stand", x_m: 1, y_m: 2.1, z_m: 0.05, turn_deg: 0 });
    assert.match(dropped(start(), screen, "left", 1, 1).state.notice.text, /stand goes on the floor/);
  });

  it("keeps out of the swing of a door, of the way through an archway and of zones on the floor", () => {
    const door = { role: "door", finish: "door-solid", u_m: 2, v_m: 0, width_m: 0.8, height_m: 2.0, swing_m: 0.8 };
    const swung = dropped(start({ parts: { left: [door] } }), screen, "floor", 0.75, 2.2);
    assert.ok(last(swung.state).x_m >= 1.3, "right of 0.9 m and half a screen");
    assert.match(swung.held.drag.reason, /free before the door/);
    const arch = { ...door, role: "opening", finish: "open-archway", swing_m: undefined };
    assert.match(dropped(start({ parts: { left: [arch] } }), screen, "floor", 0.75, 2.2).held.drag.reason, /free before the archway/);
    const zone = { surface: "floor", u_m: 0.5, v_m: 2, width_m: 0.5, height_m: 0.5, margin_m: 0.1, why: "heater" };
    assert.match(dropped(start({ keep_clear: [zone] }), screen, "floor", 0.5, 1.85).held.drag.reason, /the heater/);
  });

  it("turns about its middle by an eighth, by typed degrees, and stops at furniture", () => {
    const piece = { kit: "screen", place: "stand", x_m: 1, y_m: 3, z_m: 0.05, turn_deg: 0 };
    const turned = reduce(start({ pieces: [piece] }), { type: "turn-piece", index: 0 }, 0);
    assert.deepEqual(last(turned), { ...piece, turn_deg: 45 });
    assert.deepEqual(last(reduce(turned, { type: "set-piece", index: 0, turn_deg: 270 }, 0)), { ...piece, turn_deg: -90 });
    const sofa = { kind: "sofa-fabric", count: 1, at: { x_m: 1.6, y_m: 2.5, width_m: 2, depth_m: 0.9, height_m: 0.8 } };
    const stopped = reduce(start({ pieces: [piece], furnishings: [sofa] }), { type: "set-piece", index: 0, x_m: 1.3 }, 0);
    assert.equal(last(stopped).x_m, 1.2);
    assert.match(stopped.notice.text, /Stops at the furniture/);
  });

  it("is mirrored across the room with its turn", () => {
    const piece = { kit: "screen", place: "stand", x_m: 0.8, y_m: 2, z_m: 0.05, turn_deg: 90 };
    assert.deepEqual(last(reduce(start({ pieces: [piece] }), { type: "mirror-piece", index: 0 }, 0)), { ...piece, x_m: 3.2, turn_deg: -90 });
  });
});

describe("a curtain", () => {
  const window = { role: "window", finish: "window-double", u_m: 2, v_m: 0.9, width_m: 1.4, height_m: 1.2 };

  it("may cover a window, which a panel may not", () => {
    const state = start({ parts: { left: [window] } });
    const hung = dropped(state, curtain, "left", 1.95, 0.1);
    assert.deepEqual(last(hung.state), { kit: "curtain", place: "curtain", surface: "left", u_m: 1.95, v_m: 0.1, open: 0 });
    assert.equal(hung.held.drag.reason, null);
    assert.match(dropped(state, kind(), "left", 2.3, 0.9).held.drag.reason, /the window/);
  });

  it("covers no door, no zone, and hangs only on walls", () => {
    const door = { ...window, role: "door", finish: "door-solid", v_m: 0, height_m: 2 };
    assert.match(dropped(start({ parts: { left: [door] } }), curtain, "left", 2, 0).held.drag.reason, /the door/);
    const zone = { surface: "left", u_m: 2, v_m: 1, width_m: 0.3, height_m: 0.3, margin_m: 0.3, why: "heater" };
    assert.match(dropped(start({ keep_clear: [zone] }), curtain, "left", 1.8, 0).held.drag.reason, /heater/);
    assert.match(dropped(start(), curtain, "floor", 1, 1).state.notice.text, /hangs on a wall/);
  });

  it("hangs behind furniture that stands at its wall, where a panel would not fit", () => {
    const sofa = { kind: "sofa-fabric", count: 1, at: { x_m: 0.05, y_m: 2, width_m: 0.9, depth_m: 2, height_m: 0.8 } };
    const state = start({ furnishings: [sofa] });
    assert.equal(dropped(state, curtain, "left", 2.2, 0.1).held.drag.reason, null);
    assert.match(dropped(state, kind(), "left", 2.5, 0.2).held.drag.reason, /the furniture/);
  });

  it("is drawn aside by a share between nothing and all, one step each", () => {
    const piece = { kit: "curtain", place: "curtain", surface: "left", u_m: 1, v_m: 0.1, open: 0 };
    const state = reduce(start({ pieces: [piece] }), { type: "set-piece", index: 0, open: 0.8 }, 0);
    assert.equal(last(state).open, 0.8);
    assert.equal(state.history.past.length, 1);
    assert.equal(last(reduce(state, { type: "set-piece", index: 0, open: 7 }, 0)).open, 1);
    assert.equal(last(reduce(state, { type: "undo" }, 0)).open, 0);
  });

  it("is offered over the windows first", () => {
    const { document } = start({ parts: { left: [window] } });
    const [first] = landingPlaces(document, 1, freshPiece(curtain, "left"), null, "left", "metric");
    assert.equal(first.why, "over the window");
    assert.equal(first.u_m, 1.95);
  });
});

describe("pieces of every place", () => {
  it("move by arrow steps and by a drag that Escape takes back", () => {
    const pieces = [
      { kit: "corner", place: "corner", edge: "front-left", z_m: 0.5 }, { kit: "screen", place: "stand", x_m: 2, y_m: 2, z_m: 0.05, turn_deg: 0 },
      { kit: "curtain", place: "curtain", surface: "right", u_m: 1, v_m: 0.1, open: 0.5 },
    ];
    const state = start({ pieces });
    const nudged = [0, 1, 2].reduce((next, index) => reduce(next, { type: "nudge-piece", index, du_m: 0.1, dv_m: 0.1 }, index * 5000), state);
    assert.deepEqual(nudged.document.plans[1].pieces, [{ ...pieces[0], z_m: 0.6 }, { ...pieces[1], x_m: 2.1, y_m: 2.1 }, { ...pieces[2], u_m: 1.1, v_m: 0.2 }]);
    const held = reduce(reduce(state, { type: "drag-start", index: 1, by: "pointer" }, 0), { type: "drag-move", surface: "floor", u_m: 0.2, v_m: 3, tolerance_m: 0 }, 0);
    assert.equal(held.drag.legal, true);
    assert.equal(reduce(held, { type: "drag-cancel" }, 0).document, state.document);
  });

  it("come back inside when the room shrinks", () => {
    const pieces = [{ kit: "screen", place: "stand", x_m: 3.4, y_m: 5.5, z_m: 0.05, turn_deg: 0 }, { kit: "corner", place: "corner", edge: "back-left", z_m: 1.2 }];
    const state = reduce(start({ pieces }), { type: "set-room", length_m: 5, height_m: 2.2 }, 0);
    const kept = state.document.plans[1].pieces;
    assert.deepEqual(kept.find(({ place }) => place === "corner"), { ...pieces[1], z_m: 1 });
    assert.ok(kept.find(({ place }) => place === "stand").y_m <= 4.95);
  });
});

describe("places to pick for a corner piece and a stand", () => {
  it("are the four corners, and before the bounce marks of the walls", () => {
    const { document } = start();
    const corners = landingPlaces(document, 1, freshPiece(corner, "left"), null, "left", "metric");
    assert.deepEqual(corners.slice(0, 2).map(({ why }) => why), ["front left corner", "back left corner"]);
    assert.ok(corners.every(({ why }) => /corner$/.test(why)));
    const [first] = landingPlaces(document, 1, freshPiece(screen, "left"), null, "floor", "metric");
    assert.match(first.why, /before the bounce mark/);
    assert.equal(first.turn_deg, 90);
  });

  it("are taken as they are offered, with their turn", () => {
    const picked = reduce(start(), { type: "pick", kit: screen, index: null }, 0);
    const [{ surface, u_m, v_m, turn_deg }] = picked.picked.places;
    const landed = last(reduce(picked, { type: "land", surface, u_m, v_m, turn_deg }, 0));
    assert.equal(landed.turn_deg, 90);
    assert.equal(landed.place, "stand");
  });
});

describe("the groups of the shelf", () => {
  it("tell kinds by their place, then by their build", () => {
    const made = (absorber, more = {}) => shelfGroup(kind("any", 0.6, 1.2, { absorber, ...more }));
    const porous = (thickness_mm) => ({ porous: { thickness_mm, flow_resistivity_pa_s_per_m2: 8000 } });
    assert.equal(made({ layers: [porous(50)] }), "soft");
    assert.equal(made({ layers: [porous(200)] }), "bass");
    assert.equal(made({ layers: [{ perforated: { thickness_mm: 12, hole_mm: 8, pitch_mm: 20 } }, porous(50)] }), "boards");
    assert.equal(made({ layers: [{ membrane: { mass_kg_per_m2: 4 } }, { gap: { thickness_mm: 100 } }] }), "bass");
    assert.equal(made({ scattering: { depth_mm: 60, period_mm: 300 } }), "scatter");
    assert.deepEqual([corner, screen, curtain].map(shelfGroup), ["bass", "stands", "cloth"]);
    assert.equal(made({ bands_hz: [500], absorption: [0.5] }, { stands: "floor" }), "floor");
  });

  it("give every build its depth, where cloth and sheets have none", () => {
    assert.equal(kindDepth(curtain), 0.1);
    assert.equal(kindDepth(kind("s", 0.6, 0.6, { absorber: { scattering: { depth_mm: 60, period_mm: 300 } } })), 0.06);
    assert.equal(kindDepth(kind("m", 0.6, 0.6, { absorber: { layers: [{ membrane: { mass_kg_per_m2: 4 } }, { gap: { thickness_mm: 80 } }] } })), 0.08);
  });
});
