import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareBatches, type ComparedRow } from "../../../lib/batch/compare.ts";
import { FACT_GROUPS, factsOf } from "../../../lib/batch/facts.ts";
import { EMPTY_BATCH, type Batch } from "../../../lib/batch/record.ts";
import { graph } from "../../helpers/calculations.ts";
import { LOG, MARCH } from "../../helpers/march.ts";
import { batches } from "../../helpers/records.ts";

function rowOf(id: string, one: Batch, other: Batch): ComparedRow {
  const row = compareBatches(graph, one, other).find((candidate) => candidate.id === id);
  if (!row) throw new Error(`no row ${id}`);
  return row;
}
describe("compareBatches(graph, one, other)", () => {
  it("shows what one of them left at the demonstration's, and says so", () => {
    const two: Batch = { ...MARCH, values: { ...MARCH.values, stints: 2 } };
    expect(rowOf("stints", MARCH, two)).toMatchObject({
      one: 3,
      other: 2,
      assumed: "one",
      differs: true,
    });
    const three: Batch = { ...MARCH, values: { ...MARCH.values, stints: 3 } };
    expect(rowOf("stints", three, MARCH)).toMatchObject({
      other: 3,
      assumed: "other",
      differs: false,
    });
  });

  it("finds no difference between a batch and itself", () => {
    const rows = compareBatches(graph, MARCH, MARCH);
    expect(rows.length).toBeGreaterThan(20);
    expect(rows.filter(({ differs }) => differs)).toEqual([]);
  });

  it("calls a spirit other only beyond what a label may be off, both labels counted", () => {
    // A label may be 0.3 % vol off: u = 0.3 / √3, twice that for each of two labels is 0.49 % vol.
    const with_ = (strength: number): Batch => {
      const values = { ...MARCH.values, spiritStrength: strength };
      return { ...MARCH, values, planned: values };
    };
    expect(rowOf("spiritStrength", MARCH, with_(0.4045)).differs).toBe(false);
    expect(rowOf("spiritStrength", MARCH, with_(0.4055)).differs).toBe(true);
  });

  it("takes nothing for granted that both entered, that came from elsewhere, or that is not known here", () => {
    const having = (values: Batch["values"]): Batch => ({
      ...MARCH,
      values: { ...MARCH.values, ...values },
    });
    expect(rowOf("stints", having({ stints: 2 }), having({ stints: 4 }))).not.toHaveProperty(
      "assumed",
    );
    for (const id of ["heat-capacity.beakers", "moonPhase"]) {
      const row = rowOf(id, having({ [id]: 2 }), MARCH);
      expect(row).toMatchObject({ one: 2, other: undefined, differs: true });
      expect(row).not.toHaveProperty("assumed");
    }
  });

  it("tells two numbers apart that nothing puts in doubt, but not two sums of the same", () => {
    const having = (moonPhase: number | string): Batch => ({
      ...MARCH,
      values: { ...MARCH.values, moonPhase },
    });
    const differ = (one: number | string, other: number | string): boolean =>
      rowOf("moonPhase", having(one), having(other)).differs;
    expect(differ(0.1 + 0.2, 0.3)).toBe(false);
    expect(differ(0.3, 0.3001)).toBe(true);
    expect(differ(1e-12, 2e-12)).toBe(true);
    expect(differ(0, 1e-12)).toBe(true);
    expect(differ(1, "1")).toBe(true);
    expect(differ("full", 1)).toBe(true);
  });

  it("has each fact once, in order of the groups, with the step it comes from", () => {
    const rows = compareBatches(graph, MARCH, { ...EMPTY_BATCH, values: { stints: 2 } });
    const places = rows.map(({ group }) => FACT_GROUPS.indexOf(group));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(new Set(rows.map(({ id }) => id)).size).toBe(rows.length);
    for (const { id, from } of factsOf(graph, MARCH))
      expect(rows.find((row) => row.id === id)?.from, id).toBe(from);
  });

  it("shows both values in SI, and how to show them", () => {
    const april = {
      ...MARCH,
      log: LOG.slice(0, -1),
      planned: { ...MARCH.planned, batchVolume: 1e-3 },
    };
    expect(rowOf("batchVolume", MARCH, april)).toMatchObject({
      one: 0.5e-3,
      other: 1e-3,
      differs: true,
      of: { dimension: "volume" },
    });
  });

  it("counts as different what only one of them has", () => {
    const { log: _, ...plan } = MARCH;
    expect(rowOf("bottles", MARCH, plan)).toMatchObject({
      one: 5,
      other: undefined,
      differs: true,
    });
    expect(rowOf("bottles", plan, MARCH)).toMatchObject({
      one: undefined,
      other: 5,
      differs: true,
    });
  });

  it("compares texts letter by letter, and tables row by row", () => {
    const one = { ...MARCH, values: { heatReadings: [[0, 20, null, 1]] } };
    const other = { ...MARCH, notes: "soy", values: { heatReadings: [[0, 21, null, 1]] } };
    expect(rowOf("notes.notes", one, other).differs).toBe(true);
    expect(rowOf("heatReadings", one, other).differs).toBe(true);
    expect(rowOf("gear.scale", one, other).differs).toBe(false);
  });

  it("says the same either way round, and hides nothing", () => {
    fc.assert(
      fc.property(batches, batches, (one, other) => {
        const there = compareBatches(graph, one, other);
        const back = compareBatches(graph, other, one);
        const flags = (rows: readonly ComparedRow[]) =>
          new Map(rows.map(({ id, differs }) => [id, differs]));
        expect(flags(back)).toEqual(flags(there));
        const facts = [one, other].flatMap((batch) => factsOf(graph, batch));
        expect(new Set(there.map(({ id }) => id))).toEqual(new Set(facts.map(({ id }) => id)));
      }),
      { seed: 52, numRuns: 15 },
    );
  });
});
