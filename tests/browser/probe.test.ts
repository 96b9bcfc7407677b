import { AxeBuilder } from "@axe-core/playwright";
import { describe, expect, it } from "vitest";
import { freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { EVENING, evening, type Evening } from "../helpers/evening.ts";
import type { Batch } from "../../lib/batch/record.ts";
import { writeRecord } from "../../lib/batch/record.ts";
import { temperaturesAfter } from "../../lib/laws/two-node-heat.ts";
import type { BatchValues } from "../../lib/calculations/graph.ts";

freshPages({ timezoneId: "Europe/Berlin", viewport: { width: 360, height: 740 } });

const BATCH_KEY = "bilayer-bench.batch";

/** The machine may be busy with other things. */
const until = <T>(look: () => T | Promise<T>) => expect.poll(look, { timeout: 10_000 });

const liquid = () => page.getByLabel(/^Liquid,/);
const bath = () => page.getByLabel(/^Bath,/);
const digits = (of: string) => page.locator(`[data-${of}] .digits`);
const readings = () => page.locator("[data-readings] tbody tr");
const alarm = () => page.locator("[data-alarm]");

/** Opens the bench in the middle of an evening, by a clock that the test moves. */
async function openAt(made: Evening, time: number, values: BatchValues = {}): Promise<void> {
  const record = writeRecord(made.batch(values));
  await page.addInitScript(
    ([key, text]) => {
      if (localStorage.getItem(key) === null) localStorage.setItem(key, text);
      const counted = window as unknown as { alarms: string[] };
      counted.alarms = [];
      addEventListener("bench-alarm", (event) =>
        counted.alarms.push((event as CustomEvent<{ kind: string }>).detail.kind),
      );
    },
    [BATCH_KEY, record] as const,
  );
  await page.clock.install({ time: new Date(EVENING + time * 1000) });
  await open("bench/");
  await liquid().waitFor();
}

async function note(text: string, bathText = ""): Promise<void> {
  await bath().fill(bathText);
  await liquid().fill(text);
  await liquid().press("Enter");
}

async function stored(): Promise<Batch> {
  const text = await page.evaluate((key) => localStorage.getItem(key), BATCH_KEY);
  return (JSON.parse(text ?? "") as { batch: Batch }).batch;
}

async function alarms(): Promise<readonly string[]> {
  return page.evaluate(() => (window as unknown as { alarms: string[] }).alarms);
}

/** Seconds of "1:02:05" or "4:05", once they are there. */
async function seconds(of: string): Promise<number> {
  await until(() => digits(of).innerText()).toMatch(/\d:\d\d$/);
  const text = await digits(of).innerText();
  return text.split(":").reduce((sum, part) => 60 * sum + Number(part), 0);
}

const STINT = evening().step(0, "stint-1");

describe("a reading", () => {
  it("is typed with a comma and Enter, kept with its moment, and the next can follow at once", async () => {
    await openAt(STINT, 300);
    await note("24,5", "23");
    await until(() => readings().count()).toBe(1);
    expect((await stored()).log?.at(-1)).toMatchObject({ kind: "read", liquid: 24.5, bath: 23 });
    expect((await stored()).log?.at(-1)?.at).toMatch(/^2026-03-14T20:05:0.*\+01:00$/);
    await until(() => liquid().inputValue()).toBe("");
    expect(await liquid().evaluate((field) => field === document.activeElement)).toBe(true);
    await liquid().pressSequentially("24.7");
    await liquid().press("Enter");
    await until(() => readings().count()).toBe(2);
    expect(await readings().first().innerText()).toContain("24.7");
  });

  it("keeps the unit that was typed last", async () => {
    await openAt(STINT, 300);
    await note("76,1 °F");
    await until(() => page.getByLabel("Unit of the probe").inputValue()).toBe("°F");
    await note("77");
    await until(() => readings().count()).toBe(2);
    const [first, second] = ((await stored()).log ?? []).slice(-2);
    expect(first).toMatchObject({ liquid: expect.closeTo(24.5, 6) as number });
    expect(second).toMatchObject({ liquid: expect.closeTo(25, 6) as number });
    expect(await readings().first().innerText()).toContain("77\u00a0°F");
    await page.getByLabel("Unit of the probe").selectOption("°C");
    await until(() => readings().first().innerText()).toContain("25\u00a0°C");
  });

  it("that is no number stays in the field, is told, and outlives a reload", async () => {
    await openAt(STINT, 300);
    await note("24,5,1");
    expect(await page.locator('[data-error-for="liquid"]').innerText()).toContain("more than one");
    await note("245");
    expect(await page.locator('[data-error-for="liquid"]').innerText()).toContain("Liquid must be");
    expect(await liquid().inputValue()).toBe("245");
    await page.reload();
    await liquid().waitFor();
    await until(() => liquid().inputValue()).toBe("245");
    expect(await readings().count()).toBe(0);
    await liquid().fill("");
    await bath().fill("23");
    await bath().press("Enter");
    expect(await page.locator('[data-error-for="liquid"]').innerText()).toContain("the bath alone");
  });

  it("is taken back into the fields", async () => {
    await openAt(STINT, 300);
    await note("24,5");
    await note("42,5", "23");
    await page.getByRole("button", { name: "Take back the last reading" }).click();
    await until(() => readings().count()).toBe(1);
    expect(await liquid().inputValue()).toBe("42.5");
    expect(await bath().inputValue()).toBe("23");
  });

  it("outlives a reload, with all that follows from it", async () => {
    await openAt(STINT, 300);
    await note("24,5", "23");
    await until(() => readings().count()).toBe(1);
    const before = await seconds("to-ceiling");
    await page.reload();
    await until(() => readings().count()).toBe(1);
    expect(Math.abs((await seconds("to-ceiling")) - before)).toBeLessThan(15);
  });

  it("keeps what was expected of it once the beaker is out of the bath", async () => {
    await openAt(STINT.read(60, 20, 20).read(290, 21, 21).step(600, "lift-out-1"), 700);
    await until(() => readings().count()).toBe(2);
    expect(await readings().first().innerText()).toMatch(/ to .*°C/);
  });

  it("is said to be old after ten minutes", async () => {
    await openAt(STINT.read(290, 24), 300);
    await until(() => page.locator("[data-age]").innerText()).toBe("");
    await page.clock.fastForward(595_000);
    await until(() => page.locator("[data-age]").innerText()).toContain("Read again");
  });
});

describe("a press before a stored batch is alive", () => {
  it("is made once it is", async () => {
    const record = writeRecord({ ...evening().batch(), log: [], name: "Mine" });
    await page.addInitScript(([key, text]) => localStorage.setItem(key, text), [
      BATCH_KEY,
      record,
    ] as const);
    let release = (): void => undefined;
    const released = new Promise<void>((resolve) => (release = resolve));
    await page.route(/probe-element/, async (route) => {
      await released;
      await route.continue();
    });
    await page.goto(`${site}bench/`);
    await page.getByRole("button", { name: "Begin", exact: true }).click();
    const told = page.locator("[data-check-error]");
    expect(await told.textContent()).toBe("");
    release();
    await until(() => told.textContent()).toContain("Tick each line first");
  });
});

describe("the prediction", () => {
  it("draws its band and the readings on it", async () => {
    await openAt(STINT.read(60, 22.5).read(120, 23), 180);
    const svg = page.locator("[data-drawing] svg");
    await svg.waitFor();
    // Two readings and the present moment; the band from the start and the one from the last reading.
    await until(() => svg.locator("circle").count()).toBe(3);
    expect(
      await svg.locator('path[fill="var(--accent)"], [fill="var(--accent)"] path').count(),
    ).toBe(2);
    await note("23,4");
    await until(() => svg.locator("circle").count()).toBe(4);
  });

  it("moves the time to the ceiling with each reading, and counts it down", async () => {
    await openAt(STINT, 300);
    await until(() => digits("to-ceiling").innerText()).toMatch(/\d:\d\d$/);
    const planned = await seconds("to-ceiling");
    await note("28", "28");
    await until(() => seconds("to-ceiling")).toBeLessThan(planned - 60);
    const read = await seconds("to-ceiling");
    await page.clock.runFor(30_000);
    await until(() => seconds("to-ceiling")).toBeLessThan(read - 25);
    expect(await digits("switch-off").innerText()).toMatch(/^\d\d:\d\d$/);
  });

  it("tells a reading that was not expected, and lists it among what went otherwise", async () => {
    await openAt(STINT.read(60, 22.5), 180);
    await note("29");
    await until(() => page.locator("[data-remarks]").textContent()).toContain(
      "above what was expected",
    );
    await page.getByText("Otherwise than planned so far").click();
    await until(() => page.locator("[data-deviations] li").allInnerTexts()).toContainEqual(
      expect.stringContaining("not as expected"),
    );
    expect(await readings().first().innerText()).toContain("outside");
  });

  it("waits for the first stint", async () => {
    await openAt(evening().step(0, "blend-1"), 30);
    await until(() => page.locator("bench-probe [data-state]").innerText()).toContain(
      "begins with the first stint",
    );
    await note("25");
    await until(() => readings().count()).toBe(1);
    expect(await page.locator("[data-numbers]").isVisible()).toBe(false);
  });
});

describe("the ceiling", () => {
  it("is called once a crossing, by a reading and by the clock", async () => {
    await openAt(STINT, 300);
    await note("24", "24");
    await until(() => readings().count()).toBe(1);
    expect(await alarms()).toEqual([]);
    expect(await alarm().innerText()).toBe("");
    await note("32,1", "31");
    await until(() => alarms()).toEqual(["ceiling"]);
    expect(await alarm().innerText()).toContain("Switch the bath off now");
    await page.clock.runFor(5000);
    await note("32,3", "31");
    await until(() => readings().count()).toBe(3);
    await page.clock.runFor(5000);
    expect(await alarms()).toEqual(["ceiling"]);
    await note("24", "22");
    await until(() => alarm().innerText()).toBe("");
    await note("32,5", "31");
    await until(() => alarms()).toEqual(["ceiling", "ceiling"]);
  });

  it("is said by how much it is passed, with no countdown to it, and an old reading asks for a new one", async () => {
    await openAt(STINT.read(290, 28, 28), 300);
    await note("45", "50");
    await until(() => alarm().innerText()).toContain("13\u00a0K above your ceiling");
    expect(await page.locator("[data-to-ceiling]").isVisible()).toBe(false);
    await page.clock.fastForward(601_000);
    await until(() => alarm().innerText()).toContain("By your last reading, 10\u00a0min old");
    expect(await alarms()).toEqual(["ceiling"]);
    await note("24", "22");
    await until(() => page.locator("[data-to-ceiling]").isVisible()).toBe(true);
    expect(await alarm().innerText()).toBe("");
  });

  it("is called a minute before its earliest time", async () => {
    await openAt(STINT.read(290, 28, 28), 300);
    const left = await seconds("to-ceiling");
    expect(left).toBeGreaterThan(90);
    expect(await alarms()).toEqual([]);
    await page.clock.runFor((left - 70) * 1000);
    await until(() => alarms()).toEqual([]);
    await page.clock.runFor(20_000);
    await until(() => alarms()).toEqual(["near-ceiling"]);
    await page.clock.runFor(20_000);
    expect(await alarms()).toEqual(["near-ceiling"]);
    expect(await alarm().innerText()).toContain("within a minute");
  });
});

describe("tonight's readings", () => {
  it("become the bath's own numbers at one press", async () => {
    const nodes = {
      liquidHeatCapacity: 2200,
      bathHeatCapacity: 10_500,
      exchangeConductance: 8,
      liquidLossConductance: 0.3,
      bathLossConductance: 2,
      roomTemperature: 20,
    };
    const made = Array.from({ length: 12 }, (_, i) => 100 * (i + 1)).reduce((so, time) => {
      const at = temperaturesAfter(nodes, { liquid: 12, bath: 60 }, { liquid: 22, bath: 24 }, time);
      return so.read(time, Math.round(10 * at.liquid) / 10, Math.round(10 * at.bath) / 10);
    }, STINT);
    await openAt(made, 1230);
    await page.getByRole("button", { name: "Use tonight’s readings" }).click();
    await until(async () => (await stored()).values["knownFrom"]).toBe("readings");
    expect((await stored()).values["heatReadings"]).toHaveLength(12);
    await until(() => page.getByRole("button", { name: "Use tonight’s readings" }).count()).toBe(0);
  });
});

describe("with assistive technology", () => {
  it("has no fault that axe finds, and does not scroll sideways", async () => {
    await openAt(STINT.read(60, 22.5).read(120, 32), 180);
    await page.locator("[data-drawing] svg").waitFor();
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([]);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
    );
    expect(wide).toBe(false);
  });
});
