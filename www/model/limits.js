// The numbers that bound a document, in one place. The core checks the same ones; the page never lets a person pass them.

/** Sides of the room. @type {Readonly<{least_m: number, most_m: number}>} */
export const ROOM_SIDE = Object.freeze({ least_m: 1.2, most_m: 25 });

/** Rooms for which the model was tried; others are computed, and said to be beyond it. Common practice, no source. */
export const TRUSTED = Object.freeze({ least_m: 1.8, most_m: 15, least_m3: 10, most_m3: 500 });

/** Sides of a piece as a person may resize it. @type {Readonly<{least_m: number, most_m: number}>} */
export const PIECE_SIDE = Object.freeze({ least_m: 0.1, most_m: 4 });

/** Decay times that a goal may name. @type {Readonly<{least_s: number, most_s: number}>} */
export const GOAL = Object.freeze({ least_s: 0.05, most_s: 10 });

/** Absorption as data sheets state it, beyond 1 as their small samples give; from `doubted` on it is warned about. */
export const SHEET = Object.freeze({ most: 1.3, doubted: 1.2 });

/** How many of each a document may hold. */
export const MOST = Object.freeze({ pieces: 200, parts: 60, furnishings: 40, plans: 8, kinds: 40, text: 60, zones: 60, own: 40, measured: 40, bands: 31 });

/** Decay times that may have been measured. @type {Readonly<{least_s: number, most_s: number}>} */
export const DECAY = Object.freeze({ least_s: 0.05, most_s: 20 });

/** A link, as characters of the fragment's packed part in bytes and as JSON text in bytes. */
export const LINK = Object.freeze({ packed_bytes: 16 * 1024, unpacked_bytes: 256 * 1024, depth: 32 });

/** Steps that can be undone; the oldest is dropped. */
export const HISTORY_STEPS = 200;

/** Rest after which arrow steps on the same item start a new entry of the history. */
export const MERGE_REST_MS = 1000;

/** Farthest that a piece is moved to find it a legal place. */
export const NEAREST_PLACE_M = 0.3;

/** Kept free beside a window, so that it can still be opened. */
export const WINDOW_MARGIN_M = 0.05;

/** Loudspeakers and the seat are points; they stay this far inside the room. */
export const INSIDE_M = 0.1;

/** Nearer to a loudspeaker than this, a seat is warned about. */
export const NEAREST_SEAT_M = 0.5;

/** How far a loudspeaker may be turned inwards; outwards is negative. @type {Readonly<{least: number, most: number}>} */
export const TOE_IN_DEG = Object.freeze({ least: -180, most: 180 });

/** The air as the core takes it, and what it takes where nothing is said. */
export const AIR = Object.freeze({
  temperature_c: Object.freeze({ least: -10, most: 45, usual: 20, unit: "°C", words: "temperature" }),
  humidity_percent: Object.freeze({ least: 5, most: 100, usual: 50, unit: "%", words: "humidity" }),
});

/** A thing with own values: most that it may take, and what a new one starts from, m². Common practice, no source. */
export const OWN_FURNISHING = Object.freeze({ most_m2: 50, least_surface_m2: 0.1, most_surface_m2: 100, start_m2: Object.freeze([0.2, 0.3, 0.4, 0.5, 0.5, 0.5]), start_surface_m2: 2 });

/** Of one piece, or of a square metre of its face. */
export const MOST_PRICE = 1e6;

/** Characters of the sign of a currency. */
export const LONGEST_CURRENCY = 8;
