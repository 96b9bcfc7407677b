import { describe, expect, it } from "vitest";
import { evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const WATER = {
  bubbleDiameter: 1e-4,
  dispersionViscosity: 1.002e-3,
  "bubble-rise.liquidDensity": 998.2,
  bubbleDepth: 0.1,
  bubbleSurface: "rigid",
};

describe("bubble-rise", () => {
  it("creeps as Stokes says, and no further than Re 1", () => {
    // Stokes (1851). computed: 5.421 mm/s at 0.1 mm; Re is 1 at 122.8 µm.
    expect(valuesOf("bubble-rise", WATER)["creepingSpeed"]! * 1e3).toBeCloseTo(5.421, 3);
    const at = (bubbleDiameter: number) => valuesOf("bubble-rise", { ...WATER, bubbleDiameter });
    expect(at(122.7e-6)["creepingSpeed"]).toBeDefined();
    expect(at(122.9e-6)["creepingSpeed"]).toBeUndefined();
  });

  it("rises as a rigid sphere of 0.2 mm does", () => {
    // Schiller & Naumann (1933). computed: 16.231 mm/s
    const values = valuesOf("bubble-rise", { ...WATER, bubbleDiameter: 2e-4 });
    expect(values["speed"]! * 1e3).toBeCloseTo(16.231, 2);
    expect(values["time"]).toBeCloseTo(0.1 / values["speed"]!, 12);
  });

  it("goes half as fast again where the surface is mobile, if small", () => {
    const small = { ...WATER, bubbleDiameter: 5e-6 };
    const mobile = valuesOf("bubble-rise", { ...small, bubbleSurface: "mobile" })["speed"]!;
    expect(mobile / valuesOf("bubble-rise", small)["speed"]!).toBeCloseTo(1.5, 2);
  });

  it("balances weight and drag: the equation with its own numbers gives the speed", () => {
    const { speed, dragCoefficient } = valuesOf("bubble-rise", WATER);
    const driven = (4 * 9.80665 * 1e-4 * (998.2 - 1.2)) / (3 * dragCoefficient! * 998.2);
    expect(Math.sqrt(driven)).toBeCloseTo(speed!, 12);
  });

  it("takes the recipe’s density", () => {
    expect(evaluated("bubble-rise", {}).origins["liquidDensity"]).toEqual({
      calculation: "recipe",
      result: "density",
    });
  });

  it("refuses a bubble that wobbles, and says how wide one may be", () => {
    const [refusal] = refusalsOf("bubble-rise", {
      ...WATER,
      bubbleDiameter: 1e-3,
      bubbleSurface: "mobile",
    });
    expect(refusal?.input).toBe("bubbleDiameter");
    expect(refusal?.says).toMatch(/wobbles.*type \d+\sµm or less/);
  });

  it("is a time of its own for each width in its table, none where no formula holds", () => {
    const rows = graph.get("bubble-rise").tables![0]!.rows({
      bubbleDiameter: 1e-4,
      viscosity: 1.002e-3,
      liquidDensity: 998.2,
      depth: 0.1,
      surface: "rigid",
    } as never);
    expect(rows).toHaveLength(5);
    const rigid = rows.map(([, time]) => time!);
    expect(rigid[0]! / rigid[1]!).toBeCloseTo(9, 0);
    expect(rows.at(-1)![2]).toBeNull();
  });
});
