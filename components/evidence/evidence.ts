import {
  asExpected,
  farthestMiss,
  readChecks,
  runCheck,
  unitSymbol,
  type Check,
  type Checked,
} from "../../lib/checks.ts";
import { decimalsOf, formatDecimals } from "../../lib/units/format.ts";
import { builtGraph } from "../calculation/built.ts";

const files = import.meta.glob<unknown>("../../content/checks/*.json", {
  eager: true,
  import: "default",
});

export interface EvidenceRow {
  readonly check: Check;
  readonly checked: Checked;
  readonly unit: string;
}

export interface EvidenceTable {
  readonly table: string;
  readonly rows: readonly EvidenceRow[];
  /** One line for all rows together. */
  readonly verdict: string;
}

/** Names of the files of published values: a calculation's id or a substance's name. */
export const EVIDENCE_FILES: readonly string[] = Object.keys(files)
  .map((path) => path.replace(/^.*\/|\.json$/g, ""))
  .sort();

/**
 * The published values of one file against ours, table by table; none for a file that does not exist.
 * @throws Error for a value that does not turn out as it says: such a page must not be built
 */
export function evidenceTables(file: string): readonly EvidenceTable[] {
  const data = files[`../../content/checks/${file}.json`];
  if (data === undefined) return [];
  const tables = new Map<string, EvidenceRow[]>();
  for (const check of readChecks(data)) {
    const checked = runCheck(check, builtGraph);
    if (!asExpected(check, checked)) throw new Error(`${file}: ${check.id} is not as expected`);
    const rows = tables.get(check.table) ?? [];
    rows.push({ check, checked, unit: unitSymbol(check, builtGraph) });
    tables.set(check.table, rows);
  }
  return [...tables].map(([table, rows]) => ({ table, rows, verdict: verdict(rows) }));
}

function verdict(rows: readonly EvidenceRow[]): string {
  const outside = rows.filter(({ checked }) => !checked.within);
  const inside = rows.length - outside.length;
  const all = rows.length === 1 ? "1 value" : `${rows.length} values`;
  if (outside.length === 0) return `${all}, ${rows.length === 1 ? "" : "all "}within tolerance`;
  const misprints = outside.filter(({ check }) => check.misprint !== undefined).length;
  const reasons = [
    misprints > 0 ? `${misprints} taken for ${misprints === 1 ? "a misprint" : "misprints"}` : "",
    outside.length > misprints ? `${outside.length - misprints} different, with the reason` : "",
  ].filter((text) => text !== "");
  return `${all}: ${inside} within tolerance, ${reasons.join(", ")}`;
}

/** In a word how a figure came out; an estimate of ours may meet it by its band alone, and that is said. */
export function verdictOf(check: Check, { difference, within }: Checked): string {
  if (!within) return check.misprint === undefined ? "differs" : "misprint";
  return Math.abs(difference) > farthestMiss(check) ? "inside our band" : "agrees";
}

/** Ours with two more digits than the tolerance has, so that a difference shows. */
export function shownAlike(value: number, tolerance: number): string {
  const decimals = tolerance > 0 ? Math.max(0, 2 - Math.floor(Math.log10(tolerance))) : 4;
  return formatDecimals(value, Math.min(decimals, 7));
}

/** Smaller numbers are written with a power of ten: a row of zeros is miscounted. */
const SMALLEST_PLAIN = 1e-5;

/** A number with the digits it was given, and the power of ten beside them where it needs one. */
export function asPrinted(value: number): { readonly digits: string; readonly power?: string } {
  if (value === 0 || Math.abs(value) >= SMALLEST_PLAIN) return { digits: inFull(String(value)) };
  const [digits = "", power = ""] = value.toExponential().split("e");
  return { digits: inFull(digits), power: inFull(power) };
}

function inFull(number: string): string {
  return formatDecimals(Number(number), decimalsOf(number));
}
