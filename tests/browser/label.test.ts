import { describe, expect, it } from "vitest";
import { LABEL_SIZES } from "../../lib/batch/label.ts";
import { browser, freshPages, open, page, site } from "../helpers/fresh-page.ts";
import { calculator, live } from "../helpers/pages.ts";

freshPages({ viewport: { width: 360, height: 740 } });

const labels = () => page.locator(".label");
const part = (name: string) => page.locator(`.label:first-child [data-part="${name}"]`);

describe("the labels", () => {
  it("say without a script that the demonstration is not to be used", async () => {
    const still = await browser.newContext({ javaScriptEnabled: false });
    const bare = await still.newPage();
    await bare.goto(`${site}label/`);
    const warnings = await bare.locator('.label [data-part="warning"]').allTextContents();
    expect(warnings.length).toBeGreaterThan(1);
    expect(new Set(warnings)).toEqual(new Set(["Demonstration: do not use"]));
    expect(await bare.locator("batch-label form").isHidden()).toBe(true);
    await still.close();
  });

  it("follow the batch, its bottles and its days, and outlive a reload", async () => {
    await open("batch/");
    const recipe = calculator(page, "recipe");
    for (const [name, text] of [
      ["batchVolume", "600"],
      ["spiritStrength", "40"],
      ["alcoholStrength", "10"],
      ["ascorbicAcidConcentration", "80"],
      ["lecithinConcentration", "50"],
    ] as const)
      await recipe.field(name).fill(text);
    await page.getByRole("link", { name: "Label", exact: true }).click();
    await live(page);
    await expect.poll(() => part("warning").textContent()).toBe("Part demonstration: do not use");
    await calculator(page, "bottling").field("bottleVolume").fill("220");
    await calculator(page, "bottling").field("fillShare").fill("90");
    await calculator(page, "serving").field("servingVolume").fill("10");
    await expect.poll(() => part("warning").textContent()).toBe("");
    // What the lecithin is made from is not said yet, and an open beaker may lose more alcohol than a label
    // can overlook; nothing else is left to say.
    const remarks = page.locator("[data-remarks] li");
    await expect
      .poll(() => remarks.allTextContents())
      .toEqual([
        expect.stringMatching(/^Say what your lecithin is made from/),
        expect.stringMatching(/of alcohol may leave a beaker on the way/),
      ]);
    await page.getByLabel("Name of this batch").fill("Spring");
    await page.getByLabel("Made on").fill("2026-03-01");
    await page.getByLabel("Throw away by").fill("2026-03-08");
    await page.getByLabel("Lecithin from").selectOption("egg");
    await page.getByLabel("Size of a label").selectOption("large");
    // 585 mL at 198 mL each: two full ones and a last.
    const check = async () => {
      await expect.poll(() => labels().count()).toBe(3);
      const text = (await labels().first().innerText()).replaceAll("\u00a0", " ");
      for (const line of [
        "Spring",
        "198 mL.",
        "Contains alcohol, 10.0 % vol.",
        "Contains egg.",
        "In 100 mL: 8 g ascorbic acid, 5 g egg lecithin, the rest water and spirit.",
        "Serving, 10 mL: 800 mg ascorbic acid, 0.79 g alcohol.",
        "Made 1 Mar 2026. Throw away by 8 Mar 2026.",
      ])
        expect(text).toContain(line);
      expect(await labels().last().innerText()).toContain("part-filled");
      expect(await page.locator("[data-labels]").getAttribute("data-size")).toBe("large");
    };
    await check();
    await page.reload();
    await live(page);
    await check();
    expect(await page.getByLabel("Made on").inputValue()).toBe("2026-03-01");
  });

  it("keep what is typed while the page still loads", async () => {
    await page.goto(`${site}label/`);
    await page.getByLabel("Name of this batch").pressSequentially("Quick");
    await page.waitForSelector("html[data-live]", { state: "attached" });
    await expect.poll(() => part("name").textContent()).toBe("Quick");
  });

  it("are not made of what has no answer or was not read", async () => {
    await open("label/");
    const serving = calculator(page, "serving").field("servingVolume");
    await serving.fill("a spoon");
    await expect
      .poll(() => page.locator("[data-remarks]").innerText())
      .toMatch(/“a spoon” is not read/);
    await serving.fill("900");
    await expect.poll(() => labels().count()).toBe(0);
    expect(await page.locator("[data-remarks]").innerText()).toMatch(/must be from/);
  });

  it.each(Object.entries(LABEL_SIZES))(
    "hold all their lines in print, %s, on one sheet of A4 or Letter",
    async (size, { width, height }) => {
      await open("label/");
      await page
        .getByLabel("Name of this batch")
        .fill("Grandmother’s second attempt with sunflower ".repeat(3).slice(0, 120));
      await page.getByLabel("Throw away by").fill("2026-12-24");
      await page.getByLabel("Made on").fill("2026-12-20");
      await page.getByLabel("Lecithin from").selectOption("sunflower");
      // Long numbers, and a warning of two words more.
      await calculator(page, "serving").field("servingVolume").fill("12.5");
      await calculator(page, "bottling").field("batchVolume").fill("487");
      await page.getByLabel("Size of a label").selectOption(size);
      await expect.poll(() => part("warning").textContent()).toMatch(/Part demonstration/);
      await page.emulateMedia({ media: "print" });
      const boxes = await page.evaluate(() =>
        Array.from(document.querySelectorAll<HTMLElement>(".label"), (label) => {
          const box = label.getBoundingClientRect();
          return {
            width: box.width,
            height: box.height,
            over: Math.max(
              ...Array.from(label.children, (line) => line.getBoundingClientRect())
                .filter((line) => line.height > 0)
                .map((line) => line.bottom - box.bottom),
            ),
          };
        }),
      );
      const mm = 96 / 25.4;
      for (const box of boxes) {
        expect(box.width / mm).toBeCloseTo(width, 1);
        expect(box.height / mm).toBeCloseTo(height, 1);
        // At least a millimetre of the margin is left.
        expect(box.over / mm).toBeLessThan(-1);
      }
      for (const format of ["A4", "Letter"]) {
        const pdf = await page.pdf({ format });
        const count = pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length;
        expect(count, format).toBe(1);
      }
    },
  );
});
