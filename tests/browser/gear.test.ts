import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { GearKind } from "../../lib/batch/gear.ts";
import { context, freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator } from "../helpers/pages.ts";

freshPages();

const shelf = (kind: GearKind, on: Page = page) => {
  const place = on.locator(`gear-shelf[data-kind="${kind}"]`);
  const press = (text: string | RegExp) => place.getByRole("button", { name: text }).click();
  return {
    place,
    press,
    name: place.locator("[data-name]"),
    said: place.locator("[data-said]"),
    uses: place.locator("[data-use]"),
    fault: place.locator("[data-fault]"),
    left: place.locator("[data-left]"),
    kept: place.locator(".kept li > span:first-child"),
    differences: place.locator("[data-differs] li"),
    field: (input: string) => place.locator(`.field[data-field="${input}"] input`),
    keep: async (name: string) => {
      await place.locator("[data-name]").fill(name);
      await press(/^Keep as my/);
    },
  };
};

/** A scale that shows whole grams, kept; the page is left on Gear. */
async function keptScale(name = "Flat"): Promise<ReturnType<typeof shelf>> {
  await open("gear/");
  const scale = shelf("scale");
  await scale.field("readability").fill("1");
  await scale.keep(name);
  await expect.poll(() => scale.kept.allInnerTexts()).toEqual([`${name} (in this batch)`]);
  return scale;
}

async function startOver(): Promise<void> {
  await open("batch/");
  await page.getByRole("button", { name: "Start over" }).click();
}

describe("gear", () => {
  it("stays as built until a shelf is touched, and does then what was pressed", async () => {
    await page.goto(`${site}gear/`);
    await page.waitForLoadState("networkidle");
    expect(await page.locator("html[data-live]").count()).toBe(0);
    const scale = shelf("scale");
    expect(await scale.left.innerText()).toMatch(/^All of these are still the demonstration’s/);
    // A press by script touches nothing before: only the press itself can have been held.
    await scale.place.locator('[data-act="confirm"]').dispatchEvent("click");
    await expect.poll(() => scale.said.innerText()).toBe("They count as yours now.");
    expect(await scale.left.innerText()).toBe("");
  });

  it("shows what is kept although nothing else is known of the reader", async () => {
    const scale = await keptScale();
    await page.evaluate(() => localStorage.clear());
    await page.goto(`${site}gear/`);
    await expect.poll(() => scale.kept.count()).toBe(1);
  });

  it("is entered once, and stands in the chapters of the next batch", async () => {
    const scale = await keptScale();
    const bath = shelf("bath");
    await bath.field("ratedPower").fill("120");
    await bath.field("bathLength").fill("30,5 cm");
    await bath.keep("Deep tank");
    await expect.poll(() => bath.uses.innerText()).toBe("This batch uses “Deep tank”.");
    await startOver();
    const chooser = page.locator("gear-chooser");
    await expect.poll(() => chooser.innerText()).toMatch(/uses none of the gear/);
    expect(await calculator(page, "weighing").field("readability").inputValue()).toBe("0.1");
    await chooser.getByLabel("Scale").selectOption("Flat");
    await chooser.getByLabel("Bath").selectOption("Deep tank");
    await expect.poll(() => chooser.innerText()).toMatch(/uses: scale “Flat”, bath “Deep tank”/);
    expect(await calculator(page, "weighing").field("readability").inputValue()).toBe("1");
    await open("chapters/bath/");
    expect(await calculator(page, "bath-level").field("bathLength").inputValue()).toBe("30.5");
    await open("chapters/sonication/");
    expect(await calculator(page, "bath-heat").field("ratedPower").inputValue()).toBe("120");
    await open("gear/");
    await expect.poll(() => scale.uses.innerText()).toBe("This batch uses “Flat”.");
  });

  it("says what is still the demonstration’s, and takes it for the reader’s own at a press", async () => {
    await open("gear/");
    const scale = shelf("scale");
    await expect.poll(() => scale.left.innerText()).toMatch(/^All of these/);
    expect(await scale.place.locator(".field:has-text('Still the demo')").count()).toBe(4);
    await scale.field("readability").fill("1");
    await expect
      .poll(() => scale.left.innerText())
      .toBe("3 of these are still the demonstration’s.");
    await scale.press("They are right for mine too");
    await expect.poll(() => scale.left.innerText()).toBe("");
    await scale.press("Undo");
    await expect.poll(() => scale.left.innerText()).toMatch(/^3 of these/);
  });

  it("keeps nothing without a name, without a number, or with a text that is none", async () => {
    await open("gear/");
    const scale = shelf("scale");
    await scale.press("Keep as my scale");
    await expect.poll(() => scale.fault.innerText()).toMatch(/Give it a name/);
    await scale.keep("Flat");
    await expect.poll(() => scale.fault.innerText()).toMatch(/still the demonstration’s/);
    await scale.field("readability").fill("one gram");
    await scale.keep("Flat");
    await expect.poll(() => scale.fault.innerText()).toMatch(/could not be read yet/);
    await scale.field("readability").fill("1");
    await scale.keep("Flat");
    await expect.poll(() => scale.kept.count()).toBe(1);
    await scale.keep("Flat");
    await expect.poll(() => scale.fault.innerText()).toMatch(/a scale of that name already/);
  });

  it("tells where the batch differs, and goes either way", async () => {
    const scale = await keptScale();
    await scale.field("readability").fill("0.5");
    await scale.field("linearity").fill("2");
    await expect
      .poll(() => scale.differences.allInnerTexts())
      .toEqual([
        "Readability of the scale: 0.5\u00a0g here, 1\u00a0g in “Flat”",
        "Linearity of the scale: 2\u00a0g here, the demonstration’s in “Flat”",
      ]);
    await scale.press("Take back the numbers of “Flat”");
    await expect.poll(() => scale.uses.innerText()).toBe("This batch uses “Flat”.");
    expect(await scale.field("readability").inputValue()).toBe("1");
    expect(await scale.field("linearity").inputValue()).toBe("0.2");
    await scale.press("Undo");
    await expect.poll(() => scale.field("readability").inputValue()).toBe("0.5");
    await scale.press("Keep the changes in “Flat”");
    await expect.poll(() => scale.uses.innerText()).toBe("This batch uses “Flat”.");
    await scale.press("Undo");
    await expect.poll(() => scale.differences.count()).toBe(2);
    await scale.press("It is not “Flat”");
    await expect.poll(() => scale.uses.innerText()).toBe("");
    expect(await scale.field("readability").inputValue()).toBe("0.5");
  });

  it("brings back what stood in the batch before another was used", async () => {
    const scale = await keptScale();
    await startOver();
    await open("gear/");
    await scale.field("readability").fill("0.2");
    await scale.press("Use in this batch: “Flat”");
    await expect.poll(() => scale.field("readability").inputValue()).toBe("1");
    await page.keyboard.press("Enter");
    await expect.poll(() => scale.field("readability").inputValue()).toBe("0.2");
    expect(await scale.uses.innerText()).toBe("");
  });

  it("is renamed, and the open batch follows", async () => {
    const scale = await keptScale();
    await scale.press("Rename: “Flat”");
    await scale.place.getByLabel("New name of “Flat”").fill("Pocket");
    await page.keyboard.press("Enter");
    await expect.poll(() => scale.uses.innerText()).toBe("This batch uses “Pocket”.");
    await expect.poll(() => scale.kept.allInnerTexts()).toEqual(["Pocket (in this batch)"]);
    await page.reload();
    await expect.poll(() => scale.uses.innerText()).toBe("This batch uses “Pocket”.");
    await scale.press("Rename: “Pocket”");
    await page.keyboard.press("Escape");
    await expect.poll(() => scale.kept.allInnerTexts()).toEqual(["Pocket (in this batch)"]);
  });

  it("is removed, and comes back", async () => {
    const scale = await keptScale();
    await scale.press("Remove: “Flat”");
    await expect.poll(() => scale.kept.count()).toBe(0);
    expect(await scale.uses.innerText()).toMatch(/“Flat”, which is not kept here/);
    expect(await scale.field("readability").inputValue()).toBe("1");
    await page.keyboard.press("Enter");
    await expect.poll(() => scale.kept.allInnerTexts()).toEqual(["Flat (in this batch)"]);
  });

  it("is the same in two tabs", async () => {
    await open("gear/");
    const other = await context.newPage();
    await open("gear/", other);
    const [here, there] = [shelf("scale"), shelf("scale", other)];
    await here.field("readability").fill("1");
    await here.keep("Flat");
    await expect.poll(() => there.kept.allInnerTexts()).toEqual(["Flat (in this batch)"]);
    await expect.poll(() => there.field("readability").inputValue()).toBe("1");
    await there.press("Remove: “Flat”");
    await expect.poll(() => here.kept.count()).toBe(0);
  });

  it("says so where the browser keeps nothing", async () => {
    await page.addInitScript(() =>
      Object.defineProperty(window, "indexedDB", { value: undefined }),
    );
    await open("gear/");
    const scale = shelf("scale");
    await scale.field("readability").fill("1");
    await scale.keep("Flat");
    await expect.poll(() => scale.said.innerText()).toMatch(/refuses to keep gear/);
    expect(await scale.field("readability").inputValue()).toBe("1");
    expect(await scale.name.inputValue()).toBe("Flat");
  });

  it("learns the bath from an evening’s readings, for this batch and the next", async () => {
    await open("gear/");
    const bath = shelf("bath");
    await bath.field("ratedPower").fill("120");
    await bath.keep("Deep tank");
    await expect.poll(() => bath.kept.count()).toBe(1);
    await page.evaluate(readEvening);
    await page.reload();
    await expect
      .poll(() => bath.place.locator("gear-readings").innerText())
      .toMatch(
        /14 March 2026, “Evening”\. From 13 readings in a room of 20\u00a0°C: .* \(standard error .*\)/,
      );
    await bath.press(/^Use the readings of “Evening”/);
    await expect
      .poll(() => bath.place.locator("[data-result]").innerText())
      .toMatch(/“Deep tank” is known from these readings now/);
    await startOver();
    await page.locator("gear-chooser").getByLabel("Bath").selectOption("Deep tank");
    await open("chapters/sonication/");
    const heat = calculator(page, "bath-heat");
    expect(await heat.form.locator('select[name="knownFrom"]').inputValue()).toBe("readings");
    expect(await heat.form.locator("textarea").inputValue()).toMatch(/^0; 17.6; 22.5; on/);
  });
});

/** Puts an evening’s probe readings into the open batch, as the bench notes them. */
function readEvening(): void {
  const key = "bilayer-bench.batch";
  const record = JSON.parse(localStorage.getItem(key) ?? "{}") as {
    batch: { name: string; revision?: number; log?: unknown };
  };
  const at = (minute: number): string =>
    new Date(Date.UTC(2026, 2, 14, 20, minute)).toISOString().replace("Z", "+00:00");
  // Every second reading of the demonstration’s, on its way up.
  const read = [
    [0, 17.6, 22.5],
    [2, 19.4, 22.3],
    [4, 20.7, 22.5],
    [6, 21.7, 22.6],
    [8, 22.3, 22.8],
    [10, 22.8, 23],
    [14, 23.6, 23.6],
    [18, 24.3, 24.2],
    [22, 24.9, 24.7],
    [26, 25.4, 25.2],
    [30, 25.9, 25.6],
    [34, 25.5, 25.4],
    [38, 25.3, 25.2],
  ] as const;
  const log = [
    { kind: "step", at: at(0), step: "stint-1" },
    ...read
      .filter(([minute]) => minute <= 30)
      .map(([minute, liquid, bath]) => ({ kind: "read", at: at(minute), liquid, bath })),
    { kind: "step", at: at(30), step: "rest-1" },
    ...read
      .filter(([minute]) => minute > 30)
      .map(([minute, liquid, bath]) => ({ kind: "read", at: at(minute), liquid, bath })),
  ];
  record.batch = {
    ...record.batch,
    name: "Evening",
    revision: (record.batch.revision ?? 0) + 5,
    log,
  };
  localStorage.setItem(key, JSON.stringify(record));
}
