import { describe, expect, it } from "vitest";
import { ETHANOL_DENSITY } from "../../../lib/laws/recipe.ts";
import { solveFor } from "../../../lib/calculations/solve.ts";
import { density, massFraction } from "../../../lib/substances/ethanol-water.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const MASSES = ["waterMass", "spiritMass", "ascorbicAcidMass", "lecithinMass"] as const;

describe("recipe", () => {
  it("doubles every mass with the batch", () => {
    const once = valuesOf("recipe", { batchVolume: 0.4e-3 });
    const twice = valuesOf("recipe", { batchVolume: 0.8e-3 });
    for (const name of [...MASSES, "totalMass", "ethanolMass"])
      expect(twice[name]! / once[name]!).toBeCloseTo(2, 12);
    expect(twice["density"]).toBeCloseTo(once["density"]!, 9);
  });

  it("asks for the same alcohol of any spirit, and for less spirit of a stronger one", () => {
    const weak = valuesOf("recipe", { spiritStrength: 0.375 });
    const strong = valuesOf("recipe", { spiritStrength: 0.96 });
    expect(strong["ethanolMass"]).toBeCloseTo(weak["ethanolMass"]!, 12);
    expect(strong["totalMass"]).toBeCloseTo(weak["totalMass"]!, 12);
    expect(strong["spiritMass"]).toBeLessThan(weak["spiritMass"]!);
    for (const [values, strength] of [
      [weak, 0.375],
      [strong, 0.96],
    ] as const)
      expect(values["spiritMass"]! * massFraction(strength)).toBeCloseTo(
        values["ethanolMass"]!,
        12,
      );
  });

  it("holds what was asked for in each litre", () => {
    const values = valuesOf("recipe", {
      batchVolume: 1e-3,
      alcoholStrength: 0.15,
      ascorbicAcidConcentration: 80,
      lecithinConcentration: 40,
    });
    expect(values["ethanolMass"]).toBeCloseTo(0.15e-3 * ETHANOL_DENSITY, 12);
    expect(values["ascorbicAcidMass"]).toBeCloseTo(0.08, 12);
    expect(values["lecithinMass"]).toBeCloseTo(0.04, 12);
  });

  it("without powders is plain watering down", () => {
    const plain = { ascorbicAcidConcentration: 0, lecithinConcentration: 0, batchVolume: 1e-3 };
    const recipe = valuesOf("recipe", { ...plain, spiritStrength: 0.7, alcoholStrength: 0.2 });
    expect(recipe["density"]).toBeCloseTo(density(massFraction(0.2), 20), 9);
    const dilution = valuesOf("dilution", {
      spiritStrength: 0.7,
      "dilution.targetStrength": 0.2,
      "dilution.finalVolume": 1e-3,
    });
    expect(recipe["waterMass"]).toBeCloseTo(dilution["waterMass"]!, 12);
    expect(recipe["spiritMass"]).toBeCloseTo(dilution["spiritMass"]!, 12);
  });

  it("needs no spirit without alcohol, whatever the spirit", () => {
    for (const spiritStrength of [0, 0.4, 1]) {
      const values = valuesOf("recipe", { spiritStrength, alcoholStrength: 0 });
      expect(values["spiritMass"]).toBe(0);
      expect(values["waterMass"]).toBeGreaterThan(0);
    }
  });

  it("uses no water at the strongest that the spirit allows, and no more than that", () => {
    const batch = { spiritStrength: 0.4, ascorbicAcidConcentration: 20 };
    const { strongestAlcohol } = valuesOf("recipe", batch);
    const at = valuesOf("recipe", { ...batch, alcoholStrength: strongestAlcohol! });
    expect(at["waterMass"]).toBeCloseTo(0, 9);
    const above = refusalsOf("recipe", {
      ...batch,
      alcoholStrength: strongestAlcohol! * (1 + 1e-9),
    });
    expect(above.map(({ input }) => input)).toEqual(["alcoholStrength"]);
  });

  it("says how strong the batch can be when the water would be less than nothing", () => {
    const [refused] = refusalsOf("recipe", { spiritStrength: 0.2, alcoholStrength: 0.3 });
    expect(refused?.input).toBe("alcoholStrength");
    expect(refused?.says).toMatch(/at most 1\d\.\d\d?\u00a0%\u00a0vol/);
  });

  it("speaks of the spirit when it holds no alcohol at all", () => {
    const [refused] = refusalsOf("recipe", { spiritStrength: 0, alcoholStrength: 0.1 });
    expect(refused?.input).toBe("alcoholStrength");
    expect(refused?.says).toContain("no alcohol in the spirit");
  });

  it.each([0, 0.2])(
    "refuses more acid than the liquid can hold at %d alcohol",
    (alcoholStrength) => {
      const [refused] = refusalsOf("recipe", {
        spiritStrength: 0.96,
        alcoholStrength,
        ascorbicAcidConcentration: 390,
      });
      expect(refused?.input).toBe("ascorbicAcidConcentration");
      expect(refused?.says).toMatch(/at most about \d/);
    },
  );

  it("warns of undissolved acid before it refuses", () => {
    const at = (c: number) =>
      cautionsOf("recipe", { alcoholStrength: 0, ascorbicAcidConcentration: c });
    expect(at(100)).not.toContain("undissolved");
    expect(at(250)).toContain("undissolved");
  });

  it("counts a beaker as full at two thirds, and starts another just beyond", () => {
    const beakers = (batchVolume: number) =>
      valuesOf("recipe", { batchVolume, beakerVolume: 0.75e-3 })["beakers"];
    expect(beakers(0.5e-3)).toBe(1);
    expect(beakers(0.5001e-3)).toBe(2);
    expect(beakers(1e-3)).toBe(2);
  });

  it("is unsure of the spirit by what its label may be off", () => {
    const { spiritMass } = evaluated("recipe", { spiritStrength: 0.4 }).values;
    const relative = (spiritMass!.high - spiritMass!.low) / 2 / spiritMass!.value;
    // 2 × 0.3/√3 % vol on 40 % vol, and a little more by mass than by volume.
    expect(relative).toBeGreaterThan((2 * 0.003) / Math.sqrt(3) / 0.4);
    expect(relative).toBeLessThan((2.3 * 0.003) / Math.sqrt(3) / 0.4);
  });

  it("finds the batch that a bag of acid makes", () => {
    const wanted = { result: "ascorbicAcidMass", value: 0.25 };
    const solved = solveFor(graph, "recipe", {}, wanted, "batchVolume");
    expect(solved.ok && solved.value).toBeCloseTo(2.5e-3, 12);
  });
});
