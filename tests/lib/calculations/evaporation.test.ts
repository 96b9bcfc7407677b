import { describe, expect, it } from "vitest";
import { flashPoint } from "../../../lib/laws/flash-point.ts";
import { massFraction, strength } from "../../../lib/substances/ethanol-water.ts";
import { cautionsOf, evaluated, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BEAKER = {
  "evaporation.liquidMass": 0.45,
  "evaporation.solventMassFraction": 0.2,
  "evaporation.liquidTemperature": 40,
  roomTemperature: 25,
  openArea: 60e-4,
  freeboard: 0.03,
  cover: "open",
  "evaporation.time": 1800,
  relativeHumidity: 0.5,
  airSpeed: 0,
  airPressure: 101_325,
  spiritStrength: 0.5,
};

describe("evaporation", () => {
  it("brackets what half an hour takes from a warm open beaker", () => {
    // Horizontal surface facing up, Sh = 0.54 Ra^¼ (Incropera & DeWitt), first rate held: 4.0189 g; through
    // 3 cm of still air 0.46123 g, less with the air over the rim. computed
    const v = valuesOf("evaporation", BEAKER);
    expect(v["ethanolLossHigh"]).toBeGreaterThan(3.7e-3);
    expect(v["ethanolLossHigh"]).toBeLessThan(4.0189e-3);
    expect(v["ethanolLossLow"]).toBeGreaterThan(0.15e-3);
    expect(v["ethanolLossLow"]).toBeLessThan(0.46123e-3);
    expect(v["strengthAfterLow"]).toBeCloseTo(strength(0.19399), 3);
    expect(v["strengthBefore"]).toBeCloseTo(strength(0.2), 12);
  });

  it("is stopped by film: milligrams an hour through 1 mm", () => {
    // Brown & Escombe (1900): 4.2341 mg through a hole in a thin film. computed
    const film = {
      ...BEAKER,
      cover: "film",
      holeDiameter: 1e-3,
      holes: 1,
      "evaporation.time": 3600,
    };
    const v = valuesOf("evaporation", film);
    expect(v["ethanolLossLow"]).toBeGreaterThan(3.8e-6);
    expect(v["ethanolLossHigh"]).toBeLessThan(10e-6);
    const open = valuesOf("evaporation", { ...film, cover: "open" });
    expect(v["ethanolLossHigh"]! / open["ethanolLossHigh"]!).toBeLessThan(0.01);
  });

  it("loses nothing under a lid, and nothing in no time", () => {
    for (const still of [{ cover: "closed" }, { "evaporation.time": 0 }]) {
      const v = valuesOf("evaporation", { ...BEAKER, ...still });
      expect(v["ethanolLossHigh"]).toBe(0);
      expect(v["topUp"]).toBe(0);
      expect(v["strengthAfterLow"]).toBeCloseTo(strength(0.2), 9);
    }
  });

  it("keeps its ends in order where a cold liquid takes up water", () => {
    const v = valuesOf("evaporation", {
      ...BEAKER,
      "evaporation.liquidTemperature": 5,
      relativeHumidity: 1,
    });
    expect(v["waterLossLow"]).toBeLessThan(v["waterLossHigh"]!);
    expect(v["waterLossLow"]).toBeLessThan(0);
    expect(v["ethanolLossLow"]).toBeLessThan(v["ethanolLossHigh"]!);
  });

  it("brings back the middle of the range with spirit, and the range with its band", () => {
    const { values: v } = evaluated("evaporation", BEAKER);
    const spirit = massFraction(0.5, 20);
    const middle = (v["ethanolLossLow"]!.value + v["ethanolLossHigh"]!.value) / 2;
    expect(v["topUp"]!.value * spirit).toBeCloseTo(middle, 12);
    expect(v["topUp"]!.low * spirit).toBeLessThan(v["ethanolLossLow"]!.value);
    expect(v["topUp"]!.high * spirit).toBeGreaterThan(v["ethanolLossHigh"]!.value);
    expect(valuesOf("evaporation", { ...BEAKER, spiritStrength: 0 })).not.toHaveProperty("topUp");
  });

  it("has no strength to tell of where the last drop may be gone", () => {
    const days = { ...BEAKER, "evaporation.liquidMass": 0.01, "evaporation.time": 6 * 86_400 };
    const { values } = evaluated("evaporation", { ...days, airSpeed: 1 });
    expect(values["strengthAfterLow"]).toBeNull();
  });

  it("finds the air over a warm weak mixture lighter than the room's and over a cool strong one heavier", () => {
    expect(valuesOf("evaporation", BEAKER)["surfaceAirRatio"]).toBeLessThan(1);
    const strong = {
      ...BEAKER,
      "evaporation.solventMassFraction": 0.8,
      "evaporation.liquidTemperature": 20,
    };
    expect(valuesOf("evaporation", strong)["surfaceAirRatio"]).toBeGreaterThan(1);
  });

  it("answers for a recipe without alcohol", () => {
    const v = valuesOf("evaporation", { alcoholStrength: 0, cover: "open" });
    expect(v["ethanolLossHigh"]).toBe(0);
    expect(v["strengthAfterHigh"]).toBe(0);
    expect(v["waterLossHigh"]).toBeGreaterThan(0);
  });

  it("refuses a liquid that all but boils, and more hole than film", () => {
    const hot = {
      ...BEAKER,
      "evaporation.solventMassFraction": 0.9,
      "evaporation.liquidTemperature": 85,
    };
    expect(refusalsOf("evaporation", hot)).toEqual([
      { input: "liquidTemperature", says: expect.stringMatching(/type 7\d.* or less/) as string },
    ]);
    const holed = { ...BEAKER, cover: "film", holeDiameter: 0.02, holes: 100 };
    expect(refusalsOf("evaporation", holed)).toEqual([
      { input: "holeDiameter", says: expect.stringMatching(/less than 8\.7/) as string },
    ]);
  });

  it("warns of an open beaker past the low end of its flash point, not before and not under film", () => {
    const edge = flashPoint(0.2)!.low;
    expect(cautionsOf("evaporation", { ...BEAKER, "evaporation.liquidTemperature": edge })).toEqual(
      [],
    );
    expect(
      cautionsOf("evaporation", { ...BEAKER, "evaporation.liquidTemperature": edge + 0.01 }),
    ).toEqual(["flammable"]);
    const film = { ...BEAKER, cover: "film", "evaporation.liquidTemperature": edge + 5 };
    expect(cautionsOf("evaporation", film)).toEqual([]);
    expect(cautionsOf("evaporation", { alcoholStrength: 0, cover: "open" })).toEqual([]);
  });
});
