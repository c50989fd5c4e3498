// Times of advice in the workers' module, for the six demo rooms: prints them, holds nothing to them. The bars are 300 ms for a
// first plan and 3 s for the final one, on a machine that does nothing else. Run it by `node tests/bench/advice.js` after `cargo site`.
import { Session, scenario } from "../door/support.js";

const NAMES = ["rented-corner-room", "long-terrace-room", "concrete-loft", "square-study", "basement-den", "tall-room"];
const SLICE_STEPS = 1;
/** What a plan is compared with in the browser: so many workers take the tasks in their order. */
const WORKERS = [1, 2, 4];

/** @param {number} task @param {any} advice @returns {{took_ms: number, first_ms: number|null, told: number}} */
function timed(advice, task) {
  const start_ms = performance.now();
  let [first_ms, told] = [/** @type {number|null} */ (null), 0];
  advice.start(task);
  for (;;) {
    const { found, so_far } = advice.more(SLICE_STEPS);
    const now_ms = performance.now() - start_ms;
    if (so_far) [first_ms, told] = [first_ms ?? now_ms, told + 1];
    if (found) return { took_ms: now_ms, first_ms: first_ms ?? now_ms, told };
  }
}

/** When the last of the tasks is over, if each is taken by the worker that is free first. @param {number[]} took_ms @param {number} count */
function over_ms(took_ms, count) {
  const free_ms = Array(count).fill(0);
  for (const one_ms of took_ms) {
    const next = free_ms.indexOf(Math.min(...free_ms));
    free_ms[next] += one_ms;
  }
  return Math.max(...free_ms);
}

const ms = (value) => `${Math.round(value)}`.padStart(6);
console.log(`room                   opened  first  final  told  ${WORKERS.map((count) => `all by ${count}`).join("  ")}   slowest task`);
for (const name of NAMES) {
  const session = new Session();
  const document = scenario(name);
  const start_ms = performance.now();
  session.open(document);
  const advice = session.advise(0);
  const opened_ms = performance.now() - start_ms;
  const { tasks } = advice.about();
  const times = tasks.map((_, task) => timed(advice, task));
  const took_ms = times.map((one) => one.took_ms);
  const slowest = took_ms.indexOf(Math.max(...took_ms));
  const alone = WORKERS.map((count) => ms(opened_ms + over_ms(took_ms, count)).padStart(8)).join("  ");
  console.log(`${name.padEnd(20)} ${ms(opened_ms)} ${ms(opened_ms + (times[0].first_ms ?? 0))} ${ms(opened_ms + took_ms[0])}  ${`${times[0].told}`.padStart(4)}  ${alone}   ${JSON.stringify(tasks[slowest])} ${Math.round(took_ms[slowest])}`);
  advice.free();
}
