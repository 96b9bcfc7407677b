import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { chromium, type Browser } from "playwright-core";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/** Flags that keep a headless browser from calling home, and let it run as root. */
export const BROWSER_FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

function onPath(name: string): string | undefined {
  try {
    return (
      execFileSync("sh", ["-c", `command -v ${name}`], { encoding: "utf8" }).trim() || undefined
    );
  } catch {
    return undefined;
  }
}

function found(): string | undefined {
  const named = process.env["CHROME_PATH"];
  if (named !== undefined && named !== "" && existsSync(named)) return named;
  for (const name of NAMES) {
    const path = onPath(name);
    if (path !== undefined) return path;
  }
  return undefined;
}

function install(): void {
  console.log("No browser found: installing Debian's chromium.");
  const options = {
    stdio: "inherit",
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  } as const;
  execFileSync("apt-get", ["update", "-qq"], options);
  execFileSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium"], options);
}

/**
 * The browser that tests run in: CHROME_PATH, else one on the path, else Debian's, installed if we may.
 * @throws Error saying what is missing and how to get it
 */
export function findBrowser(): string {
  const present = found();
  if (present !== undefined) return present;
  if (process.getuid?.() === 0 && onPath("apt-get") !== undefined) {
    install();
    const installed = found();
    if (installed !== undefined) return installed;
  }
  throw new Error(
    "No Chromium or Chrome found. Install one (on Debian: sudo apt-get install chromium), or set CHROME_PATH to it.",
  );
}

/** A headless browser for one test file; the caller closes it. */
export function launchBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: findBrowser(), args: BROWSER_FLAGS });
}
