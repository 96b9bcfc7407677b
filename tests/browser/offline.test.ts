import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { launchBrowser } from "../helpers/browser.ts";
import { builtPages, calculator, live, watchedPage } from "../helpers/pages.ts";

const site = inject("site");
let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

async function visited(url: string) {
  const context = await browser.newContext();
  const { page, faults } = await watchedPage(context);
  await page.goto(url);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  return { context, page, faults };
}

describe("offline", () => {
  for (const where of ["site", "subSite"] as const)
    it(`has every page after one visit, calculators and search too (${where})`, async () => {
      const url = inject(where);
      const { context, page, faults } = await visited(url);
      await context.setOffline(true);
      for (const path of builtPages().filter((path) => path !== "404.html")) {
        await page.goto(url + path);
        expect(await page.locator("h1").count(), path).toBe(1);
      }
      await page.goto(`${url}chapters/dilution/`);
      await live(page);
      const { field, output } = calculator(page, "dilution");
      await field("targetStrength").fill("25");
      await field("finalVolume").fill("500");
      await expect.poll(() => output("spiritVolume").innerText()).toMatch(/^250\.0/);
      await page.keyboard.press("Control+k");
      await page.locator("dialog input[role=combobox]").fill("readability");
      await page.waitForSelector("[role=option]");
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("Enter");
      await expect.poll(() => page.url()).not.toBe(`${url}chapters/dilution/`);
      expect(faults).toEqual([]);
      await context.close();
    });

  it("makes no request of the network on a second visit, but for the worker's own update check", async () => {
    const { context, page } = await visited(site);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    const asked: string[] = [];
    context.on("response", (response) => {
      if (!response.fromServiceWorker() && !response.url().endsWith("/sw.js"))
        asked.push(response.url());
    });
    for (const path of ["chapters/recipe/", "batch/", "before/"])
      await page.goto(site + path, { waitUntil: "networkidle" });
    expect(asked).toEqual([]);
    await context.close();
  });
});
