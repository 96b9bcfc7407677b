import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { BrowserContext, Page } from "playwright-core";

/** Every page of the built site, as a path from its root. */
export function builtPages(): readonly string[] {
  const folder = fileURLToPath(new URL("../../dist/", import.meta.url));
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".html"))
    .map((file) => file.replaceAll("\\", "/").replace(/(^|\/)index\.html$/, "$1"))
    .sort();
}

/** A page that remembers everything that went wrong on it. */
export async function watchedPage(
  context: BrowserContext,
): Promise<{ readonly page: Page; readonly faults: string[] }> {
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(`${page.url()}: ${error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(`${page.url()}: ${message.text()}`);
  });
  return { page, faults };
}

/** Has the browser refuse storages, as one does where a reader forbids them. */
export async function forbid(
  page: Page,
  ...storages: readonly ("localStorage" | "indexedDB")[]
): Promise<void> {
  await page.addInitScript((names) => {
    for (const name of names)
      Object.defineProperty(window, name, {
        get: () => {
          throw new DOMException("denied", "SecurityError");
        },
      });
  }, storages);
}

/** Touches the page as a reader would, and waits until its calculators answer. */
export async function live(page: Page): Promise<void> {
  const field = page.locator("calculation-form input, bench-stage input").first();
  if ((await field.count()) > 0) await field.focus();
  await page.waitForSelector("html[data-live]", { state: "attached" });
}

/** The form of one calculation, and its parts by name. */
export function calculator(page: Page, id: string) {
  const form = page.locator(`form[data-calculation="${id}"]`);
  return {
    form,
    field: (name: string) => form.locator(`input[name="${name}"]`),
    unit: (name: string) => form.locator(`[data-unit-for="${name}"]`),
    output: (name: string) => form.locator(`output[name="${name}"]`),
    error: (name: string) => form.locator(`[data-error-for="${name}"]`),
    stale: form.locator("[data-stale]"),
    notices: form.locator("[data-notices]"),
  };
}
