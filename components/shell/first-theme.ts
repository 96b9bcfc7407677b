import { createHash } from "node:crypto";

/**
 * Runs before the first paint, so that a chosen theme never flashes: `theme-choice.ts` keeps the choice under
 * the same key. In the page itself, for a file of its own is one more thing that the first paint would wait for.
 * Where storage is forbidden, it is the system's theme.
 */
export const FIRST_THEME = `try{const t=localStorage.getItem("bilayer-bench.theme");if(t==="light"||t==="dark")document.documentElement.dataset.theme=t}catch{}`;

/** What the content policy knows it by: no other script in a page may run. */
export const FIRST_THEME_HASH = `'sha256-${createHash("sha256").update(FIRST_THEME).digest("base64")}'`;
