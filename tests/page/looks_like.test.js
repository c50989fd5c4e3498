// The limit on what pieces look like: pictures or furniture only, in the places, on the shelf and in words.
import assert from "node:assert/strict";
import { describe, it } from "node:test";
import { freshPiece } from "../../www/model/laid.js";
import { ruleWords } from "../../www/model/advice_words.js";
import { place } from "../../www/model/placing.js";
import { initialState, reduce } from "../../www/model/reduce.js";
import { roomFacts } from "../../www/view/facts.js";
import { kitShelf } from "../../www/view/kit.js";
import { limitFields } from "../../www/view/limits_fields.js";
import { frozen, kind, piece, sample } from "./support.js";
import { textOf, wordsOf } from "./support_text.js";

const panel = kind();
const printed = kind("printed", 0.8, 0.8, { name: "Printed panel", looks: "picture" });
const books = kind("books", 0.8, 1.8, { name: "Shelf of books", looks: "furniture" });
const screen = kind("screen", 0.8, 1.2, { stands: "stand", name: "Screen" });
const curtain = kind("curtain", 1.5, 2, { stands: "curtain", name: "Heavy curtain" });
const rug = kind("rug", 2, 1.4, { stands: "floor", name: "Rug of wool" });
const corner = kind("corner", 0.6, 1.2, { stands: "corner", name: "Corner piece" });
const KIT = [panel, printed, books, screen, curtain, rug, corner];
const room = (looks_like, pieces = []) => sample({ kit: KIT, pieces, ...(looks_like && { limits: { looks_like } }) });

describe("a limit on looks", () => {
  const put = (document, one, surface) => place(document, 1, freshPiece(one, surface), null, { u_m: 1, v_m: 0.2 }, { tolerance_m: 0, units: "metric" });
  const places = [[panel, "left"], [printed, "left"], [books, "left"], [screen, "floor"], [curtain, "left"], [rug, "floor"], [corner, "left"]];

  it("refuses a new piece of any sort that looks otherwise, in words", () => {
    const legal = (looks_like) => places.filter(([one, surface]) => put(room(looks_like), one, surface).legal).map(([one]) => one.id);
    assert.deepEqual(legal(), KIT.map(({ id }) => id));
    assert.deepEqual(legal(["picture"]), ["printed"]);
    assert.deepEqual(legal(["furniture"]), ["books", "curtain", "rug"]);
    assert.deepEqual(legal(["picture", "furniture"]), ["printed", "books", "curtain", "rug"]);
    assert.equal(put(room(["picture"]), panel, "left").reason, "looks like a panel: your limit is only what looks like a picture");
    assert.equal(put(room(["picture"]), rug, "floor").reason, "looks like furniture: your limit is only what looks like a picture");
    assert.match(ruleWords("looks"), /your limit$/);
  });

  it("leaves a piece that is there, and lets it be moved", () => {
    const there = room(["picture"], [piece("left", 1, 0.5)]);
    const moved = place(there, 1, there.plans[1].pieces[0], 0, { u_m: 1.2, v_m: 0.5 }, { tolerance_m: 0 });
    assert.deepEqual([moved.legal, moved.piece.u_m], [true, 1.2]);
    const set = reduce(frozen(initialState(room(undefined, [piece("left", 1, 0.5)]))), { type: "set-limit", limit: "looks_like", value: ["picture"] }, 0);
    assert.equal(set.document.plans[1].pieces.length, 1);
    const lifted = reduce(set, { type: "set-limit", limit: "looks_like", value: [] }, 1e4);
    assert.equal(lifted.document.limits, undefined);
  });
});

describe("the shelf within it", () => {
  const shelf = (looks_like, group, limits = {}) => {
    const document = { ...sample({ kit: [panel, corner], limits: { ...(looks_like && { looks_like }), ...limits } }) };
    const state = { ...initialState(document), shows: { ...initialState(document).shows, shelf: group } };
    return kitShelf({ document, state, kit: [], library: { shelf: [printed, books, screen, curtain, rug] }, dispatch: () => {} }, 50);
  };
  const slots = (template) => [...textOf(template).matchAll(/data-kind=(\w+)/g)].map(([, id]) => id);

  it("shows what is allowed and says how many kinds are hidden and why", () => {
    const words = wordsOf(shelf(["picture"]));
    assert.match(words, /6 kinds are not shown: your limit is only what looks like a picture, and they do not\. A printed panel counts as a picture; curtains, rugs/);
    assert.deepEqual(slots(shelf(["picture"])), ["printed"]);
    assert.deepEqual(["cloth", "floor"].flatMap((group) => slots(shelf(["furniture"], group))), ["curtain", "rug"]);
    assert.match(wordsOf(shelf(["picture", "furniture"])), /3 kinds are not shown: your limit is only what looks like a picture or furniture/);
    assert.doesNotMatch(wordsOf(shelf()), /not shown/);
  });

  it("gives each hidden kind one reason beside the limit that allows no holes", () => {
    const words = wordsOf(shelf(["furniture"], undefined, { no_drilling: true }));
    assert.match(words, /4 kinds are not shown: your limit is no drilling/);
    assert.match(words, /1 kind is not shown: your limit is only what looks like furniture/);
  });

  it("still lets a person say what a hidden kind of their own looks like", () => {
    assert.match(textOf(shelf(["picture"])), /What Thick soft, 100 mm looks like/);
    const state = frozen(initialState(room(["picture"])));
    const said = reduce(state, { type: "set-kind", id: "thick", looks: "picture" }, 0);
    assert.equal(said.document.kit[0].looks, "picture");
    assert.equal(said.history.past[0].label, "looks of Thick soft, 100 mm");
    assert.ok(place(said.document, 1, freshPiece(said.document.kit[0], "left"), null, { u_m: 1, v_m: 0.2 }, { tolerance_m: 0 }).legal);
    assert.equal("looks" in reduce(said, { type: "set-kind", id: "thick", looks: null }, 1e4).document.kit[0], false);
  });
});

describe("its field", () => {
  const scene = (document) => ({ document, state: initialState(document), library: { finishes: [], furnishings: [], shelf: [] }, dispatch: () => {}, commands: {} });

  it("stands with the other limits, and the facts name it", () => {
    assert.match(wordsOf(limitFields(scene(room(["picture"])))), /Only what looks like .*a picture .*furniture/);
    const facts = (looks_like) => wordsOf(roomFacts(scene(room(looks_like)), 1000));
    assert.match(facts(["furniture"]), /only what looks like furniture/);
    assert.doesNotMatch(facts(), /looks like/);
  });
});
