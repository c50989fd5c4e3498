import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { describe, it } from "node:test";
import { ORIGINS, originText } from "../../www/view/origins.js";
import { wordsOf } from "./support_text.js";

const WWW = new URL("../../www/", import.meta.url);
const read = (name) => readFileSync(new URL(name, WWW), "utf8");
const PAGES = ["how.html", "ask.html", "measure.html"];
const policyOf = (page) => /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];

describe("Where is this from", () => {
  it("says formula, inputs, source and limits for every key that a region asks for", () => {
    const sources = readdirSync(new URL("view/", WWW)).filter((name) => name.endsWith(".js")).map((name) => read(`view/${name}`)).join("\n");
    const asked = new Set([...sources.matchAll(/origin\("(\w+)"/g)].map(([, key]) => key));
    assert.deepEqual([...asked].sort(), Object.keys(ORIGINS).sort());
    for (const key of asked) {
      const words = wordsOf(originText(key));
      for (const head of ["How it is worked out", "What goes in", "After", "Where it stops"]) assert.ok(words.includes(head), `${key}: ${head}`);
      for (const part of Object.values(ORIGINS[key])) assert.match(part, /\.$/, key);
    }
  });
});

/** Parts of the page without the fold in their own template, and where it is instead. */
const ELSEWHERE = {
  bounces: "more_bounces.js", // drawn right below the table, with all else that is said of bounces
  "view-part": "room_view.js", // inside its fold: without the picture there is nothing to ask about
  costs: "partslist.js", // the same figures as in the Parts list, whose fold explains them
};
/** Parts that hold words alone. */
const NO_FIGURES = ["notes"];

describe("every part of the page", () => {
  it("holds such a fold, or is one whose fold is elsewhere", () => {
    const files = readdirSync(new URL("view/", WWW)).filter((name) => name.endsWith(".js"));
    // A part that has nothing to show without loudspeakers has a second template, without figures.
    const templates = new Map();
    for (const [section, name] of files.flatMap((file) => [...read(`view/${file}`).matchAll(/<section class="part ([\w-]+)[\s\S]*?<\/section>/g)])) {
      templates.set(name, `${templates.get(name) ?? ""}${section}`);
    }
    for (const [name, template] of templates) {
      if (!NO_FIGURES.includes(name)) assert.match(ELSEWHERE[name] ? read(`view/${ELSEWHERE[name]}`) : template, /\$\{origin\("\w+"/, name);
    }
    for (const name of [...Object.keys(ELSEWHERE), ...NO_FIGURES]) assert.ok(templates.has(name), name);
    assert.ok(templates.size >= 12, [...templates.keys()].join());
  });
});

describe("the pages to read", () => {
  it("state the same content policy as the page, and hold neither script nor style of their own", () => {
    const policy = policyOf(read("index.html"));
    assert.ok(policy);
    for (const name of PAGES) {
      assert.equal(policyOf(read(name)), policy, name);
      assert.doesNotMatch(read(name), /<script|<style|\sstyle=|\son\w+=|https?:\/\/(?!www\.w3\.org)/, name);
    }
  });

  it("lead to each other and back, and to nothing that is not there", () => {
    for (const name of PAGES) {
      const links = [...read(name).matchAll(/href="([^"#]*?)"/g)].map(([, link]) => link).filter((link) => !link.startsWith("data:"));
      for (const other of [...PAGES, "./"]) assert.ok(links.includes(other), `${name} to ${other}`);
      for (const link of links) assert.ok([...PAGES, "./", "style/page.css"].includes(link), `${name}: ${link}`);
    }
  });

  it("name the known limits before anything else", () => {
    const heads = [...read("how.html").matchAll(/<h2 id="(\w+)">/g)].map(([, id]) => id);
    assert.equal(heads[0], "limits");
    assert.ok(heads.length >= 7);
  });

  it("answer what everybody asks, and warn before clapping", () => {
    const ask = read("ask.html");
    for (const word of ["neighbours", "egg boxes", "plants", "equaliser", "subwoofer", "slatted wood"]) assert.match(ask, new RegExp(`<dt>[^<]*${word}`), word);
    assert.ok(ask.indexOf("No balloons or bangs near ears.") < ask.indexOf("Clap once"));
    assert.match(ask, /No balloons or bangs near ears\./);
  });
});
