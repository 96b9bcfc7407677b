import type { Entry } from "./log.ts";
import type { Batch } from "./record.ts";
import { steadyTimes } from "./timeline.ts";

const COLUMNS = [
  "time (UTC)",
  "local time",
  "since the first entry (s)",
  "what",
  "step",
  "ultrasound",
  "liquid (°C)",
  "bath (°C)",
  "beaker",
  "ingredient",
  "scale shows (g)",
  "amount",
  "value (SI)",
  "note",
] as const;
type Column = (typeof COLUMNS)[number];
type Cells = Partial<Record<Column, string | number>>;

/** What a spreadsheet would take for the start of a formula. */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * The log of a batch as a table for spreadsheets: one line an entry, in the order in which it was noted.
 *
 * @returns text with a heading, lines ended by CR and LF
 * Source: RFC 4180 (2005), section 2. memory
 */
export function readingsCsv({ log = [] }: Pick<Batch, "log">): string {
  const times = steadyTimes(log);
  let step = "";
  const lines = log.map((entry, i) => {
    if (entry.kind === "step") step = entry.step;
    if (entry.kind === "end") step = "";
    const cells: Cells = {
      "time (UTC)": new Date(entry.at).toISOString(),
      "local time": entry.at.slice(0, 19).replace("T", " "),
      "since the first entry (s)": tidy(times[i] as number),
      step,
      // The schedule calls every run of the bath a stint.
      ultrasound: step.startsWith("stint") ? "on" : "off",
      ...cellsOf(entry),
    };
    return COLUMNS.map((column) => field(cells[column] ?? ""));
  });
  return [COLUMNS.map(field), ...lines].map((line) => `${line.join(",")}\r\n`).join("");
}

function cellsOf(entry: Entry): Cells {
  switch (entry.kind) {
    case "step":
      return { what: "step begins" };
    case "end":
      return { what: "last step ends" };
    case "read":
      return { what: "reading", "liquid (°C)": entry.liquid, "bath (°C)": entry.bath ?? "" };
    case "weighed":
      return {
        what: "weighing",
        beaker: entry.vessel,
        ingredient: entry.ingredient,
        "scale shows (g)": tidy(entry.reading * 1000),
      };
    case "amount":
      return { what: "amount", amount: entry.of, "value (SI)": entry.value };
    case "note":
      return { what: "note", note: entry.text };
    case "clock":
      return { what: "clock jumped", amount: "seconds", "value (SI)": entry.by };
  }
}

/** Without the digits that only a change of unit brings. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}

function field(value: string | number): string {
  if (typeof value === "number") return String(value);
  const text = FORMULA.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
