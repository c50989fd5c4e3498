// Advice through the module: the page and the core agree on what may be where, and tasks come to one answer whoever works.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { lay } from "../../www/model/laid.js";
import { coveringKinds, offers } from "../../www/model/advice.js";
import { adviceAsked, adviceCame, takeAdvice } from "../../www/model/advising.js";
import { ruleWords } from "../../www/model/advice_words.js";
import { objectiveWords } from "../../www/model/objective_words.js";
import { createAdviceRunner } from "../../www/engine/advice_job.js";
import { freshPiece, stored } from "../../www/model/laid.js";
import { place } from "../../www/model/placing.js";
import { initialState } from "../../www/model/reduce.js";
import { between, seeded } from "../page/support.js";
import { Session, scenario } from "./support.js";

const NAMES = ["long-terrace-room", "rented-corner-room", "tall-room", "square-study", "concrete-loft", "basement-den"];
const SURFACES = ["left", "right", "front", "back", "floor", "ceiling"];
/** What the core refuses and the page leaves to the person's judgement. */
const CORE_ONLY = ["direct-sound", "depth", "built-in", "route"];
const TRIES = 60;

const session = new Session();

/** The document with one piece in a plan of its own. */
function withOnly(document, piece) {
  return { ...document, plans: [document.plans[0], { name: "Tried", pieces: [piece] }] };
}

/** The rule by which the core refuses a piece: from its rules, or as the document does not even open. */
function coreRefuses(document, piece) {
  const { findings } = session.open(withOnly(document, piece));
  if (findings.length > 0) return findings[0].code;
  return session.refused_pieces(1)[0];
}

/** Runs a task to its end. */
function answer(advice, task) {
  advice.start(task);
  for (;;) {
    const { found } = advice.more(50);
    if (found) return found;
  }
}

describe("what may be where", () => {
  for (const name of NAMES) {
    it(`page and core agree in the ${name}`, () => {
      const document = { ...scenario(name), plans: [{ name: "Now", pieces: [] }, { name: "Tried", pieces: [] }] };
      const random = seeded(NAMES.indexOf(name) + 7);
      let [legal, stopped] = [0, 0];
      for (const kind of document.kit) {
        for (let round = 0; round < TRIES; round += 1) {
          const surface = SURFACES[Math.floor(random() * 6)];
          const fresh = { ...freshPiece(kind, surface), ...(!kind.stands && random() < 0.5 && { turned: true }), ...(kind.stands === "stand" && { turn_deg: 90 * Math.floor(random() * 2) }) };
          const wanted = { u_m: between(random, 0, 7), v_m: between(random, 0, 3) };
          const placed = place(document, 1, fresh, null, wanted, { tolerance_m: 0, units: "metric" });
          if (placed.legal) {
            const refused = coreRefuses(document, stored(document, placed.piece));
            if (refused === null) legal += 1;
            else assert.ok(CORE_ONLY.includes(refused), `${kind.id} ${JSON.stringify(placed.piece)}: ${refused}`);
          }
          // Where the page does not let it be, the core does not either.
          if (placed.reason === "needs holes: your limit is no drilling") {
            const at = stored(document, { ...placed.piece, u_m: 0.1, v_m: 0.3 });
            assert.notEqual(coreRefuses(document, at), null, `${kind.id} ${JSON.stringify(at)}: ${placed.reason}`);
            stopped += 1;
          }
          const moved = placed.legal && placed.wanted !== null && kind.stands !== "corner";
          if (moved) {
            const at = stored(document, { ...placed.piece, u_m: placed.wanted.u_m, v_m: placed.wanted.v_m });
            assert.notEqual(coreRefuses(document, at), null, `${kind.id} ${JSON.stringify(at)}: ${placed.reason}`);
            stopped += 1;
          }
        }
      }
      assert.ok(legal > 10 && stopped > 3, `${legal} legal, ${stopped} stopped`);
    });

    it(`page and core agree on what looks as the home allows in the ${name}`, () => {
      let [allowed, against] = [0, 0];
      for (const looks_like of [["picture"], ["furniture"], ["picture", "furniture"]]) {
        const document = { ...scenario(name), limits: { looks_like }, plans: [{ name: "Now", pieces: [] }, { name: "Tried", pieces: [] }] };
        for (const kind of document.kit) {
          for (const surface of SURFACES) {
            const placed = place(document, 1, freshPiece(kind, surface), null, { u_m: 0.4, v_m: 0.4 }, { tolerance_m: 0, units: "metric" });
            const isAgainst = placed.reason?.startsWith("looks like ") ?? false;
            if (!placed.legal && !isAgainst) continue;
            const refused = coreRefuses(document, stored(document, isAgainst ? { ...placed.piece, u_m: 0.4, v_m: 0.4 } : placed.piece));
            // Where a document does not open for the place, its looks are not asked about.
            if (isAgainst ? refused !== null && !/^(overlap|outside-room)$/.test(refused) : true) {
              assert.equal(refused === "looks", isAgainst, `${kind.id} on the ${surface} within ${looks_like}: ${refused}, ${placed.reason}`);
              if (isAgainst) against += 1;
              else allowed += 1;
            } else assert.notEqual(refused, null);
          }
        }
      }
      assert.ok(against > 3, `${allowed} allowed, ${against} against it`);
    });

    it(`the page leaves every piece of the best plan where advice put it in the ${name}`, () => {
      const document = scenario(name);
      assert.deepEqual(session.open(document).findings, []);
      const advice = session.advise(0);
      const { plan } = answer(advice, 0);
      advice.free();
      const there = { ...document, plans: [document.plans[0], { name: "Advice", pieces: plan.pieces }] };
      assert.deepEqual(session.open(there).findings, []);
      plan.pieces.forEach((piece, index) => {
        if (document.plans[0].pieces.some((one) => JSON.stringify(one) === JSON.stringify(piece))) return;
        const laid = lay(there, piece);
        const placed = place(there, 1, laid, index, { u_m: laid.u_m, v_m: laid.v_m }, { tolerance_m: 0, units: "metric" });
        assert.ok(placed.legal && Math.hypot(placed.piece.u_m - laid.u_m, placed.piece.v_m - laid.v_m) < 2e-4, `${JSON.stringify(piece)}: ${placed.reason}`);
      });
      assert.ok(plan.reasons.length > 0 || plan.removed.length > 0, "something to do");
    });
  }
});

describe("the module's advice", () => {
  it("names its tasks, tells a first plan before the best, and refuses what is not there", () => {
    session.open(scenario("long-terrace-room"));
    const advice = session.advise(0);
    const about = advice.about();
    assert.deepEqual(about.tasks.slice(0, 4), ["best", "verdict", "free", { surface: "left" }]);
    assert.equal(about.objective.budget, 700);
    // Nothing that counts is left out of the words.
    const { objective } = about;
    for (const part of ["weights", "figures"]) {
      for (const key of Object.keys(objective[part])) {
        const other = { ...about, objective: { ...objective, [part]: { ...objective[part], [key]: objective[part][key] * 1.7 } } };
        assert.notDeepEqual(objectiveWords(other), objectiveWords(about), `${part}.${key}`);
      }
    }
    advice.start(0);
    const sum = ({ after }) => Object.values(after).reduce((all, one) => all + one, 0);
    let [first, last, found] = [null, null, null];
    while (!found) {
      const slice = advice.more(1);
      if (slice.so_far) {
        if (last) assert.ok(sum(slice.so_far.plan) < sum(last.plan) - 0.05, "told again only if it is clearly better");
        first ??= slice.so_far;
        last = slice.so_far;
      }
      found = slice.found;
    }
    assert.ok(sum(found.plan) <= sum(first.plan));
    assert.throws(() => advice.start(99), /no task 99/);
    advice.free();
    assert.throws(() => session.advise(9), /no plan number 9/);
  });

  it("covers surfaces with a kind that is asked for, and refuses one that is not there", () => {
    const document = scenario("long-terrace-room");
    session.open(document);
    const advice = session.advise(0);
    const surfaces = () => advice.about().tasks.flatMap((task, index) => (task.surface ? answer(advice, index).surface : []));
    const best = surfaces();
    const kits = (all) => [...new Set(all.flatMap(({ kit }) => kit ?? []))];
    assert.ok(kits(best).length > 1, kits(best).join());
    for (const { id } of coveringKinds({ document, about: advice.about() })) {
      advice.cover_with(id);
      const chosen = surfaces();
      assert.deepEqual(kits(chosen), chosen.every(({ covers }) => covers.length === 0) ? [] : [id]);
      // Where it may not be, the page has words for the rule.
      for (const one of chosen.filter(({ covers }) => covers.length === 0)) {
        assert.notEqual(one.rule, null, `${id}, ${one.surface}`);
        assert.notEqual(ruleWords(one.rule), one.rule);
      }
    }
    advice.cover_with(null);
    assert.deepEqual(surfaces(), best);
    assert.throws(() => advice.cover_with("none-such"), /no kind "none-such"/);
    advice.free();
  });

  it("answers of a worker's runner become plans that the core opens", async () => {
    const document = scenario("basement-den");
    const replies = [];
    const run = createAdviceRunner(new Session(), { post: (reply) => replies.push(reply), now: () => performance.now(), rest: () => Promise.resolve() });
    for (const task of [0, 1, 9, 12, 16]) await run({ serial: 1, document, plan: 0, task });
    assert.deepEqual(replies.filter((reply) => reply.failed), []);
    let state = adviceAsked({ ...initialState(document), shown: 0 }, { type: "advice-asked", plan: 0 });
    const come = (told) => { state = adviceCame(state, { type: "advice-came", document, told }); };
    for (const reply of replies) {
      if (reply.about) come({ about: reply.about });
      if (reply.found) come({ task: reply.task, found: reply.found, whole: true });
    }
    const plans = offers(state.advice.found, state.advice.about.objective.figures).map(({ plan }) => ({ pieces: plan.pieces }));
    const taken = takeAdvice(state, { type: "take-advice", plans }, 0);
    assert.equal(taken.document.plans.length, document.plans.length + plans.length);
    assert.deepEqual(session.open(taken.document).findings, []);
    assert.equal(taken.history.past.length, 1);
  });
});
