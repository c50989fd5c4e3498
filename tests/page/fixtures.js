// Answers of the core as they look, made up but consistent: shares sum to one, ranges lie round their middle.

const BANDS = 24;

/** @param {(band: number) => number} value */
export function series(value) {
  return Float64Array.from({ length: BANDS }, (_, band) => value(band));
}

/** Direct sound rises with the band; a fifth is early. */
export function seatReport(direct = 0.1) {
  const direct_share = series((band) => direct + 0.01 * band);
  return {
    direct_share, early_share: series(() => 0.2), late_share: direct_share.map((share) => 0.8 - share),
    c50_db: series((band) => band / 10), c80_db: series((band) => 3 + band / 10), critical_distance_m: series(() => 0.9), index_db: [series((band) => band / 4), series((band) => band / 2)],
  };
}

/** @param {object} [more] */
export function planReport(t20_s = 0.5, more = {}) {
  const times = series(() => t20_s);
  return {
    name: "A", room: { statistics_from_hz: 150 }, decay: { t20_s: times, sabine_s: times, eyring_s: times },
    mid: { t20_s }, reflections: [], notes: [], cost: { known: 0, unpriced: 0, mass_kg: 0, area_m2: 0 }, ...more,
  };
}

/** Ranges a fifth to either side. @param {object} [more] */
export function rangesOf(t20_s = 0.5, goal_met = 0.72, more = {}) {
  const seat = seatReport();
  const span = (shares) => ({ low: shares.map((share) => share - 0.03), high: shares.map((share) => share + 0.03) });
  return {
    draws: 200, decay: { low_s: series(() => 0.8 * t20_s), high_s: series(() => 1.2 * t20_s) },
    mid: { t20_s, low_s: 0.8 * t20_s, high_s: 1.2 * t20_s, goal_met },
    seat: { direct_share: span(seat.direct_share), early_share: span(seat.early_share), late_share: span(seat.late_share) },
    differences: [], ...more,
  };
}

/** A first bounce on the left wall of the sample room with its area at 1 kHz. @param {object} [more] */
export function reflection(more = {}) {
  return {
    loudspeaker: 0, order: 1, surfaces: ["left"], points_m: [[0, 2.5, 1.05]], distance_m: 4.2, delay_s: 0.004,
    level_db: series(() => -6), direction: [-1, 0, 0], pieces: [], parts: [],
    zones: [{ semi_along_m: 0.6, semi_across_m: 0.4, along: [1, 0] }], ...more,
  };
}

/** Two layers of two by three places; the second note is the one that matters. */
export function bassReport() {
  const levels = { frequency_hz: Float64Array.of(20, 40, 80, 160, 315, 630), left_db: series(() => -3).slice(0, 6), right_db: series(() => -4).slice(0, 6), both_db: Float64Array.of(0, 6, 3, 0, -3, -6) };
  return {
    response: { ...levels, third_octave: levels }, stops_at_hz: 200,
    modes: [
      { n: [0, 1, 0], frequency_hz: 28.6, decay_s: 1.1, note: "the seat misses it", fed: 0.9, heard: 0.1 },
      { n: [1, 0, 0], frequency_hz: 42.9, decay_s: 0.9, note: "the seat hears it", fed: 0.8, heard: 0.9 },
      { n: [1, 1, 0], frequency_hz: 43.2, decay_s: 0.8, note: "weak", fed: 0.2, heard: 0.2 },
    ],
    words: ["43 Hz, across: the seat hears it, the loudspeakers feed it.", "It rings for 0.9 s."],
    map: {
      frequency_hz: [31.5, 40], nx: 2, ny: 3, x_m: [1, 3], y_m: [1, 3, 5],
      level_db: Float64Array.of(0, 0, 0, 0, 0, 0, 12, 0, 0, 0, 0, -30),
    },
    behind: [{ loudspeaker: 0, distance_m: 1.1, dip_hz: 78 }, { loudspeaker: 1, distance_m: 1.1, dip_hz: 78.2 }],
    coincident: [[1, 2]], thin: "Thin pieces hardly act below 250 Hz.",
  };
}
