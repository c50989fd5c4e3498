// What crosses from the module to JavaScript: shapes, errors, and the same figures as the command line.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { describe, it } from "node:test";
import { PageSession, Session, scenario } from "./support.js";

const NAMES = ["long-terrace-room", "basement-den", "rented-corner-room", "square-study"];
/** Its plan holds no piece. */
const EMPTY = "square-study";

/** A session with a document open. */
function opened(document) {
  const session = new Session();
  assert.deepEqual(session.open(document), { findings: [], newer: false });
  return session;
}

/** Plain JSON of a report: typed arrays as lists, NaN as null. */
function plain(value) {
  return JSON.parse(JSON.stringify(value, (_key, inner) => (inner instanceof Float64Array ? Array.from(inner) : inner)));
}

/** Fails where two reports differ by more than rounding in the last digits, and names the place. */
function assertSame(ours, theirs, path) {
  if (typeof theirs === "number") {
    assert.ok(Math.abs(ours - theirs) <= 1e-6 * Math.max(1, Math.abs(theirs)), `${path}: ${ours} against ${theirs}`);
  } else if (theirs !== null && typeof theirs === "object") {
    assert.deepEqual(Object.keys(ours).sort(), Object.keys(theirs).sort(), path);
    for (const key of Object.keys(theirs)) assertSame(ours[key], theirs[key], `${path}.${key}`);
  } else {
    assert.equal(ours, theirs, path);
  }
}

/** Fails where what follows a drag is anything but the report without what is read at rest alone. */
function assertFollows(moving, report, name) {
  const first = report.reflections.filter(({ order }) => order < 2);
  assert.ok(first.length < report.reflections.length, name);
  assert.deepEqual(moving, { ...report, absorbers: [], reflections: first, decay: { ...report.decay, curve_db: [] } }, name);
}

/** All draws of a plan, made in slices of uneven size. */
function ranges(session, plan) {
  session.start_ranges(plan);
  for (let slice = 1; slice < 300; slice += 1) {
    const more = session.more_ranges(slice);
    if (more.ranges) return more.ranges;
  }
  return assert.fail("the draws never end");
}

/** The whole report of a plan: what follows a drag, and what workers bring. */
function whole(session, plan) {
  const report = plain(session.predict(plan));
  const { decay, mid, seat } = plain(ranges(session, plan));
  const { response, modes, ...bass } = plain(session.bass(plan));
  return { ...report, surer: plain(session.surer(plan)), response, modes, bass, mid, decay: { ...report.decay, ...decay }, seat: { ...report.seat, ranges: seat } };
}

describe("the session", () => {
  it("gives the page what it gives the workers", () => {
    const [page, whole] = [new PageSession(), new Session()];
    assert.deepEqual(page.library(), whole.library());
    for (const name of NAMES) {
      for (const session of [page, whole]) assert.deepEqual(session.open(scenario(name)).findings, []);
      assertSame(plain(page.predict(1)), plain(whole.predict(1)), name);
      assertFollows(plain(page.follow(1)), plain(page.predict(1)), name);
    }
    assert.deepEqual(["bass", "start_ranges"].filter((slow) => slow in page), [], "what would make a frame late");
  });

  it("holds the same after one piece as after the whole document with it", () => {
    for (const name of NAMES.filter((one) => one !== EMPTY)) {
      const document = scenario(name);
      const plan = document.plans.findIndex(({ pieces }) => pieces.length > 0);
      assert.ok(plan > 0, name);
      const [one, ...rest] = document.plans[plan].pieces;
      const withFirst = (piece) => ({ ...document, plans: document.plans.map((other, index) => (index === plan ? { ...other, pieces: [piece, ...rest] } : other)) });
      const [byPiece, byDocument] = [new PageSession(), new PageSession()];
      for (const session of [byPiece, byDocument]) session.open(document);
      byPiece.predict(plan);
      const [key, moved] = "u_m" in one ? ["u_m", one.u_m + 0.01] : "x_m" in one ? ["x_m", one.x_m + 0.01] : ["z_m", 0.01];
      for (const piece of [{ ...one, [key]: moved }, { ...one, [key]: 24 }, { ...one, kit: "unknown" }, { ...one, more: 1 }, 7]) {
        assert.deepEqual(byPiece.move_piece(plan, 0, piece), byDocument.open(withFirst(piece)), `${name}: ${JSON.stringify(piece)}`);
        assert.deepEqual(plain(byPiece.predict(plan)), plain(byDocument.predict(plan)), name);
      }
    }
    assert.equal(opened(scenario(NAMES[0])).move_piece(1, 500, {}).findings[0].code, "no-such-name");
    assert.throws(() => new PageSession().move_piece(1, 0, {}), { code: "missing" });
  });

  it("gives the same report as the command line, key for key", () => {
    const folder = fileURLToPath(new URL("../../", import.meta.url));
    for (const name of NAMES) {
      const text = execFileSync("cargo", ["predict", `scenarios/${name}.json`], { cwd: folder, encoding: "utf8", maxBuffer: 64 * 1024 * 1024 });
      const native = JSON.parse(text);
      const session = opened(scenario(name));
      native.plans.forEach((plan, index) => assertSame(whole(session, index), plan, `${name}.plans[${index}]`));
      // The session tells the plan against every other whose draws it has made, the command line each pair once.
      const [from, to] = native.plans.map((plan) => plan.name);
      const between = (differences) => differences.filter((one) => one.from === from && one.to === to);
      assertSame(between(plain(ranges(session, 1)).differences), between(native.differences), name);
    }
  });

  it("hands out series as typed arrays of 24 bands and summaries as plain objects", () => {
    const report = opened(scenario(NAMES[0])).predict(1);
    const series = [
      ...["t20_s", "t30_s", "edt_s", "sabine_s", "eyring_s", "curve_step_s"].map((key) => report.decay[key]),
      ...Object.values(report.absorption),
      ...Object.values(report.absorption_area_m2),
      ...report.reflections.map((reflection) => reflection.level_db),
    ];
    for (const values of series) {
      assert.ok(values instanceof Float64Array);
      assert.equal(values.length, 24);
      assert.ok(values.every(Number.isFinite));
    }
    assert.equal(report.reflections.length, 48);
    assert.equal(report.reflections.filter(({ order }) => order === 1).length, 12);
    assert.equal(report.decay.curve_db.length, 24);
    assert.ok(report.decay.curve_db.every((curve) => curve instanceof Float64Array && Math.abs(curve[0]) < 1e-9));
    assert.equal(Object.getPrototypeOf(report.room), Object.prototype);
  });

  it("keeps the document before when the next one is wrong", () => {
    const session = opened(scenario(NAMES[0]));
    const before = plain(session.predict(0));
    const wrong = scenario(NAMES[0]);
    wrong.room.width_m = 26;
    const { findings } = session.open(wrong);
    assert.ok(findings.some((finding) => finding.path === "room.width_m" && finding.code === "out-of-limits"));
    assert.match(findings[0].message, /26 m.*1\.2.*25 m/);
    assert.deepEqual(plain(session.predict(0)), before);
  });

  it("answers odd calls with an error that has a code and a field", () => {
    const session = new Session();
    assert.throws(() => session.predict(0), { code: "missing", field: "document" });
    session.open(scenario(NAMES[0]));
    assert.throws(() => session.predict(7), { code: "no-such-name", field: "plan" });
    for (const odd of [null, 3, "text", [], new Date(0), { format: Number.NaN }]) {
      assert.ok(session.open(odd).findings.length > 0, String(odd));
    }
    for (const nothing of [undefined, () => 1]) assert.throws(() => session.open(nothing), { code: "not-a-document" });
  });

  it("hands the document back without loss", () => {
    const session = opened(scenario(NAMES[0]));
    const back = session.document();
    assert.deepEqual(new Session().open(back).findings, []);
    assert.deepEqual(back.room, JSON.parse(JSON.stringify(scenario(NAMES[0]).room)));
  });

  it("says that a document is of a newer format", () => {
    const newer = { ...scenario(NAMES[0]), format: 2, colour: "red" };
    assert.deepEqual(new Session().open(newer), { findings: [], newer: true });
  });

  it("offers a library in which everything has a name, six values and a source", () => {
    const { finishes, furnishings, shelf, bands_hz } = new Session().library();
    assert.equal(bands_hz.length, 24);
    assert.ok(finishes.length >= 22 && furnishings.length >= 12 && shelf.length >= 4);
    for (const finish of finishes) {
      assert.ok(finish.name && finish.source && finish.typical.length === 6, finish.id);
      finish.typical.forEach((value, i) => assert.ok(finish.low[i] <= value && value <= finish.high[i], finish.id));
    }
    for (const thing of furnishings) assert.ok(thing.name && thing.source && thing.absorption_area_m2.length === 6, thing.id);
  });

  it("tells depth, absorption and source of every kind of the kit", () => {
    const kit = opened(scenario(NAMES[0])).kit();
    const byId = Object.fromEntries(kit.map((kind) => [kind.id, kind]));
    assert.ok(Math.abs(byId["thick-gap"].depth_m - 0.15) < 1e-12);
    assert.ok(byId.thick.absorption[13] > byId.thin.absorption[13]);
    assert.ok(kit.every((kind) => kind.source.length > 10 && kind.absorption.length === 24));
  });
});
