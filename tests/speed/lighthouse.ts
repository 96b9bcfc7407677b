import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import lighthouse from "lighthouse";
import { listen, siteServer } from "../../lib/command/serve.ts";
import { BROWSER_FLAGS, findBrowser } from "../helpers/browser.ts";
import { chromium } from "playwright-core";

const PAGES = [
  "",
  "before/",
  "chapters/dilution/",
  "chapters/recipe/",
  "batch/",
  "sheet/",
  "reference/glossary/",
];
const PORT = 9333;
const DIST = fileURLToPath(new URL("../../dist/", import.meta.url));

/** A real host has its files compressed already; doing it during an audit would be measured as the page's. */
async function warm(port: number): Promise<void> {
  for (const file of readdirSync(DIST, { recursive: true, encoding: "utf8" }))
    await fetch(`http://localhost:${port}/${file}`, { headers: { "accept-encoding": "br" } }).then(
      (response) => response.arrayBuffer(),
    );
}

/** Audits one page of each kind as a phone would see it, and fails below 100. */
async function main(): Promise<number> {
  const server = siteServer(DIST);
  const port = await listen(server, 4500);
  const browser = await chromium.launch({
    executablePath: findBrowser(),
    args: [...BROWSER_FLAGS, `--remote-debugging-port=${PORT}`],
  });
  await warm(port);
  let low = 0;
  const rows: Record<string, string | number>[] = [];
  for (const page of PAGES) {
    const run = await lighthouse(`http://localhost:${port}/${page}`, {
      port: PORT,
      logLevel: "error",
    });
    if (!run) throw new Error(`no audit of ${page}`);
    const { categories, audits } = run.lhr;
    const scores = Object.fromEntries(
      Object.entries(categories).map(([id, { score }]) => [id, Math.round((score ?? 0) * 100)]),
    );
    for (const category of Object.values(categories)) {
      if ((category.score ?? 0) >= 1) continue;
      low++;
      for (const { id, weight } of category.auditRefs) {
        const audit = audits[id];
        if (weight > 0 && audit && audit.score !== null && audit.score < 1)
          console.log(`/${page} ${category.id}: ${audit.title} ${audit.displayValue ?? ""}`);
      }
    }
    rows.push({
      page: `/${page}`,
      ...scores,
      "LCP ms": Math.round(audits["largest-contentful-paint"]?.numericValue ?? 0),
      CLS: Number((audits["cumulative-layout-shift"]?.numericValue ?? 0).toFixed(3)),
    });
  }
  console.table(rows);
  await browser.close();
  server.closeAllConnections();
  server.close();
  return low;
}

process.exitCode = (await main()) === 0 ? 0 : 1;
