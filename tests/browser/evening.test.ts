import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { writeRecord, EMPTY_BATCH, type Batch } from "../../lib/batch/record.ts";
import { temperaturesAfter, type NodeTemperatures } from "../../lib/laws/two-node-heat.ts";
import { evening } from "../helpers/evening.ts";
import { benchOn, storedOn } from "../helpers/bench-page.ts";
import { browser, context, freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator, live, watchedPage } from "../helpers/pages.ts";
import { openRecords, touchRecords } from "../helpers/records-page.ts";
import { BATCH_KEY } from "../../components/batch/keys.ts";

freshPages({
  timezoneId: "Europe/Berlin",
  viewport: { width: 360, height: 740 },
  acceptDownloads: true,
});

/** The machine may be busy with other things. */
const until = <T>(look: () => T | Promise<T>) => expect.poll(look, { timeout: 10_000 });
/** What a place says, a number and its unit parted by a plain space. */
const plain = (text: string): string => text.replaceAll("\u00a0", " ");
const said = async (on: Page): Promise<string> => plain(await on.locator("main").innerText());

const PLAN = {
  batchVolume: 0.6e-3,
  spiritStrength: 0.375,
  alcoholStrength: 0.1,
  readability: 1e-4,
  ratedPower: 80,
};
const GEAR = { scale: "Kitchen scale", bath: "Little bath" };

/** The reader's bath: its capacities are as the notebook reckons them, its conductances and watts it is not told. */
const NODES = {
  liquidHeatCapacity: 2623,
  bathHeatCapacity: 9572,
  exchangeConductance: 9,
  liquidLossConductance: 0.3,
  bathLossConductance: 2,
  roomTemperature: 20,
};
const ON = { liquid: 14, bath: 60 };
const OFF = { liquid: 0, bath: 0 };
/** °C, the notebook's own default */
const CEILING = 32;
/** g/mL at 20 °C. OIML R 22 (1975). seen */
const ALCOHOL_DENSITY = 0.78924;
/** In a spirit of 37.5 % vol, of 0.9519 g/mL. computed */
const ALCOHOL_BY_MASS = (0.375 * ALCOHOL_DENSITY) / 0.9519;
/** g in the plan, by hand: of 600 mL a tenth is alcohol. */
const SPIRIT = (60 * ALCOHOL_DENSITY) / ALCOHOL_BY_MASS;

describe("before the first evening", () => {
  it("takes gear once, a batch of one's own, and mends at one press what cannot be made", async () => {
    await open("gear/");
    for (const [kind, field, text, name] of [
      ["scale", "readability", "0,1", GEAR.scale],
      ["bath", "ratedPower", "80", GEAR.bath],
    ] as const) {
      const shelf = page.locator(`gear-shelf[data-kind="${kind}"]`);
      await shelf.locator(`.field[data-field="${field}"] input`).fill(text);
      await shelf.locator("[data-name]").fill(name);
      await shelf.getByRole("button", { name: /^Keep as my/ }).click();
      await until(() => shelf.innerText()).toContain(`This batch uses “${name}”.`);
    }
    await page.getByRole("link", { name: "On to the batch" }).click();
    await page.waitForURL(/batch\/$/);
    await open("batch/");
    await page.getByLabel("Name of this batch").fill("October");
    const { field } = calculator(page, "recipe");
    await field("batchVolume").fill("600");
    await field("spiritStrength").fill("37,5");
    await field("alcoholStrength").fill("36");
    await open("plan/");
    const plan = page.locator("plan-obstacles");
    const remedy = plan.getByRole("button", { name: /^Ask for .* instead of 36.%.vol$/ });
    await remedy.click({ timeout: 20_000 });
    await until(() => plan.locator("[data-nothing]").isVisible()).toBe(true);
    // No more than the strongest that this spirit can make it.
    await until(async () => (await storedOn(page)).values["alcoholStrength"]).toBeLessThan(0.34);
    await open("batch/");
    await field("alcoholStrength").fill("10");
    await open("plan/");
    await until(() => plan.locator("[data-nothing]").isVisible()).toBe(true);
    await until(() => page.locator("[data-total]").innerText()).toMatch(/^About 2.h/);
    expect(await storedOn(page)).toMatchObject({ name: "October", values: PLAN, gear: GEAR });
  });
});

describe("an evening", () => {
  it("is carried to its record through reload, lost network, full storage, a killed tab, midnight and the end of summer time", async () => {
    await page.goto(site);
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.evaluate(([key, text]) => localStorage.setItem(key, text), [
      BATCH_KEY,
      writeRecord({ ...EMPTY_BATCH, id: "october-01", name: "October", values: PLAN, gear: GEAR }),
    ] as const);
    const { clock } = context;
    await clock.install({ time: new Date("2026-10-24T21:50:00Z") }); // ten to midnight
    await open("bench/");
    let bench = benchOn(page);
    await bench.begin();

    // More water than asked for: the rest grows with it. More spirit: the plan is kept all the same.
    const water = Number.parseFloat(await bench.target.innerText()) + 10;
    await bench.weigh(`${water.toFixed(1).replace(".", ",")} g`);
    await until(() => bench.asked.innerText()).toContain("spirit");
    const grown = Number.parseFloat(await bench.target.innerText());
    expect(grown - water).toBeCloseTo((SPIRIT * water) / (water - 10), 0);
    const spirit = grown - water + 8;
    await bench.weigh((water + spirit).toFixed(1));
    await bench.button(/^Keep the plan as it was/).click();
    for (const ingredient of ["acid", "lecithin"]) {
      await until(() => bench.asked.innerText()).toContain(ingredient);
      await bench.button(/^It shows \d/).click();
    }
    await until(() => bench.composition.innerText()).toMatch(/%.vol/);

    // A long stir, past midnight; a reload in the middle of a word.
    await bench.next("Dissolve and stir");
    await clock.fastForward("02:40:00");
    await page.getByText("Write a note").click();
    await page.getByLabel("Note for the record").fill("slow to wet thr");
    await page.reload();
    await bench.stage("Dissolve and stir").waitFor();
    const text = page.getByLabel("Note for the record");
    await until(() => text.inputValue()).toBe("slow to wet thr");
    await text.fill("slow to wet through");
    await bench.button("Keep the note").click();
    await bench.next("Cool");

    // From here on there is no network.
    await context.setOffline(true);
    await page.reload();
    await bench.stage("Cool").waitFor();
    await clock.fastForward(180_000);
    await bench.next("Blend");
    await clock.fastForward(90_000);
    await bench.next("Set up the bath");
    await clock.fastForward(480_000);

    // A stint over the hour that comes twice, and the tab killed in it.
    await bench.next("Stint 1 of 3");
    const heat = new Heat();
    await bench.read(...heat.shown());
    for (let i = 0; i < 3; i++) {
      await clock.fastForward(240_000);
      await bench.read(...heat.run(240, ON));
    }
    await kill(page);
    await clock.fastForward(360_000);
    const { page: second, faults } = await watchedPage(context);
    await second.addInitScript(countAlarms);
    await open("bench/", second);
    bench = benchOn(second);
    await bench.stage("Stint 1 of 3").waitFor();
    await bench.expectLeft(1200 - 720 - 360);
    expect(await second.locator("[data-time-after]").innerText()).toMatch(/^until 02:0\d$/);
    await until(() => bench.readings.count()).toBe(4);
    await clock.fastForward(120_000);
    await bench.read(...heat.run(480, ON));

    // The quick storage refuses for a while, and takes all of it once there is room.
    await bench.next("Rest 1 of 2");
    await second.evaluate(refuseStorage);
    await clock.fastForward(600_000);
    await bench.read(...heat.run(600, OFF));
    await until(() => bench.keeping.innerText()).toMatch(/kept among the records/);
    await clock.fastForward(600_000);
    await bench.read(...heat.run(600, OFF));
    await second.evaluate(takeStorageBack);
    await bench.next("Stint 2 of 3");
    await until(() => bench.keeping.isVisible()).toBe(false);
    await second.reload();
    await bench.stage("Stint 2 of 3").waitFor();
    await until(() => bench.readings.count()).toBe(7);

    // At the ceiling, which is said once.
    while (heat.liquid < CEILING) {
      await clock.fastForward(180_000);
      await bench.read(...heat.run(180, ON));
    }
    await until(() => bench.alarm.innerText()).toMatch(
      /above your ceiling.*Switch the bath off now/,
    );
    expect((await alarms(second)).filter((kind) => kind === "ceiling")).toHaveLength(1);
    const readings = await bench.readings.count();
    await bench.skipTo("Lift out");
    await bench.next("Let bubbles rise");
    await clock.fastForward(60_000);
    await bench.next("Skim");
    await second.getByLabel("Foam skimmed, by volume").fill("12,5");
    await bench.button("Note these amounts").click();
    await bench.next("Fill bottles");
    await second.getByLabel("Bottles filled").fill("5");
    await second.getByLabel("In a last bottle that is not full").fill("40");
    await bench.button("Note these amounts").click();
    await bench.next("Chill in the fridge");
    await bench.button("End the evening").click();

    // The label: the day it began, and what went in and was filled.
    await second.getByRole("link", { name: "To the labels" }).click();
    await live(second);
    const labels = second.locator("batch-label");
    await until(() => labels.innerText()).toMatch(/Made 24.Oct.2026/);
    const printed = await said(second);
    expect(printed).toMatch(/6 labels/);
    expect(printed).toMatch(/40 mL, part-filled/);
    const [, strength] = /Contains alcohol, ([\d.]+) % vol/.exec(printed) ?? [];

    // The record: planned, weighed, read, skimmed and bottled, what went otherwise, and the notes.
    await second.goto(`${site}records/`);
    await second.getByRole("link", { name: "October" }).click();
    await second.getByText(/^The whole log/).click();
    const record = await said(second);
    const [, volume] = /Finished batch\s+600 mL\s+(\d+) ±/.exec(record) ?? [];
    // Of what is in the spirit, in the volume that all of it fills.
    const alcohol = (spirit * ALCOHOL_BY_MASS) / ALCOHOL_DENSITY;
    expect(Number(strength)).toBeCloseTo((100 * alcohol) / Number(volume), 1);
    for (const line of [
      /Water\s+367\.5 ± 0\.4 g\s+377\.5 ± 0\.4 g/,
      /Spirit: 164\.5 g went in, 8 % more than the 152\.3 g planned/,
      /Dissolve and stir: 160 min, where 15 min was planned/,
      /Stint 1 of 3\s+20 min/,
      /Rest 1 of 2\s+20 min/,
      /Stint 3 of 3: left out/,
      /Foam skimmed off\s+12\.5/,
      /Bottles filled\s+5/,
      /In the last bottle, not full\s+40/,
      /Scale\s+Kitchen scale/,
      /Made on\s+2026-10-24/,
      /02:30 slow to wet through/,
      /02:54 liquid .* °C, bath .* °C\n02:02 liquid/,
    ])
      expect(record).toMatch(line);
    expect(record.match(/\d\d:\d\d liquid /g)).toHaveLength(readings);
    expect(record).not.toMatch(/Chill in the fridge: /);
    await open("gear/", second);
    const evenings = second.locator("gear-readings");
    await until(() => evenings.innerText()).toMatch(
      new RegExp(`“October”\\. From ${readings} readings`),
    );
    expect(faults).toEqual([]);
  }, 120_000);
});

describe("a month later", () => {
  it("starts from the bath that was read, stands beside the first batch, and goes whole into another browser", async () => {
    await context.clock.install({ time: new Date("2026-11-25T18:00:00Z") });
    await importAll(page, {
      format: "bilayer-bench-records",
      version: 1,
      batches: [october()],
      gear: [SCALE, BATH],
    });
    await page.getByRole("button", { name: "Open October" }).click();
    await open("gear/");
    const bath = page.locator('gear-shelf[data-kind="bath"]');
    await bath.getByRole("button", { name: /^Use the readings of “October”/ }).click();
    await until(() => bath.innerText()).toMatch(/in this batch and the next/);
    // It is the bath that the readings came from.
    const learned = await bath.locator("gear-readings").innerText();
    const watts = (of: string): number =>
      Number(new RegExp(`power to the ${of} ([\\d.]+)`).exec(learned)?.[1]);
    expect(Math.abs(watts("liquid") / ON.liquid - 1)).toBeLessThan(0.05);
    expect(Math.abs(watts("bath") / ON.bath - 1)).toBeLessThan(0.05);

    await openRecords(page, site);
    await page.getByRole("link", { name: "October" }).click();
    await page.getByText("Again at another size").click();
    await page.getByLabel("Finished batch, mL").fill("400");
    await page.getByRole("button", { name: "Plan it" }).click();
    await page.waitForURL(/plan\/$/);
    await live(page);
    // That bath warms more than its plate says: the stints of October would pass the ceiling now.
    const plan = page.locator("plan-obstacles");
    const shorter = plan.getByRole("button", { name: /^Stints of \d+ min instead of 20 min$/ });
    await shorter.click({ timeout: 20_000 });
    await until(() => plan.locator("[data-nothing]").isVisible()).toBe(true);
    const { values, repeats, gear, log } = await storedOn(page);
    expect({ repeats, gear, log }).toEqual({ repeats: "october-01", gear: GEAR, log: undefined });
    expect(values).toMatchObject({
      knownFrom: "readings",
      batchVolume: expect.closeTo(0.4e-3, 9) as number,
    });
    expect(values["heatReadings"]).toHaveLength(31);

    await open("batch/");
    await page.getByLabel("Name of this batch").fill("November");
    await open("bench/");
    const bench = benchOn(page);
    await bench.begin();
    for (const ingredient of ["water", "spirit", "acid", "lecithin"]) {
      await until(() => bench.asked.innerText()).toContain(ingredient);
      await bench.button(/^It shows \d/).click();
    }
    await bench.next("Dissolve and stir");
    await bench.skipTo("Chill in the fridge");
    await bench.button("End the evening").click();
    await page.getByRole("link", { name: "To the records" }).click();
    for (const name of ["October", "November"]) await page.getByLabel(`Compare ${name}`).check();
    await page.getByRole("button", { name: "Compare the two" }).click();
    const apart = page.getByRole("region", { name: "What differs" });
    await until(() => apart.innerText()).toMatch(/Finished batch/);
    expect(plain(await apart.innerText())).toMatch(
      /Finished batch\s+(600 mL\s+400|400 mL\s+600) mL/,
    );

    await openRecords(page, site);
    const mine = await exportAll(page);
    expect(mine.batches).toHaveLength(2);
    const elsewhere = await browser.newContext({ acceptDownloads: true });
    const { page: theirs, faults } = await watchedPage(elsewhere);
    await importAll(theirs, mine);
    expect(await exportAll(theirs)).toEqual(mine);
    expect(faults).toEqual([]);
    await elsewhere.close();
  }, 90_000);
});

const SCALE = {
  id: "scale-0001",
  kind: "scale",
  name: GEAR.scale,
  values: { readability: PLAN.readability },
  units: {},
};
const BATH = {
  id: "bath-00001",
  kind: "bath",
  name: GEAR.bath,
  values: { ratedPower: PLAN.ratedPower },
  units: {},
};

/** The first batch, with its probe read every two minutes of two stints and the rest between them. */
function october(): Batch {
  const heat = new Heat();
  let made = evening()
    .step(0, "weigh")
    .step(600, "stint-1")
    .read(600, ...heat.tenths());
  for (let i = 1; i <= 30; i++) {
    const before = 120 * (i - 1);
    if (before === 1200) made = made.step(600 + before, "rest-1");
    if (before === 2400) made = made.step(600 + before, "stint-2");
    heat.run(120, before >= 1200 && before < 2400 ? OFF : ON);
    made = made.read(600 + 120 * i, ...heat.tenths());
  }
  const log = made.step(4300, "chill").end(4400);
  return { ...log.batch(PLAN), id: "october-01", revision: 40, name: "October", gear: GEAR };
}

async function importAll(on: Page, all: object): Promise<void> {
  await touchRecords(on, site);
  await on.locator("batch-records [data-import]").setInputFiles({
    name: "all.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(all)),
  });
  await until(() => on.locator("batch-records [data-said]").innerText()).toMatch(/added/);
}

async function exportAll(on: Page): Promise<{ readonly batches: readonly unknown[] }> {
  const download = on.waitForEvent("download");
  await on.getByRole("button", { name: "Save all as a file" }).click();
  return JSON.parse(readFileSync((await (await download).path()) ?? "", "utf8")) as never;
}

/** The reader's bath, which goes on by its own law. */
class Heat {
  #at: NodeTemperatures = { liquid: 22, bath: 22 };

  /** What the probe shows after so many seconds more. */
  run(time: number, powers: typeof ON): readonly [string, string] {
    this.#at = temperaturesAfter(NODES, powers, this.#at, time);
    return this.shown();
  }

  get liquid(): number {
    return this.#at.liquid;
  }

  tenths(): readonly [liquid: number, bath: number] {
    const { liquid, bath } = this.#at;
    return [Math.round(10 * liquid) / 10, Math.round(10 * bath) / 10];
  }

  /** With a decimal comma. */
  shown(): readonly [string, string] {
    return this.tenths().map((at) => at.toFixed(1).replace(".", ",")) as [string, string];
  }
}

/** Ends a page as the device does when its memory is short: it is told nothing. */
async function kill(on: Page): Promise<void> {
  const session = await context.newCDPSession(on);
  const crashed = on.waitForEvent("crash");
  void session.send("Page.crash").catch(() => undefined);
  await crashed;
  await on.close();
}

/** Counts what the probe calls out for. */
function countAlarms(): void {
  const counted = window as unknown as { alarms: string[] };
  counted.alarms = [];
  addEventListener("bench-alarm", (event) =>
    counted.alarms.push((event as CustomEvent<{ kind: string }>).detail.kind),
  );
}
function alarms(on: Page): Promise<readonly string[]> {
  return on.evaluate(() => (window as unknown as { alarms: string[] }).alarms);
}

function refuseStorage(): void {
  const kept = window as unknown as { setItem: Storage["setItem"] };
  kept.setItem = Storage.prototype.setItem;
  Storage.prototype.setItem = () => {
    throw new DOMException("full", "QuotaExceededError");
  };
}
function takeStorageBack(): void {
  Storage.prototype.setItem = (window as unknown as { setItem: Storage["setItem"] }).setItem;
}
