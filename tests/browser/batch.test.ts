import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { browser, context, freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator, forbid, live } from "../helpers/pages.ts";

freshPages({ acceptDownloads: true });

async function importText(text: string, name = "mine.json"): Promise<string> {
  const said = page.locator("batch-actions [data-said]");
  const before = await said.innerText();
  await page
    .locator("[data-import]")
    .setInputFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
  await expect.poll(() => said.innerText()).not.toBe(before);
  return said.innerText();
}

const volume = () => calculator(page, "recipe").field("batchVolume");

describe("the batch", () => {
  it("goes from a label to a printed sheet", async () => {
    await page.goto(site);
    await page.getByRole("link", { name: "Batch", exact: true }).first().click();
    await page.waitForURL("**/batch/");
    await live(page);
    await page.getByLabel("Name of this batch").fill("First try");
    const { field } = calculator(page, "recipe");
    await field("spiritStrength").fill("37,5");
    await field("batchVolume").fill("600");
    await field("alcoholStrength").fill("10,5");
    await page.getByLabel("Notes for the sheet").fill("sunflower lecithin");
    await page.getByRole("link", { name: "To the sheet for the bench" }).click();
    await live(page);
    expect(await page.locator("[data-sheet-name]").innerText()).toBe("First try");
    const readings = await page.locator('tr:not([hidden]) [data-cell="reading"]').allInnerTexts();
    const grams = readings.map((text) => Number.parseFloat(text));
    expect(grams).toHaveLength(4);
    expect(grams).toEqual([...grams].sort((a, b) => a - b));
    // 60 g of acid and 36 g of lecithin come last.
    expect((grams[2] ?? 0) - (grams[1] ?? 0)).toBeCloseTo(60, 1);
    expect((grams[3] ?? 0) - (grams[2] ?? 0)).toBeCloseTo(36, 1);
    expect(await page.locator("[data-sheet-notes]").innerText()).toBe("sunflower lecithin");
    for (const format of ["A4", "Letter"]) {
      const pdf = await page.pdf({ format });
      const count = pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length;
      expect(count, format).toBe(2);
    }
  });

  it("leaves the calculations unloaded until there is a batch", async () => {
    await page.goto(`${site}batch/`);
    await page.waitForLoadState("networkidle");
    expect(await page.locator("html[data-live]").count()).toBe(0);
    await page.getByLabel("Name of this batch").fill("First");
    await page.waitForSelector("html[data-live]", { state: "attached" });
  });

  it("follows to the next page and outlives a reload", async () => {
    await open("chapters/strength/");
    await calculator(page, "strength").field("spiritStrength").fill("43");
    await open("chapters/dilution/");
    expect(await calculator(page, "dilution").field("spiritStrength").inputValue()).toBe("43");
    await page.reload();
    await live(page);
    expect(await calculator(page, "dilution").field("spiritStrength").inputValue()).toBe("43");
  });

  it("keeps both edits of two tabs", async () => {
    await open("batch/");
    const other = await context.newPage();
    await open("batch/", other);
    await volume().fill("800");
    await calculator(other, "recipe").field("spiritStrength").fill("45");
    await expect
      .poll(() => calculator(page, "recipe").field("spiritStrength").inputValue())
      .toBe("45");
    expect(await volume().inputValue()).toBe("800");
    await expect
      .poll(() => calculator(other, "recipe").field("batchVolume").inputValue())
      .toBe("800");
  });

  it("is kept among the records where the quick storage is forbidden, and says so", async () => {
    await forbid(page, "localStorage");
    await open("batch/");
    await volume().fill("1000");
    await expect
      .poll(() => page.locator("[data-keeping]").innerText())
      .toMatch(/kept among the records .* alone/);
    // The database takes a moment, which the sentence tells of.
    await page.waitForFunction(
      () =>
        new Promise<boolean>((resolve) => {
          const opening = indexedDB.open("bilayer-bench");
          opening.onsuccess = () => {
            const database = opening.result;
            const asked = database.transaction("batches").objectStore("batches").getAll();
            asked.onsuccess = () => {
              database.close();
              resolve(asked.result.some((text) => /"batchVolume": 0.001/.test(String(text))));
            };
          };
        }),
    );
    await page.reload();
    await live(page);
    await expect.poll(() => volume().inputValue()).toBe("1000");
  });

  it("works on where all storage is forbidden, and says that nothing is kept", async () => {
    await forbid(page, "localStorage", "indexedDB");
    await open("batch/");
    const { output } = calculator(page, "recipe");
    await volume().fill("1000");
    await expect.poll(() => output("waterMass").innerText()).toMatch(/^64\d/);
    await expect.poll(() => page.locator("[data-keeping]").innerText()).toMatch(/refuses to keep/);
  });

  it("works on where storage is full, and says so", async () => {
    await forbid(page, "indexedDB");
    await page.addInitScript(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    });
    await open("batch/");
    await volume().fill("1000");
    await calculator(page, "recipe").field("spiritStrength").fill("45");
    await expect.poll(() => page.locator("[data-keeping]").innerText()).toMatch(/storage is full/);
    expect(await volume().inputValue()).toBe("1000");
    await expect
      .poll(() => calculator(page, "recipe").output("totalMass").innerText())
      .toMatch(/^10[12]\d/);
  });

  it.each([
    ["damaged", '{"format":"bilayer-bench-batch","version":1,"batch":{"na'],
    ["of a newer version", '{"format":"bilayer-bench-batch","version":9,"batch":{}}'],
    ["of another kind", '{"hello":1}'],
  ])("keeps a stored record that is %s aside and says so", async (_, text) => {
    await page.goto(site);
    await page.evaluate((stored) => localStorage.setItem("bilayer-bench.batch", stored), text);
    await open("batch/");
    await expect
      .poll(() => page.locator("batch-actions [data-said]").innerText())
      .toMatch(/kept aside/);
    const aside = await page.evaluate(() =>
      Object.entries(localStorage).filter(([key]) => key.includes("aside")),
    );
    expect(aside.map(([, kept]) => kept)).toEqual([text]);
    await volume().fill("600");
    await expect
      .poll(() => calculator(page, "recipe").output("totalMass").innerText())
      .toMatch(/^61\d/);
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save what was kept aside" }).click();
    expect(readFileSync((await (await download).path()) ?? "", "utf8")).toBe(text);
  });

  it("is saved as a file and opened again, the same", async () => {
    await open("batch/");
    await page.getByLabel("Name of this batch").fill("Tuesday");
    await volume().fill("820");
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as a file" }).click();
    const saved = await download;
    expect(saved.suggestedFilename()).toBe("tuesday.json");
    const text = readFileSync((await saved.path()) ?? "", "utf8");
    await page.getByRole("button", { name: "Start over" }).click();
    await expect.poll(() => volume().inputValue()).toBe("500");
    expect(await importText(text)).toMatch(/is open/);
    await expect.poll(() => volume().inputValue()).toBe("820");
    expect(await page.getByLabel("Name of this batch").inputValue()).toBe("Tuesday");
  });

  it.each([
    ["another program's file", '{"recipe":[]}', /another kind/],
    ["no JSON", "flour 500", /damaged or of another kind/],
    ["far too much", "x".repeat(600_000), /too long/],
  ])("refuses an import that is not ours: %s", async (_, text, sentence) => {
    await open("batch/");
    await volume().fill("700");
    const said = await importText(text);
    expect(said).toMatch(sentence);
    expect(said).toMatch(/Your batch is as it was/);
    expect(await volume().inputValue()).toBe("700");
  });

  it("brings everything back after “start over”, even after a reload", async () => {
    await open("batch/");
    await volume().fill("777");
    await page.getByRole("button", { name: "Start over" }).click();
    await expect.poll(() => volume().inputValue()).toBe("500");
    await page.reload();
    await live(page);
    await page.getByRole("button", { name: /Undo/ }).click();
    await expect.poll(() => volume().inputValue()).toBe("777");
  });

  it("travels in a link, and asks before it takes the place of another", async () => {
    await open("batch/");
    await volume().fill("650");
    await page.evaluate(() => Object.defineProperty(navigator, "clipboard", { value: undefined }));
    await page.getByRole("button", { name: "Copy a link to it" }).click();
    await expect.poll(() => page.url()).toMatch(/#batch=/);
    const link = page.url();
    const stranger = await browser.newContext();
    const theirs = await stranger.newPage();
    await theirs.goto(link);
    await live(theirs);
    await expect
      .poll(() => calculator(theirs, "recipe").field("batchVolume").inputValue())
      .toBe("650");
    await calculator(theirs, "recipe").field("batchVolume").fill("900");
    await theirs.goto("about:blank");
    await theirs.goto(link);
    await live(theirs);
    await theirs.getByRole("button", { name: "Keep mine" }).click();
    expect(await calculator(theirs, "recipe").field("batchVolume").inputValue()).toBe("900");
    await theirs.goto("about:blank");
    await theirs.goto(link);
    await theirs.getByRole("button", { name: "Use it" }).click();
    await expect
      .poll(() => calculator(theirs, "recipe").field("batchVolume").inputValue())
      .toBe("650");
    await stranger.close();
  });

  it.each([
    ["changed", "#batch=eyJmb3JtYXQiOiJiaWxheWVyLWJlbmNoLWJhdGNoIiwidmVyc2lvbiI6"],
    ["oversized", `#batch=${"A".repeat(9000)}`],
  ])("refuses a link that was %s", async (_, hash) => {
    await open(`batch/${hash}`);
    await expect
      .poll(() => page.locator("batch-actions [data-said]").innerText())
      .toMatch(/was not opened/);
    expect(await volume().inputValue()).toBe("500");
  });

  it("does not let the sheet pass over a text that could not be read", async () => {
    await open("batch/");
    await volume().fill("400");
    await calculator(page, "recipe").field("spiritStrength").fill("80 proof");
    await expect
      .poll(() => page.locator("batch-problems").innerText())
      .toMatch(/“80 proof” is not read/);
    expect(await page.locator("[data-invented]").innerText()).toMatch(
      /alcohol in the finished liquid/,
    );
    await open("sheet/");
    await expect
      .poll(() => page.locator("[data-sheet-cautions]").innerText())
      .toMatch(/“80 proof” is not read/);
    expect(await page.locator("[data-sheet-invented]").innerText()).toMatch(/Still the invented/);
  });

  it("says on the page what is not possible", async () => {
    await open("batch/");
    await calculator(page, "recipe").field("alcoholStrength").fill("48");
    const problems = page.locator("batch-problems");
    await expect.poll(() => problems.locator("[data-sentences]").innerText()).toMatch(/at most/);
    expect(await problems.innerText()).not.toMatch(/Nothing stands in the way/);
    await calculator(page, "recipe").field("alcoholStrength").fill("12");
    await expect.poll(() => problems.innerText()).toMatch(/Nothing stands in the way/);
    expect(await problems.locator("[data-care]").innerText()).toMatch(/Wants care.*no flame/s);
    await calculator(page, "recipe").field("alcoholStrength").fill("48");
    await expect.poll(() => problems.innerText()).toMatch(/at most/);
    await open("sheet/");
    expect(await page.locator("[data-sheet-vessels]").innerText()).toMatch(/nothing to weigh yet/);
  });
});
