import type { Locator } from "playwright-core";
import { describe, expect, it } from "vitest";
import { EMPTY_BATCH, writeRecord } from "../../lib/batch/record.ts";
import type { BatchValues } from "../../lib/calculations/graph.ts";
import { evening } from "../helpers/evening.ts";
import { freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator, live } from "../helpers/pages.ts";

freshPages();

/** Opens the plan of a batch with these values, as if they had been typed. */
async function openPlan(values: BatchValues): Promise<void> {
  await page.goto(site);
  const record = writeRecord({ ...EMPTY_BATCH, name: "Mine", values });
  await page.evaluate((text) => localStorage.setItem("bilayer-bench.batch", text), record);
  await page.goto(`${site}plan/`);
  await live(page);
}

/** What it says, a number and its unit parted by a plain space. */
async function said(place: Locator): Promise<string> {
  return (await place.innerText()).replaceAll("\u00a0", " ");
}

const nothing = () => page.locator("plan-obstacles [data-nothing]");
const obstacles = () => page.locator("[data-obstacles] > li");
const remedy = (name: RegExp) => page.locator("plan-obstacles").getByRole("button", { name });
const lasts = (step: string) => page.locator(`[data-step="${step}"] td`).nth(1);
const total = () => page.locator("[data-total]");

describe("the plan", () => {
  it("is whole before a script has anything to do", async () => {
    await page.goto(`${site}plan/`);
    expect(await nothing().isVisible()).toBe(true);
    expect(await said(total())).toMatch(/^About 2 h 35 min/);
    expect(await page.locator("[data-step]").count()).toBe(15);
    expect(await said(lasts("stint-1"))).toBe("20 min");
  });

  it("names what stands in the way, and a press on the nearest change mends it, to be undone", async () => {
    await openPlan({ restTime: 300, stints: 4 });
    expect(await obstacles().allInnerTexts()).toHaveLength(1);
    expect(await obstacles().first().innerText()).toMatch(/^Stints in the bath: .*ceiling/);
    expect(await said(lasts("rest-1"))).toBe("5 min");
    const rest = remedy(/^Rest \d+ min instead of 5 min$/);
    await rest.waitFor();
    const [minutes] = (await rest.innerText()).match(/\d+/) ?? [];
    await rest.click();
    await expect.poll(() => obstacles().count()).toBe(0);
    expect(await nothing().isVisible()).toBe(true);
    expect(await said(lasts("rest-1"))).toBe(`${minutes} min`);
    expect(await page.locator("plan-obstacles [data-said]").innerText()).toMatch(/^Set: Rest/);
    const undo = page.getByRole("button", { name: "Undo this change" });
    expect(await undo.evaluate((button) => button === document.activeElement)).toBe(true);
    await undo.click();
    await expect.poll(() => obstacles().count()).toBe(1);
    expect(await said(lasts("rest-1"))).toBe("5 min");
  });

  it("plans no evening for a batch that cannot be made, and plans it once that is mended", async () => {
    await openPlan({ spiritStrength: 0.4, alcoholStrength: 0.36 });
    expect(await obstacles().first().innerText()).toMatch(/at most/);
    expect(await said(total())).toMatch(/no evening to plan yet/);
    expect(await page.locator("plan-stages [data-scroll]").isVisible()).toBe(false);
    await remedy(/^Ask for .* instead of 36 % vol$/).click();
    await expect.poll(() => said(total())).toMatch(/^About/);
    expect(await page.locator("plan-stages [data-scroll]").isVisible()).toBe(true);
  });

  it("says what happened to what is kept", async () => {
    await page.addInitScript(() => {
      navigator.storage.estimate = () => Promise.resolve({ usage: 95, quota: 100 });
    });
    await openPlan({ restTime: 300, stints: 4 });
    await expect
      .poll(() => page.locator("plan-obstacles [data-said]").innerText())
      .toMatch(/little room left/);
  });

  it("says so where no single change helps", async () => {
    await openPlan({ batchVolume: 2e-3, beakerVolume: 0.6e-3, dissolveTime: 7200 });
    await page.locator("plan-obstacles[data-sought]").waitFor({ timeout: 20_000 });
    expect(await obstacles().allInnerTexts()).toEqual(
      expect.arrayContaining([expect.stringMatching(/No single change that this page knows of/)]),
    );
  });

  it("offers a change once that mends several things, and says below that it mends them too", async () => {
    await openPlan({ batchVolume: 1.2e-3, beakerVolume: 0.8e-3 });
    await page.locator("plan-obstacles[data-sought]").waitFor({ timeout: 20_000 });
    expect(await obstacles().count()).toBeGreaterThan(1);
    const offered = await page.locator(".remedies button").allInnerTexts();
    expect(new Set(offered).size).toBe(offered.length);
    expect((await obstacles().allInnerTexts()).join()).toMatch(/changes? above mends? this too/);
  });

  it.each(["plan", "batch"])("says on the %s page that the batch is at the bench", async (path) => {
    await openPlan({ restTime: 1500 });
    const line = page.locator("[data-evening]");
    expect(await line.isVisible()).toBe(false);
    await page.goto(site);
    const begun = writeRecord(evening().step(0, "weigh").batch({ restTime: 1500 }));
    await page.evaluate((text) => localStorage.setItem("bilayer-bench.batch", text), begun);
    await page.goto(`${site}${path}/`);
    await live(page);
    await expect.poll(() => line.isVisible()).toBe(true);
    expect(await said(line)).toMatch(
      /^This batch has been at the bench since 20:00: .*To the bench$/,
    );
    await line.getByRole("link").click();
    await page.waitForURL(/\/bench\/$/);
  });

  it("goes by the clock once it is told when the evening starts, and remembers it", async () => {
    await openPlan({ restTime: 1500 });
    await page.getByLabel("You start at").fill("19:30");
    await expect
      .poll(() => page.locator('[data-step="stint-1"] td').first().innerText())
      .toBe("20:06");
    expect(await said(total())).toMatch(/, at about \d\d:\d\d:/);
    await page.reload();
    await live(page);
    await expect
      .poll(() => page.locator('[data-step="weigh"] td').first().innerText())
      .toBe("19:30");
  });

  it("lets the timeline follow the reader's own times", async () => {
    await open("plan/");
    const drawing = page.locator("plan-stages [data-drawing]");
    await drawing.scrollIntoViewIfNeeded();
    await calculator(page, "evening").field("skimTime").fill("9");
    await expect.poll(() => said(lasts("skim"))).toBe("9 min");
    await drawing.scrollIntoViewIfNeeded();
    await expect.poll(() => drawing.textContent()).toContain("Skim: 9\u00a0min work");
    await expect.poll(() => said(total())).toMatch(/^About 2 h 40 min/);
  });

  it("compares beakers in a larger bath, and keeps an error beside its field", async () => {
    await open("plan/");
    await page.getByText("With a larger bath").click();
    const loads = page.locator("plan-beakers tr", { hasText: "Loads" }).locator("td");
    expect(await loads.allInnerTexts()).toEqual(["1", "1", "2", "2"]);
    const field = (name: string) => page.locator(`plan-beakers input[name="${name}"]`);
    await field("bathLength").fill("50 cm");
    await field("bathWidth").fill("300");
    await field("bathWaterVolume").fill("12");
    await field("ratedPower").fill("300");
    await expect.poll(() => loads.allInnerTexts()).toEqual(["1", "1", "1", "1"]);
    await field("ratedPower").fill("lots");
    const error = page.locator('plan-beakers [data-error-for="ratedPower"]');
    await expect.poll(() => error.isVisible()).toBe(true);
    expect(await field("ratedPower").getAttribute("aria-invalid")).toBe("true");
    await page.reload();
    await live(page);
    expect(await field("ratedPower").inputValue()).toBe("lots");
    expect(await field("bathLength").inputValue()).toBe("50 cm");
  });

  it.each(["A4", "Letter"])("prints on one page of %s", async (format) => {
    await openPlan({ restTime: 300, stints: 4, batchVolume: 0.6e-3 });
    await page.getByLabel("You start at").fill("19:30");
    const pdf = await page.pdf({ format });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)).toHaveLength(1);
  });
});
