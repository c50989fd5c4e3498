import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { answerWords, goalRange } from "../../www/model/answer.js";
import { cautions } from "../../www/model/cautions.js";
import { CAUTION_ORDER, CAUTION_TEXTS, FOOT } from "../../www/model/caution_texts.js";
import { kind, piece, sample } from "./support.js";

/** @param {number|null} shown_s @param {number|null} now_s @param {object} [more] */
function words(shown_s, now_s, { plan = 1, document = sample({ pieces: [piece("left", 1, 1)] }) } = {}) {
  const spoken = answerWords({ document, plan, kit: [], now: { mid: { t20_s: now_s } }, shown: { mid: { t20_s: shown_s } } });
  return { ...spoken, text: spoken.text.replaceAll("\u202f", " ") };
}
const UNSURE = "How sure this is, is not computed yet.";

describe("the answer line", () => {
  it("compares plan, today and goal", () => {
    const { text, parts, verdict } = words(0.452, 0.78);
    assert.equal(text, `Plan A: sound should die away in about 0.45 s, today 0.78 s. Your goal is 0.30–0.50 s: inside it. ${UNSURE}`);
    assert.deepEqual(parts.filter(({ figure }) => figure).map((part) => part.text), ["0.45\u202fs"]);
    assert.equal(verdict, "inside");
  });

  it("says above, below, and the same", () => {
    assert.match(words(0.62, 0.78).text, /0\.30–0\.50 s: above it\. How/);
    assert.match(words(0.21, 0.78).text, /: below it\. That can sound dull: try with less\. How/);
    assert.match(words(0.781, 0.779).text, /about 0\.78 s, the same as today\. Your goal/);
  });

  it("judges the figure that it shows", () => {
    assert.deepEqual([words(0.504, 1).verdict, words(0.506, 1).verdict, words(0.296, 1).verdict, words(0.294, 1).verdict], ["inside", "above", "inside", "below"]);
    const own = sample({ pieces: [piece("left", 1, 1)] });
    own.goal = { low_s: 0.301, high_s: 0.499 };
    assert.equal(words(0.502, 1, { document: own }).verdict, "inside");
  });

  it("speaks of today where the room as it is is shown", () => {
    assert.equal(words(0.78, 0.78, { plan: 0 }).text, `Today sound dies away in about 0.78 s. Your goal is 0.30–0.50 s: above it. ${UNSURE}`);
    assert.match(words(0.4, 0.4, { plan: 0 }).text, /inside it\. Panels would mostly make it duller\./);
  });

  it("says what to do with an empty plan", () => {
    assert.match(words(0.78, 0.78, { document: sample() }).text, /the same as today\. .* above it\. Put one thing where a bounce mark is and watch the strip\./);
  });

  it("has words where there is no decay", () => {
    const { text, verdict } = words(null, 0.8);
    assert.deepEqual([text, verdict], ["Plan A: too little absorbs here for a decay time. Check the surfaces.", "undefined"]);
    assert.match(words(0.4, null).text, /about 0\.40 s; today has no decay time\./);
    assert.equal(words(NaN, 0.8).verdict, "undefined");
  });

  it("takes the goal from taste and volume, or as it was set", () => {
    const large = { width_m: 9.2, length_m: 7.1, height_m: 3.4 };
    const goal = (taste, room) => goalRange({ ...sample({ room }), goal: taste && { taste } });
    assert.deepEqual(goal("focused"), { low_s: 0.2, high_s: 0.35 });
    assert.deepEqual(goal(undefined), { low_s: 0.3, high_s: 0.5 });
    assert.deepEqual(goal("spacious", large), { low_s: 0.5, high_s: 0.75 });
    assert.deepEqual(goal("lived-in", { width_m: 5, length_m: 8, height_m: 3 }), { low_s: 0.3, high_s: 0.5 }, "120 m³ is not above 120 m³");
    assert.deepEqual(goalRange({ ...sample(), goal: { low_s: 0.4, high_s: 0.6 } }), { low_s: 0.4, high_s: 0.6 });
  });
});

describe("cautions", () => {
  const ids = (document, one = null) => cautions(document, document.plans[1], one).map(({ id }) => id);

  it("weigh what hangs overhead", () => {
    const document = sample({ pieces: [piece("ceiling", 1, 1)] });
    const [first] = cautions(document, document.plans[1], document.plans[1].pieces[0]);
    assert.equal(first.id, "overhead");
    assert.match(first.text, /know the weight: about 5 kg\. If you are unsure/);
    const unknown = sample({ pieces: [piece("ceiling", 1, 1)], kit: [kind("thick", 0.6, 1.2, { mass_kg: undefined })] });
    assert.match(cautions(unknown, unknown.plans[1], null)[0].text, /know the weight: it is not entered yet\./);
  });

  it("come for a piece on a wall: drilling, fixing, fire", () => {
    const document = sample({ pieces: [piece("left", 1, 1)] });
    assert.deepEqual(ids(document, document.plans[1].pieces[0]), ["drilling", "fixing", "fire"]);
    assert.deepEqual(ids(sample({ pieces: [piece("left", 1, 1)], limits: { no_drilling: true } })), ["fixing", "fire", "ladder", "foot"]);
  });

  it("come above a doorway, beside a way out, on an outer wall", () => {
    const parts = [{ role: "door", finish: "door", u_m: 1, v_m: 0, width_m: 0.9, height_m: 1.2 }];
    const withParts = (list) => ({ surfaces: { ...sample().room.surfaces, left: { finish: "x", parts: list } } });
    const over = sample({ room: withParts(parts), pieces: [piece("left", 1.1, 1.3)] });
    assert.deepEqual(ids(over, over.plans[1].pieces[0]), ["overhead", "way-out", "drilling", "fixing", "fire"]);
    const window = sample({ room: withParts([{ ...parts[0], role: "window" }]), pieces: [piece("left", 4, 1)] });
    assert.deepEqual(ids(window, window.plans[1].pieces[0]), ["drilling", "fixing", "fire", "damp"]);
  });

  it("come near zones that must stay clear, by what they are for", () => {
    const near = (why) => {
      const zone = { surface: "ceiling", u_m: 2, v_m: 1, width_m: 0, height_m: 0, margin_m: 0.6, why };
      const document = sample({ room: { keep_clear: [zone] }, pieces: [piece("ceiling", 0.7, 1), piece("ceiling", 0, 4)] });
      return document.plans[1].pieces.map((one) => ids(document, one));
    };
    assert.deepEqual(near("sprinkler").map((list) => list.includes("sprinkler")), [true, false]);
    assert.ok(near("air grille")[0].includes("vent"));
    assert.ok(near("boiler")[0].includes("heat"));
  });

  it("come from what the room is", () => {
    const one = { pieces: [piece("left", 1, 1)] };
    const when = (...conditions) => ids(sample({ ...one, room: { conditions } }));
    assert.ok(when("rented").includes("rented") && !when().includes("rented"));
    assert.ok(when("old-building").includes("old-building") && when("earthquake-region").includes("earthquake"));
    assert.ok(when("own-build").includes("fibre") && !when().includes("fibre"));
    assert.deepEqual(ids(sample({ pieces: [piece("floor", 1, 1)], room: { conditions: ["rented", "old-building"] } })), ["fire", "foot"]);
  });

  it("stand on the sheet even with nothing placed, each once and in order", () => {
    assert.deepEqual(cautions(sample(), sample().plans[1], null), [{ id: "foot", text: FOOT }]);
    const many = ids(sample({ pieces: [piece("ceiling", 1, 1), piece("left", 1, 1), piece("right", 1, 1)] }));
    assert.deepEqual(many, CAUTION_ORDER.filter((id) => many.includes(id)));
    assert.equal(Object.keys(CAUTION_TEXTS).length, CAUTION_ORDER.length);
  });
});
