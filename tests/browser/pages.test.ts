import AxeBuilder from "@axe-core/playwright";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { launchBrowser } from "../helpers/browser.ts";
import { builtPages, live, watchedPage } from "../helpers/pages.ts";

const site = inject("site");
const pages = builtPages();
/** Pages looked at side by side: one for each core. */
const AT_ONCE = 2;
let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

describe("every page", () => {
  it("is there at all", () => {
    expect(pages).toEqual(
      expect.arrayContaining([
        "",
        "before/",
        "gear/",
        "batch/",
        "plan/",
        "sheet/",
        "bench/",
        "label/",
        "records/",
        "chapters/dilution/",
        "404.html",
      ]),
    );
  });

  for (const [width, colorScheme] of [
    [320, "light"],
    [1280, "dark"],
  ] as const)
    it(`has no accessibility fault, no error and no sideways scroll at ${width} px, ${colorScheme}`, async () => {
      const context = await browser.newContext({
        viewport: { width, height: 800 },
        colorScheme,
        reducedMotion: "reduce",
      });
      const waiting = [...pages];
      await Promise.all(
        Array.from({ length: AT_ONCE }, async () => {
          const { page, faults } = await watchedPage(context);
          for (let path = waiting.shift(); path !== undefined; path = waiting.shift()) {
            await page.goto(site + path, { waitUntil: "load" });
            const { violations } = await new AxeBuilder({ page })
              .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"])
              .analyze();
            const found = violations.map(
              ({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`,
            );
            expect(found, `/${path}`).toEqual([]);
            const wide = await page.evaluate(
              () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
            );
            expect(wide, `/${path} is wider than the screen`).toBeLessThanOrEqual(0);
          }
          expect(faults).toEqual([]);
        }),
      );
      await context.close();
    }, 240_000);

  it("sets emphasis in the italic of its own family", async () => {
    const page = await browser.newPage();
    await page.goto(`${site}chapters/cooling/`);
    const loaded = await page.evaluate(async () => {
      const faces = await document.fonts.ready;
      return [...faces]
        .filter(({ family, status }) => family.includes("Source Serif") && status === "loaded")
        .map(({ style }) => style);
    });
    expect(loaded).toContain("italic");
    await page.close();
  });

  it("asks nothing of anybody else, and no font but those cut to its characters", async () => {
    const context = await browser.newContext();
    const foreign: string[] = [];
    const whole: string[] = [];
    context.on("request", (request) => {
      const { origin, protocol } = new URL(request.url());
      if (origin !== new URL(site).origin && protocol.startsWith("http"))
        foreign.push(request.url());
      // The worker keeps the whole ones too, for what a reader may type.
      if (!request.serviceWorker() && request.url().includes("source-serif"))
        whole.push(`${request.frame().url()}: ${request.url()}`);
    });
    const page = await context.newPage();
    for (const path of pages) {
      await page.goto(site + path, { waitUntil: "load" });
      await page.evaluate(async () => document.fonts.ready.then(() => undefined));
    }
    expect(foreign).toEqual([]);
    expect(whole).toEqual([]);
    await context.close();
  });

  it("lets a wide table scroll by itself on a screen, and shows all of it on paper", async () => {
    const page = await browser.newPage();
    for (const path of ["plan/", "chapters/thermal-stress/", "reference/symbols/", "sheet/"]) {
      await page.goto(site + path, { waitUntil: "load" });
      const tables = page.locator(".scroll:has(> table)");
      const shown = async (): Promise<ReadonlySet<string>> =>
        new Set(
          await tables.evaluateAll((all) => all.map((one) => getComputedStyle(one).overflowX)),
        );
      await page.emulateMedia({ media: "screen" });
      expect(await shown(), path).toEqual(new Set(["auto"]));
      await page.emulateMedia({ media: "print" });
      expect(await shown(), path).toEqual(new Set(["visible"]));
    }
    await page.close();
  });

  it("prints every reading, and nothing that only a press or a link would make good", async () => {
    const page = await browser.newPage();
    await page.emulateMedia({ media: "print" });
    for (const path of ["batch/", "gear/", "plan/", "chapters/sonication/", "chapters/storage/"]) {
      await page.goto(site + path);
      if (path === "batch/")
        expect(await page.getByLabel("Name of this batch").isVisible()).toBe(true);
      expect(await page.locator("main").innerText(), path).not.toMatch(
        /More inputs|whole caution|Why, step by step|at a press|On to the batch/i,
      );
      const cut = await page
        .locator("textarea:visible")
        .evaluateAll((all) =>
          all
            .filter(({ scrollHeight, clientHeight }) => scrollHeight > clientHeight)
            .map(({ id }) => id),
        );
      expect(cut, path).toEqual([]);
    }
    await page.close();
  });

  it("shows tables whole at 1280 px", async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    for (const path of ["plan/", "sheet/", "chapters/vesicles/", "chapters/thermal-stress/"]) {
      await page.goto(site + path, { waitUntil: "domcontentloaded" });
      await page.evaluate(() => {
        for (const details of document.querySelectorAll("main details"))
          details.setAttribute("open", "");
      });
      const cut = await page
        .locator(".scroll:has(> table)")
        .evaluateAll((all) =>
          all
            .filter(({ scrollWidth, clientWidth }) => scrollWidth > clientWidth)
            .map((one) => one.getAttribute("aria-label")),
        );
      expect(cut, path).toEqual([]);
    }
    await page.close();
  });

  it("darkens the end of what goes on there, on a screen that keeps its colours", async () => {
    const page = await browser.newPage({ viewport: { width: 360, height: 800 } });
    await page.goto(`${site}chapters/dilution/`);
    for (const selector of [".equation", ".scroll"]) {
      const drawn = async (): Promise<string> =>
        page
          .locator(selector)
          .first()
          .evaluate((one) => getComputedStyle(one).backgroundImage);
      await page.emulateMedia({ media: "screen", forcedColors: "none" });
      expect(await drawn(), selector).toMatch(/gradient.*gradient/);
      await page.emulateMedia({ media: "screen", forcedColors: "active" });
      expect(await drawn(), selector).toBe("none");
      await page.emulateMedia({ media: "print", forcedColors: "none" });
      expect(await drawn(), selector).toBe("none");
    }
    await page.close();
  });

  it("is whole with scripts off: text, math, figures and default results", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${site}chapters/dilution/`);
    const html = await page.content();
    expect(html).toMatch(/<math[\s>]/);
    expect(html).toMatch(/<svg[^>]*role="img"/);
    // The demonstration batch asks for 320.4 g of water; it is printed without a script.
    expect(html).toMatch(/<output[^>]*name="waterMass"[^>]*>320\.4</);
    await page.goto(`${site}sheet/`);
    expect(
      await page.locator('[data-ingredient="spirit"] [data-cell="reading"]').innerText(),
    ).toMatch(/432\.0/);
    await context.close();
  });

  it("has no button with scripts off, for none would do anything", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    for (const path of [
      "batch/",
      "gear/",
      "sheet/",
      "chapters/strength/",
      "chapters/sonication/",
    ]) {
      await page.goto(site + path);
      expect(await page.locator("button:visible").allTextContents(), path).toEqual([]);
    }
    await context.close();
  });

  it("has numbers to read and no fields to type in with scripts off, and says what needs them", async () => {
    const context = await browser.newContext({ javaScriptEnabled: false });
    const page = await context.newPage();
    for (const path of ["batch/", "gear/", "plan/", "label/", "chapters/strength/"]) {
      await page.goto(site + path);
      const asking = await page
        .locator("main :is(input, select):visible")
        .evaluateAll((all) =>
          all.filter((one) => getComputedStyle(one).pointerEvents !== "none").map(({ id }) => id),
        );
      expect(asking, path).toEqual([]);
      const text = await page.locator("main").innerText();
      // What is out of sight counts too: it shows when it is scrolled to.
      expect(await page.locator("main").textContent(), path).toMatch(
        /needs? scripts|turn scripts on/i,
      );
      expect(text, path).not.toMatch(/is kept in this browser|With a larger bath|Type your own/);
    }
    await context.close();
  });
});

describe("the site under a folder", () => {
  it("finds its pages, styles, scripts and search from there", async () => {
    const context = await browser.newContext();
    const { page, faults } = await watchedPage(context);
    const missing: string[] = [];
    page.on("response", (response) => {
      if (response.status() >= 400) missing.push(response.url());
    });
    await page.goto(inject("subSite"), { waitUntil: "load" });
    await page.getByRole("link", { name: "Batch", exact: true }).first().click();
    await page.waitForURL(`${inject("subSite")}batch/`);
    await live(page);
    await page.keyboard.press("Control+k");
    await page.locator("dialog input[role=combobox]").fill("contraction");
    await page.waitForSelector("[role=option]");
    expect(missing).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });
});
