import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { answerChart } from "../../www/chart/answer.js";
import { nominalHz } from "../../www/chart/bands.js";
import { bassMap, stepOf } from "../../www/chart/bassmap.js";
import { curvesChart, namedNotes } from "../../www/chart/curves.js";
import { decayChart } from "../../www/chart/decay.js";
import { sharesChart } from "../../www/chart/shares.js";
import { behindSentences, coincidentSentences, firstLayer, layerOf, wayOf } from "../../www/model/bass_words.js";
import { fieldSentences } from "../../www/model/field_words.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { middleShares, octaveMeans, octaveShares, roomShare } from "../../www/model/shares.js";
import { bassPart } from "../../www/view/bass.js";
import { decayStrip } from "../../www/view/decay.js";
import { foldBox } from "../../www/view/fold.js";
import { notes } from "../../www/view/notes.js";
import { secondBounces, secondMarks } from "../../www/view/second.js";
import { seatShare } from "../../www/view/shares.js";
import { spotBody, spotButtons } from "../../www/view/spot.js";
import { why } from "../../www/view/why.js";
import { zoneDrawing, zoneWords } from "../../www/view/zones.js";
import { bassReport, planReport, rangesOf, reflection, seatReport, series } from "./fixtures.js";
import { piece, sample } from "./support.js";
import { countOf, textOf, wordsOf } from "./support_text.js";

/** A scene of the sample room. @param {object} [more] */
function scene({ now = planReport(0.9), shown = planReport(0.5), ranges, today, bass = null, offers = { ranges: true, bass: true }, plan = 1, ...more } = {}) {
  const document = sample({ pieces: [piece("left", 1, 1)] });
  const state = { ...initialState(document), shown: plan, bass: bass && { document, plan, bass } };
  if (ranges !== undefined || today !== undefined) {
    const come = { ...(ranges !== undefined && { [plan]: ranges }), ...(today !== undefined && { 0: today }) };
    state.late = { document, ranges: come, carried: null };
  }
  return {
    state: { ...state, ...more.state }, document, plan: document.plans[plan], listening: document.listening, now, shown, offers,
    viewport: { width: "wide", content_px: 1276 }, dispatch: () => {}, kit: [], library: { finishes: [], furnishings: [] },
    fold: foldBox(document.room, { width_px: 760, height_px: 500, ceiling_px: 460 }),
  };
}

describe("shares by octave", () => {
  it("are means of three thirds, and the middle of the range is 500 Hz to 4 kHz", () => {
    assert.deepEqual(octaveMeans(series((band) => band)), [1, 4, 7, 10, 13, 16, 19, 22]);
    const seat = seatReport(0.1);
    assert.ok(Math.abs(middleShares(seat).direct - (0.1 + 0.01 * 14.5)) < 1e-12);
    const { direct, early, late } = middleShares(seat);
    assert.ok(Math.abs(direct + early + late - 1) < 1e-12);
  });

  it("have the range of the ranges, and none without", () => {
    const [first] = octaveShares(seatReport(), rangesOf());
    assert.deepEqual([first.directRange.low.toFixed(2), first.directRange.high.toFixed(2)], ["0.08", "0.14"]);
    assert.equal(octaveShares(seatReport(), null)[0].directRange, null);
    assert.equal(octaveShares(seatReport(), rangesOf(0.5, 0.5, { seat: null }))[0].lateRange, null);
  });

  it("of the room are what is not direct, with the range turned round", () => {
    const { low, high, known } = roomShare(seatReport(), rangesOf());
    assert.deepEqual([low.toFixed(3), high.toFixed(3), known], ["0.725", "0.785", true]);
  });
});

describe("Seat share", () => {
  const both = () => ({ now: planReport(0.9, { seat: seatReport(0.05) }), shown: planReport(0.5, { seat: seatReport(0.1) }) });

  it("says what the room makes up, as a range once that is there", () => {
    assert.match(wordsOf(seatShare(scene(both()), 460)), /With Plan A the room makes up about 76 % of what reaches you, today about 81 %\./);
    assert.match(wordsOf(seatShare(scene({ ...both(), ranges: rangesOf(), today: rangesOf() }), 460)), /the room still makes up 73–78 % of what reaches you/);
  });

  it("shows the same figures as a table, with C50, C80 and critical distance", () => {
    const text = wordsOf(seatShare(scene({ ...both(), ranges: rangesOf() }), 460));
    for (const head of ["direct", "first 20 ms", "later", "C50, dB", "C80, dB", "critical distance"]) assert.ok(text.includes(head), head);
    assert.match(text, /Seat share, Plan A, with 8-in-10 ranges .* 1 kHz 23 % 20–26 20 % 17–23 57 % 54–60 1\.3 4\.3 0\.90 m/);
    assert.match(text, /Seat share, today, with 8-in-10 ranges .* 1 kHz 18 % – /, "a range on its way has its place");
    assert.match(wordsOf(seatShare(scene({ ...both(), offers: { ranges: false, bass: false } }), 460)), /Seat share, today Octave/);
  });

  it("is not drawn while the core says nothing about the seat", () => {
    assert.equal(wordsOf(seatShare(scene(), 460)), "");
    assert.equal(wordsOf(seatShare(scene({ now: planReport(0.9, { seat: null }), shown: planReport(0.5, { seat: null }) }), 460)), "");
  });

  it("draws three parts in each column, and ticks only for ranges", () => {
    const one = (ranges) => ({ name: "today", look: "now", middle: middleShares(seatReport()), octaves: octaveShares(seatReport(), ranges) });
    const plain = sharesChart({ series: [one(null)], width_px: 460 });
    assert.equal(countOf(plain, /class="share now/g), 27);
    assert.equal(countOf(plain, /doubt-over/g), 0);
    assert.equal(countOf(sharesChart({ series: [one(rangesOf())], width_px: 460 }), /doubt-over/g), 16);
    assert.doesNotMatch(textOf(sharesChart({ series: [one(null)], width_px: 280 })), /NaN|width=-/);
  });
});

describe("bars of doubt", () => {
  const data = { now_s: series(() => 0.9), plan_s: series(() => 0.5), planName: "Plan A", goal: { low_s: 0.3, high_s: 0.5 }, limit_hz: 150, width_px: 760, height_px: 165, labelled: true };

  it("stand in the decay strip with a tick for the middle", () => {
    const ranged = decayChart({ ...data, now_range: rangesOf(0.9).decay, plan_range: rangesOf(0.5).decay, waiting: false });
    assert.equal(countOf(ranged, /class="middle /g), 48);
    assert.equal(countOf(ranged, /<rect class=plan low/g), 5, "hollow below the limit of statistics");
    const waiting = decayChart({ ...data, now_range: null, plan_range: null, waiting: true });
    assert.equal(countOf(waiting, /class="middle /g), 0);
    assert.equal(countOf(waiting, /class=plan waits/g), 19);
    assert.equal(countOf(waiting, /class=now waits/g), 0, "only what is shown waits");
  });

  it("stand in the picture of the answer", () => {
    const chart = (more) => textOf(answerChart({ now_s: 0.9, plan_s: 0.5, planName: "Plan A", goal: data.goal, width_px: 460, now_range: null, plan_range: null, waiting: false, ...more }));
    assert.equal(countOf(chart({ plan_range: { low_s: 0.4, high_s: 0.6 } }), /class="middle plan"/g), 1);
    assert.match(chart({ waiting: true }), /class=plan waits/);
  });

  it("are read in words: inside, outside, or in doubt", () => {
    const reading = (t20_s, ranges) => wordsOf(decayStrip(scene({ shown: planReport(t20_s), ranges }), 760)).replace(/^Decay, band by band /, "");
    assert.match(reading(0.4, rangesOf(0.4)), /^the whole range lies inside the goal in every band from 250 Hz to 4 kHz/);
    assert.match(reading(0.45, rangesOf(0.45)), /^in doubt from 250 Hz to 4 kHz/);
    assert.match(reading(0.9, rangesOf(0.9)), /^too long from 250 Hz to 4 kHz/);
    assert.match(reading(0.45, undefined), /^inside the goal in every band/);
  });
});

describe("Why", () => {
  it("explains the range and compares the plan with the others", () => {
    const differences = [{ from: "Now", to: "A", mid_s: -0.3, low_s: -0.36, high_s: -0.27 }];
    const one = scene({ ranges: rangesOf() });
    const text = wordsOf(why(one, { ranges: rangesOf(), today: null, differences, missing: "coming" }));
    assert.match(text, /8 times in 10, if the room is as described\. We drew it 200 times/);
    assert.match(text, /Plan A is shorter than today by 0\.27–0\.36 s\./);
    assert.match(text, /Very likely: 9 times in 10 or more\./);
    assert.equal(wordsOf(why(one, { ranges: null, today: null, differences: [], missing: "none" })), "");
  });
});

describe("areas round bounces", () => {
  const one = (more) => scene({ shown: planReport(0.5, { reflections: [reflection(), reflection({ loudspeaker: 1, surfaces: ["right"], zones: [{ semi_along_m: 0.9, semi_across_m: 0.5, along: [1, 0] }] })] }), ...more });

  it("are ellipses that grow as one over the root of the frequency, clipped to the wall", () => {
    const { fold, shown } = one();
    const radii = (hz) => /rx=([\d.]+) ry=([\d.]+)/.exec(textOf(zoneDrawing(fold.faces.left, shown, hz)).replaceAll('"', "")).slice(1).map(Number);
    const scale = fold.scale_px_per_m;
    const [along, across] = radii(1000);
    assert.ok(Math.abs(along - 0.6 * scale) < 0.06 && Math.abs(across - 0.4 * scale) < 0.06);
    assert.ok(Math.abs(radii(250)[0] - 2 * along) < 0.11);
    assert.match(textOf(zoneDrawing(fold.faces.left, shown, 1000)), /clip-path="url\(#inside-left\)"/);
    assert.equal(textOf(zoneDrawing(fold.faces.floor, shown, 1000)), "");
  });

  it("lie along the axis of the surface as it is turned on the sheet", () => {
    const { fold, shown } = one();
    const face = fold.faces.left;
    const turn = Number(/rotate\((-?[\d.]+)\)/.exec(textOf(zoneDrawing(face, shown, 1000)))[1]);
    const expected = (Math.atan2(face.uy, face.ux) * 180) / Math.PI;
    assert.ok(Math.abs(turn - expected) < 0.1);
  });

  it("are told in words, in short sentences, and not at all without figures", () => {
    const text = wordsOf(zoneWords(one()));
    assert.match(text, /at 1 kHz: from 1\.20 × 0\.80 m to 1\.80 × 1\.00 m\. A piece much smaller than its outline does little there\./);
    const far = one({ state: { shows: { zone_hz: 4000, second: false, layer: null } } });
    assert.match(wordsOf(zoneWords(far)), /at 4 kHz: from 0\.60 × 0\.40 m/);
    assert.equal(wordsOf(zoneWords(scene({ shown: planReport(0.5, { reflections: [reflection({ zones: undefined })] }) }))), "");
  });
});

describe("second bounces", () => {
  const second = (level) => reflection({ order: 2, surfaces: ["left", "back"], points_m: [[0, 2, 1], [1, 6, 1]], level_db: series(() => level), zones: undefined });
  const one = (more) => scene({ now: planReport(0.9, { reflections: [reflection(), second(-9)] }), shown: planReport(0.5, { reflections: [reflection(), second(-14)] }), ...more });

  it("stand in a table of their own, today beside the plan", () => {
    assert.match(wordsOf(secondBounces(one())), /Left wall, back wall left 4\.0 −9 −14/);
    assert.equal(wordsOf(secondBounces(scene())), "");
  });

  it("are marked on both surfaces, half as large", () => {
    const { fold, shown } = one();
    assert.equal(countOf(secondMarks(fold.faces.left, shown), /r="2\.6"/g), 1);
    assert.equal(countOf(secondMarks(fold.faces.back, shown), /r="2\.6"/g), 1);
    assert.equal(countOf(secondMarks(fold.faces.right, shown), /r="2\.6"/g), 0);
  });

  it("are shown on the drawing on request, outside of the history", () => {
    const state = reduce(initialState(sample()), { type: "show", shows: { second: true } }, 0);
    assert.deepEqual(state.shows, { zone_hz: 1000, second: true, layer: null });
    assert.equal(state.history.past.length, 0);
  });
});

describe("the bass", () => {
  it("leads with words, then the map, then the response, then the figures", () => {
    const text = wordsOf(bassPart(scene({ bass: bassReport() }), 760));
    const order = ["43 Hz, across", "Two notes share", "Over the floor at ear height", "Bass at the seat", "The notes as a table", "The map as a table"];
    const places = order.map((words) => text.indexOf(words));
    assert.ok(places.every((at, index) => at > (places[index - 1] ?? -1)), places.join());
    assert.match(text, /The wall behind both loudspeakers, 1\.10 m away, takes out sound near 78 Hz\./);
    assert.match(text, /42\.9 Hz across 0\.90 s 80 % 90 % the seat hears it/);
  });

  it("shows first the map round the note that the words begin with, not one above those told", () => {
    const bass = bassReport();
    const note = (frequency_hz, fed) => ({ n: [1, 0, 0], frequency_hz, decay_s: 1, note: "", fed, heard: 1 });
    const map = { ...bass.map, frequency_hz: [40, 63, 125] };
    assert.equal(firstLayer({ ...bass, map, modes: [note(41, 0.6), note(122.6, 0.9)] }), 0);
  });

  it("is marked as old until the new one is there, and says when it cannot be", () => {
    const fresh = scene({ bass: bassReport() });
    assert.match(textOf(bassPart(fresh, 760)), /aria-busy=false/);
    const old = { ...fresh, document: { ...fresh.document } };
    assert.match(textOf(bassPart(old, 760)), /is-stale/);
    assert.match(wordsOf(bassPart(old, 760)), /as before the last change; catching up/);
    assert.match(wordsOf(bassPart(scene(), 760)), /^Bass, note by note being computed Over the floor .* The notes as a table/);
    assert.equal(wordsOf(bassPart(scene({ offers: { ranges: true, bass: false } }), 760)), "");
    const none = scene();
    none.state.bass = { document: none.document, plan: 1, bass: null };
    assert.match(wordsOf(bassPart(none, 760)), /this needs loudspeakers and a seat/);
  });

  it("shows first the layer of the note that matters most, and each layer by itself", () => {
    const bass = bassReport();
    assert.equal(firstLayer(bass), 1);
    assert.deepEqual([...layerOf(bass.map, 1)], [12, 0, 0, 0, 0, -30]);
    assert.equal(firstLayer({ ...bass, modes: [] }), 0);
  });

  it("has words for ways, walls behind and notes that share a pitch", () => {
    const { modes, ...bass } = bassReport();
    assert.deepEqual([wayOf(modes[0]), wayOf(modes[2]), wayOf({ n: [1, 2, 1] })], ["lengthwise", "across and lengthwise", "all three ways"]);
    assert.deepEqual(coincidentSentences({ modes, ...bass }).map((text) => text.replaceAll("\u202f", " ")), ["Two notes share 43 Hz, across and across and lengthwise: they pile up."]);
    const apart = [modes[0], modes[1], { ...modes[2], frequency_hz: 44.6 }];
    assert.match(coincidentSentences({ ...bass, modes: apart })[0], /^43.Hz and 45.Hz nearly share one pitch, across and across and lengthwise: they pile up\.$/);
    assert.deepEqual(coincidentSentences({ modes: [], ...bass }), []);
    assert.deepEqual(behindSentences([{ loudspeaker: 1, distance_m: 0.5, dip_hz: 172 }], "metric").map((text) => text.replaceAll("\u202f", " ")),
      ["The wall behind the right loudspeaker, 0.50 m away, takes out sound near 172 Hz."]);
  });

  it("is mapped in steps of 3 dB beside the average, the seat with its own figure", () => {
    assert.deepEqual([-20, -9, -1, 0, 2.9, 3, 40].map(stepOf), [0, 1, 3, 4, 4, 5, 6]);
    const { map } = bassReport();
    const chart = bassMap({ x_m: map.x_m, y_m: map.y_m, level_db: layerOf(map, 1), room: { width_m: 4, length_m: 6 }, seat: { x_m: 1, y_m: 1 }, loudspeakers: [{ x_m: 1, y_m: 1 }, { x_m: 3, y_m: 1 }], width_px: 460, height_px: 250 });
    assert.match(wordsOf(chart), /seat \+7 dB/);
    assert.match(textOf(chart), /<path class="level-6"/);
    assert.doesNotMatch(textOf(chart), /NaN/);
  });

  it("covers the floor with cells, whatever the places", () => {
    const chart = textOf(bassMap({ x_m: [0.1, 2, 3.9], y_m: [0.5, 5.5], level_db: [0, 0, 0, 0, 0, 0], room: { width_m: 4, length_m: 6 }, seat: undefined, loudspeakers: [], width_px: 602, height_px: 900 }));
    const [, path] = /<path class="level-4" d=([^/]*)\/>/.exec(chart);
    const numbers = [...path.matchAll(/-?[\d.]+/g)].map(([text]) => Number(text));
    assert.deepEqual([Math.min(...numbers), Math.max(...numbers)], [1, 601]);
  });

  it("names the weightiest notes that leave each other room", () => {
    const notes_ = [{ frequency_hz: 40, weight: 0.2 }, { frequency_hz: 41, weight: 0.9 }, { frequency_hz: 80, weight: 0.1 }];
    assert.deepEqual(namedNotes(notes_, (hz) => hz * 2).map(({ frequency_hz }) => frequency_hz), [41, 80]);
  });

  it("draws curves up to their last frequency and not beyond", () => {
    const { response } = bassReport();
    const chart = textOf(curvesChart({ label: "x", curves: [{ name: "both", look: "raw", frequency_hz: response.frequency_hz, level_db: response.both_db }], from_hz: 20, to_hz: 300, notes: [], stops_at_hz: 200, width_px: 760, height_px: 180, named: true }));
    const [, path] = /class="curve raw" d=([^ ]+ [^/]*)\/>/.exec(chart);
    const xs = [...path.matchAll(/[ML]([\d.]+) /g)].map(([, x]) => Number(x));
    assert.deepEqual([xs.length, xs[0], xs.at(-1)], [5, 40, 676]);
    assert.equal(nominalHz(31.6228), 31.5);
    assert.equal(nominalHz(1258.9), 1250);
  });
});

describe("how the late sound behaves", () => {
  it("is told in words: bent, flutter with its rate, and where it lives", () => {
    const sentences = fieldSentences(planReport(0.5, {
      field: { bent: "The end is slower than the start", carriers: [{ surface: "floor", share: 0.1 }, { surfaces: ["left", "right"], share: 0.5 }, { surface: "ceiling", share: 0.25 }] },
      flutter: [{ surfaces: ["left", "right"], repeats_per_s: 55.4 }, { surfaces: ["floor", "ceiling"], repeats_per_s: 63.6 }],
    })).map((text) => text.replaceAll("\u202f", " "));
    assert.deepEqual(sentences, [
      "The end is slower than the start.",
      "Flutter: the left and right wall throw a clap to and fro 55 times a second. Making one of them soft or uneven stops it.",
      "Flutter: floor and ceiling throw a clap to and fro 64 times a second. Making one of them soft or uneven stops it.",
      "The late sound lives mostly on the left and right wall (50 %) and the ceiling (25 %). Soft pieces help most there.",
    ]);
    assert.deepEqual(fieldSentences(planReport()), []);
  });
});

describe("notes", () => {
  it("stand on the page in words", () => {
    const text = wordsOf(notes(scene({ shown: planReport(0.5, { notes: ["The archway leads to a room that is not modelled."] }) })));
    assert.match(text, /What this does not cover The archway leads to a room that is not modelled\.$/);
  });
});

describe("the panel of a loudspeaker", () => {
  it("has its numbers, how it spreads and how far it is turned in; the seat has no spread", () => {
    const one = scene();
    const text = wordsOf(spotBody(one, { spot: 0, place: { x_m: 1, y_m: 1, z_m: 1, toe_in_deg: 10 } }));
    for (const words of ["Left loudspeaker", "from the left wall", "from the front wall", "above the floor", "narrow: beams forward", "turned in, degrees"]) assert.ok(text.includes(words), words);
    const place = { x_m: 1, y_m: 1, z_m: 1 };
    const index = wordsOf(spotBody(scene({ shown: planReport(0.5, { seat: seatReport() }) }), { spot: 1, place }));
    assert.match(index, /directivity index 2\.0 dB at 125 Hz, 6\.5 dB at 1 kHz, 9\.5 dB at 4 kHz/);
    assert.ok(!wordsOf(spotBody(one, { spot: "seat", place: one.listening.seat })).includes("spreads"));
    assert.match(wordsOf(spotButtons(one)), /left loudspeaker , right loudspeaker , seat/);
  });
});
