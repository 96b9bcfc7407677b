import { readFileSync } from "node:fs";
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { browser, context, freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { BATCH_KEY } from "../../components/batch/keys.ts";
import { benchOn, storedOn } from "../helpers/bench-page.ts";
import { forbid } from "../helpers/pages.ts";
import type { Entry } from "../../lib/batch/log.ts";
import { readRecord } from "../../lib/batch/record.ts";

freshPages({ timezoneId: "Europe/Berlin", viewport: { width: 360, height: 740 } });

const SUMMER_ENDS = "2026-10-25T00:40:00Z"; // 02:40 by summer time
const SUMMER_BEGINS = "2026-03-29T00:50:00Z"; // 01:50 by winter time

const bench = (on: Page = page) => benchOn(on);
const stored = (on: Page = page) => storedOn(on);
const said = (on: Page = page) => on.locator("bench-stage > [data-said]");

async function log(on: Page = page): Promise<readonly Entry[]> {
  return (await stored(on)).log ?? [];
}

/** A recipe in two beakers with two cautions to its plan, as typed. */
const CROWDED = { beakerVolume: "500", spiritStrength: "70", readability: "5" };

/** Opens the bench at a moment, by a clock that the test moves. */
async function openAt(moment: string, on: Page = page): Promise<void> {
  await on.clock.install({ time: new Date(moment) });
  await open("bench/", on);
}

/** Counts the tones a page sounds. */
async function listen(on: Page = page): Promise<() => Promise<number>> {
  await on.addInitScript(() => {
    const counted = window as unknown as { tones: number };
    counted.tones = 0;
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (...when) {
      counted.tones++;
      start.apply(this, when);
    };
  });
  return () => on.evaluate(() => (window as unknown as { tones: number }).tones);
}

describe("before the evening", () => {
  it("begins only when each line is ticked, and freezes the plan", async () => {
    await open("bench/");
    await bench().button("Begin").click();
    await expect.poll(() => page.getByRole("alert").first().innerText()).toMatch(/Tick each line/);
    expect(await log()).toEqual([]);
    await bench().begin();
    expect((await stored()).planned).toEqual({});
    expect(await log()).toMatchObject([{ kind: "step", step: "weigh" }]);
    expect((await log())[0]?.at).toMatch(/\+0[12]:00$/);
  });

  it("keeps the ticks over a reload", async () => {
    await open("bench/");
    await page.getByLabel(/read the cautions/).check();
    await page.reload();
    await expect.poll(() => page.getByLabel(/read the cautions/).isChecked()).toBe(true);
    expect(await page.getByLabel(/sold as a drink/).isChecked()).toBe(false);
  });

  it("says which numbers are still invented, and what stands in the way", async () => {
    await open("batch/");
    await page.locator('form[data-calculation="recipe"] input[name="batchVolume"]').fill("400");
    await open("bench/");
    await expect
      .poll(() => page.locator("[data-invented]").innerText())
      .toMatch(/Still the invented/);
    await open("batch/");
    await page.locator('form[data-calculation="recipe"] input[name="spiritStrength"]').fill("54o");
    await open("bench/");
    await expect.poll(() => page.locator("[data-in-the-way]").innerText()).toMatch(/“54o” is not/);
    await open("batch/");
    await page.locator('form[data-calculation="recipe"] input[name="spiritStrength"]').fill("54");
    await page.locator('form[data-calculation="recipe"] input[name="alcoholStrength"]').fill("60");
    await open("bench/");
    await expect.poll(() => page.locator("[data-in-the-way]").innerText()).toMatch(/at most/);
    for (const box of await page.getByRole("checkbox").all()) await box.check();
    await bench().button("Begin").click();
    await expect
      .poll(() => page.getByRole("alert").first().innerText())
      .toMatch(/no plan to begin/);
  });
});

describe("a plan with something in the way", () => {
  it("is not begun without a word of it, nor without a way to mend it", async () => {
    await open("batch/");
    await page.locator('form[data-calculation="recipe"] input[name="batchVolume"]').fill("2000");
    await open("bench/");
    const list = page.getByRole("list", { name: "What stands in the way" });
    await expect.poll(() => list.getByRole("listitem").count()).toBeGreaterThan(0);
    await page.getByRole("link", { name: /nearest change/ }).click();
    await page.waitForURL(/plan\/#in-the-way$/);
    await expect.poll(() => page.locator("[data-obstacles] > li").count()).toBeGreaterThan(0);
  });
});

describe("weighing in", () => {
  it("asks for one reading after another, and says what the batch is", async () => {
    await open("bench/");
    await bench().begin();
    const grams: number[] = [];
    for (const label of ["water", "spirit", "ascorbic acid", "lecithin"]) {
      await expect.poll(() => bench().asked.innerText()).toContain(label);
      grams.push(Number.parseFloat(await bench().target.innerText()));
      await bench().shows.click();
    }
    expect(grams).toEqual([...grams].sort((a, b) => a - b));
    await expect.poll(() => bench().composition.innerText()).toMatch(/12\.00.%.vol/);
    await bench().button("Next: Dissolve and stir").click();
    await bench().stage("Dissolve and stir").waitFor();
    const weighed = (await log()).filter(({ kind }) => kind === "weighed");
    expect(weighed).toHaveLength(4);
    expect(weighed[0]).toMatchObject({ vessel: 1, of: 1, ingredient: "water" });
  });

  it("moves the rest after an overshoot, or keeps the plan where one says so", async () => {
    await open("bench/");
    await bench().begin();
    await bench().weigh("340,8 g");
    await expect
      .poll(() => page.locator("[data-last]").innerText())
      .toMatch(/20\.4.g over.*grows by 6/);
    // 111.6 g of spirit, grown by 340.8/320.4.
    expect(Number.parseFloat(await bench().target.innerText())).toBeCloseTo(340.8 + 118.7, 0);
    await bench()
      .button(/Keep the plan as it was/)
      .click();
    await expect.poll(() => bench().target.innerText()).toMatch(/^452\.4/);
    await bench()
      .button(/^Undo: going on as it is/)
      .click();
    await expect.poll(() => bench().target.innerText()).toMatch(/^459\.5/);
  });

  it("refuses to recompute what no beaker holds, and lets one go on as it is", async () => {
    await open("bench/");
    await bench().begin();
    await bench().weigh("450");
    await expect
      .poll(() => page.locator("[data-last]").innerText())
      .toMatch(/would have to grow by 40.%/);
    expect(await bench().shows.isVisible()).toBe(false);
    await expect.poll(() => bench().composition.innerText()).toMatch(/\d\.\d+.%.vol/);
    await bench().button("Go on as it is").click();
    await expect.poll(() => bench().target.innerText()).toMatch(/^561\.6/);
  });

  it("lets what went in last be taken out again, and refuses a reading that cannot be", async () => {
    await open("bench/");
    await bench().begin();
    await bench().shows.click();
    await bench().weigh("500");
    await bench().weigh("432");
    await expect.poll(() => page.locator("[data-last]").innerText()).toMatch(/Spirit is within/);
    await bench().weigh("300");
    await expect
      .poll(() => page.locator("#bench-reading-error").innerText())
      .toMatch(/tared again/);
    await bench().weigh("a lot");
    await expect
      .poll(() => page.locator("#bench-reading-error").innerText())
      .toMatch(/is not a number/);
    expect(await page.getByLabel("It shows something else").inputValue()).toBe("a lot");
  });

  it("keeps the next press on the first screen, with all the plan's cautions below it", async () => {
    await open("batch/");
    for (const [name, value] of Object.entries(CROWDED))
      await page.locator(`form input[name="${name}"]`).first().fill(value);
    await open("bench/");
    await bench().begin();
    const cautions = page.getByRole("list", { name: "Cautions for your plan" });
    await expect.poll(() => cautions.getByRole("listitem").count()).toBe(2);
    for (const label of ["water", "spirit", "ascorbic acid", "lecithin"]) {
      await expect.poll(() => bench().asked.innerText()).toContain(label);
      const box = await bench().shows.boundingBox();
      expect(box?.y).toBeGreaterThanOrEqual(0);
      expect((box?.y ?? NaN) + (box?.height ?? NaN)).toBeLessThanOrEqual(740);
      await bench().shows.click();
    }
  });

  it("says what a skip leaves out, and goes back to it", async () => {
    await open("bench/");
    await bench().begin();
    for (let i = 0; i < 2; i++) await bench().shows.click();
    await bench().skipTo("Dissolve and stir");
    await expect
      .poll(() => page.locator("[data-missed]").innerText())
      .toMatch(/^Not weighed in: ascorbic acid, lecithin\. Go back/);
    await bench().button("Back to weighing").click();
    await bench().stage("Weigh in").waitFor();
    await expect.poll(() => bench().asked.innerText()).toContain("ascorbic acid");
    for (let i = 0; i < 2; i++) await bench().shows.click();
    await bench().next("Dissolve and stir");
    expect(await bench().button("Back to weighing").isVisible()).toBe(false);
  });

  it("fills one beaker after another", async () => {
    await open("batch/");
    await page.locator('form[data-calculation="recipe"] input[name="beakerVolume"]').fill("500");
    await open("bench/");
    await bench().begin();
    for (let i = 0; i < 4; i++) {
      await expect.poll(() => bench().asked.innerText()).toContain("1 of 2");
      await bench().shows.click();
    }
    await expect.poll(() => bench().asked.innerText()).toContain("2 of 2");
    for (let i = 0; i < 4; i++) await bench().shows.click();
    await expect.poll(() => bench().composition.innerText()).toMatch(/500\.\d.mL/);
  });

  it("keeps a text half typed over a crash", async () => {
    await open("bench/");
    await bench().begin();
    await page.getByLabel("It shows something else").pressSequentially("321,");
    await page.reload();
    await expect.poll(() => page.getByLabel("It shows something else").inputValue()).toBe("321,");
  });
});

describe("the time", () => {
  it("goes on through a reload, a closed tab and a night's end of summer time", async () => {
    await openAt(SUMMER_ENDS);
    await bench().begin();
    await bench().skipTo("Stint 1 of 3");
    await bench().expectLeft(1200);
    expect(await page.locator("[data-time-after]").innerText()).toBe("until 02:00");
    await page.clock.runFor(300_000);
    await bench().expectLeft(900);
    await page.reload();
    await bench().expectLeft(900);
    expect(await page.title()).toMatch(/^1\d:\d\d left, Stint 1 of 3/);
    await page.close();
    const later = await context.newPage();
    await openAt("2026-10-25T00:50:00Z", later);
    await bench(later).expectLeft(600);
    // The second 02:00 of the night: the time is up, and counted over.
    await later.clock.setSystemTime(new Date("2026-10-25T01:00:35Z"));
    await later.clock.runFor(500);
    await bench(later).expectLeft(-35);
    await expect.poll(() => later.title()).toMatch(/^\+\d:\d\d over/);
  });

  it("is right across the hour that summer time takes, and across midnight", async () => {
    await openAt(SUMMER_BEGINS);
    await bench().begin();
    await bench().skipTo("Stint 1 of 3");
    expect(await page.locator("[data-time-after]").innerText()).toBe("until 03:10");
    await page.clock.runFor(900_000);
    await bench().expectLeft(300);
    const midnight = await context.newPage();
    await openAt("2026-11-25T22:55:00Z", midnight);
    await bench(midnight).skipTo("Stint 2 of 3");
    expect(await midnight.locator("[data-time-after]").innerText()).toBe("until 00:15");
    await midnight.clock.runFor(600_000);
    await bench(midnight).expectLeft(600);
  });

  it("goes on as it was when the clock is set back, and notes it once", async () => {
    await openAt("2026-11-25T19:00:00Z");
    await bench().begin();
    await bench().skipTo("Stint 1 of 3");
    await page.clock.runFor(300_000);
    await page.clock.setSystemTime(new Date("2026-11-25T18:05:00Z"));
    await page.clock.runFor(1000);
    await expect.poll(() => said().innerText()).toMatch(/was set back/);
    await bench().expectLeft(900);
    const jumps = (await log()).filter(({ kind }) => kind === "clock");
    expect(jumps).toHaveLength(1);
    expect(jumps[0]).toMatchObject({ by: expect.closeTo(-3600, -2) as number });
    await page.clock.runFor(5000);
    expect((await log()).filter(({ kind }) => kind === "clock")).toHaveLength(1);
    // It made itself, so an undo passes over it.
    await bench().button("Undo: “Stint 1 of 3” begins").click();
    await bench().stage("Weigh in").waitFor();
    expect((await log()).map(({ kind }) => kind)).toEqual(["step", "clock"]);
  });

  it("does not guess when the clock was set back while the page was closed", async () => {
    await openAt("2026-11-25T19:00:00Z");
    await bench().begin();
    await bench().skipTo("Stint 1 of 3");
    await page.close();
    const later = await context.newPage();
    await openAt("2026-11-25T18:00:00Z", later);
    await expect.poll(() => later.locator("[data-time-after]").innerText()).toMatch(/was set back/);
    await bench(later).skipTo("Stint 1 of 3");
    await bench(later).expectLeft(1200);
  });

  it("says whether the screen stays on", async () => {
    await open("bench/");
    await expect.poll(() => page.locator("[data-awake]").innerText()).toMatch(/screen/);
  });
});

describe("sound", () => {
  it("is asked for before any plays, sounds at once, and again when a time is up", async () => {
    const tones = await listen();
    await openAt("2026-11-25T19:00:00Z");
    await bench().begin();
    await bench().skipTo("Stint 1 of 3");
    const ring = (kind: string) =>
      page.locator("[data-part='step'] [data-probe]").evaluate(
        (place, detail) => {
          place.dispatchEvent(new CustomEvent("bench-alarm", { bubbles: true, detail }));
        },
        { kind },
      );
    await ring("ceiling");
    await page.clock.runFor(1_201_000);
    await bench().expectLeft(-1);
    expect(await tones()).toBe(0);
    const press = bench().button("Sound and vibration");
    expect(await press.getAttribute("aria-pressed")).toBe("false");
    await press.click();
    expect(await press.getAttribute("aria-pressed")).toBe("true");
    const tested = await tones();
    expect(tested).toBeGreaterThan(0);
    await bench().button("Next: Rest 1 of 2").click();
    await page.clock.runFor(1_201_000);
    await expect.poll(tones).toBe(2 * tested);
    await ring("ceiling");
    expect(await tones()).toBeGreaterThan(3 * tested);
    await page.reload();
    await expect.poll(() => press.getAttribute("aria-pressed")).toBe("true");
    await press.click();
    expect(await press.getAttribute("aria-pressed")).toBe("false");
    const silent = await tones();
    await ring("ceiling");
    expect(await tones()).toBe(silent);
  });
});

describe("presses", () => {
  it("are undone one by one, back to before the beginning", async () => {
    await open("bench/");
    await bench().begin();
    await bench().shows.click();
    await bench().skipTo("Cool");
    await bench().button("Undo: “Cool” begins").click();
    await expect.poll(() => bench().asked.innerText()).toContain("spirit");
    await bench().button("Undo: the reading after water").click();
    await bench().button("Undo: “Weigh in” begins").click();
    await bench().stage("Before you begin").waitFor();
    expect((await stored()).planned).toBeUndefined();
    expect((await stored()).log).toBeUndefined();
  });

  it("count once when two tabs press, and both follow", async () => {
    await open("bench/");
    await bench().begin();
    const other = await context.newPage();
    await open("bench/", other);
    await bench(other).stage("Weigh in").waitFor();
    await bench().shows.click();
    await expect.poll(() => bench(other).asked.innerText()).toContain("spirit");
    // Both press before either hears of the other: what is stored decides.
    await other.evaluate(() => {
      window.addEventListener("storage", (event) => event.stopImmediatePropagation(), true);
    });
    await bench().shows.click();
    const stale = (): Promise<string | null> =>
      other.evaluate((key) => localStorage.getItem(key), BATCH_KEY);
    // What one tab stores reaches another's storage a moment later.
    await expect.poll(stale).toContain("spirit");
    await bench(other).shows.click();
    const count = (await log()).filter(
      (entry) => entry.kind === "weighed" && entry.ingredient === "spirit",
    );
    expect(count).toHaveLength(1);
  });

  it("work by keyboard alone", async () => {
    await open("bench/");
    const reach = async (name: string | RegExp): Promise<void> => {
      for (let i = 0; i < 60; i++) {
        const here = page.locator(":focus");
        const text =
          (await here.count()) > 0
            ? await here.evaluate((e) => (e as HTMLElement).innerText || e.id)
            : "";
        if (typeof name === "string" ? text === name : name.test(text)) return;
        await page.keyboard.press("Tab");
      }
      throw new Error(`${String(name)} is not reached`);
    };
    await page.getByLabel(/read the cautions/).focus();
    for (let i = 0; i < 3; i++) {
      await page.keyboard.press("Space");
      await page.keyboard.press("Tab");
    }
    await reach("Begin");
    await page.keyboard.press("Enter");
    await bench().stage("Weigh in").waitFor();
    await reach("bench-reading");
    await page.keyboard.type("320.4");
    await page.keyboard.press("Enter");
    await expect.poll(() => bench().asked.innerText()).toContain("spirit");
    await reach(/^Undo/);
    await page.keyboard.press("Enter");
    await expect.poll(() => bench().asked.innerText()).toContain("water");
  });

  it("are large and far apart", async () => {
    await open("bench/");
    await bench().begin();
    await page.getByText("Skip to another stage").click();
    const boxes = await Promise.all(
      (await page.locator("bench-stage").getByRole("button").all()).map((each) =>
        each.boundingBox(),
      ),
    );
    const seen = boxes.flatMap((box) => box ?? []).sort((a, b) => a.y - b.y);
    expect(seen.length).toBeGreaterThan(8);
    for (const [i, box] of seen.entries()) {
      expect(box.height).toBeGreaterThanOrEqual(64);
      const before = seen[i - 1];
      if (before) expect(box.y - before.y - before.height).toBeGreaterThanOrEqual(12);
    }
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  });
});

describe("amounts and notes", () => {
  it("are noted, and stand at the end", async () => {
    await openAt("2026-11-25T22:30:00Z");
    await bench().begin();
    await page.getByText("Write a note").click();
    await page.getByLabel("Note for the record").fill("foamier than last time");
    // What was not kept yet is seen after a reload, too.
    await page.reload();
    await expect
      .poll(() => page.getByLabel("Note for the record").inputValue())
      .toBe("foamier than last time");
    await page.getByLabel("Note for the record").click();
    await bench().button("Keep the note").click();
    await bench().skipTo("Skim");
    await page.getByLabel("Foam skimmed, by volume").fill("12,5");
    await bench().button("Note these amounts").click();
    await expect
      .poll(() => page.locator('[data-noted="skimmedVolume"]').innerText())
      .toContain("12.5");
    await bench().button("Next: Fill bottles").click();
    await page.getByLabel("Bottles filled").fill("3.5");
    await bench().button("Note these amounts").click();
    await expect
      .poll(() => page.locator("#bench-bottles-error").innerText())
      .toMatch(/whole number/);
    await page.getByLabel("Bottles filled").fill("4");
    await bench().button("Note these amounts").click();
    await bench()
      .button(/^Next: Chill/)
      .click();
    await page.clock.runFor(3_600_000);
    await bench().button("End the evening").click();
    await bench().stage("The evening is done").waitFor();
    const { log: entries = [], made } = await stored();
    expect(made).toBe("2026-11-25");
    expect(entries.filter(({ kind }) => kind === "amount" || kind === "note")).toMatchObject([
      { text: "foamier than last time" },
      { of: "skimmedVolume", value: expect.closeTo(12.5e-6, 12) as number },
      { of: "bottles", value: 4 },
    ]);
    expect(await page.locator("[data-end-time]").innerText()).toMatch(/1.h/);
    await bench().button("Undo: the end").click();
    await bench().stage("Chill in the fridge").waitFor();
    await bench().button("End the evening").click();
    await page.getByRole("link", { name: "To the labels" }).click();
    await expect.poll(() => page.url()).toMatch(/label\/$/);
  });
});

describe("where little works", () => {
  it("goes on with a full storage, and says so", async () => {
    await page.addInitScript(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    });
    await open("bench/");
    await bench().begin();
    await bench().shows.click();
    await expect.poll(() => bench().asked.innerText()).toContain("spirit");
    await expect.poll(() => bench().keeping.innerText()).toMatch(/among the records .* alone/);
    expect(await bench().button("Save the batch as a file").isVisible()).toBe(false);
    await bench().shows.click();
    await expect.poll(() => bench().asked.innerText()).toContain("acid");
  });

  it("goes on without storage, and says so", async () => {
    await forbid(page, "localStorage", "indexedDB");
    await open("bench/");
    await bench().begin();
    await expect.poll(() => bench().keeping.innerText()).toMatch(/refuses to keep/);
    await bench().skipTo("Stint 1 of 3");
    await bench().expectLeft(1200);
    // Any other page would know nothing of it.
    const download = page.waitForEvent("download");
    await bench().button("Save the batch as a file").click();
    const read = readRecord(readFileSync(await (await download).path(), "utf8"));
    expect(read.ok && read.batch.log?.at(-1)).toMatchObject({ kind: "step", step: "stint-1" });
  });

  it("goes on without a network", async () => {
    await page.goto(site);
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await context.setOffline(true);
    await open("bench/");
    await bench().begin();
    await bench().shows.click();
    await expect.poll(() => bench().asked.innerText()).toContain("spirit");
  });

  it("says what it does where no script runs", async () => {
    const still = await browser.newContext({ javaScriptEnabled: false });
    const plain = await still.newPage();
    await plain.goto(`${site}bench/`);
    expect(await plain.locator("main").innerText()).toMatch(/needs scripts/);
    expect(await bench(plain).button("Begin").isVisible()).toBe(false);
    await still.close();
  });
});
