import { describe, expect, it } from "vitest";
import { solveFor } from "../../../lib/calculations/solve.ts";
import { density, massFraction } from "../../../lib/substances/ethanol-water.ts";
import { graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const dilution = (spirit: number, target: number, volume = 1e-3, referenceTemperature = 20) =>
  valuesOf("dilution", {
    spiritStrength: spirit,
    "dilution.targetStrength": target,
    "dilution.finalVolume": volume,
    referenceTemperature,
  });

const CASES = [
  [0.96, 0.4],
  [0.7, 0.2],
  [0.5, 0.12],
  [0.4, 0.399],
  [1, 0.001],
] as const;

describe("dilution", () => {
  it.each(CASES)("balances mass and alcohol from %d to %d", (spirit, target) => {
    const values = dilution(spirit, target);
    const final = 1e-3 * density(massFraction(target), 20);
    expect(values["spiritMass"]! + values["waterMass"]!).toBeCloseTo(final, 12);
    const alcohol = values["spiritMass"]! * massFraction(spirit);
    expect(alcohol).toBeCloseTo(final * massFraction(target), 12);
    // By volume too: the alcohol of the spirit is the alcohol of the mixture.
    expect(values["spiritVolume"]! * spirit).toBeCloseTo(1e-3 * target, 12);
  });

  it.each(CASES)("asks for more water than the shortcut from %d to %d", (spirit, target) => {
    const values = dilution(spirit, target);
    expect(values["waterVolume"]).toBeGreaterThan(values["naiveWaterVolume"]!);
    expect(values["contraction"]).toBeCloseTo(
      values["waterVolume"]! - values["naiveWaterVolume"]!,
      12,
    );
  });

  it("doubles everything with the volume but the ratio and the warming", () => {
    const once = dilution(0.96, 0.4);
    const twice = dilution(0.96, 0.4, 2e-3);
    for (const name of ["spiritMass", "waterMass", "spiritVolume", "waterVolume", "contraction"])
      expect(twice[name]! / once[name]!).toBeCloseTo(2, 12);
    for (const name of ["waterPerHundred", "mixingRise"])
      expect(twice[name]! / once[name]!).toBeCloseTo(1, 12);
  });

  it("needs no water as the target nears the spirit", () => {
    expect(dilution(0.4, 0.4 - 1e-9)["waterMass"]).toBeCloseTo(0, 8);
  });

  it("takes a target one rounding below the spirit", () => {
    for (let spirit = 0.01; spirit < 1; spirit += 0.0137)
      expect(dilution(spirit, spirit * (1 - 2e-16))["waterMass"]).toBeGreaterThanOrEqual(0);
  });

  it("starts from the recipe, and then weighs the same water and spirit", () => {
    for (const referenceTemperature of [20, 140 / 9]) {
      const batch = { batchVolume: 0.75e-3, spiritStrength: 0.7, referenceTemperature };
      const recipe = valuesOf("recipe", batch);
      const linked = valuesOf("dilution", batch);
      expect(linked["waterMass"]! / recipe["waterMass"]!).toBeCloseTo(1, 9);
      expect(linked["spiritMass"]! / recipe["spiritMass"]!).toBeCloseTo(1, 9);
    }
  });

  it("finds the volume that a bottle of spirit makes", () => {
    const batch = { spiritStrength: 0.96, "dilution.targetStrength": 0.4 };
    const wanted = { result: "spiritVolume", value: 0.5e-3 };
    const solved = solveFor(graph, "dilution", batch, wanted, "finalVolume");
    expect(solved.ok && solved.value).toBeCloseTo((0.5e-3 * 0.96) / 0.4, 12);
  });

  it.each([0.4, 0.41, 1])(
    "refuses to make 40 %% vol into %d, and says how strong it is",
    (target) => {
      const [refused] = refusalsOf("dilution", {
        spiritStrength: 0.4,
        "dilution.targetStrength": target,
        "dilution.finalVolume": 1e-3,
      });
      expect(refused?.input).toBe("targetStrength");
      expect(refused?.says).toContain("40");
    },
  );

  it("refuses a spirit without alcohol by its own name", () => {
    const [refused] = refusalsOf("dilution", {
      spiritStrength: 0,
      "dilution.targetStrength": 0.1,
      "dilution.finalVolume": 1e-3,
    });
    expect(refused?.input).toBe("spiritStrength");
  });

  it("says what is missing upstream when the recipe has no answer", () => {
    const refused = refusalsOf("dilution", { spiritStrength: 0.05 });
    expect(refused.map(({ input }) => input)).toEqual(["targetStrength", "finalVolume"]);
    expect(refused[0]?.says).toContain("One recipe");
  });
});
