import { describe, expect, it } from "vitest";
import { solveFor } from "../../../lib/calculations/solve.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const PORTIONS = {
  "weighing.waterMass": 0.25,
  "weighing.spiritMass": 0.12,
  "weighing.ascorbicAcidMass": 0.05,
  "weighing.lecithinMass": 0.03,
};
const STEP_ALONE = { readability: 1e-3, repeatability: 0, linearity: 0 };

describe("weighing", () => {
  it("shows on the scale the sum of what went in so far", () => {
    const values = valuesOf("weighing", PORTIONS);
    expect(values["afterWater"]).toBeCloseTo(0.25, 12);
    expect(values["afterSpirit"]).toBeCloseTo(0.37, 12);
    expect(values["afterAscorbicAcid"]).toBeCloseTo(0.42, 12);
    expect(values["afterLecithin"]).toBeCloseTo(0.45, 12);
    expect(values["fullLoad"]).toBeCloseTo(0.75, 12);
  });

  it("starts from the recipe's masses", () => {
    const recipe = valuesOf("recipe", {});
    expect(valuesOf("weighing", {})["afterLecithin"]).toBeCloseTo(recipe["totalMass"]!, 12);
  });

  it("gives a reading d/√12 and a portion d/√6 with the display step alone", () => {
    const values = valuesOf("weighing", { ...PORTIONS, ...STEP_ALONE });
    expect(values["readingUncertainty"]).toBeCloseTo(1e-3 / Math.sqrt(12), 12);
    for (const portion of ["Water", "Spirit", "AscorbicAcid", "Lecithin"])
      expect(values[`uncertainty${portion}`]).toBeCloseTo(1e-3 / Math.sqrt(6), 12);
    expect(values["smallestPortion"]).toBeCloseTo(0.1 / Math.sqrt(6), 12);
  });

  it("adds step, repeatability and linearity in squares", () => {
    const values = valuesOf("weighing", {
      ...PORTIONS,
      readability: 1e-3,
      repeatability: 2e-3,
      linearity: 3e-3,
    });
    const u = Math.sqrt(1e-6 / 12 + 4e-6 + 9e-6 / 3);
    expect(values["readingUncertainty"]).toBeCloseTo(u, 12);
  });

  it("counts that neighbours share a reading: the acid's share is surer than its parts", () => {
    const values = valuesOf("weighing", { ...PORTIONS, ...STEP_ALONE });
    const u = 1e-3 / Math.sqrt(12);
    // share = m_a / m, m = R4 − R0, m_a = R3 − R2: four readings, each with u, none twice.
    const [acid, total] = [0.05, 0.45];
    const exact = Math.sqrt(2 / acid ** 2 + 2 / total ** 2) * u;
    expect(values["ascorbicAcidShareUncertainty"]).toBeCloseTo(exact, 12);
  });

  it("says that air carries about a thousandth of it all", () => {
    const values = valuesOf("weighing", PORTIONS);
    expect(values["buoyancyError"]! / 0.45).toBeCloseTo(0.00105, 5);
  });

  it("bands a reading by the scale, not by what the recipe was unsure of", () => {
    const { afterLecithin } = evaluated("weighing", { spiritStrength: 0.7 }).values;
    const { readingUncertainty } = valuesOf("weighing", { spiritStrength: 0.7 });
    expect(afterLecithin!.high - afterLecithin!.value).toBeCloseTo(2 * readingUncertainty!, 12);
  });

  it("gives no share where there is no acid", () => {
    const none = { ...PORTIONS, "weighing.ascorbicAcidMass": 0 };
    expect(evaluated("weighing", none).values["ascorbicAcidShareUncertainty"]).toBeNull();
  });

  it("calls the scale too coarse just below the smallest portion, and not at it", () => {
    const least = valuesOf("weighing", PORTIONS)["smallestPortion"]!;
    const acid = (mass: number) =>
      cautionsOf("weighing", { ...PORTIONS, "weighing.lecithinMass": mass });
    expect(acid(least)).not.toContain("coarse-scale");
    expect(acid(least * (1 - 1e-9))).toContain("coarse-scale");
    // Nothing of it is not too little of it.
    expect(acid(0)).not.toContain("coarse-scale");
  });

  it("warns when vessel and batch pass the scale's limit, and not at it", () => {
    const at = (scaleCapacity: number) => cautionsOf("weighing", { ...PORTIONS, scaleCapacity });
    const { fullLoad } = valuesOf("weighing", PORTIONS);
    expect(at(fullLoad!)).not.toContain("scale-capacity");
    expect(at(fullLoad! * (1 - 1e-9))).toContain("scale-capacity");
  });

  it("finds the readability that weighs 1 g to 1 %", () => {
    const wanted = { result: "smallestPortion", value: 1e-3 };
    const batch = { ...PORTIONS, repeatability: 0, linearity: 0 };
    const solved = solveFor(graph, "weighing", batch, wanted, "readability");
    expect(solved.ok && solved.value).toBeCloseTo(1e-5 * Math.sqrt(6), 12);
  });

  it("refuses to weigh nothing", () => {
    const nothing = Object.fromEntries(Object.keys(PORTIONS).map((key) => [key, 0]));
    expect(refusalsOf("weighing", nothing).map(({ input }) => input)).toEqual(["waterMass"]);
  });
});
