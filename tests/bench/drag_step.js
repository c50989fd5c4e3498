// The module's half of `cargo bench`: prints the median time, in ms, of opening the document given and of one report.
import { Session } from "../door/support.js";

const STEPS = 50;
const SAMPLES = 15;

/** Median over samples of the mean time of one call, ms. @param {() => unknown} work */
function medianMs(work) {
  const samples = Array.from({ length: SAMPLES }, () => {
    const start = performance.now();
    for (let step = 0; step < STEPS; step += 1) work();
    return (performance.now() - start) / STEPS;
  });
  return samples.sort((a, b) => a - b)[Math.floor(SAMPLES / 2)];
}

const document = JSON.parse(process.argv[2] ?? "");
const session = new Session();
const { findings } = session.open(document);
if (findings.length > 0) throw new Error(JSON.stringify(findings));
console.log(medianMs(() => session.open(document)), medianMs(() => session.predict(1)));
