import { readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { close, createIndex } from "pagefind";

const SITE = fileURLToPath(new URL("../../dist/", import.meta.url));
const OUTPUT = join(SITE, "pagefind");

/** Ready-made interfaces, a worker, a stemmer for pages of no known language: the site's dialog needs none. */
const UNUSED = [
  "pagefind-component-ui.css",
  "pagefind-component-ui.js",
  "pagefind-highlight.js",
  "pagefind-modular-ui.css",
  "pagefind-modular-ui.js",
  "pagefind-ui.css",
  "pagefind-ui.js",
  "pagefind-worker.js",
  "wasm.unknown.pagefind",
];

function check(step: string, errors: readonly string[]): void {
  if (errors.length > 0) throw new Error(`search index, ${step}: ${errors.join("; ")}`);
}

/** Asked before it is ready, it looks again every 50 ms: a third of what a first search may take. */
const WAIT = "asyncSleep(50)";
const SHORTER_WAIT = "asyncSleep(4)";

async function shortenWait(): Promise<void> {
  const file = join(OUTPUT, "pagefind.js");
  const script = await readFile(file, "utf8");
  check("shortening its wait", script.includes(WAIT) ? [] : [`no ${WAIT} in pagefind.js`]);
  await writeFile(file, script.replaceAll(WAIT, SHORTER_WAIT));
}

/** Indexes the built pages. Runs after the site's build and before the list for offline use is made. */
async function indexSite(): Promise<number> {
  const { index, errors } = await createIndex({
    excludeSelectors: ["[data-notices]", ".site-header", ".site-footer", "noscript"],
    forceLanguage: "en",
  });
  check("start", errors);
  if (!index) throw new Error("search index: Pagefind did not start");
  const added = await index.addDirectory({ path: SITE });
  check("reading pages", added.errors);
  const written = await index.writeFiles({ outputPath: OUTPUT });
  check("writing", written.errors);
  await shortenWait();
  await Promise.all(UNUSED.map((file) => rm(join(OUTPUT, file), { force: true })));
  return added.page_count;
}

try {
  const pages = await indexSite();
  if (pages === 0) throw new Error("search index: no page has data-pagefind-body");
  console.log(`search: ${pages} pages indexed`);
} finally {
  await close();
}
