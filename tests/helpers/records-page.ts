import type { Page } from "playwright-core";

/** Opens Records, where something is kept. */
export async function openRecords(page: Page, site: string): Promise<void> {
  await page.goto(`${site}records/`);
  await listed(page);
}

/** Opens Records, where nothing may be kept yet: the page then comes alive when it is touched. */
export async function touchRecords(page: Page, site: string): Promise<void> {
  await page.goto(`${site}records/`);
  await page.getByLabel("Open a file of records").focus();
  await listed(page);
}

async function listed(page: Page): Promise<void> {
  await page.waitForSelector("batch-records[data-listed]", { state: "attached" });
}
