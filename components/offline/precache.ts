import { fileURLToPath } from "node:url";
import { generateSW } from "workbox-build";

const SITE = fileURLToPath(new URL("../../dist/", import.meta.url));

/** What a first visit may fetch in the background, in bytes. */
const PRECACHE_LIMIT = 3_000_000;

/**
 * Writes the service worker and its list of files. The last step of a build: whatever is written after it
 * would be missing offline.
 */
const { count, size, warnings } = await generateSW({
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
});

if (warnings.length > 0) throw new Error(`offline list: ${warnings.join("; ")}`);
if (size > PRECACHE_LIMIT) {
  throw new Error(`offline list: ${size} bytes in ${count} files, more than ${PRECACHE_LIMIT}`);
}
console.log(`offline: ${count} files, ${(size / 1e6).toFixed(2)} MB`);
