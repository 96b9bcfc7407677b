import { whenNeeded } from "./when-needed.ts";

/** What follows the reader's batch on a page, by element, and what brings it alive. */
const PARTS = {
  "calculation-form": async () => (await import("./calculation-form.ts")).defineCalculationForm,
  "live-equation": async () => (await import("../math/live-equation.ts")).defineLiveEquation,
  "live-figure": async () => (await import("../figure/live-figure.ts")).defineLiveFigure,
  "live-table": async () => (await import("./live-table.ts")).defineLiveTable,
  "live-value": async () => (await import("./live-value.ts")).defineLiveValue,
};

/** Brings alive, when it is needed, what this page has. One script for all: a file each costs more than it holds. */
export function followBatch(): void {
  for (const [element, load] of Object.entries(PARTS))
    if (document.querySelector(element)) whenNeeded(load);
}
