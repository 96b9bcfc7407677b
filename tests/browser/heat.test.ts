import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator, live } from "../helpers/pages.ts";

freshPages();

/** An evening's log as a spreadsheet would paste it: a heading, tabs, decimal commas, times of day. */
const LOG = [
  "time\tliquid\tbath\trunning",
  "23:50\t17,9\t22,4\ton",
  "23:52\t19,6\t22,6\ton",
  "23:55\t21,1\t22,9\ton",
  "0:00\t22,8\t23,5\ton",
  "0:05\t23,8\t24,2\ton",
  "0:10\t24,7\t24,8\ton",
  "0:15\t25,4\t25,4\toff",
  "0:25\t25,1\t24,9\toff",
  "0:35\t24,7\t24,6\toff",
].join("\n");

/** The same kind of log in minutes since the start, as the field itself would write it. */
const MINUTES = [
  "0; 17.9; 22.4; on",
  "2; 19.6; 22.6; on",
  "5; 21.1; 22.9; on",
  "10; 22.8; 23.5; on",
  "15; 23.8; 24.2; on",
  "20; 24.7; 24.8; off",
  "30; 24.5; 24.4; off",
].join("\n");

describe("readings pasted by a reader", () => {
  const readings = (): ReturnType<Page["locator"]> => page.locator("#heat-fit-readings");

  it("become the bath's own numbers, and narrow the programme once they are chosen", async () => {
    await open("chapters/sonication/");
    const { output } = calculator(page, "heat-fit");
    const before = await output("powerToLiquid").innerText();
    await readings().fill(LOG);
    await expect.poll(() => output("powerToLiquid").innerText()).not.toBe(before);
    expect(await page.locator("#heat-fit-readings-error").innerText()).toBe("");
    expect(await output("degreesOfFreedom").innerText()).toBe("13");
    const band = page.locator(
      'form[data-calculation="sonication"] [data-band="endLiquidTemperature"]',
    );
    const width = async (): Promise<number> =>
      Number(((await band.textContent()) ?? "").replace(/[^\d.]/g, ""));
    const guessed = await width();
    await page.locator("#bath-heat-knownFrom").selectOption("readings");
    await expect.poll(width).toBeLessThan(guessed / 1.5);
    await page.goto(`${site}sheet/`);
    await live(page);
    await page.waitForSelector("html[data-live]", { state: "attached" });
    expect(await page.locator("[data-sheet-demo]").isHidden()).toBe(true);
  });

  it("name the line at fault, keep what was typed over a reload, and go on with the last that worked", async () => {
    await open("chapters/sonication/");
    const { output, stale } = calculator(page, "heat-fit");
    await readings().fill(LOG);
    const worked = await output("powerToLiquid").innerText();
    const broken = LOG.replace("21,1", "warm");
    await readings().fill(broken);
    const error = page.locator("#heat-fit-readings-error");
    expect(await error.innerText()).toMatch(/Line 4: the liquid: “warm” is not a number/);
    expect(await readings().getAttribute("aria-invalid")).toBe("true");
    expect(await stale.isVisible()).toBe(true);
    expect(await output("powerToLiquid").innerText()).toBe(worked);
    await page.reload();
    await live(page);
    await expect.poll(() => readings().inputValue()).toBe(broken);
    // Out of sight nothing is laid out, so its text is asked for, not its looks.
    expect(await error.textContent()).toMatch(/Line 4/);
  });

  it("can be read in another unit of the column", async () => {
    await open("chapters/sonication/");
    const { output } = calculator(page, "heat-fit");
    await readings().fill(MINUTES);
    const worked = await output("powerToBath").innerText();
    await page
      .locator('[data-field="readings"] [data-column-unit="time"]')
      .last()
      .selectOption("s");
    await expect.poll(() => readings().inputValue()).toMatch(/^0; 17\.9; 22\.4; on\n120; 19\.6/);
    expect(await output("powerToBath").innerText()).toBe(worked);
  });
});

describe("the programme of stints", () => {
  const ring = (input: string): ReturnType<Page["locator"]> =>
    page.locator(`live-figure[data-figure="programme"] [data-drag="${input}"]`);

  async function drag(input: string, by: number): Promise<void> {
    await ring(input).scrollIntoViewIfNeeded();
    const box = await ring(input).boundingBox();
    if (!box) throw new Error("no ring");
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + by, y, { steps: 4 });
    await page.mouse.up();
  }

  /** The programme as its first change has drawn it anew, at the width it has here. */
  async function openDrawn() {
    await open("chapters/sonication/");
    const { field } = calculator(page, "sonication");
    await field("ceiling").fill("33");
    const drawing = page.locator('live-figure[data-figure="programme"]');
    await drawing.scrollIntoViewIfNeeded();
    const frame = drawing.locator("svg:not([data-built])");
    await frame.waitFor();
    return { field, drawing, frame };
  }

  it("follows the ends of stint and rest that are dragged in the figure", async () => {
    const { field } = await openDrawn();
    await drag("stintTime", -40);
    const stint = Number(await field("stintTime").inputValue());
    expect(stint).toBeLessThan(20);
    expect(Number.isInteger(stint)).toBe(true);
    await drag("restTime", 50);
    expect(Number(await field("restTime").inputValue())).toBeGreaterThan(20);
    expect(Number(await field("stintTime").inputValue())).toBe(stint);
  });

  it("is drawn anew inside its frame, with its numbers where they are unfolded", async () => {
    const { field, drawing, frame } = await openDrawn();
    await frame.evaluate((svg) => svg.setAttribute("data-seen", ""));
    const drawn = (): Promise<string> => frame.evaluate((svg) => svg.innerHTML);
    const before = await drawn();
    await field("liquidTemperature").fill("15");
    await expect.poll(drawn).not.toBe(before);
    await drawing.locator("summary").click();
    const first = (): Promise<string> => drawing.locator("tbody tr").first().innerText();
    await expect.poll(first).toMatch(/^0\s+15\b/);
    await field("liquidTemperature").fill("16.5");
    await expect.poll(first).toMatch(/^0\s+16\.5\b/);
    expect(await frame.getAttribute("data-seen")).toBe("");
  });

  it("takes the longest stints under the ceiling at one press, and says what it set", async () => {
    await open("chapters/sonication/");
    const { field, form, output } = calculator(page, "sonication");
    await field("ceiling").fill("26");
    await form.getByRole("button", { name: "Longest stints under my ceiling" }).click();
    await expect.poll(() => output("peakLiquidTemperature").innerText()).toMatch(/^2[56]/);
    expect(Number(await field("stintTime").inputValue())).toBeLessThan(20);
    expect(await form.locator("[data-offered]").innerText()).toBe("Set: one stint.");
  });

  it("lists every stage, as many as there are stints", async () => {
    await open("chapters/sonication/");
    const { field } = calculator(page, "sonication");
    await field("stints").fill("2");
    const rows = page.locator("live-table").first().locator("tbody tr");
    await expect.poll(() => rows.count()).toBe(4);
    await field("stints").fill("2.5");
    expect(await calculator(page, "sonication").error("stints").innerText()).toMatch(
      /a whole number from 1 to 20/,
    );
  });
});

describe("the stages after weighing", () => {
  it("stand on the Batch page, folded, and are painted when they are opened", async () => {
    await open("batch/");
    const stage = page.locator("#stage-sonication");
    const { output } = calculator(page, "sonication");
    await calculator(page, "recipe").field("batchVolume").fill("900");
    await calculator(page, "recipe").field("beakerVolume").fill("2000");
    await stage.locator("summary").first().click();
    const small = await output("endLiquidTemperature").innerText();
    await calculator(page, "recipe").field("batchVolume").fill("300");
    await expect.poll(() => output("endLiquidTemperature").innerText()).not.toBe(small);
  });

  it("show on Batch and Sheet what is not safe in them", async () => {
    await open("batch/");
    await page.locator("#stage-sonication summary").first().click();
    await calculator(page, "sonication").field("bathTemperature").fill("45");
    const list = page.locator("batch-problems [data-sentences]");
    await expect.poll(() => list.innerText()).toMatch(/Stints in the bath: The liquid (goes|may)/);
    await page.goto(`${site}sheet/`);
    await expect
      .poll(() => page.locator("[data-sheet-cautions]").innerText())
      .toMatch(/Stints in the bath: The liquid (goes|may)/);
  });
});

describe("a figure that nobody has looked at", () => {
  it("is printed with the reader’s numbers, and not before it has them", async () => {
    let arrive = (): void => undefined;
    const asked = page.waitForRequest(/\/draw\.[^/]*\.js$/);
    const wait = new Promise<void>((resolve) => (arrive = resolve));
    await page.route(/\/draw\.[^/]*\.js$/, async (route) => {
      await wait;
      await route.continue();
    });
    // So low that no figure stands in it beside the field.
    await page.setViewportSize({ width: 1280, height: 160 });
    await open("chapters/sonication/");
    const built = page.locator("live-figure svg[data-built]");
    const all = await built.count();
    await calculator(page, "bath-heat").field("ratedPower").fill("60");
    await asked;
    await page.emulateMedia({ media: "print" });
    const late = page.locator("live-figure[data-stale]");
    await expect.poll(() => late.count()).toBeGreaterThan(0);
    expect(await late.first().isVisible()).toBe(false);
    arrive();
    await page.waitForResponse(/\/draw\.[^/]*\.js$/);
    await expect
      .poll(async () => {
        await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
        return late.count();
      })
      .toBe(0);
    expect(await built.count()).toBeLessThan(all);
  });
});
