// Loads the workers' module in node, the same build that they get; the page's, which is a part of it, too.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

// `cargo verify` says where the site was built.
const root = new URL("../../", import.meta.url);
const site = process.env.SEATWARD_SITE ? pathToFileURL(`${process.env.SEATWARD_SITE}/`) : new URL("target/site/", root);

/** @param {string} name @param {string} [instance] another than the shared one of this process */
async function load(name, instance = "") {
  const module = await import(new URL(`pkg/${name}.js${instance}`, site).href);
  module.initSync({ module: readFileSync(new URL(`pkg/${name}_bg.wasm`, site)) });
  return module;
}

export const { Listener, Session } = await load("seatward_later");
export const { Session: PageSession } = await load("seatward");

/** The page's module anew, with nothing computed in it yet. @param {number} number */
export const freshPage = (number) => load("seatward", `?fresh=${number}`);

/** The demo scenario of that name, as plain data. */
export function scenario(name) {
  return JSON.parse(readFileSync(new URL(`scenarios/${name}.json`, root), "utf8"));
}
