import { fileURLToPath } from "node:url";
import { generateSW } from "workbox-build";
import { weigh } from "./weight.ts";

const SITE = fileURLToPath(new URL("../../dist/", import.meta.url));

/** What a first visit may fetch in the background: bytes as they are sent, compressed. */
const PRECACHE_LIMIT = 3_000_000;
const listed: string[] = [];

/**
 * Writes the service worker and its list of files. The last step of a build: whatever is written after it
 * would be missing offline.
 */
const { count, warnings } = await generateSW({
  globDirectory: SITE,
  globPatterns: [
    "**/*.{html,css,js,woff2,svg,png,json,wasm,webmanifest}",
    "pagefind/**/*.{pagefind,pf_meta,pf_index,pf_fragment}",
  ],
  // A host answers a missing page with status 404, which no cache may hold.
  globIgnores: ["404.html", "sw.js"],
  swDest: `${SITE}sw.js`,
  // One file, no fetch of a runtime from elsewhere, no map that names the build's folders.
  inlineWorkboxRuntime: true,
  sourcemap: false,
  // The reader says when: see offline-notice.ts.
  skipWaiting: false,
  clientsClaim: true,
  cleanupOutdatedCaches: true,
  directoryIndex: "index.html",
  // Pagefind asks for its entry with the time added.
  ignoreURLParametersMatching: [/^ts$/, /^utm_/],
  // These names carry a hash of their content already.
  dontCacheBustURLsMatching: /^_astro\/|\.pf_(?:meta|index|fragment)$/,
  manifestTransforms: [
    (manifest) => {
      listed.push(...manifest.map(({ url }) => SITE + url));
      return { manifest };
    },
  ],
});

if (warnings.length > 0) throw new Error(`offline list: ${warnings.join("; ")}`);
const { stored, sent } = weigh(listed);
if (sent > PRECACHE_LIMIT) {
  throw new Error(`offline list: ${sent} bytes in ${count} files, more than ${PRECACHE_LIMIT}`);
}
const MB = (bytes: number): string => `${(bytes / 1e6).toFixed(2)} MB`;
console.log(`offline: ${count} files, ${MB(sent)} to send, ${MB(stored)} on disk`);
