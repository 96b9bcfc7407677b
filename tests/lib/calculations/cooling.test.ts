import { describe, expect, it } from "vitest";
import { figureData } from "../../../components/figure/data.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const GIVEN = {
  coolStart: 32,
  coolTarget: 22,
  "cooling.surroundTemperature": 12,
  "cooling.conductance": 5,
  coldWaterTemperature: 12,
  coolingWater: 1.5e-3,
  iceTemperature: 0,
  "cooling.liquidMass": 0.5,
  "cooling.heatCapacity": 4000,
  "cooling.vesselHeatCapacity": 250,
};

describe("cooling", () => {
  it("halves a gap in 0.693 time constants", () => {
    const values = valuesOf("cooling", GIVEN);
    expect(values["timeConstant"]).toBeCloseTo(450, 9);
    expect(values["time"]).toBeCloseTo(450 * Math.LN2, 9);
    expect(values["halfTime"]).toBeCloseTo(values["time"]!, 9);
  });

  it("takes as long for 10 to 5 K above as for 2 to 1 K", () => {
    const time = (coolStart: number, coolTarget: number): number =>
      valuesOf("cooling", { ...GIVEN, coolStart, coolTarget })["time"]!;
    expect(time(22, 17)).toBeCloseTo(time(14, 13), 9);
  });

  it("needs the ice of a question page for half a litre from 32 °C", () => {
    // 500 mL of water from 32 to 0 °C, 4.184 J/(g K), 334 J/g: 200 g. seen
    const values = valuesOf("cooling", {
      ...GIVEN,
      coolTarget: 0,
      "cooling.surroundTemperature": -5,
      "cooling.heatCapacity": 4184,
      "cooling.vesselHeatCapacity": 0,
    });
    expect(values["iceMass"]).toBeCloseTo(0.2004, 3);
  });

  it("counts heat once: what leaves the beaker warms the water or melts the ice", () => {
    const values = valuesOf("cooling", GIVEN);
    expect(values["heat"]).toBeCloseTo(22_500, 9);
    expect(values["waterRise"]! * values["waterHeatCapacity"]!).toBeCloseTo(22_500, 6);
    expect(values["iceMass"]! * 333_550).toBeCloseTo(22_500, 6);
    expect(values["waterIceMass"]! * 333_550).toBeCloseTo(values["waterHeatCapacity"]! * 12, 6);
  });

  it("melts less of a colder ice, and none for water at 0 °C", () => {
    const cold = valuesOf("cooling", { ...GIVEN, iceTemperature: -18 });
    expect(cold["iceMass"]).toBeCloseTo(22_500 / (333_550 + 2110 * 18), 9);
    expect(valuesOf("cooling", { ...GIVEN, coldWaterTemperature: 0 })["waterIceMass"]).toBe(0);
  });

  it("warms too, and then asks for no ice", () => {
    const { values } = evaluated("cooling", { ...GIVEN, coolStart: 4, coolTarget: 8 });
    expect(values["time"]?.value).toBeCloseTo(450 * Math.LN2, 9);
    expect(values["heat"]?.value).toBeLessThan(0);
    expect(values["iceMass"]).toBeNull();
    expect(values["waterRise"]).toBeNull();
  });

  it("takes no time to where it is", () => {
    expect(valuesOf("cooling", { ...GIVEN, coolTarget: 32 })["time"]).toBe(0);
  });

  it.each([
    [12, /never bring it/],
    [11, /never bring it/],
    [33, /the other way/],
  ])("refuses a target of %d °C in plain words", (coolTarget, words) => {
    const [refusal] = refusalsOf("cooling", { ...GIVEN, coolTarget });
    expect(refusal?.input).toBe("targetTemperature");
    expect(refusal?.says).toMatch(words);
  });

  it("starts from the place that was chosen", () => {
    for (const surroundings of ["air", "fridge", "cold-water", "iced-water"]) {
      const place = valuesOf("surroundings", { surroundings });
      const { inputs } = evaluated("cooling", { surroundings, coolTarget: 24 });
      expect(inputs["conductance"]).toBe(place["conductance"]);
      expect(inputs["surroundTemperature"]).toBe(place["temperature"]);
    }
  });

  it("marks its curve where half, a quarter and an eighth of the gap are left", () => {
    const drawn = figureData(
      graph,
      graph.get("cooling"),
      "curve",
      evaluated("cooling", GIVEN),
      GIVEN,
    );
    if (!("lines" in drawn)) throw new Error("a curve was expected");
    expect(drawn.marks?.map(({ y }) => y)).toEqual([22, 17, 14.5].map((y) => expect.closeTo(y, 9)));
  });
});

describe("cautions of cooling", () => {
  it("speak of glass where the step into water is more than 40 K, and not in air", () => {
    const at = (coolStart: number, conductance = 5): readonly string[] =>
      cautionsOf("cooling", { ...GIVEN, coolStart, "cooling.conductance": conductance });
    expect(at(52.01)).toContain("glass");
    expect(at(52)).not.toContain("glass");
    expect(at(60, 1)).not.toContain("glass");
    expect(at(60, 1.01)).toContain("glass");
  });

  it("do so at a step that a whole beaker bears at worst, and the glass of jars may not", () => {
    const at = (glass: string) => evaluated("thermal-stress", { glass, temperatureStep: 40 });
    const worst = (glass: string): number => at(glass).values["largestTension"]!.high;
    const allowed = Number(at("soda-lime").inputs["permissibleStress"]);
    expect(worst("borosilicate-3.3")).toBeLessThan(allowed);
    expect(worst("soda-lime")).toBeGreaterThan(allowed);
  });

  it("speak of scalds above 44 °C", () => {
    expect(cautionsOf("cooling", { ...GIVEN, coolStart: 44.01 })).toContain("scald-and-burns");
    expect(cautionsOf("cooling", { ...GIVEN, coolStart: 44 })).not.toContain("scald-and-burns");
  });
});
