/**
 * The whole page as one template, in the order in which it is read.
 *
 * @import { Scene } from "./scene.js"
 */
import { guard, html, nothing } from "../vendor.js";
import { awaitsTap } from "../model/spots.js";
import { advicePart } from "./advice_part.js";
import { afterwards } from "./afterwards.js";
import { answerLine, answerPicture, besideLine, costLine, doubtLine, isCatchingUp, shortAnswer } from "./answer.js";
import { findingsBar, readOnlyBar, statusLine, visitingBar } from "./bars.js";
import { bouncesTable } from "./bounces.js";
import { decayStrip } from "./decay.js";
import { roomFacts } from "./facts.js";
import { sheetSwitches } from "./group.js";
import { headLine, titleLine } from "./head.js";
import { inTurn } from "./in_turn.js";
import { itemNote, itemPanel } from "./item.js";
import { key } from "./key.js";
import { kitShelf } from "./kit.js";
import { footLine, notes } from "./notes.js";
import { patterns } from "./patterns.js";
import { plansBar } from "./plans.js";
import { columns } from "./columns.js";
import { atRest } from "./rest.js";
import { sheetDrawing } from "./sheet.js";
import { startDialog } from "./start.js";
import { endWords, footBar, turnNav } from "./turn.js";
import { hasZones, zonePick } from "./zones.js";

/**
 * @param {Scene} scene
 * @param {Parameters<typeof findingsBar>[0]} refusal  a document from outside that could not be opened
 */
export function page(scene, refusal) {
  const { width } = scene.viewport;
  const { right_px } = columns(scene.viewport);
  const isPlan = scene.state.shown > 0;
  const states = `${isPlan ? "" : "is-now"} ${scene.state.picked || awaitsTap(scene.state) ? "is-picking" : ""} ${scene.state.drag ? "is-dragging" : ""}`;
  return html`<div class="page is-${width} ${states}">
    ${patterns}${guard(headKey(scene), () => headLine(scene))}${visitingBar(scene)}${readOnlyBar(scene)}${findingsBar(refusal)}
    <main>
      <div class="lead">
        <section class="answer" aria-label="Answer" aria-busy=${isCatchingUp(scene) ? "true" : "false"}><div>${answerLine(scene)}${width === "wide" ? nothing : doubtLine(scene)}</div>
          ${width === "narrow" ? nothing : answerPicture(scene, width === "wide" ? right_px : 300)}</section>
        <div class="row">${guard(plansKey(scene), () => plansBar(scene))}
          ${width === "wide" ? besideLine(scene) : nothing}</div>
      </div>
      ${width === "narrow" ? shortAnswer(scene) : nothing}${width === "narrow" ? narrowStage(scene) : wideStage(scene)}
      ${inTurn("charts", () => html`${charts(scene)}${advicePart(scene, columns(scene.viewport).left_px)}${lists(scene)}`)}
    </main>
    ${width === "wide" ? nothing : inTurn("charts", () => footLine(scene))}${width === "narrow" ? footBar(scene) : nothing}
    ${startDialog(scene)}</div>`;
}

/** @param {Scene} scene */
function wideStage(scene) {
  const { fold } = scene;
  const wall_px = scene.document.room.height_m * fold.scale_px_per_m + crossLeft(scene);
  const floor = fold.faces.floor;
  const band_top = floor ? Math.min(floor.y_px, floor.y_px + floor.uy * floor.width_m) : 0;
  const blank_px = Math.max(112, wall_px - 8);
  const corner = `--blank:${blank_px}px;--band-top:${band_top}px;--band-low:${band_top + fold.ceiling.height_px}px;--stage:${fold.box.height_px}px`;
  return html`<div class="stage" .style=${corner}>
    ${scene.viewport.width === "middle" ? html`<div class="beside">${costLine(scene)}</div>` : nothing}
    <section class="cross" aria-label="Room sheet">${sheetDrawing(scene, fold, "box")}${guard([blank_px, scene.shown === null, scene.state.shows.zone_hz], () => key(scene, blank_px))}${statusLine(scene)}${itemNote(scene)}${guard(switchesKey(scene), () => sheetSwitches(scene))}</section>
    <div class="side">${inTurn("side", () => html`${guard(factsKey(scene), () => roomFacts(scene))}
      <section class="overhead" aria-label="Ceiling">${sheetDrawing(scene, fold, "ceiling")}</section>${guard(kitKey(scene), () => kitShelf(scene, fold.scale_px_per_m))}`)}</div>
  </div>`;
}

/**
 * The blank left of the cross, where a height-bound drawing does not fill its column.
 * @param {Scene} scene
 */
function crossLeft({ fold, document }) {
  const across_m = fold.turned === "lying" ? document.room.length_m : document.room.width_m;
  return (fold.box.width_px - (across_m + 2 * document.room.height_m) * fold.scale_px_per_m) / 2;
}

/** @param {Scene} scene */
function narrowStage(scene) {
  return html`<div class="stage"><div class="beside">${costLine(scene)}${statusLine(scene)}</div>${titleLine(scene)}
    <section class="cross" aria-label="Room sheet">${turnNav(scene)}${endWords(scene)}${sheetDrawing(scene, scene.fold, "box")}${hasZones(scene.shown) ? zonePick(scene) : nothing}${guard(switchesKey(scene), () => sheetSwitches(scene))}</section>
    ${guard(itemKey(scene), () => itemPanel(scene))}${inTurn("side", () => html`${guard(kitKey(scene), () => kitShelf(scene, scene.fold.scale_px_per_m))}${guard(factsKey(scene), () => roomFacts(scene))}`)}</div>`;
}

/** The columns of the Seat share do not grow beyond this, px. */
const WIDEST_SHARES_PX = 640;

/** @param {Scene} scene */
function charts(scene) {
  const { width } = scene.viewport;
  const { left_px, right_px } = columns(scene.viewport);
  const wrong = scene.state.shows.wrong_size;
  const below = afterwards.here();
  return html`${wrong ? html`<p class="wrong-size" role="status">${wrong} Until then these figures are those of the last size.</p>` : nothing}<div class="charts ${wrong ? "is-dimmed" : ""}">${decayStrip(scene, left_px)}<div>${bouncesTable(scene)}${width === "wide" ? footLine(scene) : nothing}</div>
    ${below ? html`${inTurn("bounces", () => below.moreBounces(scene, right_px))}${inTurn("shares", () => below.seatShare(scene, Math.min(right_px, WIDEST_SHARES_PX)))}${inTurn("bass", () => below.bassPart(scene, left_px))}${inTurn("response", () => below.responsePart(scene, left_px))}
    ${inTurn("absorbers", () => html`${atRest(scene.state.drag === null ? restKey(scene) : null, () => below.absorbersPart(scene))}${below.viewPart(scene, left_px)}`)}${inTurn("checkup", () => below.checkupPart(scene, left_px))}${inTurn("last", () => lastCharts(below, scene))}` : afterwards.words()}</div>`;
}

/** @param {Scene} scene */
function lists(scene) {
  const below = afterwards.here();
  return html`<div class="below">${scene.viewport.width === "narrow" ? nothing : guard(itemKey(scene), () => itemPanel(scene))}
    ${below ? inTurn("lists", () => html`${guard(restKey(scene), () => below.partsList(scene))}${guard([...restKey(scene), scene.state.late, scene.state.compared, scene.state.answer, scene.state.shows], () => below.costsFold(scene))}`) : nothing}${guard(restKey(scene), () => notes(scene))}</div>`;
}

/** @param {NonNullable<ReturnType<typeof afterwards.here>>} below @param {Scene} scene */
function lastCharts(below, scene) {
  return html`${guard([], () => below.listenPart(scene))}<p class="print-figures"><button type="button" class="word-button" @click=${scene.commands.printFigures}>Print the figures</button> <span class="also">All drawings and tables above; the Hang sheet prints by itself.</span></p>`;
}

/*
 * What each region is drawn from. A region is drawn anew only if something of it changes, so that a drag costs little.
 */

/** @param {Scene} scene */
function headKey({ state, document, viewport }) {
  return [state.history, state.units, state.example, state.readOnly, document.title, viewport];
}

/** @param {Scene} scene */
function plansKey({ state, document, viewport }) {
  return [state.shown, state.compared, state.readOnly, document.plans.map((plan) => plan.name).join("\n"), viewport];
}

/** @param {Scene} scene */
function factsKey({ state, document, library }) {
  const { room, goal, limits, currency, assumed, own_finishes, own_furnishings } = document;
  return [room, goal, limits, currency, assumed, own_finishes, own_furnishings, state.units, state.readOnly, library, afterwards.here()];
}

/** @param {Scene} scene */
function kitKey({ state, document, library, fold, kit }) {
  return [document.kit, document.limits, library, state.picked, state.units, state.readOnly, fold, state.shows.shelf, kit];
}

/** @param {Scene} scene */
function switchesKey({ state }) {
  const placing = state.picked !== null;
  const names = placing || state.copied.length > 0;
  return [state.snap, state.mirrorLock, state.copied.length > 0, placing, names && state.drag === null ? state.surface : null, state.readOnly];
}

/** @param {Scene} scene */
function itemKey(scene) {
  const { state, kit, fold } = scene;
  return [...restKey(scene), state.picked, state.spot, state.tapping, kit, fold];
}

/**
 * Number fields, parts list and cautions wait until a gesture is over: the figures at the piece follow it.
 * @param {Scene} scene
 */
function restKey({ state, shown }) {
  return [state.document, state.shown, state.selected, state.together, state.copied.length, state.units, state.readOnly, state.drag === null, state.drag === null ? shown : null];
}
