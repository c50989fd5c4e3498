// The module's half of `cargo bench`: prints one time in ms for each row, in the order of `ROWS` in drag_step.rs.
import { Listener, Session } from "../door/support.js";

const SAMPLES = 400;
const SLOW_SAMPLES = 6;
const DRAWS_A_SLICE = 50;

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

const document = JSON.parse(process.argv[2] ?? "");
const session = new Session();

function open(changed) {
  const { findings } = session.open(changed);
  if (findings.length > 0) throw new Error(JSON.stringify(findings));
}

/** @param {(document: any, step: number) => void} change */
function moving(change) {
  return (step) => {
    const moved = structuredClone(document);
    change(moved, step);
    open(moved);
  };
}

const report = () => session.predict(1);
const times = [
  leastMs(SAMPLES, () => open(document)),
  leastMs(SAMPLES, report, moving((moved, step) => { moved.plans[1].pieces[39].v_m = 7 + 0.0007 * step; })),
  leastMs(SAMPLES, report, moving((moved, step) => { moved.listening.seat.x_m = 1.5 + 0.0007 * step; })),
  leastMs(SAMPLES, report, moving((moved) => { moved.listening = { loudspeakers: [] }; })),
];
open(document);
times.push(leastMs(SLOW_SAMPLES, () => {
  session.start_ranges(1);
  while (!session.more_ranges(DRAWS_A_SLICE).ranges);
}, moving((moved, step) => { moved.plans[1].pieces[39].v_m = 7 + 0.0007 * step; })));
open(document);
times.push(leastMs(SLOW_SAMPLES, () => session.bass(1)));
const [loft, measuredLoft] = process.argv.slice(3).map((text) => JSON.parse(text));
/** Draws of those numbers for three plans, each anew. @param {number} first @param {number} end */
function draws(first, end) {
  for (let plan = 0; plan < 3; plan += 1) {
    session.start_part(plan, first, end);
    session.more_ranges(end - first);
    session.packed();
  }
}
open(loft);
times.push(leastMs(SLOW_SAMPLES, () => draws(0, 200)));
times.push(leastMs(SLOW_SAMPLES, () => draws(100, 200)));
// A check-up is kept as long as nothing of it changes.
times.push(leastMs(SLOW_SAMPLES, () => { session.checkup(); session.surer(1); }, () => { open(loft); open(measuredLoft); }));
/** A plan whose seat moves with every step, the noise being there. @param {any} room */
function responseMs(room) {
  const listener = new Listener();
  let serial = 0;
  return leastMs(SLOW_SAMPLES, () => listener.response(1), () => {
    const moved = structuredClone(room);
    serial += 1;
    moved.listening.seat.x_m += 0.0007 * serial;
    listener.open(moved);
    listener.response(0);
  });
}
times.push(responseMs(document), responseMs(loft));
console.log(times.join(" "));
