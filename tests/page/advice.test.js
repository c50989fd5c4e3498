import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { createAdviceRunner } from "../../www/engine/advice_job.js";
import { createAdvisers, workersFor } from "../../www/engine/advise.js";
import { bestOffer, coveringKinds, eachBite, flatFrom, ladder, leavesAlone, nextStep, offers, panelsDoNotFix, progressOf, rankedSurfaces } from "../../www/model/advice.js";
import { SLIDER_PLAN, stillHolds } from "../../www/model/advising.js";
import { amountWords } from "../../www/model/amount_words.js";
import { boomWords, changeWords, freeOnTop, freeWords, limitsWords, moreWords, nextWords, onTopWords, placeWords, planWords, refusalWords, todayWords, verdictWords } from "../../www/model/advice_words.js";
import { wantsStep } from "../../www/model/live_step.js";
import { objectiveWords } from "../../www/model/objective_words.js";
import { sidesOf } from "../../www/model/marks.js";
import { loudAtWindows, wayWords, windowWords } from "../../www/model/window_words.js";
import { createLiveStep } from "../../www/engine/live_step.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { adviceBody } from "../../www/view/advice.js";
import { coverChoice } from "../../www/view/advice_surfaces.js";
import { windowsPart } from "../../www/view/advice_windows.js";
import { frozen, kind, piece, sample } from "./support.js";
import { textOf, wordsOf } from "./support_text.js";

/** What can be pressed in a template, in order. @returns {(() => void)[]} */
function clicks(part) {
  if (typeof part === "function") return [part];
  if (Array.isArray(part)) return part.flatMap(clicks);
  return part?.values ? part.values.flatMap(clicks) : [];
}

/** As the core says them; `tests/door/advice.test.js` holds the page's words to the core's own. */
const figures = {
  step_ratio: 1.1, step_db: 3, bass_step_db: 1.5, inside: 1.1, even: 1.25, even_low: 1.5, tilt: 1.5, quiet_db: -10, alike_db: 1, faint_db: -15, counts_until_s: 0.01, counts_not_from_s: 0.02,
  worth_a_move: 0.3, stop_below: 0.25, worth_it: 1.5, not_worth_it: 0.5, most_of_it: 0.8, less_money: 0.75, nearly_all: 0.9, near_the_best: 0.5, seat_times_more: 2, seat_at_least_db: 1,
};
const objective = { weights: { decay: 1, evenness: 1, tilt: 0.5, bounces: 0.6, likeness: 0.6, piece: 0.04, lone: 0.04, money: 1 }, figures, goal_s: [0.3, 0.5], budget: 800 };
const nothing_yet = { pieces: 0, price: 0, gained: 0, bare_s: 0.9, bare_bounces_db: 0 };

const steps = (decay, effort = 0) => ({ decay, evenness: 1, bounces: 1, likeness: 0, effort });

/** A plan that gains so many steps. */
function planOf(gain, price = 100, pieces = [piece("left", 1, 0.9)]) {
  return { pieces, reasons: [{ piece: 0, purpose: "decay", steps: gain, mark: [0, "left"] }], removed: [], price, before: steps(8), after: steps(8 - gain), middle_s: [0.9, 0.9 - gain / 20], bounces_db: [0, -2] };
}

/** A plan without a price that gains so many steps with so many new pieces. */
function sized(gain, count) {
  const pieces = Array.from({ length: count }, (_, index) => piece("left", index / 10, 0.9));
  return { ...planOf(gain, 0, pieces), reasons: pieces.map((_, index) => ({ piece: index, purpose: "decay", steps: 0.1, mark: null })) };
}

const levelsOf = (...gains) => Object.fromEntries(gains.map((gain, index) => [index + 1, { level: index + 1, budget: 100 * (index + 1), plan: planOf(gain, 90 * (index + 1), [piece("left", index, 0.9)]) }]));

function asked(found = {}, document = sample({ limits: { budget: 800 } })) {
  const state = reduce(frozen({ ...initialState(document), shown: 0 }), { type: "advice-asked", plan: 0 }, 0);
  return { ...state, advice: { ...state.advice, about: { tasks: ["best"], is_priced: true, top: 800, stand_ins: [], objective }, found: { surfaces: {}, levels: {}, ...found } } };
}

describe("what advice comes to", () => {
  it("leaves a room alone whose goal is met, or where nothing helps; not before both are known", () => {
    const verdict = { mid: { t20_s: 0.4, low_s: 0.34, high_s: 0.48, goal_met: 0.8 } };
    assert.equal(leavesAlone({ verdict }, figures), null);
    assert.equal(leavesAlone({ verdict, best: { plan: planOf(1), order: [], refusals: [] } }, figures), true);
    assert.equal(leavesAlone({ verdict, best: { plan: planOf(4), order: [], refusals: [] } }, figures), false);
    const missed = { mid: { ...verdict.mid, goal_met: 0.1 } };
    assert.equal(leavesAlone({ verdict: missed, best: { plan: planOf(1), order: [], refusals: [] } }, figures), false);
    assert.equal(leavesAlone({ verdict: missed, best: { plan: planOf(0.2), order: [], refusals: [] } }, figures), true);
  });

  it("says that panels do not fix the boom only where the seat does twice as much", () => {
    const boom = { together_hz: 56.3, now_db: 8.1, plan_db: 8.1, seat_db: 3.8, seat_back_m: -0.6 };
    assert.equal(panelsDoNotFix(boom, figures), true);
    assert.match(boomWords(boom, figures, "metric"), /^Panels will not fix the boom\. Two bass notes share 56.Hz/);
    assert.equal(boomWords({ ...boom, plan_db: 5 }, figures, "metric"), null);
    assert.equal(panelsDoNotFix({ ...boom, seat_db: 7.5 }, figures), false);
    assert.equal(panelsDoNotFix(null, figures), false);
  });

  it("makes a ladder on which more money never buys less, and finds its flat part", () => {
    const rungs = ladder({ surfaces: {}, levels: levelsOf(1, 3, 2.5, 4.9, 5, 5) });
    assert.deepEqual(rungs.map(({ gained }) => gained), [1, 3, 3, 4.9, 5, 5].map((gain) => 8 - (8 - gain)));
    assert.equal(flatFrom(rungs, figures), 3);
    assert.equal(flatFrom([], figures), null);
    assert.equal(flatFrom(ladder({ surfaces: {}, levels: levelsOf(1, 2, 5) }), figures), null);
  });

  it("offers the best plan, one that gains most of it for less, and another way; none twice", () => {
    const best = { plan: planOf(5, 800, [piece("back", 1, 0.9)]), order: [], refusals: [] };
    const found = { best, surfaces: {}, levels: levelsOf(1, 4.2), other: { plan: planOf(3, 500, [piece("right", 2, 1)]) } };
    assert.deepEqual(offers(found, figures, true).map(({ why }) => why), ["best", "thrifty", "other"]);
    assert.deepEqual(offers({ ...found, other: { plan: best.plan }, levels: {} }, figures, true).map(({ why }) => why), ["best"]);
    assert.deepEqual(offers({ surfaces: {}, levels: {} }, figures, true), []);
  });

  it("counts new pieces where prices are not known: what costs nothing known is not thrifty for that", () => {
    const [best, half, most] = [sized(5, 20), sized(4.2, 10), sized(4.2, 16)];
    const of = (rung) => ({ best: { plan: best, order: [], refusals: [] }, surfaces: {}, levels: { 1: { level: 1, budget: 50, plan: rung } } });
    assert.deepEqual(offers(of(half), figures, false).map(({ plan }) => plan), [best, half]);
    assert.deepEqual(offers(of(most), figures, false).map(({ plan }) => plan), [best]);
    assert.deepEqual(offers(of(half), figures, true).map(({ plan }) => plan), [best]);
  });

  it("offers no larger plan as the best where what it gains beyond a smaller one is not clearly heard", () => {
    const best = sized(5, 20);
    const of = (plan, rung) => ({ best: { plan, order: [], refusals: [] }, surfaces: {}, levels: { 1: { level: 1, budget: 50, plan: rung } } });
    const as_good = sized(4.6, 10);
    assert.equal(bestOffer(of(best, as_good), figures, false), as_good);
    assert.equal(bestOffer(of(best, sized(4.4, 10)), figures, false), best);
    assert.equal(bestOffer(of(best, sized(4.6, 16)), figures, false), best);
    assert.deepEqual(offers(of(best, as_good), figures, false).map(({ why, plan }) => [why, plan]), [["best", as_good]]);
    // Next to nothing is not as good as a little.
    const little = sized(0.4, 4);
    assert.equal(bestOffer(of(little, sized(0.1, 1)), figures, false), little);
    assert.equal(bestOffer({ surfaces: {}, levels: {} }, figures, false), null);
  });

  it("says what a larger plan has more of, the largest difference first, and what less", () => {
    const after = (decay, evenness, bounces, likeness) => ({ ...planOf(1), after: { decay, evenness, bounces, likeness, effort: 0 } });
    assert.equal(moreWords(after(0.4, 0.2, 1, 0), after(0.6, 1, 0.7, 0.05)), "low and high die away more evenly (0.8 steps), the decay lies nearer to your goal (0.2 steps); but first bounces are stronger (0.3 steps)");
    assert.equal(moreWords(after(1, 1, 0.4, 0.2), after(1, 1, 1, 1)), "left and right are more alike (0.8 steps), first bounces are calmer (0.6 steps)");
  });

  it("can say stop: a first step that is hardly heard is none", () => {
    const bite = { pieces: [piece("left", 1, 0.9)], price: 45, gained: 0.8, middle_s: 0.8, bounces_db: -1 };
    assert.equal(nextStep([bite], figures), bite);
    assert.equal(nextStep([{ ...bite, gained: 0.2 }], figures), null);
    assert.equal(nextStep([], figures), null);
    const { advice } = asked({ best: { plan: planOf(1), order: [], refusals: [], today: nothing_yet } });
    assert.match(planWords(planOf(1, 245), advice), /^1 new piece, for 245: /);
    assert.match(nextWords(advice, null, "metric"), /^Stop here: no single piece that your home and your money allow/);
    assert.match(nextWords({ ...advice, about: { ...advice.about, is_priced: false } }, null, "metric"), /^Stop here: no single piece that your home allows/);
    assert.equal(nextWords(advice, bite, "metric"), "Thick soft, 100 mm on the left wall, 1.00\u202fm from the front wall and 0.90\u202fm up: this brings the decay from 0.90 to 0.80\u202fs and calms first bounces by 1.0 dB, for 45.");
    const bought = { ...advice, found: { ...advice.found, best: { ...advice.found.best, today: { ...nothing_yet, price: 200 } } } };
    assert.match(nextWords(bought, { ...bite, price: 245 }, "metric"), /, for 45\.$/);
    assert.match(planWords(planOf(1, 245), bought), /^1 new piece, for 245 in all: /);
  });

  it("ranks surfaces by what half of them buys, those without a place last", () => {
    const one = (surface, gained) => ({ surface, covers: gained === null ? [] : [{}, { gained }] });
    const ranked = rankedSurfaces({ levels: {}, surfaces: { left: one("left", 1), floor: one("floor", null), back: one("back", 2) } });
    assert.deepEqual(ranked.map(({ surface }) => surface), ["back", "left", "floor"]);
  });

  it("says the verdict with range, goal and confidence", () => {
    const { advice } = asked({ verdict: { mid: { t20_s: 0.9, low_s: 0.8, high_s: 1, goal_met: 0 } }, best: { plan: planOf(5), order: [], refusals: [] } });
    assert.match(verdictWords(advice), /^With today's 0\.80–1\.00.s your goal of 0\.30–0\.50.s is very unlikely to be met\. The best plan found brings the decay from 0\.90 to 0\.65.s/);
    assert.equal(verdictWords({ ...advice, found: { surfaces: {}, levels: {} } }), null);
  });

  it("says what is free, where pieces go and why they may not", () => {
    const move = { what: "seat", back_m: -0.4, listening: null, removed: [], bass_db: [10.6, 9.2], before: steps(8), after: steps(8), gained: 1 };
    assert.equal(freeWords(move, sample(), 0, "metric"), "Move the seat 0.40\u202fm forward: the bass spreads over 9.2 dB instead of 10.6 dB.");
    const loudspeakers = { ...move, what: "loudspeakers", back_m: 0.15 };
    assert.equal(freeWords(loudspeakers, sample(), 0, "metric"), "Move both loudspeakers 0.15\u202fm back: the bass spreads over 9.2 dB instead of 10.6 dB.");
    assert.match(freeWords({ ...loudspeakers, bass_db: null }, sample(), 0, "metric"), /to the bass is not weighed here/);
    assert.match(placeWords({ kit: "x", place: "corner", edge: "back-left", z_m: 0 }, "metric"), /^in the back left corner/);
    assert.deepEqual(refusalWords([{ kit: "a", surface: "left", loudspeaker: 0, rule: "window", moved: true }, { kit: "b", surface: "left", loudspeaker: 0, rule: "window", moved: true }]),
      ["At the bounce mark of the left loudspeaker on the left wall: a window is there and must open; a place beside it is used."]);
    assert.equal(changeWords({ middle_s: [0.5, 0.5], bounces_db: null }), "leaves the decay as it is");
  });
});

describe("a free move beside the best plan", () => {
  const move = (what, beside_best) => ({ what, back_m: -0.4, listening: {}, removed: [], bass_db: null, before: steps(8), after: steps(8), gained: 1, beside_best });

  it("is the one that adds most to it; none where nothing adds what counts or where it cannot be", () => {
    const found = (...moves) => ({ surfaces: {}, levels: {}, free: { free: { moves, boom: null } } });
    const [seat, both] = [move("seat", 0.5), move("loudspeakers", 1.2)];
    assert.equal(freeOnTop(found(seat, both, move("pieces", null)), figures), both);
    assert.equal(freeOnTop(found(move("seat", 0.2), move("loudspeakers", null)), figures), null);
    assert.equal(freeOnTop({ surfaces: {}, levels: {} }, figures), null);
    assert.equal(onTopWords(both, "metric"), "Moving both loudspeakers 0.40\u202fm forward as well costs nothing and brings the best plan 1.2 steps more.");
  });
});

describe("how many are needed, in words", () => {
  const count = (pieces, middle_s, met = null) => ({ pieces, area_m2: 0.72 * pieces, share: 0.01 * pieces, price: 45 * pieces, middle_s, met });
  const amount = { kit: "thick", middle_s: 0.9, most: count(40, 0.25), middle: count(7, 0.49, 0.52), sure: count(10, 0.42, 0.83), surest: null, too_many: [count(18, 0.34), "treble"] };
  const said = (changes, limits = {}) => amountWords({ ...amount, ...changes }, "panels", sample({ limits }), "metric").join(" ").replaceAll("\u202f", " ");

  it("says the number at the middle estimate, the number that is sure and the one that is too much", () => {
    assert.equal(said({}), "7 × panels (5.0 m², 7 % of walls and ceiling) bring the middle decay from 0.90 to 0.49 s, inside your goal of 0.30–0.50 s, for 315; this is so 5 times in 10. To be 8 times in 10 sure it takes 10 (7.2 m², 10 % of walls and ceiling), for 450. From 18 on (13.0 m², 18 % of walls and ceiling) it is too much: the treble dies away in less than three quarters of the middle decay: the room turns dull.");
    assert.match(said({}, { budget: 400, max_visible: 2 }), /more than your 400\. Your limit lets 2 be seen/);
    assert.doesNotMatch(said({}, { budget: 500 }), /more than your/);
  });

  it("says none where none are needed, and so much where not enough fit or none is sure", () => {
    assert.match(said({ middle: count(0, 0.4, 0.9), sure: count(0, 0.4, 0.9), middle_s: 0.4 }), /^None, .* 0\.40 s is inside your goal of 0\.30–0\.50 s already; this is so 9 times in 10\. From 18/);
    assert.match(said({ middle: null, sure: null, middle_s: 0.2, too_many: [count(0, 0.2), "decay"] }), /^None: the middle decay of 0\.20 s is shorter than your goal.* Each one more makes it shorter still\.$/);
    assert.match(said({ middle: null, sure: null, most: count(3, 0.7), too_many: null }), /^Not enough fit: all 3 × panels .* from 0\.90 to 0\.70 s, and your goal of .* is not met\. All 3 that fit are not too many\.$/);
    assert.match(said({ sure: null, surest: count(8, 0.45, 0.71) }), /No number makes it 8 times in 10 sure.*; with 8 .* it comes nearest: this is so 7 times in 10\./);
    assert.match(said({ middle: null, sure: null, most: count(0, 0.9), too_many: null }), /^No panels fits where one may be\.$/);
    assert.match(said({ middle: null, sure: null, most: count(1, 0.2), too_many: [count(1, 0.2), "decay"] }), /^No number of panels meets your goal/);
  });
});

describe("a bounce that meets a window", () => {
  const bounce = { loudspeaker: 0, surface: "left", delay_s: 0.002, level_db: -4.1, ways: [] };
  const way = { what: "accept", piece: null, kind: null, listening: null, turned_deg: null, rule: null, level_db: -4.1, gained: 0, price: 0 };
  const said = (changes) => wayWords({ ...way, ...changes }, bounce, sample(), [], "metric").replaceAll("\u202f", " ");

  it("is left out where it is too faint to count, and what may not be done comes last", () => {
    const loud = { ...bounce, ways: [{ ...way, what: "stand", rule: "route" }, way] };
    assert.deepEqual(loudAtWindows([loud, { ...bounce, level_db: -15.5 }], figures), [{ ...loud, ways: [way, loud.ways[0]] }]);
  });

  it("is named, and each way says what it does, what it costs and what forbids it", () => {
    assert.match(windowWords(bounce).replaceAll("\u202f", " "), /^The bounce of the left loudspeaker off the left wall meets a window, 2\.0 ms late at −4 dB/);
    const rug = kind("drape", 2, 1.4);
    assert.match(said({ what: "curtain", piece: { kit: "drape", surface: "left", u_m: 1, v_m: 0 }, kind: rug, level_db: -10, gained: 1.1, price: 75 }), new RegExp(`^Draw a curtain \\(${rug.name} on the left wall, .*\\): this bounce falls to −10 dB, 1\\.1 steps better in all, for 75\\.$`));
    assert.equal(said({ what: "stand", rule: "route" }), "Stand a panel before it: that may not be, as it would close the way to walk from a door to the seat or to another door.");
    assert.equal(said({ what: "turn", turned_deg: 10, listening: {}, level_db: -5, gained: -0.2 }), "Turn both loudspeakers 10° in: this bounce falls to −5 dB, but 0.2 steps worse in all, for nothing.");
    assert.match(said({ what: "turn", turned_deg: -10, listening: {}, gained: 0.01 }), /10° out: .* hardly anything changes/);
    assert.equal(said({}), "Leave it: it costs nothing and changes nothing.");
  });

  it("may be escaped with another wall behind the loudspeakers, or each wall says why not", () => {
    const swap = { what: "swap", wall: "back", lands: "right", barred: [], listening: {}, level_db: -5, gained: 0.4 };
    assert.equal(said(swap), "Put the back wall behind the loudspeakers, seat and all: no bounce that counts meets a window then, so that panels may take them; the one in place of this comes off the right wall at −5 dB, 0.4 steps better in all, for nothing. What this does to the bass is not weighed here.");
    assert.doesNotMatch(said({ ...swap, lands: null }), /in place of this/);
    const barred = [["left", "too-large"], ["right", "furniture"], ["back", "window"]];
    assert.equal(said({ ...swap, wall: null, lands: null, listening: null, rule: "too-large", barred }),
      "Put another wall behind the loudspeakers: that may not be. Before the left wall there is no room for it; before the right wall furniture stands there; before the back wall a bounce would meet a window again.");
  });

  it("is told from the side that the listener has it on, wherever the set-up faces", () => {
    const facing = (seat) => sidesOf({ loudspeakers: [{ x_m: 1, y_m: 1 }, { x_m: 3, y_m: 1 }], seat });
    const [across, behind] = [{ x_m: 2, y_m: 4 }, { x_m: 2, y_m: 0.2 }];
    assert.deepEqual([facing(across), facing(behind), facing(undefined)], [["left", "right"], ["right", "left"], ["left", "right"]]);
    const beside = (x_m) => sidesOf({ loudspeakers: [{ x_m: 1, y_m: 1 }, { x_m: 1, y_m: 3 }], seat: { x_m, y_m: 2 } });
    assert.deepEqual([beside(4), beside(0.2)], [["back", "front"], ["front", "back"]]);
  });
});

describe("what counts, in words", () => {
  const about = { tasks: [], is_priced: true, top: 800, stand_ins: [], objective };

  it("says every weight and every figure that the core hands out", () => {
    const before = objectiveWords(about).join(" ");
    assert.match(before, /First bounces: 0\.60 for each 3 dB/);
    const changed = (part, key) => objectiveWords({ ...about, objective: { ...objective, [part]: { ...objective[part], [key]: objective[part][key] * 1.7 } } }).join(" ");
    for (const part of ["weights", "figures"]) {
      for (const key of Object.keys(objective[part])) assert.notEqual(changed(part, key), before, `${part}.${key} is not said`);
    }
  });
});

describe("what the next piece buys", () => {
  const bite = (gained, price, count = 1) => ({ pieces: Array.from({ length: count }, () => piece("left", 1, 0.9)), price, gained, middle_s: 0.8, bounces_db: -1 });

  it("gives each step its own gain, per piece and per money, from what is there on", () => {
    const bites = eachBite([bite(2, 140, 2), bite(2.5, 240), bite(2.6, 240)], { ...nothing_yet, pieces: 3, price: 40, gained: 1 });
    assert.deepEqual(bites.map(({ gain }) => Number(gain.toFixed(3))), [2, 0.5, 0.1]);
    assert.deepEqual(bites.map(({ per_piece }) => Number(per_piece.toFixed(3))), [1, 0.5, 0.1]);
    assert.deepEqual(bites.map(({ per_hundred }) => per_hundred && Number(per_hundred.toFixed(3))), [2, 0.5, null]);
    assert.equal(flatFrom(bites, figures), 1);
  });

  it("says what is there already, for better or worse", () => {
    assert.equal(todayWords(nothing_yet), null);
    assert.match(todayWords({ ...nothing_yet, pieces: 3, gained: 1.24 }), /^The 3 pieces that are there already bring 1\.2 steps/);
    assert.match(todayWords({ ...nothing_yet, pieces: 12, gained: -3 }), /cost 3\.0 steps: the bare room would be better/);
    assert.match(todayWords({ ...nothing_yet, pieces: 1, gained: 0 }), /makes no difference/);
  });
});

describe("the kind that surfaces are covered with", () => {
  const act = (state, action) => reduce(frozen(state), action, 1000);

  it("is that of the question; another one takes away what was found of it alone", () => {
    const first = asked({ surfaces: { left: { surface: "left", covers: [] } }, amount: { amount: {} }, best: { plan: planOf(1), order: [], refusals: [] } });
    assert.equal(first.advice.kit, null);
    const tasks = ["best", { surface: "left" }, { level: 1 }, "amount"];
    const done = { ...first, advice: { ...first.advice, about: { ...first.advice.about, tasks }, status: "done", progress: { 0: 1, 1: 1, 2: 1, 3: 1 } } };
    const { advice } = act(done, { type: "advice-covers", kit: "thick" });
    assert.deepEqual([advice.kit, advice.status, advice.progress, advice.found.surfaces], ["thick", "working", { 0: 1, 2: 1 }, {}]);
    assert.equal(advice.found.best, done.advice.found.best);
    assert.equal(advice.found.amount, undefined);
    assert.ok(progressOf(advice) < 1);
    assert.equal(act(done, { type: "advice-asked", plan: 0, kit: "thick" }).advice.kit, "thick");
    assert.equal(act({ ...done, advice: null }, { type: "advice-covers", kit: "thick" }).advice, null);
  });

  it("is one that lies on a surface, of the kit or of what stands in", () => {
    const kit = [kind(), kind("rug", 2, 1.4, { stands: "floor" }), kind("screen", 1, 1.8, { stands: "stand" }), kind("chunk", 0.6, 1.2, { stands: "corner" }), kind("drape", 1.5, 2.2, { stands: "curtain" })];
    const ids = (of) => coveringKinds(of).map(({ id }) => id);
    assert.deepEqual(ids({ document: sample({ kit }), about: null }), ["thick", "rug", "drape"]);
    assert.deepEqual(ids({ document: sample({ kit: [] }), about: { stand_ins: kit } }), ["thick", "rug", "drape"]);
  });
});

describe("the next step after a change", () => {
  const act = (state, action) => reduce(frozen(state), action, 1000);

  it("is wanted once somebody asked, of what is not what the advice was about", () => {
    const state = asked();
    assert.equal(wantsStep({ ...state, advice: null }), false);
    assert.equal(wantsStep(state), false);
    assert.equal(wantsStep({ ...state, shown: 1 }), true);
    assert.equal(wantsStep(act(state, { type: "set-limit", limit: "budget", value: 3 })), true);
  });

  /** A sheet that can be changed, its worker and its clock. */
  function setUp(state) {
    const log = [];
    let now = { state, tell: null, timer: null };
    const live = createLiveStep({
      getState: () => now.state, dispatch: (action) => { log.push(action.type); now.state = act(now.state, action); live.follow(); },
      advisers: (tell) => { now.tell = tell; return { ask: (_document, plan, most) => log.push(`ask ${plan}, ${most}`), cancel: () => log.push("cancel") }; },
      wait: (run, rest_ms) => { assert.equal(rest_ms, 1000); now.timer = run; return 1; }, waitNoMore: () => { now.timer = null; },
    });
    return {
      log, state: () => now.state, told: (document, told) => now.tell(document, told),
      change(next) { now.state = next; live.follow(); },
      rest() { const run = now.timer; now.timer = null; run?.(); },
    };
  }

  it("is worked out alone after a rest, and is cancelled by the next change", () => {
    const first = asked();
    const { log, state, change, rest, told } = setUp(first);
    change(first);
    rest();
    assert.deepEqual(log, []);
    const changed = act(first, { type: "set-limit", limit: "budget", value: 3 });
    change(changed);
    assert.deepEqual(log, []);
    rest();
    assert.deepEqual(log, ["step-asked", "ask 0, 1"]);
    change(act(state(), { type: "set-limit", limit: "budget", value: 4 }));
    assert.equal(log.at(-1), "cancel");
    rest();
    assert.equal(log.at(-1), "ask 0, 1");
    // What comes late, for the document before, is dropped.
    told(changed.document, { task: 0, found: { task: "best" }, whole: true });
    assert.equal(state().step.found.best, undefined);
    told(state().document, { task: 0, found: { task: "best", order: [] }, whole: true });
    assert.deepEqual(state().step.found.best.order, []);
    change({ ...state(), advice: null });
    assert.equal(log.at(-1), "cancel");
  });

  it("waits while something is dragged", () => {
    const { log, change, rest } = setUp(asked());
    const changed = act(asked(), { type: "set-limit", limit: "budget", value: 3 });
    change({ ...changed, drag: {} });
    rest();
    assert.deepEqual(log, []);
  });
});

describe("taking advice", () => {
  const act = (state, action) => reduce(frozen(state), action, 1000);

  it("opens plans under free letters in one step that undo takes back", () => {
    const before = asked();
    const plans = [{ pieces: [piece("left", 1, 0.9)] }, { pieces: [piece("right", 1, 0.9)] }];
    const after = act(before, { type: "take-advice", plans });
    assert.deepEqual(after.document.plans.map(({ name }) => name), ["Now", "A", "B", "C"]);
    assert.equal(after.shown, 2);
    assert.equal(after.history.past.length, before.history.past.length + 1);
    assert.deepEqual(act(after, { type: "undo" }).document, before.document);
  });

  it("opens no more plans than a document holds, and says when there is no room", () => {
    const plans = Array.from({ length: 7 }, (_, index) => ({ name: index === 0 ? "Now" : `P${index}`, pieces: [] }));
    const before = asked({}, sample({ plans }));
    const two = act(before, { type: "take-advice", plans: [{ pieces: [] }, { pieces: [] }] });
    assert.equal(two.document.plans.length, 8);
    const full = act(two, { type: "take-advice", plans: [{ pieces: [] }] });
    assert.equal(full.document, two.document);
    assert.match(full.notice.text, /at most 8 plans/);
  });

  it("lets one plan follow the slider; all of its way is one step", () => {
    const before = asked();
    const slide = (state, u_m) => act(state, { type: "take-advice", slider: true, plans: [{ pieces: [piece("left", u_m, 0.9)] }] });
    const after = slide(slide(slide(before, 1), 2), 3);
    assert.equal(after.document.plans.filter(({ name }) => name === SLIDER_PLAN).length, 1);
    assert.equal(after.document.plans[after.shown].pieces[0].u_m, 3);
    assert.deepEqual(act(after, { type: "undo" }).document, before.document);
  });

  it("brings the kinds that stood in into the document", () => {
    const before = asked();
    const stand_in = kind("rug", 2, 1.4);
    const told = act(before, { type: "advice-came", document: before.document, told: { about: { tasks: [], top: 1, stand_ins: [stand_in], objective: {} } } });
    const after = act(told, { type: "take-advice", plans: [{ pieces: [] }] });
    assert.ok(after.document.kit.includes(stand_in));
    const of_the_shelf = kind("drape", 2, 2.4);
    const taken = act(before, { type: "take-advice", plans: [{ pieces: [] }], kinds: [of_the_shelf] });
    assert.ok(taken.document.kit.includes(of_the_shelf));
  });

  it("holds as long as room, limits, goal and the plan it started from stay", () => {
    const state = asked();
    const { advice, document } = state;
    assert.ok(stillHolds(advice, act(state, { type: "take-advice", plans: [{ pieces: [] }] }).document));
    assert.ok(!stillHolds(advice, act(state, { type: "set-limit", limit: "budget", value: 3 }).document));
    assert.ok(!stillHolds(advice, { ...document, plans: [{ ...document.plans[0], pieces: [] }, document.plans[1]] }));
    assert.ok(!stillHolds(advice, { ...document, kit: [] }));
  });

  it("drops what comes for another question or after it was stopped", () => {
    const state = asked();
    const found = { task: "other", plan: null };
    const told = { task: 3, found, whole: true };
    assert.equal(act(state, { type: "advice-came", document: sample(), told }).advice.found.other, undefined);
    const stopped = act(state, { type: "advice-stopped" });
    assert.equal(stopped.advice.status, "stopped");

    assert.equal(act(stopped, { type: "advice-came", document: state.document, told }).advice.found.other, undefined);
    assert.deepEqual(act(state, { type: "advice-came", document: state.document, told }).advice.found.other, found);
  });
});

describe("advisers", () => {
  const tasks = ["best", "verdict", "free", "other"];

  function setUp(count) {
    const workers = [];
    const told = [];
    const advisers = createAdvisers(() => {
      const worker = { sent: [], ended: 0, postMessage(errand) { this.sent.push(errand); }, terminate() { this.ended += 1; } };
      workers.push(worker);
      return worker;
    }, count, (_document, what) => told.push(what));
    /** Lets every worker answer what it was sent, in turn. */
    function work() {
      for (let turn = 0; turn < 20; turn += 1) {
        const worker = workers.find((one) => one.sent.length > 0);
        if (!worker) return;
        const { serial, task } = worker.sent.shift();
        worker.onmessage({ data: { serial, task, about: { tasks }, progress: 0 } });
        worker.onmessage({ data: { serial, task, found: { task: tasks[task] } } });
      }
    }
    return { workers, told, advisers, work };
  }

  it("are as many as cores, at most four", () => {
    assert.deepEqual([undefined, 1, 2, 4, 16].map(workersFor), [2, 1, 2, 4, 4]);
  });

  it("hand every task out once and tell when all are over, however many they are", () => {
    for (const count of [1, 2, 4]) {
      const { told, advisers, work } = setUp(count);
      advisers.ask(sample(), 0);
      work();
      const found = told.filter((what) => what.found).map(({ task }) => task).sort();
      assert.deepEqual(found, [0, 1, 2, 3], `${count} workers`);
      assert.deepEqual(told.at(-1), { status: "done" });
      assert.equal(told.filter((what) => what.about).length, 1);
    }
  });

  it("hand out the first tasks alone where no more are asked for", () => {
    const { told, advisers, work } = setUp(2);
    advisers.ask(sample(), 0, 1);
    work();
    assert.deepEqual(told.filter((what) => what.found).map(({ task }) => task), [0]);
    assert.deepEqual(told.at(-1), { status: "done" });
  });

  it("cover surfaces anew with another kind, and nothing else, once what is under way is over", () => {
    const surfaces = ["best", { surface: "left" }, { surface: "right" }, "other"];
    const { workers, told, advisers } = setUp(2);
    const document = sample();
    const answer = (/** @type {number} */ index) => {
      const errand = workers[index].sent.shift();
      workers[index].onmessage({ data: { serial: errand.serial, task: errand.task, about: { tasks: surfaces }, found: { task: errand.task, kit: errand.kit } } });
    };
    const found = () => told.filter((what) => what.found).map(({ found }) => [found.task, found.kit]);
    advisers.ask(document, 0);
    assert.equal(advisers.cover(document, 0, "thick"), false, "before any worker has said what the tasks are");
    answer(0);
    assert.deepEqual(workers.map(({ sent }) => sent.map(({ task, kit }) => [task, kit])), [[[2, null]], [[1, null]]]);
    assert.equal(advisers.cover(sample(), 0, "thick"), false, "another document");
    assert.equal(advisers.cover(document, 1, "thick"), false, "another plan");
    assert.equal(advisers.cover(document, 0, "thick"), true);
    for (const index of [0, 1, 0, 1, 0]) answer(index);
    assert.deepEqual(found(), [[0, null], [1, "thick"], [2, "thick"], [3, "thick"]]);
    assert.deepEqual(told.filter((what) => what.status), [{ status: "done" }]);
    // All are idle now.
    assert.equal(advisers.cover(document, 0, null), true);
    for (const index of [0, 1]) answer(index);
    assert.deepEqual(found().slice(4), [[1, null], [2, null]]);
    assert.deepEqual(told.at(-1), { status: "done" });
    advisers.cancel();
    assert.equal(advisers.cover(document, 0, "thick"), false, "what was cancelled");
  });

  it("end with what is cancelled, and say when they fail", () => {
    const { workers, told, advisers } = setUp(2);
    advisers.ask(sample(), 0);
    advisers.cancel();
    assert.deepEqual(workers.map(({ ended }) => ended), [1, 1]);
    advisers.ask(sample(), 0);
    assert.equal(workers.length, 4);
    workers[2].onerror(new Error("no"));
    assert.deepEqual(told.at(-1), { status: "failed" });
  });
});

describe("a worker's advice", () => {
  /** A core that needs three slices for a task. */
  function fakeSession() {
    const log = [];
    const advice = {
      about: () => ({ tasks: [] }), free: () => log.push("free"), left: 0, cover_with: (kit) => log.push(`cover with ${kit}`),
      start(task) { this.left = 3; log.push(`start ${task}`); },
      more() { this.left -= 1; return { found: this.left === 0 ? { task: "best" } : null, so_far: this.left === 2 ? { task: "best" } : null, progress: 1 - this.left / 3 }; },
    };
    return { log, open: () => ({ findings: [] }), advise: () => { log.push("advise"); return advice; } };
  }

  it("goes slice by slice, tells a first plan, and opens a document once", async () => {
    const session = fakeSession();
    const posted = [];
    const run = createAdviceRunner(session, { post: (reply) => posted.push(reply), now: () => 0, rest: () => Promise.resolve() });
    await run({ serial: 1, document: sample(), plan: 0, task: 0, kit: null });
    await run({ serial: 1, document: sample(), plan: 0, task: 1, kit: "thick" });
    assert.deepEqual(session.log, ["advise", "cover with null", "start 0", "cover with thick", "start 1"]);
    assert.equal(posted.filter((reply) => reply.found).length, 2);
    assert.equal(posted.filter((reply) => reply.soFar).length, 2);
  });

  it("stops at a newer question and says what failed", async () => {
    const session = fakeSession();
    const posted = [];
    let rests = 0;
    const run = createAdviceRunner(session, {
      post: (reply) => posted.push(reply), now: () => 0,
      rest: async () => { rests += 1; if (rests === 2) await run({ serial: 2, document: null, plan: 0, task: 0 }); },
    });
    await run({ serial: 1, document: sample(), plan: 0, task: 0 });
    assert.equal(posted.filter((reply) => reply.found).length, 0);
    const broken = createAdviceRunner({ open: () => ({ findings: [{}] }) }, { post: (reply) => posted.push(reply), now: () => 0, rest: () => Promise.resolve() });
    await broken({ serial: 3, document: sample(), plan: 0, task: 0 });
    assert.deepEqual(posted.at(-1), { serial: 3, task: 0, failed: true });
  });
});

describe("the region of advice", () => {
  const bite = { pieces: [piece("left", 1, 0.9)], price: 45, gained: 0.8, middle_s: 0.8, bounces_db: -1 };
  const cover = (share, gained, range_s) => ({ share, range_s, shows_too_many: share > 0.3, pieces: 2, area_m2: 1.44, price: 90, middle_s: 0.8, bounces_db: -1, gained, evenness_gained: -0.3 });
  const surface = { surface: "left", kit: "thick", rule: null, free_m2: 4.4, covers: [cover(0.25, 1, [-0.2, -0.05]), cover(0.5, 2, [-0.3, -0.1])], middle_s: 0.9, bounces_db: 0, absorption: 0.1, carries: 1.4, why: "lingers" };
  const found = {
    best: { plan: planOf(5, 800, [piece("back", 1, 0.9)]), order: [bite, { ...bite, price: 135, gained: 2.8 }, { ...bite, price: 180, gained: 2.9 }], today: { ...nothing_yet, pieces: 2, gained: -0.4 }, refusals: [{ kit: "thick", surface: "ceiling", loudspeaker: null, rule: "bare", moved: false }] },
    verdict: { mid: { t20_s: 0.9, low_s: 0.8, high_s: 1, goal_met: 0 } }, free: { free: { moves: [], boom: null } }, other: { plan: null },
    surfaces: { left: surface, floor: { ...surface, surface: "floor", kit: null, covers: [], rule: "bare" } }, levels: levelsOf(1, 4.2, 4.8, 5),
  };
  const about = { tasks: ["best"], is_priced: true, top: 800, stand_ins: [], objective };

  /** @param {object|null} changes of the advice; null: nobody asked */
  function scene(changes, readOnly = null, document = undefined) {
    const state = asked(found, document);
    const advice = changes && { ...state.advice, about, ...changes };
    const log = [];
    return { log, state: { ...state, readOnly, advice }, document: state.document, plan: state.document.plans[0], dispatch: (action) => log.push(action), commands: { askAdvice() {}, stopAdvice() {} } };
  }

  it("says how many are needed, what to do at windows and what a free move adds, each to be opened", () => {
    const count = (pieces) => ({ pieces, area_m2: pieces, share: 0.1, price: 0, middle_s: 0.45, met: 0.9 });
    const amount = { kit: "thick", middle_s: 0.9, most: count(9), middle: count(7), sure: count(7), surest: null, too_many: null };
    const way = { what: "curtain", piece: piece("left", 1, 0), kind: kind("drape", 2, 1.4), listening: null, turned_deg: null, rule: null, level_db: -9, gained: 1, price: 75 };
    const turn = { ...way, what: "turn", piece: null, kind: null, listening: { loudspeakers: [] }, turned_deg: 10, price: 0 };
    const windows = { bounces: [{ loudspeaker: 0, surface: "left", delay_s: 0.002, level_db: -4, ways: [way, turn, { ...turn, what: "accept", listening: null, gained: 0 }] }] };
    const move = { what: "seat", back_m: -0.4, listening: { loudspeakers: [], seat: null }, removed: [], bass_db: null, before: steps(8), after: steps(7), gained: 1, beside_best: 0.8 };
    const all = scene({ status: "done", found: { ...found, amount: { amount }, windows, free: { free: { moves: [move], boom: null } } } });
    const words = wordsOf(adviceBody(all, 600));
    assert.match(words, /How many are needed 7 × Thick soft, 100 mm .* Where a bounce meets a window .*Draw a curtain.* Open as a plan Turn both loudspeakers 10° in.* Open as a plan Leave it: it costs nothing and changes nothing\. The next best step/);
    assert.match(words, /A plan for 800 gains 0\.2 steps more, less than is clearly heard: it is not offered\. .*Moving the seat 0\.40.m forward as well costs nothing and brings a plan for 800 0\.8 steps more\. Open that plan with it/);
    const alone = wordsOf(adviceBody(scene({ status: "done", found: { ...found, levels: {}, free: { free: { moves: [move], boom: null } } } }), 600));
    assert.match(alone, /as well costs nothing and brings the best plan 0\.8 steps more\. Open the best plan with it/);
    const pressed = (part) => clicks(part).map((click) => { click(); return all.log.pop(); });
    const [curtain, turned] = pressed(windowsPart(all, all.state.advice));
    assert.deepEqual([curtain.kinds, curtain.plans[0].pieces.at(-1), turned.plans[0].listening, turned.kinds], [[way.kind], way.piece, turn.listening, undefined]);
    assert.doesNotMatch(wordsOf(adviceBody(scene({ status: "done" }), 600)), /How many are needed|meets a window|as well costs nothing/);
  });

  it("asks first, and again once the room has changed", () => {
    assert.match(wordsOf(adviceBody(scene(null), 600)), /Starting from the room as it is.*Work it out$/);
    const other = { ...sample(), limits: { budget: 3 } };
    assert.match(wordsOf(adviceBody(scene({ document: other }), 600)), /has changed since.*Work it out again/);
  });

  it("says all of it in order, with the flat part of the money and the rules", () => {
    const words = wordsOf(adviceBody(scene({ status: "done" }), 600));
    const parts = ["Worked out from the room as it is", "Leave it alone?", "very unlikely to be met", "What is free", "Nothing that costs nothing", "What one surface buys", "2.0 steps", "−0.30 to −0.10 s",
      "dies last here (1.4 times its share)", "nothing may go there: it is kept bare", "Ranked by gain", "Left wall, 4.4 m² free", "−0.20 to −0.05 s", "0.3 steps worse", "More pieces than your limit lets be seen", "The next best step", "for 45", "Whole plans", "The best within your limits", "Most of it for less money",
      "What the next piece buys", "cost 0.4 steps: the bare room would be better", "more changes little here", "today", "The curve flattens after 2 pieces, at about 135", "gain per 100", "0.80 steps 0.80 steps 1.78 steps 45", "2.00 steps 2.00 steps 2.22 steps 135", "0.10 steps",
      "What the next money buys", "more changes little here", "up to 400", "From about 270 on, more changes little", "On the ceiling: it is kept bare", "One step is one clear difference"];
    let last = -1;
    for (const part of parts) {
      const place = words.indexOf(part, last + 1);
      assert.ok(place > last, `${part} in: ${words}`);
      last = place;
    }
  });

  it("names the next step after a change, and none of another document", () => {
    const other = { ...sample(), limits: { budget: 3 } };
    const stale = scene({ document: other, status: "done" });
    assert.match(wordsOf(adviceBody(stale, 600)), /The next best step from here Worked out anew once nothing changes/);
    const step = { ...stale.state.advice, document: stale.document, plan: 0 };
    const shown = { ...stale, state: { ...stale.state, step } };
    assert.match(wordsOf(adviceBody(shown, 600)), /The next best step from here Thick soft.*for 45\. Open as a plan/);
    const elsewhere = { ...stale, state: { ...stale.state, step: { ...step, document: other } } };
    assert.doesNotMatch(wordsOf(adviceBody(elsewhere, 600)), /for 45/);
    assert.doesNotMatch(wordsOf(adviceBody({ ...stale, state: { ...stale.state, step: { ...step, plan: 1 } } }, 600)), /for 45/);
    const failed = { ...stale, state: { ...stale.state, step: { ...step, found: { surfaces: {}, levels: {} }, status: "failed" } } };
    assert.match(wordsOf(adviceBody(failed, 600)), /could not be worked out/);
  });

  it("lets surfaces be covered with one kind, and names it where it may not be", () => {
    const [left, floor] = [found.surfaces.left, { ...found.surfaces.floor, rule: "elsewhere" }];
    const of = (kit) => scene({ status: "done", kit, found: { ...found, surfaces: { left, floor } } });
    const words = (kit) => wordsOf(adviceBody(of(kit), 600));
    assert.match(words(null), /What one surface buys With what does most on each Thick soft, 100 mm Half covered/);
    assert.match(words(null), /nothing may go there: it is not meant for this surface/);
    assert.match(words("thick"), /Thick soft, 100 mm may not go there: it is not meant for this surface/);
    assert.match(words("thick"), /Left wall, 4\.4 m² free for Thick soft, 100 mm/);
    const chosen = (kit) => [...textOf(coverChoice(of(kit), of(kit).state.advice)).matchAll(/value="?(\w*)"? \.selected=(true|false)?/g)].map(([, value, is]) => [value, is === "true"]);
    assert.deepEqual(chosen("thick").filter(([, is]) => is), [["thick", true]]);
    assert.deepEqual(chosen(null).filter(([, is]) => is), [["", true]]);
    const locked = wordsOf(adviceBody(scene({ status: "done", kit: null }, { text: "newer", link: "" }), 600));
    assert.doesNotMatch(locked, /what does most on each/);
  });

  it("asks for the chosen kind, and for what does most with the first choice", () => {
    const covered = [];
    const of = scene({ status: "done", kit: null });
    const choice = coverChoice({ ...of, commands: { ...of.commands, coverWith: (kit) => covered.push(kit) } }, of.state.advice);
    const change = choice.values.find((value) => typeof value === "function");
    for (const value of ["thick", ""]) change({ currentTarget: { value } });
    assert.deepEqual(covered, ["thick", null]);
  });

  it("says so where money buys nothing", () => {
    const levels = { 1: { level: 1, budget: 50, plan: planOf(1, 0) }, 2: { level: 2, budget: 100, plan: planOf(1, 0) } };
    assert.match(wordsOf(adviceBody(scene({ status: "done", found: { ...found, levels } }), 600)), /What the next money buys Up to 800, money buys nothing here that gains\./);
  });

  it("says no word of money where nothing has a price, and first that a limit of it cannot be kept to", () => {
    const plan = sized(5, 20);
    const order = found.best.order.map((bite) => ({ ...bite, price: 0 }));
    const levels = { 1: { level: 1, budget: 50, plan: sized(4.2, 10) } };
    const unpriced = { ...found, best: { ...found.best, plan, order }, levels };
    const of = (limits, readOnly = null) => {
      const document = sample({ limits, kit: [kind("thick", 0.6, 1.2, { price: undefined })] });
      return wordsOf(adviceBody(scene({ status: "done", document, about: { ...about, is_priced: false }, found: unpriced }, readOnly, document), 600));
    };
    const limited = of({ budget: 400 });
    assert.match(limited, /^Worked out from .* again Thick soft, 100 mm has no price, so your 400 cannot be kept to: type prices on the Kit shelf\. Until then plans are weighed by what they gain and by how many pieces they take\. Leave it alone\?/);
    assert.match(limited, /The best found, whatever it costs\. 20 new pieces: .* Most of it with fewer pieces\. 10 new pieces: .* What the best has more of than the one with fewer pieces: the decay lies nearer to your goal \(0\.8 steps\)\. Open the 2 plans/);
    assert.match(limited, /What the next piece buys .* 0 pieces 3 pieces .* The curve flattens after 2 pieces: what comes later/);
    const open = of({});
    assert.match(open, /again Thick soft, 100 mm has no price, so money is not counted here: type prices/);
    assert.match(open, /The best within your limits\. 20 new pieces:/);
    for (const words of [limited, open]) assert.doesNotMatch(words.replace(/Nothing that costs nothing makes/, ""), /your money|less money|the next money|the money|costs anything|costs nothing|gain per 100|at about/);
    assert.match(of({ budget: 400 }, { text: "newer", link: "" }), /cannot be kept to\. Plans are weighed/);
  });

  it("claims a limit of money where every price is known, and only where there is one", () => {
    const of = (limits) => { const document = sample({ limits }); return wordsOf(adviceBody(scene({ status: "done", document, found }, null, document), 600)); };
    assert.match(of({ budget: 800 }), /The best within your limits and your money\. 1 new piece, for 270: .* Most of it for less money\./);
    assert.match(of({}), /The best within your limits\. 1 new piece, for 270: .* Most of it for less money\./);
    for (const limits of [{ budget: 800 }, {}]) assert.doesNotMatch(of(limits), /no price|cannot be kept to/);
  });

  it("names what has no price beside what has, and says at least where pieces that are there have none", () => {
    const bare = kind("rug", 2, 1.4, { name: "Rug", price: undefined });
    const document = sample({ limits: { budget: 800 }, kit: [kind(), bare] });
    const more = sample({ limits: { budget: 800 }, kit: [kind(), bare], plans: [{ name: "Now", pieces: [] }, { name: "A", pieces: [{ kit: "rug", surface: "floor", u_m: 2, v_m: 3 }] }] });
    const of = (document, plan) => wordsOf(adviceBody(scene({ status: "done", document, plan, found }, null, document), 600));
    const now = of(document, 0);
    assert.match(now, /again Rug has no price, so plans, the next step and “what does most on each” leave it out: type prices on the Kit shelf\. Leave/);
    assert.match(now, /The best within your limits and your money\. 1 new piece, for 270:/);
    const there = of(more, 1);
    assert.match(there, /again Pieces of Plan A have no price \(Rug\), so sums of money leave them out and your 800 cannot be kept to for sure: type prices on the Kit shelf\. Rug has no price, so plans, the next step and “what does most on each” leave it out\. /);
    assert.match(there, /The best for the prices that are known\. 1 new piece, for at least \d+: /);
    assert.match(there, /The curve flattens after 2 pieces, at about 135 of known prices: .* Known prices up to 400 /);
    assert.doesNotMatch(there, /within your limits and your money|for less money/);
    const owned = sample({ ...more, plans: [{ name: "Now", pieces: more.plans[1].pieces }, more.plans[1]] });
    assert.match(of(owned, 1), /The best within your limits and your money/);
  });

  it("says what limits cost for at most the money, where what they forbid has a price, and without a word of it elsewhere", () => {
    const unlimited = { unlimited: { plan: planOf(7, 300) } };
    const of = (limits, price) => limitsWords(asked({ ...found, ...unlimited }, sample({ limits, kit: [kind("thick", 0.6, 1.2, { price })] })).advice);
    assert.match(of({ budget: 800, no_drilling: true }, 45), /^Without your limits, but for at most 800, the best plan .*: your limits cost about 2\.0 steps\.$/);
    assert.match(of({ no_drilling: true }, 45), /^Without your limits, the best plan/);
    assert.match(of({ budget: 800, no_drilling: true }, undefined), /^Without your limits, the best plan/);
  });

  it("counts pieces where nothing has a price", () => {
    const words = wordsOf(adviceBody(scene({ status: "done", about: { ...about, is_priced: false } }), 600));
    assert.match(words, /What more pieces buy .* Pieces up to 1 piece /);
  });

  it("shows how far it is and what it does while it works, and offers nothing to take where nothing may change", () => {
    const working = wordsOf(adviceBody(scene({ status: "working", progress: { 0: 0.5 }, found: { surfaces: {}, levels: {} } }), 600));
    assert.match(working, /Stop 50 %: looking for the best plan\./);
    assert.match(working, /Being worked out/);
    const locked = wordsOf(adviceBody(scene({ status: "done" }, { text: "newer", link: "" }), 600));
    assert.doesNotMatch(locked, /Open as a plan|side by side|up to 400/);
  });
});
