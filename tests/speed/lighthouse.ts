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
  "gear/",
  "batch/",
  "plan/",
  "sheet/",
  "bench/",
  "records/",
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

export interface Audit {
  readonly page: string;
  /** 0 to 100 */
  readonly scores: Readonly<Record<string, number>>;
  /** ms */
  readonly lcp: number;
  readonly cls: number;
  /** What keeps a score from 100. */
  readonly faults: readonly string[];
}

/** Audits one page of each kind as a phone would see it. */
export async function auditPages(): Promise<readonly Audit[]> {
  const server = siteServer(DIST);
  const port = await listen(server, 4500);
  const browser = await chromium.launch({
    executablePath: findBrowser(),
    args: [...BROWSER_FLAGS, `--remote-debugging-port=${PORT}`],
  });
  await warm(port);
  const found: Audit[] = [];
  for (const page of PAGES) {
    const run = await lighthouse(`http://localhost:${port}/${page}`, {
      port: PORT,
      logLevel: "error",
    });
    if (!run) throw new Error(`no audit of ${page}`);
    const { categories, audits } = run.lhr;
    const faults = Object.values(categories).flatMap(({ id, score, auditRefs }) =>
      (score ?? 0) >= 1
        ? []
        : auditRefs.flatMap(({ id: name, weight }) => {
            const audit = audits[name];
            if (weight === 0 || !audit || audit.score === null || audit.score >= 1) return [];
            return [`/${page} ${id}: ${audit.title} ${audit.displayValue ?? ""}`];
          }),
    );
    found.push({
      page: `/${page}`,
      scores: Object.fromEntries(
        Object.entries(categories).map(([id, { score }]) => [id, Math.round((score ?? 0) * 100)]),
      ),
      lcp: audits["largest-contentful-paint"]?.numericValue ?? 0,
      cls: audits["cumulative-layout-shift"]?.numericValue ?? 0,
      faults,
    });
  }
  await browser.close();
  server.closeAllConnections();
  server.close();
  return found;
}

/** Prints the audits, and fails below 100. */
async function main(): Promise<number> {
  const audits = await auditPages();
  for (const fault of audits.flatMap(({ faults }) => faults)) console.log(fault);
  console.table(
    audits.map(({ page, scores, lcp, cls }) => ({
      page,
      ...scores,
      "LCP ms": Math.round(lcp),
      CLS: Number(cls.toFixed(3)),
    })),
  );
  return audits.flatMap(({ scores }) => Object.values(scores)).every((score) => score === 100)
    ? 0
    : 1;
}

if (import.meta.main) process.exitCode = await main();
