// A thousand damaged links, all the way: unpacking, the core's judgement, the reducer; the reader's own draft survives each.
import assert from "node:assert/strict";
import { it } from "node:test";
import { pack, unpack } from "../../www/model/files.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { createOutside } from "../../www/view/outside.js";
import { seeded } from "../page/support.js";
import { Session, scenario } from "./support.js";

const ODD = [null, -1, 1e300, "", [], {}, "x".repeat(500), 0.1, true];

/** Damages a random place of a value, in place. */
function damage(value, random) {
  const keys = Object.keys(value);
  const key = keys[Math.floor(random() * keys.length)];
  const inner = value[key];
  const deeper = inner !== null && typeof inner === "object" && Object.keys(inner).length > 0;
  if (deeper && random() < 0.9) damage(inner, random);
  else if (random() < 0.2) delete value[key];
  else value[key] = ODD[Math.floor(random() * ODD.length)];
}

/** A link with some of its characters changed, or one of a damaged document. */
async function damagedLink(link, random) {
  if (random() < 0.5) {
    const document = scenario("long-terrace-room");
    damage(document, random);
    return pack(document);
  }
  const at = Math.floor(random() * link.length);
  return link.slice(0, at) + String.fromCharCode(33 + Math.floor(random() * 90)) + link.slice(at + 1 + Math.floor(random() * 3));
}

/** A page with that draft on its sheet, as far as links reach it. @param {any} draft @param {any} session */
function pageWith(draft, session) {
  Object.assign(globalThis, { location: { href: "http://localhost/", hash: "" } });
  let state = initialState(draft, { example: false });
  /** @type {{title: string, findings: unknown[]}|null} */
  let refusal = null;
  const outside = createOutside({
    dispatch: (action) => { state = reduce(state, action, 0); },
    getState: () => state,
    check: (document) => session.open(document),
    refuse: (refused) => { refusal = refused; },
  });
  return { openLink: outside.openLink, state: () => state, refusal: () => refusal };
}

it("a thousand damaged links get a sentence or a visit, and never touch the draft", async () => {
  const random = seeded(2);
  const session = new Session();
  const draft = scenario("basement-den");
  const link = await pack(scenario("long-terrace-room"));
  const counts = { unreadable: 0, refused: 0, opened: 0 };
  const page = pageWith(draft, session);
  for (let round = 0; round < 1000; round += 1) {
    const damaged = await damagedLink(link, random);
    const { document, problem } = await unpack(damaged);
    const findings = problem ? [] : session.open(document).findings;
    if (problem || findings.length > 0) {
      await page.openLink(damaged);
      assert.match(page.refusal()?.title ?? "", /Your own room is untouched\.$/);
      assert.deepEqual(page.refusal()?.findings, findings);
      assert.ok(findings.every(({ message }) => message.endsWith(".")));
      assert.equal(page.state().document, draft);
      assert.equal(page.state().visiting, null);
      assert.deepEqual(draft, scenario("basement-den"));
      counts[problem ? "unreadable" : "refused"] += 1;
      continue;
    }
    const visited = reduce(initialState(draft, { example: false }), { type: "open-document", document, from: "link", link }, 0);
    assert.equal(visited.visiting.draft, draft);
    assert.ok(session.predict(visited.shown).name.length > 0);
    assert.equal(reduce(visited, { type: "undo" }, 1).document, draft);
    assert.deepEqual(reduce(reduce(visited, { type: "undo" }, 1), { type: "redo" }, 2).visiting, visited.visiting);
    counts.opened += 1;
  }
  assert.ok(counts.unreadable > 100 && counts.refused > 100 && counts.opened > 10, JSON.stringify(counts));
});
