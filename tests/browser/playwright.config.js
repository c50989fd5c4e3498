// Browser tests of the built page. `cargo verify` serves the page and names it in BASE_URL.
import { env } from "node:process";
import { defineConfig } from "@playwright/test";
import { findChromium } from "./chromium.js";

// The workers read this file too and must not search again.
env.CHROMIUM = await findChromium();

export default defineConfig({
  testDir: ".",
  testMatch: "*.spec.js",
  // Every state looked at for broken rules takes a quarter of an hour: on request, with SEATWARD_LONG=1.
  testIgnore: env.SEATWARD_LONG ? [] : ["states.spec.js"],
  outputDir: "test-results",
  forbidOnly: true,
  fullyParallel: true,
  workers: 2,
  // The page computes ranges and bass beside every step; on two cores that takes turns with the tests.
  timeout: 60_000,
  reporter: env.RESULTS_FILE ? [["list"], ["json", { outputFile: env.RESULTS_FILE }]] : "list",
  use: {
    baseURL: env.BASE_URL ?? "http://127.0.0.1:8137/",
    // Without a locale the browser reports one that Intl refuses.
    locale: "en-US",
    // It would answer instead of what a test puts in the way of a request; its own tests allow it.
    serviceWorkers: "block",
    viewport: { width: 1280, height: 800 },
    // Without pictures: taking one after every step costs more than the step.
    trace: { mode: "retain-on-failure", screenshots: false },
    launchOptions: {
      executablePath: env.CHROMIUM,
      args: [
        "--no-sandbox",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
      ],
    },
  },
});
