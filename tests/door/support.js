// Loads the built module in node, the same build that the page gets.
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

// `cargo verify` says where the site was built.
const root = new URL("../../", import.meta.url);
const site = process.env.SEATWARD_SITE ? pathToFileURL(`${process.env.SEATWARD_SITE}/`) : new URL("target/site/", root);

const module = await import(new URL("pkg/seatward.js", site).href);
module.initSync({ module: readFileSync(new URL("pkg/seatward_bg.wasm", site)) });

export const { Session } = module;

/** The demo scenario of that name, as plain data. */
export function scenario(name) {
  return JSON.parse(readFileSync(new URL(`scenarios/${name}.json`, root), "utf8"));
}
