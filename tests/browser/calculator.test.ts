import { describe, expect, it } from "vitest";
import { freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator, live } from "../helpers/pages.ts";

freshPages();

describe("a calculator", () => {
  it("takes a decimal comma and repaints results and equations", async () => {
    await open("chapters/dilution/");
    const { field, output } = calculator(page, "dilution");
    await field("spiritStrength").fill("95,0");
    await field("targetStrength").fill("70");
    await field("finalVolume").fill("1000");
    const spirit = await output("spiritVolume").innerText();
    // 70 % of 1000 mL is 700 mL of ethanol: 736.8 mL at 95 % vol.
    expect(Number.parseFloat(spirit)).toBeCloseTo(736.8, 0);
    const texts = await page.evaluate(() =>
      Array.from(
        document.querySelectorAll(
          'live-equation[data-calculation="dilution"] [data-slot="spiritVolume"]',
        ),
        (slot) => slot.textContent,
      ),
    );
    expect(new Set(texts).size).toBe(1);
    expect(texts[0]).toMatch(/^736\.8\s?mL$/);
  });

  /** As a field tells of it that had the focus before, or in a window behind another. */
  async function typeUnfocused(text: string): Promise<void> {
    await calculator(page, "dilution")
      .field("spiritStrength")
      .evaluate((input: HTMLInputElement, typed) => {
        input.value = typed;
        input.dispatchEvent(new InputEvent("input", { bubbles: true }));
      }, text);
  }

  it("takes what is typed into a field that told of no focus", async () => {
    const { output } = calculator(page, "dilution");
    await page.goto(`${site}chapters/dilution/`);
    await page.waitForLoadState("networkidle");
    const built = await output("spiritMass").innerText();
    await typeUnfocused("60");
    await expect.poll(() => output("spiritMass").innerText()).not.toBe(built);
  });

  it("takes what was typed before any script ran", async () => {
    const { field, output } = calculator(page, "dilution");
    let release = (): void => undefined;
    const held = new Promise<void>((resolve) => (release = resolve));
    await page.route("**/*.js", async (route) => {
      await held;
      await route.continue();
    });
    await page.goto(`${site}chapters/dilution/`, { waitUntil: "commit" });
    const built = await output("spiritMass").innerText();
    await typeUnfocused("70");
    release();
    await expect.poll(() => output("spiritMass").innerText()).not.toBe(built);
    expect(await field("spiritStrength").inputValue()).toBe("70");
  });

  it("converts the shown number when the unit is changed, and nothing else", async () => {
    await open("chapters/recipe/");
    const { field, unit, output } = calculator(page, "recipe");
    const before = await output("waterMass").innerText();
    await unit("batchVolume").selectOption("L");
    expect(await field("batchVolume").inputValue()).toBe("0.5");
    expect(await output("waterMass").innerText()).toBe(before);
    await page.locator('[data-result-unit="waterMass"]').first().selectOption("kg");
    expect(Number(await output("waterMass").innerText())).toBeCloseTo(0.3204, 4);
  });

  it("takes a number that only the unit chosen after it makes possible", async () => {
    await open("chapters/recipe/");
    const { field, unit, output, error } = calculator(page, "recipe");
    await field("batchVolume").fill("2");
    await expect.poll(() => error("batchVolume").innerText()).toMatch(/must be from/);
    await unit("batchVolume").selectOption("L");
    await expect.poll(() => output("waterMass").innerText()).toMatch(/^128\d$/);
    expect(await error("batchVolume").isVisible()).toBe(false);
    await unit("batchVolume").selectOption("mL");
    expect(await field("batchVolume").inputValue()).toBe("2000");
  });

  it("says how it read a mark that elsewhere means thousands, and the range in the unit shown", async () => {
    await open("chapters/weighing/");
    const { form, field, unit } = calculator(page, "weighing");
    await form.locator("details.more > summary").click();
    await field("waterMass").fill("1,200");
    const about = form.locator('[data-field="waterMass"]');
    await expect.poll(() => about.locator("[data-read-as]").innerText()).toMatch(/Read as 1\.2\sg/);
    await unit("waterMass").selectOption("kg");
    await expect.poll(() => about.locator("[data-range]").textContent()).toMatch(/0\skg to 20\skg/);
  });

  it("reads a unit written in the field", async () => {
    await open("chapters/strength/");
    const { field, unit, output } = calculator(page, "strength");
    await field("spiritStrength").fill("80 US proof");
    expect(await unit("spiritStrength").inputValue()).toBe("US proof");
    expect(await output("massFraction").innerText()).toMatch(/^33\.3/);
  });

  it.each([
    ["", /Type a number/],
    ["forty", /not a number/],
    ["1,2,3", /more than one decimal mark/],
    ["1,234.5", /Two kinds of decimal mark.*1234\.5/],
    ["1.234,5", /Two kinds of decimal mark.*1234\.5/],
    ["-5", /must be from 0/],
    ["1e9", /must be from 0/],
    ["40 °C", /not a unit/],
    ["40 % proof", /mixes two scales.*20 % vol/],
    ["101", /must be from 0/],
  ])(
    "answers “%s” with a sentence, keeps it, and keeps the last good result",
    async (text, sentence) => {
      await open("batch/");
      const { field, output, error, stale } = calculator(page, "strength");
      const good = await output("massFraction").innerText();
      await field("spiritStrength").fill(text);
      await expect.poll(() => error("spiritStrength").innerText()).toMatch(sentence);
      expect(await field("spiritStrength").getAttribute("aria-invalid")).toBe("true");
      expect(await output("massFraction").innerText()).toBe(good);
      expect(await stale.isVisible()).toBe(true);
      expect(await field("spiritStrength").inputValue()).toBe(text);
      await page.reload();
      await live(page);
      expect(await field("spiritStrength").inputValue()).toBe(text);
      await expect.poll(() => error("spiritStrength").innerText()).toMatch(sentence);
      await field("spiritStrength").fill("40");
      expect(await error("spiritStrength").isVisible()).toBe(false);
      expect(await stale.isVisible()).toBe(false);
    },
  );

  it.each([
    ["dilution", "targetStrength", "60", /weaker/],
    ["dilution", "spiritStrength", "0", /no alcohol/],
    ["recipe", "alcoholStrength", "48", /at most/],
    ["recipe", "ascorbicAcidConcentration", "390", /More acid than the batch can hold/],
    ["recipe", "spiritStrength", "0", /no alcohol/],
  ])("refuses what does not fit together: %s, %s %s", async (id, name, text, sentence) => {
    await open(`chapters/${id}/`);
    const { field, form, stale } = calculator(page, id);
    await field(name).fill(text);
    await expect.poll(() => form.locator(".error:visible").first().innerText()).toMatch(sentence);
    expect(await stale.isVisible()).toBe(true);
  });

  it("says when the scale is too coarse", async () => {
    await open("chapters/weighing/");
    const { field, notices } = calculator(page, "weighing");
    await field("readability").fill("5");
    await field("repeatability").fill("5");
    await expect.poll(() => notices.innerText()).toMatch(/cannot weigh .*of lecithin to within 1/);
  });

  it("links an input to another chapter, lets it be typed over, and links it again", async () => {
    await open("chapters/recipe/");
    await calculator(page, "recipe").field("batchVolume").fill("1000");
    await open("chapters/weighing/");
    const { field, form, output } = calculator(page, "weighing");
    await form.locator("details.more > summary").click();
    expect(await field("waterMass").inputValue()).toBe("640.8");
    await field("waterMass").fill("600");
    await expect.poll(() => output("afterWater").innerText()).toMatch(/^600\.0/);
    const origin = form.locator('[data-origin="waterMass"]');
    expect(await origin.innerText()).toMatch(/Your own value.*640\.8/);
    await origin.getByRole("button").click();
    await expect.poll(() => field("waterMass").inputValue()).toBe("640.8");
  });

  it("starts from the answer", async () => {
    await open("chapters/dilution/");
    const { form, output, field } = calculator(page, "dilution");
    await field("targetStrength").fill("20");
    const solve = page.locator('[data-solve="dilution"]');
    await solve.locator("summary").click();
    await solve.locator('[name="result"]').selectOption("waterMass");
    await solve.locator('[name="wanted"]').fill("300");
    await solve.locator('[name="moving"]').selectOption("finalVolume");
    await solve.getByRole("button", { name: "Find it" }).click();
    expect(await solve.locator("[data-answer]").innerText()).toMatch(/49\d/);
    await solve.getByRole("button", { name: "Put it in" }).click();
    await expect.poll(() => output("waterMass").innerText()).toMatch(/^(300|299\.9|300\.0)/);
    expect(await form.locator(".error:visible").count()).toBe(0);
  });

  it("checks its bands by draws in a worker", async () => {
    await open("chapters/recipe/");
    const part = page.locator('[data-influences="recipe"]');
    await part.locator("summary").click();
    await part.getByRole("button", { name: /random draws/ }).click();
    await expect
      .poll(() => part.locator("[data-drawn]").innerText(), { timeout: 20_000 })
      .toMatch(/95 of 100 lie from .* to .*; the band above says/);
  });

  it("is worked by keyboard alone", async () => {
    await open("chapters/strength/");
    const { field, output } = calculator(page, "strength");
    await field("spiritStrength").focus();
    await page.keyboard.press("Control+a");
    await page.keyboard.type("37,5");
    await page.keyboard.press("Enter"); // must not leave the page
    await expect.poll(() => output("massFraction").innerText()).toMatch(/^31\.[01]/);
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("SELECT");
  });

  it("tells a screen reader once, after a pause", async () => {
    await open("chapters/strength/");
    const { field, form } = calculator(page, "strength");
    await field("spiritStrength").fill("40");
    const status = form.locator("[data-status]");
    expect(await status.innerText()).toBe("");
    await expect
      .poll(() => status.textContent(), { timeout: 5000 })
      .toMatch(/Alcohol by mass: 33\.3/);
  });
});
