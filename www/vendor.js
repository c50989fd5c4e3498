// The third-party parts the page uses, in one place. The build bundles this file into the site.
export { html, noChange, nothing, render, svg } from "lit-html";
export { AsyncDirective, Directive, directive } from "lit-html/async-directive.js";
export { classMap } from "lit-html/directives/class-map.js";
export { guard } from "lit-html/directives/guard.js";
export { live } from "lit-html/directives/live.js";
export { ref } from "lit-html/directives/ref.js";
export { repeat } from "lit-html/directives/repeat.js";
export { scaleLinear, scaleLog } from "d3-scale";

/** Draws code squares; only the Hang sheet loads it. */
export const codeSquares = () => import("qrcode-generator");
