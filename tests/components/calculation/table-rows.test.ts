import { describe, expect, it } from "vitest";
import { tableRows } from "../../../components/calculation/table-rows.ts";
import { Graph } from "../../../lib/calculations/graph.ts";
import { COUNT, LENGTH } from "../../../lib/calculations/quantities/kinds.ts";
import { answer, declare, plain } from "../../helpers/small-calculations.ts";

/** The cells of a column, of lengths in mm to three digits where nothing else is said. */
function column(
  cells: readonly (number | null)[],
  kind: typeof LENGTH | typeof COUNT = LENGTH,
): readonly (string | undefined)[] {
  const factor = kind === LENGTH ? 1e-3 : 1;
  const ruler = declare("ruler", {
    inputs: { start: plain("start") },
    results: { end: answer() },
    compute: ({ start }) => ({ end: start }),
    tables: [
      {
        id: "marks",
        title: "Marks",
        columns: [{ name: "mark", label: "Mark", ...kind }],
        rows: () => cells.map((cell) => [cell === null ? null : cell * factor]),
      },
    ],
  });
  const graph = new Graph([ruler]);
  const outcome = graph.evaluate("ruler", {});
  if (!outcome.ok) throw new Error("refused");
  const which = { table: "marks" } as const;
  const { rows } = tableRows(graph, "ruler", which, outcome, {}, (_, units) => units[0] as string);
  return rows.map(([cell]) => cell);
}

describe("tableRows(graph, id, which, outcome, batch, unitOf)", () => {
  it("writes the numbers of a column with like decimals", () => {
    expect(column([24.6, 26, 25.13])).toEqual(["24.6", "26.0", "25.1"]);
  });
  it("adds no digit that a number does not have, and none to nothing", () => {
    expect(column([0.25, 154, 12, 0, null])).toEqual(["0.25", "154", "12.0", "0", "–"]);
  });
  it("leaves whole columns and counts as they are", () => {
    expect(column([20, 40, 100])).toEqual(["20", "40", "100"]);
    expect(column([1, 2.5], COUNT)).toEqual(["1", "2.5"]);
  });
});
