import { describe, expect, it } from "vitest";
import { valuesOf } from "../../helpers/calculations.ts";

const GIVEN = {
  surroundings: "cold-water",
  stirring: "still",
  roomTemperature: 21,
  coldWaterTemperature: 14,
  cooledArea: 0.028,
  cooledWall: 1.5e-3,
  "surroundings.liquidMass": 0.56,
};

describe("surroundings", () => {
  it("adds three hindrances in a row", () => {
    const { coefficient, conductance } = valuesOf("surroundings", GIVEN);
    expect(1 / coefficient!).toBeCloseTo(1 / 300 + 0.0015 / 1.2 + 1 / 300, 12);
    expect(conductance).toBeCloseTo(coefficient! * 0.028, 12);
  });

  it("lies between the coefficients of free convection at 1 and at 20 K, left to stand", () => {
    // Churchill & Chu (1975) for a wall of 9 cm between two waters: 109 and 185 W/(m² K). computed
    const { coefficient } = valuesOf("surroundings", GIVEN);
    expect(coefficient).toBeGreaterThan(109);
    expect(coefficient).toBeLessThan(185);
  });

  it("in air is ruled by the air: glass and stirring do not matter", () => {
    const air = { ...GIVEN, surroundings: "air" };
    const still = valuesOf("surroundings", air)["coefficient"]!;
    const stirred = valuesOf("surroundings", { ...air, stirring: "stirred" })["coefficient"]!;
    const bare = valuesOf("surroundings", { ...air, cooledWall: 0 })["coefficient"]!;
    expect(stirred / still).toBeCloseTo(1, 1);
    expect(bare / still).toBeCloseTo(1, 1);
    expect(still).toBeLessThan(10);
  });

  it.each([
    ["air", 21],
    ["fridge", 5],
    ["cold-water", 14],
    ["iced-water", 0],
  ])("finds %s at %d °C", (surroundings, temperature) => {
    expect(valuesOf("surroundings", { ...GIVEN, surroundings })["temperature"]).toBe(temperature);
  });

  it("has a Biot number far above a tenth in water, for a liquid that stood still", () => {
    const { biot, depth, coefficient } = valuesOf("surroundings", GIVEN);
    expect(depth).toBeCloseTo(0.02, 12);
    // Water at 25 °C conducts 0.6065 W/(m K): IAPWS SR6-08 (2011). seen
    expect(biot).toBeCloseTo((coefficient! * 0.02) / 0.6065, 3);
    expect(biot).toBeGreaterThan(1);
  });
});
