import type { Browser, BrowserContext, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, expect, inject } from "vitest";
import { launchBrowser } from "./browser.ts";
import { live, watchedPage } from "./pages.ts";

export const site = inject("site");
/** One browser a file; a context, with nothing stored, and a page in it for each test. */
export let browser: Browser;
export let context: BrowserContext;
export let page: Page;

/** Gives every test of a file a page of its own, and fails one in which the page reported an error. */
export function freshPages(options: BrowserContextOptions = {}): void {
  let faults: readonly string[] = [];
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    context = await browser.newContext(options);
    ({ page, faults } = await watchedPage(context));
  });
  afterEach(async () => {
    await context.close();
    expect(faults).toEqual([]);
  });
}

/** Opens a page of the site as a reader would, its calculators alive. */
export async function open(path: string, on: Page = page): Promise<void> {
  await on.goto(site + path);
  await live(on);
}
