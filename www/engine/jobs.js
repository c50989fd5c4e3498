// The worker's side: one errand at a time, in slices short enough that a newer errand soon takes its place.

/**
 * @import { Bass, Checkup, CheckupReport, Finding, Ranges, Surer } from "../model/types.js"
 * @import { Errand, Help, Reply } from "./errands.js"
 *
 * @typedef {object} SlowSession  The core's session, as far as it is used here.
 * @property {(document: unknown) => {findings: Finding[]}} open
 * @property {(plan: number) => void} start_ranges
 * @property {(draws: number) => {ranges: Ranges|null}} more_ranges
 * @property {(plan: number, first: number, end: number) => void} start_part
 * @property {() => Float64Array|undefined} packed
 * @property {(first: number, packed: Float64Array) => {ranges: Ranges|null}} join
 * @property {(plan: number) => Bass|null} bass
 * @property {() => CheckupReport|null} checkup
 * @property {(plan: number) => Surer} surer
 *
 * @typedef {object} Slices
 * @property {() => number} now           milliseconds
 * @property {() => Promise<void>} rest   lets messages in
 * @property {() => boolean} isStale      whether a newer errand came in
 * @property {() => Help[]} helped        what another worker made of this plan since it was last asked
 * @property {(help: Help) => void} give   hands a part of the result over
 * @typedef {(session: SlowSession, plan: number, slices: Slices) => Promise<Ranges|Bass|Checkup|true|null>} Job  null: given up or impossible
 */

/** A slice aims at this long: two of them and the drawing of a frame fit between a drop and the eye. */
const SLICE_MS = 22;
const FIRST_DRAWS = 8;
const MOST_DRAWS = 200;

/** The ranges of a plan, a slice of draws at a time; what another worker made of it is not made again. @type {Job} */
export async function ranges(session, plan, { now, rest, isStale, helped }) {
  session.start_ranges(plan);
  for (let draws = FIRST_DRAWS; !isStale();) {
    for (const { first, packed } of helped()) session.join(first, packed);
    const started_ms = now();
    const more = session.more_ranges(draws);
    if (more.ranges) return more.ranges;
    draws = nextSlice(draws, now() - started_ms);
    await rest();
  }
  return null;
}

/** From here on a second worker makes the draws of a plan, the last ones first, until it meets the one that began at the start. */
const HELP_FROM = 100;
const HELP_STEP = 10;

/** The later half of a plan's draws, for the worker that makes its ranges. @type {Job} */
export async function draws(session, plan, { rest, isStale, give }) {
  for (let end = MOST_DRAWS; end > HELP_FROM && !isStale(); end -= HELP_STEP) {
    const first = end - HELP_STEP;
    session.start_part(plan, first, end);
    session.more_ranges(HELP_STEP);
    const packed = session.packed();
    if (packed) give({ first, packed });
    await rest();
  }
  return true;
}

/** How many draws take about one slice. @param {number} draws @param {number} took_ms @returns {number} */
export function nextSlice(draws, took_ms) {
  const wanted = took_ms > 0 ? Math.round((draws * SLICE_MS) / took_ms) : 2 * draws;
  return Math.min(MOST_DRAWS, Math.max(1, Math.min(4 * draws, wanted)));
}

/** The bass of a plan cannot be cut. @type {Job} */
export async function bass(session, plan) {
  return session.bass(plan);
}

/** What was measured, and what would make the range of a plan narrower. @type {Job} */
export async function checkup(session, plan) {
  return { checkup: session.checkup(), surer: session.surer(plan) };
}

/**
 * Takes errands as they come and replies to the newest only.
 * @param {Job} job @param {SlowSession} session
 * @param {{post: (reply: Reply) => void, now: () => number, rest: () => Promise<void>}} around
 * @returns {(errand: Errand|{serial: number, plan: number, help: Help}) => Promise<void>}
 */
export function createRunner(job, session, { post, now, rest }) {
  let newest = 0;
  /** @type {{plan: number, help: Help}[]} */
  let helps = [];
  /** @param {number} plan @returns {Help[]} */
  function helped(plan) {
    const mine = helps.filter((one) => one.plan === plan).map(({ help }) => help);
    helps = helps.filter((one) => one.plan !== plan);
    return mine;
  }
  return async (errand) => {
    if ("help" in errand) {
      if (errand.serial === newest) helps.push(errand);
      return;
    }
    newest = errand.serial;
    helps = [];
    const isStale = () => errand.serial !== newest;
    // Several errands may have come in at once.
    await rest();
    if (isStale() || errand.document === null) return;
    const opened = opens(session, errand.document);
    for (const plan of errand.plans) {
      const result = opened ? await job(session, plan, {
        now, rest, isStale, helped: () => helped(plan), give: (result) => post({ serial: errand.serial, plan, result, part: true }),
      }).catch(() => null) : null;
      if (isStale()) return;
      post({ serial: errand.serial, plan, result });
      await rest();
      if (isStale()) return;
    }
  };
}

/** @param {SlowSession} session @param {unknown} document @returns {boolean} */
function opens(session, document) {
  try {
    return session.open(document).findings.length === 0;
  } catch {
    return false;
  }
}
