// What the accessibility rules find on a page, and whether it can be scrolled sideways.
import { AxeBuilder } from "@axe-core/playwright";
import { expect } from "@playwright/test";

/** @import { Page } from "@playwright/test" */

/** The rules of every test that looks for broken ones. */
const STANDARDS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What the accessibility rules find, as short lines. @param {Page} page */
export async function violations(page) {
  const { violations: found, passes } = await new AxeBuilder({ page }).withTags(STANDARDS).analyze();
  expect(passes.length).toBeGreaterThan(10);
  return found.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target.join(" ")} ${node.failureSummary ?? ""}`));
}

/** How far the page can be scrolled sideways, px. @param {Page} page */
export const sideways = (page) => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
