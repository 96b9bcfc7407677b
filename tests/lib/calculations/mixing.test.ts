import { describe, expect, it } from "vitest";
import { massFraction } from "../../../lib/substances/ethanol-water.ts";
import { valuesOf } from "../../helpers/calculations.ts";

const mixing = (volumeA: number, strengthA: number, volumeB: number, strengthB: number) =>
  valuesOf("mixing", { volumeA, strengthA, volumeB, strengthB });

describe("mixing", () => {
  it("does not mind which spirit comes first", () => {
    const one = mixing(0.2e-3, 0.7, 0.3e-3, 0.375);
    const other = mixing(0.3e-3, 0.375, 0.2e-3, 0.7);
    for (const name of ["volume", "strength", "massFraction", "contraction", "mixingRise"])
      expect(other[name]).toBeCloseTo(one[name]!, 12);
  });

  it("changes nothing when the two are the same spirit", () => {
    const values = mixing(0.2e-3, 0.4, 0.3e-3, 0.4);
    expect(values["strength"]).toBeCloseTo(0.4, 12);
    expect(values["volume"]).toBeCloseTo(0.5e-3, 12);
    expect(values["contraction"]).toBeCloseTo(0, 12);
    expect(values["mixingRise"]).toBeCloseTo(0, 9);
  });

  it("keeps all the alcohol: its volume is the same before and after", () => {
    const values = mixing(0.2e-3, 0.96, 0.3e-3, 0.1);
    expect(values["strength"]! * values["volume"]!).toBeCloseTo(0.2e-3 * 0.96 + 0.3e-3 * 0.1, 12);
  });

  it("puts the mixture between the two by mass, as the masses weigh", () => {
    const values = mixing(0.2e-3, 0.96, 0.3e-3, 0.1);
    const share = values["massA"]! / (values["massA"]! + values["massB"]!);
    expect(values["massFraction"]).toBeCloseTo(
      share * massFraction(0.96) + (1 - share) * massFraction(0.1),
      12,
    );
  });

  it("undoes dilution: spirit and its water give the volume and strength that were wanted", () => {
    const wanted = valuesOf("dilution", {
      spiritStrength: 0.96,
      "dilution.targetStrength": 0.35,
      "dilution.finalVolume": 1e-3,
    });
    const made = mixing(wanted["spiritVolume"]!, 0.96, wanted["waterVolume"]!, 0);
    expect(made["volume"]! / 1e-3).toBeCloseTo(1, 9);
    expect(made["strength"]).toBeCloseTo(0.35, 9);
    expect(made["mixingRise"]! / wanted["mixingRise"]!).toBeCloseTo(1, 6);
  });

  it("shrinks and warms when water meets strong spirit", () => {
    const values = mixing(0.5e-3, 0.96, 0.5e-3, 0);
    expect(values["contraction"]).toBeGreaterThan(0.02 * 1e-3);
    expect(values["mixingRise"]).toBeGreaterThan(3);
    expect(values["mixingRise"]).toBeLessThan(12);
  });
});
