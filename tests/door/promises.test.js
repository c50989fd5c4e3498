// Three promises that need the core: a hundred steps back say the same, a sofa lowers every band, thin foam leaves the bass alone.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { answerWords } from "../../www/model/answer.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { between, seeded } from "../page/support.js";
import { Session, scenario } from "./support.js";

const session = new Session();
const opened = (document) => assert.deepEqual(session.open(document).findings, []);

/** What the Answer line says of a state. */
function verdictOf({ document, shown }) {
  opened(document);
  const now = session.predict(0);
  return answerWords({ document, plan: shown, kit: [], now, shown: shown === 0 ? now : session.predict(shown) }).text;
}

/** A step that a person takes, of those that move the figures. */
function anyStep(random, { document, shown }) {
  const index = Math.floor(random() * Math.max(1, document.plans[shown].pieces.length));
  const steps = [
    { type: "set-piece", index, u_m: between(random, 0, 5), v_m: between(random, 0, 1.3) },
    { type: "remove-piece", index },
    { type: "duplicate-piece", index },
    { type: "mirror-piece", index },
    { type: "set-finish", surface: "back", finish: ["brick", "concrete", "plaster-on-brick"][Math.floor(random() * 3)] },
    { type: "set-room", width_m: between(random, 3, 5) },
    { type: "set-furnishing", kind: "sofa-fabric", count: Math.floor(random() * 3) },
  ];
  return steps[Math.floor(random() * steps.length)];
}

describe("a hundred steps back", () => {
  it("say again, word for word, what was said before each", () => {
    const random = seeded(12);
    let state = initialState(scenario("long-terrace-room"), { example: false });
    const said = [verdictOf(state)];
    for (let tries = 0; said.length <= 100 && tries < 2000; tries += 1) {
      const next = reduce(state, anyStep(random, state), tries * 1e4);
      if (next.history.past.length > state.history.past.length) said.push(verdictOf(next));
      state = next;
    }
    assert.equal(said.length, 101);
    assert.ok(new Set(said).size > 30, "the steps change what is said");
    for (let back = 99; back >= 0; back -= 1) {
      state = reduce(state, { type: "undo" }, 0);
      assert.equal(verdictOf(state), said[back], `step ${back}`);
    }
  });
});

describe("a sofa more", () => {
  for (const room of ["rented-corner-room", "long-terrace-room", "concrete-loft", "square-study", "basement-den", "tall-room"]) {
    it(`lowers every band of the ${room}`, () => {
      const document = scenario(room);
      opened(document);
      const before = session.predict(0).decay.t20_s;
      document.room.furnishings = [...(document.room.furnishings ?? []), { kind: "sofa-fabric", count: 1 }];
      opened(document);
      const after = session.predict(0).decay.t20_s;
      assert.equal(after.length, 24);
      after.forEach((t20_s, band) => assert.ok(t20_s < before[band], `band ${band}: ${t20_s} against ${before[band]} s`));
    });
  }
});

describe("6 m² of 25 mm foam in the square study", () => {
  // The foam that hangs there already, 6 m², against the same room without it.
  const document = scenario("square-study");
  const foam = document.plans[0].pieces.filter(({ kit }) => document.kit.find(({ id }) => id === kit).absorber.layers?.some(({ porous }) => porous?.thickness_mm === 25));
  document.plans = [{ name: "Now", pieces: [] }, { name: "A", pieces: foam }];

  it("leaves the bass sentence as it is, and the page says why", () => {
    const area_m2 = foam.reduce((sum, { kit }) => { const { width_m, height_m } = document.kit.find(({ id }) => id === kit); return sum + width_m * height_m; }, 0);
    assert.ok(Math.abs(area_m2 - 6) < 0.3, `${area_m2} m²`);
    opened(document);
    const [now, bass] = [session.bass(0), session.bass(1)];
    const ranges = document.plans.map((_, plan) => {
      session.start_ranges(plan);
      return session.more_ranges(1000).ranges;
    });
    const answer = { document, plan: 1, kit: [], now: session.predict(0), shown: session.predict(1) };
    const { text } = answerWords(answer, { ranges: ranges[1], today: ranges[0], differences: [], missing: "coming", bass, todayBass: now });
    assert.deepEqual(bass.words.slice(0, 2), now.words.slice(0, 2), "the sentences on the notes");
    assert.match(bass.words[1], /^56.Hz, lengthwise and across alike/);
    assert.match(bass.thin, /^The pieces of this plan hardly touch the bass: the note at 56.Hz/);
    assert.equal(now.thin ?? null, null);
    assert.match(text, /^Panels will not fix the boom\. /);
  });
});
