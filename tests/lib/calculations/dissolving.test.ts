import { describe, expect, it } from "vitest";
import { ascorbicAcidSolubility } from "../../../lib/substances/ascorbic-acid.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const at = (acid: number, solvent: number, massFraction = 0, temperature = 20) => ({
  "dissolving.ascorbicAcidMass": acid,
  "dissolving.solventMass": solvent,
  "dissolving.solventMassFraction": massFraction,
  dissolvingTemperature: temperature,
});

describe("dissolving", () => {
  // Merck Index, 1 g in about 3 mL of water, 30 mL of 95 % alcohol, 50 mL of absolute alcohol. seen (in reprints)
  it.each([
    ["water", 3 * 0.998, 0],
    ["95 % alcohol", 30 * 0.8114, 0.9242],
    ["absolute alcohol", 50 * 0.7893, 1],
  ])("holds the handbook's gram in %s within its band", (_, grams, massFraction) => {
    const { values } = evaluated("dissolving", at(1e-3, grams / 1000, massFraction));
    expect(values["saturated"]!.low).toBeLessThan(1);
    expect(values["saturated"]!.high).toBeGreaterThan(1);
    expect(values["dissolves"]).toBeNull();
  });

  it("starts from the recipe, and takes its masses as weighed", () => {
    const recipe = valuesOf("recipe", {});
    const { values } = evaluated("dissolving", {});
    expect(values["used"]!.value).toBeCloseTo(
      recipe["ascorbicAcidMass"]! / recipe["solventMass"]!,
      12,
    );
    expect(values["used"]!.high).toBe(values["used"]!.value);
    expect(values["dissolves"]!.value).toBe(1);
  });

  it("holds in proportion to the solvent, and uses in proportion to the acid", () => {
    const one = valuesOf("dissolving", at(0.02, 0.2, 0.1));
    const two = valuesOf("dissolving", at(0.04, 0.4, 0.1));
    expect(two["mostAcid"]! / one["mostAcid"]!).toBeCloseTo(2, 12);
    expect(two["saturated"]).toBeCloseTo(one["saturated"]!, 12);
    expect(
      valuesOf("dissolving", at(0.04, 0.2, 0.1))["saturated"]! / one["saturated"]!,
    ).toBeCloseTo(2, 12);
  });

  it("steps along a straight line of logarithms between its ends", () => {
    const { saturation, inWater, inAlcohol } = valuesOf("dissolving", at(0.02, 0.2, 0.3));
    expect(saturation).toBeCloseTo(inWater! ** 0.7 * inAlcohol! ** 0.3, 12);
  });

  it("moves only the edge that warmth or cold makes unsure", () => {
    const saturation = (temperature: number) =>
      evaluated("dissolving", at(0.02, 0.2, 0.1, temperature)).values["saturation"]!;
    expect(saturation(4).value).toBe(saturation(20).value);
    expect(saturation(4).high).toBe(saturation(20).high);
    expect(saturation(4).low).toBeLessThan(saturation(20).low);
    expect(saturation(45).low).toBe(saturation(20).low);
    expect(saturation(45).high).toBeGreaterThan(saturation(20).high);
  });

  it("warns from the low edge of the band on, in other words past the high one, and not before", () => {
    const { low, high } = ascorbicAcidSolubility(0.2, 10);
    const edge = (perKilogram: number) => at(0.4 * perKilogram, 0.4, 0.2, 10);
    expect(cautionsOf("dissolving", edge(low * (1 - 1e-9)))).toEqual([]);
    expect(cautionsOf("dissolving", edge(low * (1 + 1e-9)))).toEqual(["undissolved"]);
    const says = (perKilogram: number) =>
      evaluated("dissolving", edge(perKilogram))
        .cautions.flatMap(({ say }) => say)
        .join("");
    expect(says(high * (1 - 1e-9))).toMatch(/^The acid may not all dissolve/);
    expect(valuesOf("dissolving", edge(high * (1 + 1e-9)))["dissolves"]).toBe(0);
    expect(says(high * (1 + 1e-9))).toMatch(/^Some of the acid will not dissolve/);
  });

  it("lists the fridge, the room, the warm liquid and the reader's own, coldest first", () => {
    const [table] = graph.get("dissolving").tables!;
    const rows = (temperature: number) =>
      table!.rows(evaluated("dissolving", at(0.05, 0.4, 0.1, temperature)).inputs as never);
    expect(rows(20).map(([t]) => t)).toEqual([4, 20, 40]);
    expect(rows(10).map(([t]) => t)).toEqual([4, 10, 20, 40]);
    // 0.125 kg/kg: between the edges in the fridge, below them in the room.
    expect(rows(20).map((row) => table!.columns[4]!.words![row[4]!])).toEqual([
      "too close to tell",
      "all of it",
      "all of it",
    ]);
    const { low, high } = ascorbicAcidSolubility(0.1, 4);
    expect(rows(20)[0]!.slice(1, 4)).toEqual([low, high, 0.05 / 0.4]);
    const heaped = evaluated("dissolving", at(0.24, 0.4, 0.1)).inputs as never;
    expect(table!.rows(heaped).map((row) => row[4])).toEqual([0, 0, 2]);
  });

  it.each([
    ["ascorbicAcidMass", at(-0.01, 0.4)],
    ["ascorbicAcidMass", at(20.1, 0.4)],
    ["solventMass", at(0.05, 0)],
    ["solventMassFraction", at(0.05, 0.4, 1.01)],
    ["temperature", at(0.05, 0.4, 0.1, -0.1)],
    ["temperature", at(0.05, 0.4, 0.1, 50.1)],
  ])("refuses by the name of %s", (input, batch) => {
    expect(refusalsOf("dissolving", batch).map((refusal) => refusal.input)).toEqual([input]);
  });
});
