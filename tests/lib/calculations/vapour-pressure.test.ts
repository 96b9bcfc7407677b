import { describe, expect, it } from "vitest";
import { boilingPoint } from "../../../lib/substances/ethanol-water-vapour.ts";
import { saturationPressure } from "../../../lib/substances/water.ts";
import { evaluated, valuesOf } from "../../helpers/calculations.ts";

const at = (massFraction: number, temperature: number) => ({
  "vapour-pressure.solventMassFraction": massFraction,
  stageTemperature: temperature,
});

describe("vapour-pressure", () => {
  it("finds the air over 20 % mass at 40 °C half as rich again as what burns", () => {
    // The equation with these constants elsewhere: 5.1471 kPa, 5.0798 % of the air. computed
    const values = valuesOf("vapour-pressure", at(0.2, 40));
    expect(values["ethanolPressure"]).toBeCloseTo(5147.1, -1);
    expect(values["saturatedConcentration"]! / 0.033).toBeCloseTo(1.54, 2);
  });

  it("holds the measured total pressure of 30 °C at mole fraction 0.10991", () => {
    // Pemberton & Mash, J. Chem. Thermodyn. 10 (1978) 867: 7.329 kPa. seen
    const { values } = evaluated("vapour-pressure", at(0.23993, 30));
    expect(values["totalPressure"]!.low).toBeLessThan(7329);
    expect(values["totalPressure"]!.high).toBeGreaterThan(7329);
  });

  it("adds up, and parts as its composition says", () => {
    const v = valuesOf("vapour-pressure", at(0.35, 25));
    expect(v["ethanolPressure"]! + v["waterPressure"]!).toBeCloseTo(v["totalPressure"]!, 9);
    expect(v["vapourMoleFraction"]! * v["totalPressure"]!).toBeCloseTo(v["ethanolPressure"]!, 9);
    expect(v["moleFraction"]! * v["ethanolActivity"]! * v["pureEthanolPressure"]!).toBeCloseTo(
      v["ethanolPressure"]!,
      9,
    );
  });

  it("is no richer than the liquid at the azeotrope, and several times richer when weak", () => {
    // Perry's Handbook: 78.15 °C, mole fraction 0.8943. seen; the model's own lies 0.002 off.
    expect(valuesOf("vapour-pressure", at(0.9558, 78.15))["relativeVolatility"]).toBeCloseTo(1, 1);
    const weak = valuesOf("vapour-pressure", at(0.1, 30));
    const [x, y] = [weak["moleFraction"]!, weak["vapourMoleFraction"]!];
    expect(weak["relativeVolatility"]).toBeCloseTo((y / (1 - y)) * ((1 - x) / x), 9);
    expect(weak["relativeVolatility"]).toBeGreaterThan(8);
  });

  it("has no ethanol and all of water's pressure over a recipe without alcohol", () => {
    const v = valuesOf("vapour-pressure", { alcoholStrength: 0, stageTemperature: 40 });
    expect(v["ethanolPressure"]).toBe(0);
    expect(v["saturatedConcentration"]).toBe(0);
    expect(v["waterPressure"]).toBeCloseTo(saturationPressure(40), 9);
  });

  it("boils lower in thin air, and says when the air's share has no meaning", () => {
    const hot = { ...at(0.5, 85), airPressure: 70_000 };
    const v = valuesOf("vapour-pressure", hot);
    expect(v["boilingPoint"]).toBeLessThan(boilingPoint(0.281));
    expect(v).not.toHaveProperty("saturatedConcentration");
    expect(valuesOf("vapour-pressure", { ...at(0, 20), airPressure: 103_000 })).not.toHaveProperty(
      "boilingPoint",
    );
  });

  it("bounds what dissolved acid takes away, and counts it on the low side only", () => {
    const share = { ascorbicAcid: 0.0176, water: 0.1 };
    const batch = {
      ...at(0, 25),
      "vapour-pressure.ascorbicAcidMass": share.ascorbicAcid,
      "vapour-pressure.waterMass": share.water,
      "vapour-pressure.spiritMass": 0,
    };
    const { values } = evaluated("vapour-pressure", batch);
    // A mole of acid to 55.5 of water takes 1/56.5 of the pressure.
    expect(values["dissolvedEffect"]!.value).toBeCloseTo(0.1 / (0.1 + 5.551), 3);
    const none = evaluated("vapour-pressure", { ...batch, "vapour-pressure.ascorbicAcidMass": 0 });
    expect(none.values["waterPressure"]!.low).toBeGreaterThan(values["waterPressure"]!.low);
    expect(none.values["waterPressure"]!.high).toBe(values["waterPressure"]!.high);
  });

  it("gives no bound for more acid than dissolves", () => {
    const batch = { ...at(0.1, 25), "vapour-pressure.ascorbicAcidMass": 5 };
    expect(valuesOf("vapour-pressure", batch)).not.toHaveProperty("dissolvedEffect");
  });
});
