import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { differing } from "../../www/model/compare.js";
import { money } from "../../www/model/format.js";
import { costDifference, costOf, costText, partsOf, priceOfOne } from "../../www/model/money.js";
import { cell, partsCsv } from "../../www/model/parts_csv.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { planLabel, planName } from "../../www/model/words.js";
import { plansBar } from "../../www/view/plans.js";
import { comparedMarks } from "../../www/view/compared.js";
import { costs } from "../../www/view/costs.js";
import { decayStrip } from "../../www/view/decay.js";
import { bassPart } from "../../www/view/bass.js";
import { bouncesTable } from "../../www/view/bounces.js";
import { foldBox } from "../../www/view/fold.js";
import { seatShare } from "../../www/view/shares.js";
import { answerWords } from "../../www/model/answer.js";
import { longestWords } from "../../www/model/longest.js";
import { bassBeside, bassCame, missingBass, missingRanges, rangesCame, rangesFor } from "../../www/model/late.js";
import { planParagraph } from "../../www/model/paragraph.js";
import { bassReport, planReport, rangesOf, reflection, seatReport } from "./fixtures.js";
import { frozen, kind, piece, sample, seeded } from "./support.js";
import { countOf, textOf, wordsOf } from "./support_text.js";

const THIN = "\u202f";

/** Steps of the reducer on a frozen state. @param {object} state @param {...object} actions */
const after = (state, ...actions) => actions.reduce((now, action, index) => frozen(reduce(now, action, 5000 * (index + 1))), frozen(state));

/** Now, A and B; B has one piece more than A. @param {object} [more] */
function three(more = {}) {
  const [one, two] = [piece("left", 1, 1), piece("right", 1, 1)];
  return sample({ plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [one] }, { name: "B", pieces: [one, two] }], ...more });
}

describe("what a plan costs", () => {
  it("is the price of each piece, or of its face by area", () => {
    assert.equal(priceOfOne(kind()), 45);
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: undefined, price_per_m2: 50 })), 36);
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: 10, price_per_m2: 50 })), 10, "its own price goes first");
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: undefined })), null);
    assert.equal(priceOfOne(kind("a", 0.6, 1.2, { price: 0 })), 0, "what is there already costs nothing");
  });

  it("adds up, and says at least where a price is not known", () => {
    const kit = [kind(), kind("mystery", 0.6, 0.6, { price: undefined, mass_kg: undefined })];
    const document = sample({ kit, pieces: [piece("left", 1, 1), piece("left", 2, 1), { ...piece("left", 3, 1), kit: "mystery" }] });
    const cost = costOf(document, document.plans[1]);
    assert.deepEqual(cost, { pieces: 3, known: 90, unpriced: 1, mass_kg: 10, unweighed: 1, area_m2: cost.area_m2 });
    assert.ok(Math.abs(cost.area_m2 - 1.8) < 1e-9);
    assert.equal(costText(cost), "at least 90");
    assert.equal(costText({ ...cost, unpriced: 3, known: 0 }), "no price yet");
    assert.equal(costText({ ...cost, unpriced: 0 }, "€"), "€90");
    assert.equal(costText(costOf(document, document.plans[0])), "nothing");
    const [first, second] = partsOf(document, document.plans[1]);
    assert.deepEqual([first.indices, first.total, second.indices, second.total, second.price], [[0, 1], 90, [2], null, null]);
  });

  it("has any sign and none by default", () => {
    assert.deepEqual([money(1300), money(12.5), money(5, "$"), money(1300, "kr"), money(5, "CHF")],
      [`1${THIN}300`, "12.50", "$5", `1${THIN}300${THIN}kr`, `5${THIN}CHF`]);
  });

  it("is compared in words only where both are known", () => {
    const cost = (known, unpriced = 0) => ({ pieces: 3, known, unpriced, mass_kg: 0, unweighed: 0, area_m2: 1 });
    assert.equal(costDifference(cost(90), cost(210)), "costs 120 less");
    assert.equal(costDifference(cost(210), cost(90), "€"), "costs €120 more");
    assert.equal(costDifference(cost(90), cost(90)), "costs the same");
    assert.equal(costDifference(cost(90, 1), cost(210)), "");
  });

  it("is set by one price at a time, in one step each", () => {
    const state = initialState(sample({ pieces: [piece("left", 1, 1)] }));
    const byArea = after(state, { type: "set-kind", id: "thick", price_per_m2: 50 });
    assert.deepEqual([byArea.document.kit[0].price, byArea.document.kit[0].price_per_m2], [undefined, 50]);
    assert.equal(byArea.history.past.length, 1);
    const byPiece = after(byArea, { type: "set-kind", id: "thick", price: 30 });
    assert.deepEqual([byPiece.document.kit[0].price, byPiece.document.kit[0].price_per_m2], [30, undefined]);
    assert.equal("price" in after(byPiece, { type: "set-kind", id: "thick", price: null }).document.kit[0], false);
    const renamed = after(byArea, { type: "set-kind", id: "thick", name: "Panel" });
    assert.deepEqual([renamed.document.kit[0].name, renamed.document.kit[0].price_per_m2], ["Panel", 50]);
    for (const price of [-1, Infinity, NaN, 2e6]) assert.equal(after(state, { type: "set-kind", id: "thick", price }).notice.tone, "problem");
  });

  it("keeps a price by area when a piece is resized", () => {
    const state = after(initialState(sample({ pieces: [piece("left", 1, 1)] })), { type: "set-kind", id: "thick", price_per_m2: 50 },
      { type: "set-piece", index: 0, width_m: 1 });
    assert.equal(costOf(state.document, state.document.plans[1]).known, 60);
  });

  it("takes a sign of at most eight characters", () => {
    const state = initialState(sample());
    assert.equal(after(state, { type: "set-currency", sign: " € " }).document.currency, "€");
    assert.equal(after(state, { type: "set-currency", sign: "123456789" }).document.currency, "12345678");
    assert.equal("currency" in after(state, { type: "set-currency", sign: "€" }, { type: "set-currency", sign: "" }).document, false);
  });
});

describe("the parts as a table for a spreadsheet", () => {
  it("have one line for each kind", () => {
    const document = sample({ pieces: [piece("left", 1, 1), piece("left", 2, 1)] });
    assert.equal(partsCsv({ ...document, currency: "€" }, document.plans[1]), [
      "count,pieces,kind,width_m,height_m,depth_m,mass_kg_each,price_each,price_total,currency",
      '2,1 2,"Thick soft, 100 mm",0.6,1.2,0.15,5,45,90,€', ""].join("\r\n"));
  });

  it("never hold a formula", () => {
    for (const evil of ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "  =1", "\n@x"]) {
      assert.match(cell(evil), /^"?'/, JSON.stringify(evil));
    }
    assert.equal(cell('a "b", c'), '"a ""b"", c"');
    assert.equal(cell("plain"), "plain");
    const document = sample({ kit: [kind("thick", 0.6, 1.2, { name: '=HYPERLINK("http://x")' })], pieces: [piece("left", 1, 1)] });
    assert.ok(partsCsv(document, document.plans[1]).includes(`"'=HYPERLINK(""http://x"")"`));
  });
});

describe("plans", () => {
  it("change places, but the room as it is stays first", () => {
    const state = { ...initialState(three()), shown: 2 };
    const moved = after(state, { type: "move-plan", index: 2, by: -1 });
    assert.deepEqual([moved.document.plans.map(({ name }) => name), moved.shown], [["Now", "B", "A"], 1]);
    assert.equal(moved.history.past.at(-1).label, "move Plan B");
    for (const step of [{ index: 1, by: -1 }, { index: 2, by: 1 }, { index: 0, by: 1 }]) {
      assert.equal(after(state, { type: "move-plan", ...step }).document, state.document);
    }
  });

  it("are compared by two, and what is compared stays the same plan", () => {
    const state = after({ ...initialState(three()), shown: 2 }, { type: "compare", index: 1 });
    assert.equal(state.compared, 1);
    assert.deepEqual([after(state, { type: "show-plan", index: 1 }).compared, after(state, { type: "show-plan", index: 0 }).compared], [2, null], "today stands beside every plan anyway");
    assert.equal(after({ ...state, shown: 0, compared: null }, { type: "compare", index: 2 }).shown, 2);
    assert.equal(after(state, { type: "compare", index: 0 }).compared, null, "today is what every plan is compared with");
    assert.equal(after(state, { type: "compare", index: 2 }).compared, null, "not with itself");
    assert.equal(after(state, { type: "compare", index: 7 }).compared, null);
    assert.equal(after(state, { type: "move-plan", index: 2, by: -1 }).compared, 2);
    assert.equal(after(state, { type: "remove-plan", index: 1 }).compared, null);
    assert.equal(after(state, { type: "open-document", document: sample(), from: "file" }).compared, null);
    assert.equal(state.history.past.length, 0, "looking is no step");
  });

  it("differ by the pieces that only one of them has", () => {
    const document = three();
    assert.deepEqual(differing(document, 2, 1), { here: [1], there: [], moved: false });
    assert.deepEqual(differing(document, 1, 2), { here: [], there: [1], moved: false });
    const twice = three({ plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [piece("left", 1, 1)] },
      { name: "B", pieces: [piece("left", 1.00001, 1), piece("left", 2, 1)], listening: { ...sample().listening, seat: { x_m: 2, y_m: 3, z_m: 1 } } }] });
    assert.deepEqual(differing(twice, 1, 2), { here: [], there: [1], moved: true });
  });

  it("are named by a letter, or by their own words in quotes", () => {
    assert.deepEqual(["Now", "A", "B2", "Plan of May", "Curtains open"].map(planName), ["Now", "Plan A", "Plan B2", "Plan of May", "“Curtains open”"]);
    assert.deepEqual([planLabel("A", 8), planLabel("Curtains open"), planLabel("Curtains open", 8), planLabel("Now", 8)], ["Plan A", "Curtains open", "Curtain…", "Now"]);
  });

  it("stand in the tab row with a name of any length", () => {
    const name = "A very long name of a plan that somebody typed one evening";
    const document = sample({ plans: [{ name: "Now", pieces: [] }, { name, pieces: [] }] });
    const scene = { document, state: initialState(document), plan: document.plans[1], viewport: { width: "wide" }, commands: {}, dispatch: () => {} };
    assert.match(textOf(plansBar(scene)), new RegExp(`title=${name} `));
    assert.match(wordsOf(plansBar(scene)), /Name of this plan Duplicate Remove “A very/);
    assert.match(wordsOf(plansBar({ ...scene, document: three(), state: { ...initialState(three()), shown: 2 } })), /compared with: Today Plan A/);
  });
});

/** Plan B in hand, compared with plan A, all of it there. @param {object} [more] */
function compared({ differences = [{ from: "A", to: "B", mid_s: -0.08, low_s: -0.11, high_s: -0.05 }], document = three(), missing = false } = {}) {
  const [now, other, shown] = [0.9, 0.55, 0.45].map((t20_s) => planReport(t20_s, { seat: seatReport(), reflections: [reflection(), reflection({ loudspeaker: 1, surfaces: ["right"] })] }));
  const answer = { document, plan: 2, compared: 1, now, shown, other, kit: [] };
  const ranges = missing ? {} : { 0: rangesOf(0.9, 0), 1: rangesOf(0.55, 0.4), 2: rangesOf(0.45, 0.8, { differences }) };
  const bass = { document, plan: 2, bass: bassReport() };
  const otherBass = { document, plan: 1, bass: { ...bassReport(), words: ["29 Hz, lengthwise: it booms here."] } };
  const state = { ...initialState(document), shown: 2, compared: 1, answer, late: { document, ranges, carried: null }, bass, otherBass };
  return {
    state, document, plan: document.plans[2], listening: document.listening, now, shown, offers: { ranges: true, bass: true }, dispatch: () => {}, commands: {},
    kit: [], library: { finishes: [], furnishings: [] }, viewport: { width: "wide", content_px: 1276 }, fold: foldBox(document.room, { width_px: 760, height_px: 500, ceiling_px: 460 }),
  };
}

describe("two plans beside each other", () => {
  const said = (scene, doubt = {}) => {
    const { late } = scene.state;
    return answerWords(scene.state.answer, { ranges: late.ranges[2] ?? null, today: late.ranges[0] ?? null, beside: late.ranges[1] ?? null, differences: late.ranges[2]?.differences ?? [], missing: "coming", ...doubt }).text.replaceAll("\u202f", " ");
  };

  it("begin with the difference and its range, and end with what it costs", () => {
    assert.equal(said(compared()), "Plan B is shorter than Plan A by 0.05–0.11 s. Your goal is 0.30–0.50 s: likely, Plan A could go either way. It should die away in 0.36–0.54 s, Plan A in 0.44–0.66 s. Plan B costs 45 more.");
  });

  it("are too close to call where the range straddles zero", () => {
    assert.match(said(compared({ differences: [{ from: "A", to: "B", mid_s: 0, low_s: -0.04, high_s: 0 }] })), /^Plan B is between 0\.04 s shorter and 0\.00 s shorter than Plan A: too close to call\. /);
    assert.match(said(compared({ differences: [{ from: "B", to: "A", mid_s: 0.02, low_s: -0.01, high_s: 0.05 }] })), /^Plan B is between 0\.05 s shorter and 0\.01 s longer than Plan A: too close to call\. /, "turned round");
  });

  it("say as well what stands out: leave it alone, the boom, odd rooms, and what is of the plan in hand by its name", () => {
    const scene = compared();
    const { answer } = scene.state;
    const met = rangesOf(0.4, 0.8);
    const boomy = { ...bassReport(), note_kept: 0.99, coincident: [[1, 2]], evener: { x_m: 2, y_m: 3.5, varies_db: 2, from_db: 6 } };
    const soft = rangesOf(0.45, 0.8, { differences: [{ from: "A", to: "B", mid_s: -0.08, low_s: -0.11, high_s: -0.05 }] });
    soft.decay = { low_s: soft.decay.low_s.map((value, band) => (band >= 16 ? 0.1 : value)), high_s: soft.decay.high_s.map((value, band) => (band >= 16 ? 0.12 : value)) };
    const dull = planReport(0.45, { seat: seatReport(), notes: ["More like a recording booth than a room: check the surfaces."] });
    dull.decay = { ...dull.decay, t20_s: dull.decay.t20_s.map((value, band) => (band >= 16 ? 0.11 : value)) };
    const odd = three({ room: { conditions: ["not-a-box"] } });
    const text = said({ ...scene, state: { ...scene.state, late: { ...scene.state.late, ranges: { ...scene.state.late.ranges, 0: met, 2: soft } }, answer: { ...answer, document: odd, now: planReport(0.4), shown: dull } } }, { bass: boomy });
    assert.match(text, /Plan B costs 45 more\. Panels will not fix the boom: two bass notes share 43 Hz\./);
    assert.match(text, /Plan B is too soft on top: treble would fade in 0\.10–0\.12 s while 250 Hz takes 0\.36–0\.54 s\./);
    assert.match(text, /Leave it alone: today’s 0\.32–0\.48 s is already inside your goal\./);
    assert.match(text, /More like a recording booth than a room: check the surfaces\. Ranges are doubled, as the room is no box\.$/);
    assert.doesNotMatch(said(scene), /Leave it alone|boom|too soft|booth|doubled/);
  });

  it("are within a hundredth of a second where nothing is to be told apart", () => {
    assert.match(said(compared({ differences: [{ from: "A", to: "B", mid_s: 0, low_s: -0.001, high_s: 0.004 }] })), /^Plan B is within 0\.01 s of Plan A: too close to call\. /);
  });

  it("say that the difference is coming, and do not make one up", () => {
    assert.equal(said(compared({ missing: true })), "Plan B: sound should die away in about 0.45 s, Plan A in 0.55 s. The difference is catching up.");
    assert.match(said(compared({ missing: true }), { missing: "failed" }), /The difference could not be computed here\.$/);
    assert.match(said(compared({ document: three({ kit: [kind("thick", 0.6, 1.2, { price: undefined })] }) })), /What they cost is not all known yet\.$/);
  });

  it("have room for the longest that they may become", () => {
    const { answers, doubts } = longestWords(compared().state.answer);
    assert.match(answers[0], /between 0\.88 s shorter and 0\.88 s longer than Plan A: too close to call\. .*very unlikely, Plan A very unlikely\.$/);
    assert.match(doubts[0], /^It should die away in 0\.88–0\.88.s, Plan A in 0\.\d\d–0\.88.s\. Plan B costs 45 more\.$/);
  });

  it("keep that room between answers that differ in no length, and work it out anew where one may", () => {
    const { answer } = compared().state;
    const lengths = ({ answers, doubts }) => [answers, doubts].map((forms) => forms.map((form) => form.length));
    const fresh = (one) => { longestWords({ ...one, document: { ...one.document, goal: { low_s: 0.11, high_s: 0.12 } } }); return longestWords(one); };
    const first = longestWords(answer);
    const moved = { ...answer, shown: planReport(0.46), document: three({ plans: three().plans.map((plan) => ({ ...plan, pieces: plan.pieces.map((one) => ({ ...one, u_m: one.u_m + 0.3 })) })) }) };
    assert.equal(longestWords(moved), first, "a moved piece changes no length");
    const random = seeded(7);
    const of = (list) => list[Math.floor(random() * list.length)];
    for (let tries = 0; tries < 300; tries += 1) {
      const [now_s, shown_s, other_s] = [1, 2, 3].map(() => of([0.25, 0.4, 0.42, 0.9, 6, 12.5, null]));
      const sides = of([[], [reflection({ level_db: new Float64Array(24).fill(-3) }), reflection({ loudspeaker: 1, surfaces: ["right"], level_db: new Float64Array(24).fill(-13) })]]);
      const document = three({
        room: of([{}, { width_m: 2.5 }, { conditions: ["not-a-box"] }]), ...of([{}, { kit: [kind("thick", 0.6, 1.2, { price: undefined })] }]),
        ...of([{}, { plans: three().plans.map((plan) => ({ ...plan, name: `${plan.name} of May` })) }]),
      });
      const one = { document, plan: of([0, 1, 2]), compared: null, now: planReport(now_s), shown: planReport(shown_s, { reflections: sides, ...of([{}, { notes: ["More like a recording booth than a room: check the surfaces."] }]) }), kit: [] };
      const beside = of([one, { ...one, plan: 2, compared: 1, other: planReport(other_s) }]);
      assert.deepEqual(lengths(longestWords(beside)), lengths(fresh(beside)), JSON.stringify([now_s, shown_s, other_s, beside.plan]));
    }
  });

  it("stand in the strip, the bounces, the shares and the bass by name and by pattern", () => {
    const scene = compared();
    const strip = decayStrip(scene, 760);
    assert.ok(countOf(strip, /<rect class=other /g) > 15, "hatched bars");
    assert.ok(wordsOf(strip).includes("Plan A") && !wordsOf(strip).includes("today"));
    assert.match(wordsOf(bouncesTable(scene)), /there Plan A Plan B/);
    assert.match(wordsOf(seatShare(scene, 460)), /left Plan A, right Plan B With Plan B the room (still )?makes up/);
    assert.match(textOf(seatShare(scene, 460)), /class="share other direct"/);
    const bass = bassPart(scene, 760);
    assert.match(wordsOf(bass), /Plan A , beside it: 29 Hz, lengthwise: it booms here\..*Dashed: Plan A, in third-octaves\./);
    assert.match(wordsOf(bass), /dies away in in Plan A fed/);
    assert.equal(countOf(bass, /class="curve right"/g), 1, "the other plan, dashed");
  });

  it("mark on the Room sheet, in words and by frame, what only one of them has", () => {
    const scene = compared();
    const marks = comparedMarks(scene, Object.values(scene.fold.faces));
    assert.equal(countOf(marks, /class="only-here"/g), 1);
    assert.match(wordsOf(marks), /1 only in B/);
    const back = { ...scene, state: { ...scene.state, shown: 1, compared: 2 } };
    assert.match(textOf(comparedMarks(back, Object.values(scene.fold.faces))), /class="only-there".*only in B/s);
  });

  it("have every plan with its cost in one table, the parts to buy and a paragraph", () => {
    const text = wordsOf(costs(compared()));
    assert.match(text, /Now 0 .* Plan A 1 0\.7 m² 5 kg 45 0\.44–0\.66 s could go either way .* Plan B 2 1\.4 m² 10 kg 90 0\.36–0\.54 s likely met/);
    assert.match(text, /To buy for Plan B .* 2 Thick soft, 100 mm; 0\.60 × 1\.20 m, 150 mm deep 1, 2 5 kg 45 90/);
    assert.match(text, /Copy the paragraph/);
  });

  it("ask the workers for both, and keep the ranges of the one that did not change", () => {
    const { state, document } = compared({ missing: true });
    assert.deepEqual(missingRanges(state), [2, 1, 0]);
    assert.deepEqual(missingRanges({ ...state, compared: null }), [2, 0]);
    assert.equal(bassBeside(state), 1);
    assert.deepEqual(missingBass({ ...state, bass: null, otherBass: null }), [2, 1]);
    assert.equal(bassCame({ ...state, otherBass: null }, { document, plan: 1, bass: bassReport() }).otherBass.plan, 1);
    const full = compared().state;
    const plans = full.document.plans.map((plan, index) => (index === 2 ? { ...plan, pieces: [] } : plan));
    const next = { ...full, document: { ...full.document, plans } };
    assert.equal(rangesFor(next.late, next.document, 1), full.late.ranges[1]);
    assert.equal(rangesFor(next.late, next.document, 2), undefined, "that one changed");
    const came = rangesCame(next, { type: "ranges-came", document: next.document, plan: 2, ranges: rangesOf() });
    assert.equal(rangesFor(came.late, next.document, 1), full.late.ranges[1]);
  });
});

describe("the paragraph to paste", () => {
  const doubt = { ranges: rangesOf(0.45, 0.8), today: rangesOf(0.9, 0), differences: [{ from: "Now", to: "A", mid_s: -0.3, low_s: -0.36, high_s: -0.27 }], missing: "coming" };
  const text = (document, plan = 1, units = "metric") => planParagraph({ document, plan, now: planReport(0.9), shown: planReport(0.45), kit: [] }, doubt, units);

  it("says room, pieces, result with range, cost, weight and limits in plain signs", () => {
    const said = text({ ...sample({ pieces: [piece("left", 1, 1), piece("right", 1, 1)], limits: { budget: 300 } }), currency: "€" });
    assert.equal(said, "Sample room, 4.00 × 6.00 × 2.50 m. Plan A has 2 pieces: 2 × Thick soft, 100 mm. Plan A: sound should die away in 0.36–0.54 s, today 0.72–1.08 s. "
      + "Your goal is 0.30–0.50 s: likely met. Shorter than today by 0.27–0.36 s. Cost: €90 of €300; weight about 10 kg. Below about 150 Hz the room rings at single notes, which one time cannot describe. "
      + "Ranges hold 8 times in 10 if the room is as described. This page estimates sound. It is not structural, fire, electrical or health advice. Local rules, your lease and qualified people decide what may go where.");
    assert.doesNotMatch(said, /[\u202f\u00a0]|  /);
  });

  it("says what is not known, and nothing of a cost where nothing is placed", () => {
    assert.match(text(sample({ kit: [kind("thick", 0.6, 1.2, { price: undefined, mass_kg: undefined })], pieces: [piece("left", 1, 1)] })), /Plan A has 1 piece: .* Cost: no price yet\. /);
    assert.doesNotMatch(text(sample(), 0), /Cost|pieces/);
    assert.match(text(sample({ pieces: [piece("left", 1, 1)] }), 1, "imperial"), /^Sample room, 13' 1 1\/2" × 19' 8 1\/4" × 8' 2 3\/8"\. .*weight about 11 lb/);
  });
});
