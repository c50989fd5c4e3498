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
