// The module's half of `cargo bench`: prints one time in ms for each row, in the order of the rows in drag_step.rs. What the
// page computes is timed in the page's module, what workers do in theirs.
import { readFileSync } from "node:fs";
import { freshPage, Listener, PageSession, Session } from "../door/support.js";

const SAMPLES = 400;
const SLOW_SAMPLES = 6;
/** Before a step is timed: the engine compiles again, and better, what has run for a while. */
const WARM_UP_MS = 2000;
const DRAWS_A_SLICE = 50;

/** @type {{case: any, noSeat: any, crowded: any, loft: any, measuredLoft: any}} */
const documents = JSON.parse(readFileSync(0, "utf8"));

/**
 * Time of the work in the fastest of the samples, ms; what prepares a step is not timed.
 * @param {number} samples @param {(step: number) => unknown} work @param {(step: number) => void} [prepare]
 */
function leastMs(samples, work, prepare = () => {}) {
  let least = Infinity;
  for (let step = 0; step < samples; step += 1) {
    prepare(step);
    const start = performance.now();
    work(step);
    least = Math.min(least, performance.now() - start);
  }
  return least;
}

/** @param {any} session @param {any} document */
function open(session, document) {
  const { findings } = session.open(document);
  if (findings.length > 0) throw new Error(JSON.stringify(findings));
}

/** The last piece of plan A somewhere else in each step. @param {any} document @param {number} step */
function withPieceMoved(document, step) {
  const moved = structuredClone(document);
  moved.plans[1].pieces.at(-1).v_m = 7 + 0.0004 * step;
  return moved;
}

/** @param {number} step @param {any} [room] */
function withSeatMoved(step, room = documents.case) {
  const moved = structuredClone(room);
  moved.listening.seat.x_m = 1.5 + 0.0007 * step;
  return moved;
}

/** What a step costs in a session of its own. @param {"follow"|"predict"} answer @param {(step: number) => any} change */
function stepMs(answer, change) {
  const session = new PageSession();
  const warm_ms = performance.now() + WARM_UP_MS;
  for (let step = 0; performance.now() < warm_ms; step += 1) {
    open(session, change(step % SAMPLES));
    session[answer](1);
  }
  return leastMs(SAMPLES, () => session[answer](1), (step) => open(session, change(step)));
}

/** A module that has computed nothing yet opens a document. */
async function firstMs() {
  let least = Infinity;
  for (let sample = 0; sample < SLOW_SAMPLES; sample += 1) {
    const session = new (await freshPage(sample)).Session();
    least = Math.min(least, leastMs(1, () => { open(session, documents.crowded); session.predict(1); }));
  }
  return least;
}

async function pageRows() {
  const session = new PageSession();
  const readMs = leastMs(SAMPLES, () => open(session, documents.case));
  const piece = (/** @type {number} */ step) => withPieceMoved(documents.case, step);
  const noSeat = () => documents.noSeat;
  const everyKind = (/** @type {number} */ step) => withPieceMoved(documents.crowded, step);
  const everyKindSeat = (/** @type {number} */ step) => withSeatMoved(step, documents.crowded);
  const seat = (/** @type {number} */ step) => withSeatMoved(step);
  const changes = [piece, seat, noSeat];
  const steps = changes.flatMap((change) => [stepMs("follow", change), stepMs("predict", change)]);
  return [readMs, ...steps, stepMs("follow", everyKind), stepMs("follow", everyKindSeat), await firstMs()];
}

/** Draws for three plans from `first` on, the last ones first, some at a time. @param {any} session @param {number} first @param {number} at_once */
function draws(session, first, at_once) {
  for (let plan = 0; plan < 3; plan += 1) {
    for (let end = 200; end > first; end -= at_once) {
      session.start_part(plan, end - at_once, end);
      session.more_ranges(at_once);
      session.packed();
    }
  }
}

/** Plan A of a room whose seat moves with every step, the noise being there. @param {any} room */
function responseMs(room) {
  const listener = new Listener();
  return leastMs(SLOW_SAMPLES, () => listener.response(1), (step) => {
    const moved = structuredClone(room);
    moved.listening.seat.x_m += 0.0007 * (step + 1);
    listener.open(moved);
    listener.response(0);
  });
}

function workerRows() {
  const session = new Session();
  const rooms = [documents.case, documents.crowded];
  const ranges = rooms.map((room) => leastMs(SLOW_SAMPLES, () => {
    session.start_ranges(1);
    while (!session.more_ranges(DRAWS_A_SLICE).ranges);
  }, (step) => open(session, withPieceMoved(room, step))));
  const bass = rooms.map((room) => {
    open(session, room);
    return leastMs(SLOW_SAMPLES, () => session.bass(1));
  });
  open(session, documents.loft);
  const all = leastMs(SLOW_SAMPLES, () => draws(session, 0, 200));
  const half = leastMs(SLOW_SAMPLES, () => draws(session, 100, 10));
  // A check-up is kept as long as nothing of it changes.
  const checkup = leastMs(SLOW_SAMPLES, () => { session.checkup(); session.surer(1); }, () => {
    open(session, documents.loft);
    open(session, documents.measuredLoft);
  });
  return [ranges[0], ranges[1], bass[0], bass[1], all, half, checkup, responseMs(documents.case), responseMs(documents.loft)];
}

console.log(JSON.stringify([...await pageRows(), ...workerRows()]));
