import type { Page } from "playwright-core";
import { expect } from "vitest";
import { BATCH_KEY } from "../../components/batch/keys.ts";
import { EMPTY_BATCH, readRecord, type Batch } from "../../lib/batch/record.ts";

/** The bench as a reader's hands and eyes have it. */
export function benchOn(page: Page) {
  const button = (name: string | RegExp) => page.getByRole("button", { name });
  const stage = (name: string | RegExp) => page.getByRole("heading", { name });

  /** s on the timer: below zero once the time is up */
  async function left(): Promise<number> {
    const timer = page.getByRole("timer", { name: /^(Time left|Over by)$/ });
    const text = await timer.innerText();
    const whole = text
      .replace("+", "")
      .split(":")
      .reduce((sum, part) => 60 * sum + Number(part), 0);
    return text.startsWith("+") ? -whole : whole;
  }

  return {
    button,
    stage,
    /** the large button: the scale shows what was asked for */
    shows: button(/^It shows \d/),
    target: page.locator("[data-target-number]"),
    asked: page.locator("[data-target-before]"),
    composition: page.locator("section:not([hidden]) > [data-composition]"),
    keeping: page.locator("bench-stage [data-keeping]"),
    alarm: page.locator("[data-alarm]"),
    readings: page.locator("[data-readings] tbody tr"),

    async begin(): Promise<void> {
      for (const box of await page.getByRole("checkbox").all()) await box.check();
      await button("Begin").click();
      await stage("Weigh in").waitFor();
    },
    async next(name: string): Promise<void> {
      await button(`Next: ${name}`).click();
      await stage(name).waitFor();
    },
    async skipTo(name: string): Promise<void> {
      await page.getByText("Skip to another stage").click();
      await page.getByRole("listitem").getByRole("button", { name, exact: true }).click();
      await stage(name).waitFor();
    },
    /** What the scale shows, where it is not what was asked for. */
    async weigh(reading: string): Promise<void> {
      await page.getByLabel("It shows something else").fill(reading);
      await button("Note this reading").click();
    },
    async read(liquid: string, bath = ""): Promise<void> {
      await page.getByLabel(/^Bath,/).fill(bath);
      await page.getByLabel(/^Liquid,/).fill(liquid);
      await page.getByLabel(/^Liquid,/).press("Enter");
      await expect.poll(() => page.getByLabel(/^Liquid,/).inputValue()).toBe("");
    },
    /** The test's clock runs on by itself, so a while is given. */
    async expectLeft(seconds: number): Promise<void> {
      await expect.poll(async () => Math.abs((await left()) - seconds)).toBeLessThan(25);
    },
  };
}

/** The open batch as the browser's quick storage has it. */
export async function storedOn(page: Page): Promise<Batch> {
  const text = await page.evaluate((key) => localStorage.getItem(key), BATCH_KEY);
  if (text === null) return EMPTY_BATCH;
  const read = readRecord(text);
  if (!read.ok) throw new Error(read.message);
  return read.batch;
}
