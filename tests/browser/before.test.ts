import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { launchBrowser } from "../helpers/browser.ts";
import { watchedPage } from "../helpers/pages.ts";

const address = `${inject("site")}before/`;
let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** Ids of the cautions that are open. */
function opened(page: Page): Promise<readonly string[]> {
  return page.locator("caution-texts details[open] h4").evaluateAll((all) => all.map((h) => h.id));
}

/** Millimetres as CSS pixels. */
const mm = (length: number): number => (length * 96) / 25.4;

describe("the page before a first batch", () => {
  it("is read in five minutes while its cautions are closed", async () => {
    const page = await browser.newPage();
    await page.goto(address);
    const words = (await page.locator("main").innerText()).split(/\s+/).filter((w) => w !== "");
    // 230 words a minute.
    expect(words.length / 230).toBeLessThan(5.5);
    expect(await opened(page)).toEqual([]);
    await page.close();
  });

  it("leads every item of the check list to a caution that opens", async () => {
    const context = await browser.newContext();
    const { page, faults } = await watchedPage(context);
    await page.goto(address);
    const links = page.locator("check-list li a");
    const named = await links.evaluateAll((all) =>
      all.map((a) => a.getAttribute("href")?.slice(1)),
    );
    expect(named.length).toBeGreaterThan(15);
    for (let i = 0; i < named.length; i++) await links.nth(i).click();
    expect([...(await opened(page))].sort()).toEqual([...new Set(named)].sort());
    expect(faults).toEqual([]);
    await context.close();
  });

  it("opens the caution that its address names, and shows it", async () => {
    const page = await browser.newPage();
    await page.goto(`${address}#spill`);
    await expect.poll(() => opened(page)).toEqual(["spill"]);
    const top = () =>
      page.evaluate(() => document.getElementById("spill")?.getBoundingClientRect().top ?? -1);
    await expect.poll(top).toBeGreaterThanOrEqual(0);
    expect(await top()).toBeLessThan(300);
    // Closed by hand, it opens again at the same link.
    await page.locator("summary", { has: page.locator("#spill") }).click();
    expect(await opened(page)).toEqual([]);
    await page.locator('#help ~ p a[href="#spill"]').click();
    expect(await opened(page)).toEqual(["spill"]);
    await page.close();
  });

  it("opens and closes all at a press", async () => {
    const page = await browser.newPage();
    await page.goto(address);
    const all = await page.locator("caution-texts details").count();
    await page.getByRole("button", { name: "Open all" }).click();
    expect(await opened(page)).toHaveLength(all);
    await page.getByRole("button", { name: "Close all" }).click();
    expect(await opened(page)).toEqual([]);
    await page.close();
  });

  it("shows its cautions by address and by press with scripts off", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${address}#first-aid`);
    const summary = page.locator("summary", { has: page.locator("#first-aid") });
    expect(await summary.evaluate((s) => s.getBoundingClientRect().top < innerHeight)).toBe(true);
    const text = page.getByText("20 minutes under cool running water; rings");
    expect(await text.isVisible()).toBe(false);
    await summary.press("Enter");
    expect(await text.isVisible()).toBe(true);
    await context.close();
  });

  it("prints every caution open, with scripts off too", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(address);
    await page.emulateMedia({ media: "print" });
    const hidden = await page
      .locator("caution-texts details > p:not(.cites)")
      .evaluateAll((all) => all.filter((p) => !p.checkVisibility()).map((p) => p.textContent));
    expect(hidden).toEqual([]);
    await context.close();
  });

  it("opens all for the printer, and closes again what was closed", async () => {
    const page = await browser.newPage();
    await page.goto(`${address}#glass`);
    const all = await page.locator("caution-texts details").count();
    await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
    expect(await opened(page)).toHaveLength(all);
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    expect(await opened(page)).toEqual(["glass"]);
    await page.close();
  });

  it("prints its check list on one sheet, with room for date and name", async () => {
    const page = await browser.newPage();
    await page.goto(address);
    await page.emulateMedia({ media: "print" });
    // As narrow as A4 and as short as Letter, less the margins.
    await page.setViewportSize({ width: Math.floor(mm(210 - 32)), height: 900 });
    const list = page.locator("section.list");
    expect((await list.boundingBox())?.height).toBeLessThan(mm(279.4 - 32));
    expect(await list.innerText()).toMatch(/Date[\s\S]*Name/);
    await page.evaluate(() => (document.documentElement.dataset["print"] = "check-list"));
    expect(await list.isVisible()).toBe(true);
    expect(await page.locator("h1, #worst, #cautions").filter({ visible: true }).count()).toBe(0);
    await page.close();
  });

  it("asks the browser to print the list alone, once", async () => {
    const page = await browser.newPage();
    await page.addInitScript(() => {
      window.print = () => {
        document.title = document.documentElement.dataset["print"] ?? "all";
        dispatchEvent(new Event("afterprint"));
      };
    });
    await page.goto(address);
    await page.getByRole("button", { name: "Print this list alone" }).click();
    expect(await page.title()).toBe("check-list");
    await page.getByRole("button", { name: "Print this page" }).click();
    expect(await page.title()).toBe("all");
    await page.close();
  });

  it("lets search find what stands in a closed caution, and opens it", async () => {
    const page = await browser.newPage();
    await page.goto(inject("site"));
    await page.keyboard.press("Control+k");
    await page.locator("dialog input[role=combobox]").fill("tumble dryer");
    const hit = page.locator('[role=option] a[href*="before/#spill"], a[href*="before/#spill"]');
    await hit.first().click();
    await expect.poll(() => opened(page)).toEqual(["spill"]);
    await page.close();
  });
});
