// The check-up through the module: its shapes, draws made in parts, and the same figures as the command line gives.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { PageSession, Session, scenario } from "./support.js";

const OCTAVES_HZ = [250, 500, 1000, 2000, 4000];

function measured(decay_s) {
  return { ...scenario("long-terrace-room"), measured: [{ plan: "Now", bands_hz: OCTAVES_HZ, decay_s }] };
}

function opened(document) {
  const session = new Session();
  assert.deepEqual(session.open(document).findings, []);
  return session;
}

/** All ranges of a plan in one go. */
function rangesOf(session, plan) {
  session.start_ranges(plan);
  return session.more_ranges(1000).ranges;
}

describe("the check-up through the module", () => {
  const fitting = [0.8, 0.82, 0.8, 0.75, 0.66];

  it("narrows the range, says so, and gives every series as a typed array", () => {
    const session = opened(measured(fitting));
    const report = session.checkup();
    assert.equal(report.used, true);
    assert.match(report.sentence, /rest on your check-up/u);
    const [entry] = report.entries;
    for (const row of [entry.bands_hz, entry.measured_s, entry.before.t20_s, entry.before.low_s, entry.after.high_s]) {
      assert.ok(row instanceof Float64Array);
      assert.equal(row.length, 5);
    }
    const [before, after] = [rangesOf(opened(scenario("long-terrace-room")), 1), rangesOf(session, 1)];
    assert.ok(after.mid.high_s - after.mid.low_s < before.mid.high_s - before.mid.low_s);
    assert.equal(before.checked, undefined);
    assert.equal(after.checked.factor.length, 24);
    assert.ok(after.checked.mid_s > after.mid.low_s && after.checked.mid_s < after.mid.high_s);
  });

  it("says nothing where nothing was measured, and three causes where figures are wild", () => {
    assert.equal(opened(scenario("long-terrace-room")).checkup(), null);
    const wild = opened(measured(fitting.map((time_s) => 4 * time_s))).checkup();
    assert.equal(wild.used, false);
    assert.equal(wild.causes.length, 3);
  });

  it("names what would make the range surer", () => {
    const surer = opened(scenario("long-terrace-room")).surer(0);
    assert.equal(surer.inputs.length, 3);
    assert.equal(surer.measured.plan, "Now");
    const width = ({ low_s, high_s }) => high_s - low_s;
    assert.ok(width(surer.measured.known) < width(surer.now));
    assert.throws(() => opened(scenario("long-terrace-room")).surer(9), { code: "no-such-name" });
  });

  it("joins draws that two workers made, whatever the split", () => {
    const whole = rangesOf(opened(measured(fitting)), 1);
    const [one, other] = [opened(measured(fitting)), opened(measured(fitting))];
    other.start_part(1, 130, 200);
    other.more_ranges(30);
    assert.equal(other.packed(), undefined);
    other.more_ranges(40);
    one.start_ranges(1);
    assert.equal(one.join(130, other.packed()).ranges, null);
    assert.throws(() => one.join(199, other.packed()), { code: "out-of-limits" });
    assert.deepEqual(one.more_ranges(130).ranges, whole);
  });

  it("is no part of the page's own module", () => {
    assert.equal("checkup" in PageSession.prototype, false);
  });
});
