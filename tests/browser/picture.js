// `npm run picture` draws the README's picture from the page that `cargo serve` is serving.
import { env } from "node:process";
import { fileURLToPath } from "node:url";
import { chromium } from "@playwright/test";
import { findChromium } from "./chromium.js";

const browser = await chromium.launch({ executablePath: await findChromium(), args: ["--no-sandbox"] });
const page = await browser.newPage({ viewport: { width: 1440, height: 900 }, locale: "en-US" });
await page.goto(env.BASE_URL ?? "http://127.0.0.1:8137/");
// With its range, and with what the workers bring.
await page.locator(".answer h1 b").filter({ hasText: "–" }).waitFor();
await page.locator(".bass-part[aria-busy=false]").waitFor();
await page.screenshot({ path: fileURLToPath(new URL("../../.github/page.png", import.meta.url)) });
await browser.close();
