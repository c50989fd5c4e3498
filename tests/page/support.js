// What several page tests need: small documents, and the seeded generator.
export { seeded } from "./seeded.js";

/** @param {() => number} random @param {number} low @param {number} high @returns {number} to 0.1 mm */
export function between(random, low, high) {
  return Math.round((low + random() * (high - low)) * 1e4) / 1e4;
}

const layers = [{ porous: { thickness_mm: 100, flow_resistivity_pa_s_per_m2: 8000 } }, { gap: { thickness_mm: 50 } }];

/** A kind of piece. */
export function kind(id = "thick", width_m = 0.6, height_m = 1.2, more = {}) {
  return { id, name: "Thick soft, 100 mm", width_m, height_m, price: 45, mass_kg: 5, absorber: { layers }, ...more };
}

/** A room of 4 × 6 × 2.5 m with loudspeakers, a seat, and the plans Now and A. */
export function sample(changes = {}) {
  const finish = { finish: "plaster-on-brick" };
  return {
    format: 1, title: "Sample room",
    room: {
      width_m: 4, length_m: 6, height_m: 2.5,
      surfaces: { left: finish, right: finish, front: finish, back: finish, floor: finish, ceiling: finish },
      ...changes.room,
    },
    listening: {
      loudspeakers: [{ x_m: 1, y_m: 1, z_m: 1 }, { x_m: 3, y_m: 1, z_m: 1 }],
      seat: { x_m: 2, y_m: 4, z_m: 1.1 },
    },
    goal: { taste: "lived-in" },
    kit: changes.kit ?? [kind()],
    plans: changes.plans ?? [{ name: "Now", pieces: [] }, { name: "A", pieces: changes.pieces ?? [] }],
    ...(changes.limits && { limits: changes.limits }),
    ...(changes.assumed && { assumed: changes.assumed }),
  };
}

/** A surface piece. */
export function piece(surface, u_m, v_m, more = {}) {
  return { kit: "thick", surface, u_m, v_m, ...more };
}

/** Frozen all the way down, so that a change in place throws. @template T @param {T} value @returns {T} */
export function frozen(value) {
  if (value !== null && typeof value === "object" && !ArrayBuffer.isView(value) && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const item of Object.values(value)) frozen(item);
  }
  return value;
}
