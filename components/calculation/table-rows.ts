import type { Column } from "../../lib/calculations/calculation.ts";
import { keyOf, type BatchValues, type Graph, type Outcome } from "../../lib/calculations/graph.ts";
import { cellText } from "../../lib/calculations/readings.ts";
import { show, withBandText } from "../../lib/calculations/say.ts";
import { decimalsOf, formatDecimals, formatNumber } from "../../lib/units/format.ts";
import { fromSI, unitOf as unitBy, type Dimension } from "../../lib/units/units.ts";
import type { UnitByName } from "./slots.ts";

/** Which rows: a table that the calculation works out, or one row for each kind of a choice. */
export type WhichRows =
  { readonly table: string } | { readonly by: string; readonly results: readonly string[] };

export interface TextTable {
  readonly title: string;
  readonly head: readonly string[];
  /** The first cell of a row names it. */
  readonly rows: readonly (readonly string[])[];
}

/**
 * A computed table as text, in the reader's units.
 *
 * @throws TypeError for a table, choice or result that the calculation does not have
 */
export function tableRows(
  graph: Graph,
  id: string,
  which: WhichRows,
  outcome: Outcome & { readonly ok: true },
  batch: BatchValues,
  unitOf: UnitByName,
): TextTable {
  return "table" in which
    ? workedOut(graph, id, which.table, outcome, unitOf)
    : compared(graph, id, which.by, which.results, batch, unitOf);
}

function workedOut(
  graph: Graph,
  id: string,
  name: string,
  outcome: Outcome & { readonly ok: true },
  unitOf: UnitByName,
): TextTable {
  const table = graph.get(id).tables?.find((candidate) => candidate.id === name);
  if (!table) throw new TypeError(`${id} has no table "${name}"`);
  const rows = table.rows(outcome.inputs as never);
  // A column with nothing in it this time is not shown.
  const columns = table.columns
    .map((column, i) => ({ column, i }))
    .filter(({ i }) => rows.some((row) => row[i] !== null));
  return {
    title: table.title,
    head: columns.map(({ column: { name: own, label, dimension, units, words } }) =>
      words ? label : withSymbol(label, dimension, unitOf(own, units)),
    ),
    rows: transposed(
      columns.map(({ column, i }) =>
        columnTexts(
          column,
          rows.map((row) => row[i] ?? null),
          unitOf(column.name, column.units),
        ),
      ),
      rows.length,
    ),
  };
}

function transposed(columns: readonly (readonly string[])[], rows: number): string[][] {
  return Array.from({ length: rows }, (_, i) => columns.map((column) => column[i] ?? ""));
}

/** The cells of one column, with like decimals as far as each number has digits for them. */
function columnTexts(
  column: Column,
  cells: readonly (number | null)[],
  unit: string,
): readonly string[] {
  const texts = cells.map((cell) => cellText(column, cell, () => unit));
  if (column.words || column.dimension === "count") return texts;
  const most = Math.max(...texts.map(decimalsOf));
  return cells.map((cell, i) => {
    const text = texts[i] ?? "";
    const shown = cell === null ? 0 : fromSI(cell, column.dimension, unit);
    if (shown === 0) return text;
    const decimals = Math.min(most, decimalsOf(formatNumber(shown, column.digits)));
    return decimals > decimalsOf(text) ? formatDecimals(shown, decimals) : text;
  });
}

function compared(
  graph: Graph,
  id: string,
  by: string,
  names: readonly string[],
  batch: BatchValues,
  unitOf: UnitByName,
): TextTable {
  const calculation = graph.get(id);
  // The kinds may be those of a calculation that this one starts from: "bath-heat.knownFrom".
  const [from, input] = by.includes(".") ? (by.split(".") as [string, string]) : [id, by];
  const choice = graph.get(from).inputs[input];
  if (choice?.kind !== "choice") throw new TypeError(`${id} has no choice "${by}"`);
  const results = names.map((name) => {
    const result = calculation.results[name];
    if (!result) throw new TypeError(`${id} has no result "${name}"`);
    return { name, result, unit: unitOf(name, result.units) };
  });
  return {
    title: choice.label,
    head: [
      choice.label,
      ...results.map(({ result, unit }) => withSymbol(result.label, result.dimension, unit)),
    ],
    rows: choice.options.map(({ value, label }) => {
      const outcome = graph.evaluate(id, { ...batch, [keyOf(graph.get(from), input)]: value });
      return [
        label,
        ...results.map(({ name, result, unit }) => {
          if (!outcome.ok) return "–";
          return withBandText(show(outcome.values[name] ?? null, result, unit));
        }),
      ];
    }),
  };
}

function withSymbol(label: string, dimension: Dimension, unit: string): string {
  const { symbol } = unitBy(dimension, unit);
  return symbol === "" ? label : `${label} (${symbol})`;
}
