import Ajv2020 from "ajv/dist/2020.js";
import { spawn, type ChildProcess } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Browser, type Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Batch } from "../../lib/batch/record.ts";
import { BROWSER_FLAGS, findBrowser } from "../helpers/browser.ts";
import { browser, context, freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator, forbid, live, watchedPage } from "../helpers/pages.ts";
import { openRecords, touchRecords } from "../helpers/records-page.ts";

freshPages({ acceptDownloads: true });

const at = (time: string): string => `2026-03-14T${time}.000+01:00`;
const VALUES = {
  batchVolume: 0.5e-3,
  spiritStrength: 0.4,
  alcoholStrength: 0.1,
  beakerVolume: 1e-3,
};
const MARCH = {
  name: "March",
  id: "march-0001",
  revision: 12,
  values: VALUES,
  planned: VALUES,
  units: {},
  notes: "sunflower",
  made: "2026-03-14",
  gear: { scale: "Small scale" },
  log: [
    { kind: "step", at: at("20:00:00"), step: "weigh" },
    { kind: "weighed", at: at("20:01:00"), vessel: 1, ingredient: "water", reading: 0.3203 },
    { kind: "step", at: at("20:10:00"), step: "stint-1" },
    { kind: "read", at: at("20:12:00"), liquid: 21.5, bath: 24 },
    { kind: "read", at: at("20:19:00"), liquid: 26.1 },
    { kind: "amount", at: at("20:40:00"), of: "bottles", value: 5 },
    { kind: "end", at: at("20:45:00") },
  ],
};
const MAY = { name: "May", id: "may-00001", revision: 1, values: {}, units: {}, notes: "=1+1" };
const SCALE = {
  id: "scale-0001",
  kind: "scale",
  name: "Small scale",
  values: { readability: 1e-5 },
  units: {},
};
const file = (batches: unknown[], gear: unknown[] = []): string =>
  JSON.stringify({ format: "bilayer-bench-records", version: 1, batches, gear });

const rows = (on: Page = page) => on.locator("[data-rows] li");
const said = (on: Page = page) => on.locator("batch-records [data-said]");

async function importText(text: string, on: Page = page): Promise<string> {
  await on
    .locator("batch-records [data-import]")
    .setInputFiles({ name: "all.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await expect.poll(() => said(on).innerText()).toMatch(/all\.json/);
  return said(on).innerText();
}

async function exportAll(on: Page = page): Promise<{ batches: Batch[]; gear: unknown[] }> {
  const download = on.waitForEvent("download");
  await on.getByRole("button", { name: "Save all as a file" }).click();
  return JSON.parse(readFileSync((await (await download).path()) ?? "", "utf8")) as never;
}

async function nameBatch(name: string, on: Page = page): Promise<void> {
  await open("batch/", on);
  await on.getByLabel("Name of this batch").fill(name);
}

describe("the records", () => {
  it("say how the first one comes about, and hold every batch from its first change on", async () => {
    await page.goto(`${site}records/`);
    expect(await page.locator("[data-empty]").innerText()).toMatch(/Give your first batch a name/);
    // Pressed before anything of it is alive.
    expect((await exportAll()).batches).toEqual([]);
    await nameBatch("First");
    await calculator(page, "recipe").field("batchVolume").fill("700");
    await openRecords(page, site);
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(1);
    expect(await rows().innerText()).toMatch(/First[\s\S]*700.mL[\s\S]*planned[\s\S]*Open now/);
    await open("batch/");
    await page.getByRole("button", { name: "Start over" }).click();
    await openRecords(page, site);
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(1);
    expect(await rows().innerText()).not.toMatch(/Open now/);
    await page.getByRole("button", { name: "Open First" }).click();
    await open("batch/");
    expect(await calculator(page, "recipe").field("batchVolume").inputValue()).toBe("700");
  });

  it("do a batch again next month, with the newest numbers of its gear, and lay both side by side", async () => {
    await touchRecords(page, site);
    await importText(file([MARCH], [SCALE]));
    await rows()
      .getByRole("button", { name: /^Again/ })
      .click();
    await page.waitForURL(/plan/);
    await nameBatch("April");
    await calculator(page, "recipe").field("spiritStrength").fill("45");
    await openRecords(page, site);
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(2);
    const { batches } = await exportAll();
    const april = batches.find(({ name }) => name === "April");
    expect(april).toMatchObject({
      repeats: "march-0001",
      values: { ...VALUES, spiritStrength: 0.45, readability: 1e-5 },
    });
    expect(april?.log).toBeUndefined();
    expect(batches.find(({ name }) => name === "March")).toEqual(MARCH);
    for (const name of ["March", "April"]) await page.getByLabel(`Compare ${name}`).check();
    await page.getByRole("button", { name: "Compare the two" }).click();
    const apart = page.getByRole("region", { name: "What differs" });
    await expect.poll(() => apart.innerText()).toMatch(/Strength of the spirit/);
    expect(await apart.getByRole("row", { name: /Strength of the spirit/ }).innerText()).toMatch(
      /40.%.vol\s+45.%.vol/,
    );
    expect(await apart.innerText()).not.toMatch(/Finished batch\s/);
    await page.locator("[data-view] summary").click();
    expect(await page.getByRole("region", { name: "The same in both" }).innerText()).toMatch(
      /Finished batch/,
    );
  });

  it("do a batch again at another size, and say beside the field what cannot be read", async () => {
    await touchRecords(page, site);
    await importText(file([{ ...MARCH, values: { ...VALUES, "weighing.waterMass": 0.3 } }]));
    await page.getByRole("link", { name: "March" }).click();
    await page.getByText("Again at another size").click();
    const volume = page.getByLabel("Finished batch, mL");
    await volume.fill("plenty");
    await page.getByRole("button", { name: "Plan it" }).click();
    await expect.poll(() => page.locator("#otherwise-batchVolume-fault").innerText()).not.toBe("");
    expect(await volume.inputValue()).toBe("plenty");
    await volume.fill("0,25 L");
    await page.getByRole("button", { name: "Plan it" }).click();
    await page.waitForURL(/plan/);
    await open("batch/");
    expect(await calculator(page, "recipe").field("batchVolume").inputValue()).toBe("250");
    await openRecords(page, site);
    const { batches } = await exportAll();
    const next = batches.find(({ repeats }) => repeats === "march-0001");
    expect(next?.values).toEqual({ ...VALUES, batchVolume: 0.25e-3 });
  });

  it("travel to another browser in one file, all of them identical, and not twice", async () => {
    await touchRecords(page, site);
    await importText(file([MARCH, MAY], [SCALE]));
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(2);
    const mine = await exportAll();
    const elsewhere = await browser.newContext({ acceptDownloads: true });
    const { page: theirs, faults } = await watchedPage(elsewhere);
    await touchRecords(theirs, site);
    expect(await importText(JSON.stringify(mine), theirs)).toMatch(/3 added/);
    const there = await exportAll(theirs);
    const byId = (all: { id?: string }[]) => [...all].sort((a, b) => (a.id! < b.id! ? -1 : 1));
    expect(byId(there.batches)).toEqual(byId([MARCH, MAY] as Batch[]));
    expect(there.gear).toEqual([SCALE]);
    expect(await importText(JSON.stringify(mine), theirs)).toMatch(/0 added, 3 here already/);
    expect(faults).toEqual([]);
    await elsewhere.close();
  });

  it("are as the schema on the page says, and damaged ones are not", async () => {
    await touchRecords(page, site);
    await importText(file([MARCH, MAY], [SCALE]));
    const all = await exportAll();
    const schema = await (await fetch(`${site}reference/records/records.schema.json`)).json();
    const validate = new Ajv2020({ strict: false }).compile(schema as object);
    expect(validate(all), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...all, batches: [{ ...MARCH, log: [{ kind: "sung" }] }] })).toBe(false);
    expect(validate({ ...all, gear: undefined })).toBe(false);
  });

  it("take the good ones of a damaged file, and name each bad one", async () => {
    await touchRecords(page, site);
    const burnt = {
      ...MAY,
      name: "Burnt",
      id: "burnt-001",
      values: { batchVolume: "x".repeat(99) },
    };
    expect(await importText(file([MARCH, burnt, MAY]))).toMatch(/2 added, .*1 refused/);
    expect(await page.locator("batch-records [data-results]").innerText()).toMatch(
      /Batch 2 of 3, “Burnt”, is damaged at its values, “batchVolume”/,
    );
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(2);
    expect(await importText(file([MARCH]).slice(0, -9))).toMatch(/cut short/);
    expect(await importText('{"soup":1}')).toMatch(/another kind/);
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(2);
  });

  it("keep a damaged record as it is, tell of it, and give it out", async () => {
    await touchRecords(page, site);
    await importText(file([MARCH]));
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(1);
    const text = '{"format":"bilayer-bench-batch","version":1,"batch":{"na';
    await putRow("torn-00001", text);
    await openRecords(page, site);
    await expect
      .poll(() => page.locator("[data-damaged]").innerText())
      .toMatch(/could not be read.*kept as it is/s);
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save it as it is" }).click();
    expect(readFileSync((await (await download).path()) ?? "", "utf8")).toBe(text);
    await page.getByRole("button", { name: "Remove it" }).click();
    await expect.poll(() => page.locator("[data-damaged] li").count()).toBe(0);
    await page.getByRole("button", { name: /Undo/ }).click();
    await expect.poll(() => page.locator("[data-damaged] li").count()).toBe(1);
  });

  it("are renamed, printed whole, saved as a table, removed, and brought back", async () => {
    await touchRecords(page, site);
    await importText(file([MARCH, MAY]));
    await page.getByRole("link", { name: "March" }).click();
    await page.getByText("Give it another name").click();
    await page.locator("#record-name").fill("March, first");
    await page.getByRole("button", { name: "Give it this name" }).click();
    await expect.poll(() => page.locator("[data-heading]").innerText()).toBe("March, first");
    // Drawn once what draws is loaded.
    await expect.poll(() => page.locator("[data-figure] svg").count()).toBe(1);
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: /CSV/ }).click();
    const saved = await download;
    expect(saved.suggestedFilename()).toBe("march-first.csv");
    const csv = readFileSync((await saved.path()) ?? "", "utf8");
    expect(csv.split("\r\n")).toHaveLength(MARCH.log.length + 2);
    await page.emulateMedia({ media: "print" });
    expect(await page.getByRole("button", { name: "Remove it" }).isVisible()).toBe(false);
    await page.emulateMedia({ media: "screen" });
    await page.getByRole("button", { name: "Remove it" }).click();
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(1);
    await page.getByRole("button", { name: /Undo/ }).click();
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(2);
    await page.getByLabel("Find by name").fill("first");
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(1);
  });

  it("keep a change in its own batch where another tab has opened another meanwhile", async () => {
    // This tab hears nothing of others: it sleeps in the background.
    await page.addInitScript(() => {
      addEventListener("storage", (event) => event.stopImmediatePropagation(), true);
    });
    await nameBatch("Here");
    const other = await context.newPage();
    await open("batch/", other);
    expect(await other.getByLabel("Name of this batch").inputValue()).toBe("Here");
    await other.getByRole("button", { name: "Start over" }).click();
    await other.getByLabel("Name of this batch").fill("There");
    await page.getByLabel("Notes for the sheet").fill("a thought from here");
    await expect
      .poll(() => page.locator("batch-actions [data-said]").innerText())
      .toMatch(/Another tab has opened/);
    await openRecords(other, site);
    await expect.poll(() => rows(other).allInnerTexts()).toHaveLength(2);
    const { batches } = await exportAll(other);
    const notes = Object.fromEntries(batches.map(({ name, notes: text }) => [name, text]));
    expect(notes).toEqual({ Here: "a thought from here", There: "" });
  });

  it("say where the browser refuses them, and work on", async () => {
    await forbid(page, "indexedDB");
    await nameBatch("Alone");
    await openRecords(page, site);
    await expect.poll(() => rows().allInnerTexts()).toHaveLength(1);
    await expect
      .poll(() => page.locator("[data-keeping]").innerText())
      .toMatch(/refuses to keep records/);
    expect(await importText(file([MARCH]))).toMatch(/0 added, .*1 refused/);
  });

  it("say where there is no room for them, and before that where there is little", async () => {
    await page.addInitScript(() => {
      navigator.storage.estimate = () => Promise.resolve({ usage: 95, quota: 100 });
    });
    await nameBatch("Last");
    await expect
      .poll(() => page.locator("batch-actions [data-said]").innerText())
      .toMatch(/little room left/);
    await openRecords(page, site);
    await expect.poll(() => page.locator("[data-keeping]").innerText()).toMatch(/little room left/);
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    });
    expect(await importText(file([MARCH]))).toMatch(/1 refused/);
    await expect.poll(() => page.locator("[data-keeping]").innerText()).toMatch(/storage is full/);
    expect(await page.locator("batch-records [data-results]").innerText()).toMatch(
      /“March” was not kept/,
    );
  });
});

async function putRow(id: string, text: string): Promise<void> {
  await page.evaluate(
    ([key, value]) =>
      new Promise<void>((resolve, reject) => {
        const request = indexedDB.open("bilayer-bench");
        request.onsuccess = () => {
          const transaction = request.result.transaction("batches", "readwrite");
          transaction.objectStore("batches").put(value, key);
          transaction.oncomplete = () => {
            request.result.close();
            resolve();
          };
          transaction.onerror = () => reject(transaction.error);
        };
      }),
    [id, text] as const,
  );
}

/** A browser with a folder of its own on disk, which can be killed. */
async function startBrowser(folder: string): Promise<{ run: ChildProcess; connected: Browser }> {
  const flags = [...BROWSER_FLAGS, `--user-data-dir=${folder}`, "--remote-debugging-port=0"];
  const run = spawn(findBrowser(), [...flags, "about:blank"], {
    detached: true,
    stdio: ["ignore", "ignore", "pipe"],
  });
  const address = await new Promise<string>((resolve, reject) => {
    let heard = "";
    run.stderr?.on("data", (part: Buffer) => {
      heard += part.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(heard);
      if (found?.[1]) resolve(found[1]);
    });
    run.on("exit", () => reject(new Error(heard)));
  });
  return { run, connected: await chromium.connectOverCDP(address) };
}

async function killBrowser({ run }: { run: ChildProcess }): Promise<void> {
  const gone = new Promise((resolve) => run.on("exit", resolve));
  // With all the processes it started: nothing may write a last word.
  process.kill(-(run.pid as number), "SIGKILL");
  await gone;
}

/** ms: long enough for the database on a busy machine, and far below what the quick storage takes to be safe. */
const JUST = 1000;

describe("a browser that is killed just after typing", () => {
  it("has lost nothing when it is started again, be it the very first batch or another", async () => {
    const folder = mkdtempSync(join(tmpdir(), "bilayer-bench-"));
    const volumeOn = (on: Page) => calculator(on, "recipe").field("batchVolume");
    const visit = async (connected: Browser): Promise<Page> => {
      const visited = await (connected.contexts()[0] ?? (await connected.newContext())).newPage();
      await visited.goto(`${site}batch/`);
      await live(visited);
      return visited;
    };
    try {
      const first = await startBrowser(folder);
      const one = await visit(first.connected);
      await one.getByLabel("Name of this batch").fill("Before the crash");
      await volumeOn(one).fill("640");
      await one.waitForTimeout(JUST);
      await killBrowser(first);

      const second = await startBrowser(folder);
      const two = await visit(second.connected);
      await expect
        .poll(() => two.getByLabel("Name of this batch").inputValue())
        .toBe("Before the crash");
      await expect.poll(() => volumeOn(two).inputValue()).toBe("640");
      await two.getByRole("button", { name: "Start over" }).click();
      await two.getByLabel("Name of this batch").fill("The next");
      await two.waitForTimeout(JUST);
      await killBrowser(second);

      const third = await startBrowser(folder);
      const three = await visit(third.connected);
      await expect.poll(() => three.getByLabel("Name of this batch").inputValue()).toBe("The next");
      await openRecords(three, site);
      await expect.poll(() => rows(three).allInnerTexts()).toHaveLength(2);
      await killBrowser(third);
    } finally {
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    }
  });
});
