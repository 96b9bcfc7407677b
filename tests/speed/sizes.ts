import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { weigh, type Weight } from "../../components/offline/weight.ts";

const DIST = fileURLToPath(new URL("../../dist/", import.meta.url));
const KB = 1000;
const BUDGET = {
  html: 45 * KB,
  css: 17 * KB,
  script: 25 * KB,
  // Of one asked for before all else: with its header, what is sent before the first answer is awaited.
  font: 14.2 * KB,
  precache: 3_000 * KB,
} as const;

/** What is built now: a bench builds anew before it measures. */
function built(): readonly string[] {
  return readdirSync(DIST, { recursive: true, encoding: "utf8" }).map((file) =>
    file.replaceAll("\\", "/"),
  );
}
const read = (file: string): Buffer => readFileSync(join(DIST, file));
const gzip = (file: string): number => gzipSync(read(file), { level: 9 }).length;

function addresses(html: string, pattern: RegExp): readonly string[] {
  return [...html.matchAll(pattern)].flatMap(([, address]) => (address ? [address] : []));
}

/** A page's address → the file it names, or undefined where it leaves the site or the page. */
function target(page: string, address: string): string | undefined {
  if (/^[a-z]+:|^#|^\/\//i.test(address)) return undefined;
  const path = decodeURI(address.split(/[?#]/)[0] as string);
  const file = path.startsWith("/") ? path.slice(1) : posix.join(dirname(page), path);
  return file === "." || file === "" || file.endsWith("/") ? posix.join(file, "index.html") : file;
}

/** Scripts that a page runs before the first edit: its own, and all that those import at once or load. */
function scriptsOf(page: string, html: string): ReadonlySet<string> {
  const found = new Set<string>();
  const waiting = addresses(html, /<script[^>]+src="([^"]+)"/g).flatMap(
    (src) => target(page, src) ?? [],
  );
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (found.has(file)) continue;
    found.add(file);
    const here = file;
    const imports = addresses(
      read(file).toString("utf8"),
      /(?:import|from)\s*["'](\.[^"']+\.js)["']/g,
    );
    waiting.push(...imports.flatMap((address) => target(here, address) ?? []));
  }
  return found;
}

export interface PageSize {
  readonly page: string;
  readonly html: number;
  readonly css: number;
  readonly script: number;
}

/** Bytes of each page after gzip. Calculations load with the page and are counted by the browser bench. */
export function pageSizes(): readonly PageSize[] {
  return built()
    .filter((file) => file.endsWith(".html"))
    .map((page) => {
      const html = read(page).toString("utf8");
      const styles = addresses(html, /<link[^>]+rel="stylesheet"[^>]+href="([^"]+)"/g).flatMap(
        (href) => target(page, href) ?? [],
      );
      const sum = (list: Iterable<string>): number =>
        [...list].reduce((total, file) => total + gzip(file), 0);
      return {
        page,
        html: gzip(page),
        css: sum(new Set(styles)),
        script: sum(scriptsOf(page, html)),
      };
    });
}

/** Links inside the site whose page or heading does not exist. */
export function brokenLinks(): readonly string[] {
  const files = built();
  const present = new Set(files);
  const ids = new Map<string, Set<string>>();
  const idsOf = (file: string): Set<string> => {
    let known = ids.get(file);
    if (!known) {
      known = new Set(addresses(read(file).toString("utf8"), /\sid="([^"]+)"/g));
      ids.set(file, known);
    }
    return known;
  };
  return files
    .filter((file) => file.endsWith(".html"))
    .flatMap((page) => {
      const html = read(page).toString("utf8");
      return addresses(html, /\s(?:href|src)="([^"]+)"/g).flatMap((address) => {
        const file = address.startsWith("#") ? page : target(page, address);
        if (file === undefined) return [];
        if (!present.has(file)) return [`${page} → ${address}`];
        const anchor = address.split("#")[1];
        return anchor !== undefined &&
          anchor !== "" &&
          file.endsWith(".html") &&
          !idsOf(file).has(anchor)
          ? [`${page} → ${address}`]
          : [];
      });
    });
}

/** Bytes of each font that a page asks for at once. */
function earlyFonts(): ReadonlyMap<string, number> {
  return new Map(
    built()
      .filter((file) => file.endsWith(".html"))
      .flatMap((page) =>
        addresses(
          read(page).toString("utf8"),
          /<link rel="preload" href="([^"]+)" as="font"/g,
        ).flatMap((href) => target(page, href) ?? []),
      )
      .map((file) => [file, read(file).length]),
  );
}

/** What the service worker keeps: as it is sent, which has a budget, and on disk. */
export function precacheSize(): Weight {
  const urls = addresses(read("sw.js").toString("utf8"), /url:\s*"([^"]+)"/g);
  return weigh(urls.map((url) => join(DIST, url)));
}

function main(): number {
  const sizes = pageSizes();
  const faults: string[] = [];
  for (const { page, html, css, script } of sizes) {
    if (html > BUDGET.html) faults.push(`${page}: HTML ${html} B, budget ${BUDGET.html}`);
    if (css > BUDGET.css) faults.push(`${page}: CSS ${css} B, budget ${BUDGET.css}`);
    if (script > BUDGET.script) faults.push(`${page}: script ${script} B, budget ${BUDGET.script}`);
  }
  for (const [file, size] of earlyFonts())
    if (size > BUDGET.font) faults.push(`${file}: ${size} B, budget ${BUDGET.font}`);
  const precache = precacheSize();
  if (precache.sent > BUDGET.precache)
    faults.push(`precache ${precache.sent} B, budget ${BUDGET.precache}`);
  faults.push(...brokenLinks().map((link) => `no such place: ${link}`));
  console.table(sizes);
  console.log(`precache ${precache.sent} B to send, ${precache.stored} B on disk`);
  for (const fault of faults) console.error(fault);
  console.log(faults.length === 0 ? "Sizes and links are in order." : `${faults.length} faults.`);
  return faults.length === 0 ? 0 : 1;
}

if (import.meta.main) process.exitCode = main();
