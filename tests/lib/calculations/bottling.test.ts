import { describe, expect, it } from "vitest";
import { figureData } from "../../../components/figure/data.ts";
import { BOTTLING_LIMITS } from "../../../lib/laws/bottling.ts";
import { density, massFraction } from "../../../lib/substances/ethanol-water.ts";
import { LEAST_HEADSPACE } from "../../../lib/calculations/bottling.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATCH = {
  "bottling.batchVolume": 0.5e-3,
  "bottling.foamLiquid": 16e-6,
  spilledVolume: 4e-6,
  bottleVolume: 0.1e-3,
  fillShare: 0.95,
};

describe("bottling", () => {
  it("fills whole bottles and gives the last one the rest", () => {
    // By hand: 480 mL into bottles of 100 mL, 95 mL each.
    const values = valuesOf("bottling", BATCH);
    expect(values["bottles"]).toBe(5);
    expect(values["fillings"]).toBeCloseTo(480 / 95, 9);
    expect(values["fillVolume"]).toBeCloseTo(95e-6, 12);
    expect(values["headspaceVolume"]).toBeCloseTo(5e-6, 12);
    expect(values["lastVolume"]).toBeCloseTo(5e-6, 12);
    expect(values["lastHeadspaceVolume"]).toBeCloseTo(95e-6, 12);
  });

  it("says how near the count is to one more, and leaves the count whole", () => {
    const { bottles, fillings } = evaluated("bottling", BATCH).values;
    expect(bottles).toEqual({ value: 5, low: 5, high: 5 });
    expect(fillings!.low).toBeLessThan(5);
    expect(fillings!.high).toBeGreaterThan(fillings!.value);
  });

  it("has no last bottle where the batch comes out even", () => {
    const even = { ...BATCH, spilledVolume: 9e-6 };
    expect(valuesOf("bottling", even)).toMatchObject({
      bottles: 5,
      lastVolume: 0,
      lastHeadspaceVolume: 0,
    });
  });

  it("follows what was really weighed in", () => {
    const planned = valuesOf("bottling", {});
    const more = valuesOf("bottling", { "composition.waterMass": 0.4 });
    expect(more["fillings"]).toBeGreaterThan(planned["fillings"]!);
  });

  it("counts the liquid in the foam that is skimmed, once it was noted too", () => {
    const { bottling, skimming } = {
      bottling: evaluated("bottling", { skimmedVolume: 0.1e-3 }),
      skimming: valuesOf("skimming", { skimmedVolume: 0.1e-3 }),
    };
    expect(bottling.inputs["foamLiquid"]).toBeCloseTo(skimming["lostVolume"]!, 12);
    expect(bottling.values["fillings"]!.value).toBeLessThan(
      valuesOf("bottling", { skimmedVolume: 0 })["fillings"]!,
    );
  });

  it("refuses to lose more than there is", () => {
    expect(valuesOf("bottling", { ...BATCH, spilledVolume: 0.484e-3 })["bottles"]).toBe(0);
    const refused = refusalsOf("bottling", { ...BATCH, spilledVolume: 0.485e-3 });
    expect(refused).toMatchObject([
      { input: "spilledVolume", says: expect.stringMatching(/16.mL .* more than the 500.mL/) },
    ]);
  });

  it.each([
    ["bottleVolume", BOTTLING_LIMITS.bottleVolume],
    ["fillShare", BOTTLING_LIMITS.fillShare],
  ] as const)("takes a %s up to its ends and refuses what lies beyond", (name, { min, max }) => {
    for (const value of [min, max])
      expect(refusalsOf("bottling", { ...BATCH, [name]: value })).toEqual([]);
    for (const value of [min * 0.99, max * 1.01, Number.NaN])
      expect(refusalsOf("bottling", { ...BATCH, [name]: value })).toMatchObject([{ input: name }]);
  });

  it("warns of a bottle with no room to grow in, and not before", () => {
    expect(cautionsOf("bottling", { ...BATCH, fillShare: 0.981 })).toEqual(["storage"]);
    expect(cautionsOf("bottling", { ...BATCH, fillShare: 0.979 })).toEqual([]);
  });

  it("leaves room for what a drink grows by between fridge and a hot day", () => {
    // The density formula of OIML R 22. computed
    const growth = (strength: number) => {
      const w = massFraction(strength);
      return density(w, 4) / density(w, 40) - 1;
    };
    expect(growth(0.12)).toBeLessThan(LEAST_HEADSPACE / 1.9);
    expect(growth(0.29)).toBeLessThan(LEAST_HEADSPACE);
  });

  it("draws the air of the last bottle down to nothing where sizes come out even", () => {
    const data = figureData(
      graph,
      graph.get("bottling"),
      "air-by-size",
      evaluated("bottling", BATCH),
      BATCH,
    );
    if (!("lines" in data)) throw new Error("a curve was expected");
    expect(data.marks?.[0]?.x).toBe(0.1e-3);
    expect(data.marks?.[0]?.y).toBeCloseTo(95e-6, 12);
    const air = (data.lines[0]?.points ?? []).map(([, y]) => y);
    // Larger than the batch: one bottle, with the rest of it air.
    expect(air.at(-1)).toBeGreaterThan(0);
    expect(Math.max(...air)).toBeGreaterThan(10 * Math.min(...air));
  });
});
