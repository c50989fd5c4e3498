// The module's half of `cargo bench`: prints the time, in ms, of opening the document given and of one report.
import { Session } from "../door/support.js";

const STEPS = 5;
const SAMPLES = 200;

/** Mean time of one call in the fastest of the samples, ms. @param {() => unknown} work */
function leastMs(work) {
  const samples = Array.from({ length: SAMPLES }, () => {
    const start = performance.now();
    for (let step = 0; step < STEPS; step += 1) work();
    return (performance.now() - start) / STEPS;
  });
  return Math.min(...samples);
}

const document = JSON.parse(process.argv[2] ?? "");
const session = new Session();
const { findings } = session.open(document);
if (findings.length > 0) throw new Error(JSON.stringify(findings));
console.log(leastMs(() => session.open(document)), leastMs(() => session.predict(1)));
