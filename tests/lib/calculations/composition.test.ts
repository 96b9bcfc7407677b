import { describe, expect, it } from "vitest";
import fc from "fast-check";
import { evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const TARGETS = [
  "batchVolume",
  "alcoholStrength",
  "ascorbicAcidConcentration",
  "lecithinConcentration",
] as const;

describe("composition", () => {
  it("gives the recipe's targets back, whatever they are", () => {
    const share = (least: number, most: number) =>
      fc.integer({ min: 0, max: 1000 }).map((x) => least + ((most - least) * x) / 1000);
    fc.assert(
      fc.property(
        fc.record({
          batchVolume: share(50e-6, 10e-3),
          spiritStrength: share(0.2, 1),
          alcoholStrength: share(0, 0.5),
          ascorbicAcidConcentration: share(0, 200),
          lecithinConcentration: share(0, 200),
          referenceTemperature: share(10, 30),
          ascorbicAcidSpecificVolume: share(0.5e-3, 0.7e-3),
          lecithinSpecificVolume: share(0.9e-3, 1.1e-3),
        }),
        (batch) => {
          fc.pre(graph.run("recipe", batch) !== null);
          const back = valuesOf("composition", batch);
          for (const name of TARGETS)
            expect(Math.abs(back[name]! - batch[name])).toBeLessThanOrEqual(
              1e-9 * Math.max(batch[name], 1e-6),
            );
          const recipe = valuesOf("recipe", batch);
          expect(back["totalMass"]! / recipe["totalMass"]!).toBeCloseTo(1, 9);
          expect(back["density"]! / recipe["density"]!).toBeCloseTo(1, 9);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });

  it("is of one strength whatever the size", () => {
    const masses = (factor: number) => ({
      "composition.waterMass": 0.25 * factor,
      "composition.spiritMass": 0.12 * factor,
      "composition.ascorbicAcidMass": 0.05 * factor,
      "composition.lecithinMass": 0.03 * factor,
    });
    const once = valuesOf("composition", masses(1));
    const thrice = valuesOf("composition", masses(3));
    expect(thrice["batchVolume"]! / once["batchVolume"]!).toBeCloseTo(3, 12);
    for (const name of TARGETS.slice(1)) expect(thrice[name]).toBeCloseTo(once[name]!, 12);
  });

  it("gets weaker in everything when more water goes in", () => {
    const recipe = valuesOf("recipe", {});
    const more = valuesOf("composition", { "composition.waterMass": recipe["waterMass"]! + 0.05 });
    const as = valuesOf("composition", {});
    for (const name of TARGETS.slice(1)) expect(more[name]).toBeLessThan(as[name]!);
  });

  it("takes the masses as they are: the recipe's doubts do not widen it", () => {
    const linked = evaluated("composition", {}).values["ascorbicAcidConcentration"]!;
    const { waterMass, spiritMass, ascorbicAcidMass, lecithinMass } = valuesOf("recipe", {});
    const typed = evaluated("composition", {
      "composition.waterMass": waterMass!,
      "composition.spiritMass": spiritMass!,
      "composition.ascorbicAcidMass": ascorbicAcidMass!,
      "composition.lecithinMass": lecithinMass!,
    }).values["ascorbicAcidConcentration"]!;
    expect(linked.high).toBeCloseTo(typed.high, 9);
    expect(linked.low).toBeCloseTo(typed.low, 9);
  });

  it("refuses powders without a liquid", () => {
    const refused = refusalsOf("composition", {
      "composition.waterMass": 0,
      "composition.spiritMass": 0,
    });
    expect(refused.map(({ input }) => input)).toEqual(["waterMass"]);
  });
});
