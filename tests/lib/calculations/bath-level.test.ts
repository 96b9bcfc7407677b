import { describe, expect, it } from "vitest";
import { cautionsOf, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATCH = {
  bathLength: 0.3,
  bathWidth: 0.15,
  bathHeight: 0.15,
  waterDepth: 0.1,
  leastDepth: 0.08,
  rimClearance: 0.03,
  vesselDiameter: 0.1,
  vesselHeight: 0.14,
  immersion: 0.08,
  beakersInBath: 1,
  wallClearanceLeast: 0.02,
  floorClearanceLeast: 0.02,
};
const with_ = (moved: object) => ({ ...BATCH, ...moved });

describe("bath-level", () => {
  it("has water and beaker meet: what the level rises the beaker need not go down", () => {
    const { levelRise, lowering, newDepth, floorClearance } = valuesOf("bath-level", BATCH);
    expect(levelRise! + lowering!).toBeCloseTo(0.08, 12);
    expect(newDepth).toBeCloseTo(0.1 + levelRise!, 12);
    expect(floorClearance).toBeCloseTo(0.1 - lowering!, 12);
  });

  it("pours in what gives the wanted level, and its own offer does so", () => {
    const { waterToFill, depthToFill } = valuesOf("bath-level", BATCH);
    expect(waterToFill).toBeCloseTo(0.045 * 0.12 - (Math.PI / 4) * 0.01 * 0.08, 12);
    const again = valuesOf("bath-level", with_({ waterDepth: depthToFill }));
    expect(again["newDepth"]).toBeCloseTo(0.12, 12);
    expect(again["bathWater"]).toBeCloseTo(waterToFill!, 12);
    const offer = graph.get("bath-level").offers?.[0];
    const { beakersInBath: count, ...rest } = BATCH;
    expect(offer?.take({ ...rest, count })).toEqual({ waterDepth: depthToFill });
    const shallow = offer?.take({ ...rest, count, leastDepth: 0.11 });
    expect(Array.isArray(shallow)).toBe(true);
  });

  it("has no fill where the beaker would stand on the floor at that level", () => {
    expect(valuesOf("bath-level", with_({ rimClearance: 0.0699 }))["waterToFill"]).toBeDefined();
    for (const rimClearance of [0.0701, 0.5]) {
      const none = valuesOf("bath-level", with_({ rimClearance }));
      expect(none).not.toHaveProperty("waterToFill");
      expect(none).not.toHaveProperty("depthToFill");
    }
  });

  it("no longer counts what has run over", () => {
    const { bathWater, overflow } = valuesOf("bath-level", with_({ waterDepth: 0.14 }));
    expect(overflow).toBeGreaterThan(0);
    expect(bathWater! + overflow!).toBeCloseTo(0.045 * 0.14, 12);
  });

  it("lists as many beakers as go in", () => {
    const { beakersInBath: count, ...rest } = BATCH;
    const table = graph.get("bath-level").tables?.[0];
    const rows = table?.rows({ ...rest, count, immersion: 0.05 });
    expect(rows?.map(([n]) => n)).toEqual([1, 2, 3]);
    expect(rows?.[2]?.[1]).toBeCloseTo(0, 12);
  });

  it.each([
    ["vesselDiameter", { vesselDiameter: 0.16 }, /wider than the bath/],
    ["count", { beakersInBath: 4 }, /only 3 fit/],
    ["immersion", { immersion: 0.09, vesselHeight: 0.085 }, /bath would run in/],
    ["immersion", { immersion: 0.13 }, /stand on the floor.*121\smm/],
    ["waterDepth", { waterDepth: 0.16 }, /rim is at/],
    ["immersion", { immersion: -0.01 }, /must be/],
    ["bathLength", { bathLength: 0 }, /must be/],
  ])("refuses %s in plain words: %o", (input, moved, says) => {
    const refusals = refusalsOf("bath-level", with_(moved));
    expect(refusals.map((refusal) => refusal.input)).toEqual([input]);
    expect(refusals[0]?.says).toMatch(says);
  });

  it("speaks up as soon as water runs over, and not before", () => {
    const rise = valuesOf("bath-level", BATCH)["levelRise"]!;
    const at = (depth: number) => cautionsOf("bath-level", with_({ waterDepth: depth }));
    expect(at(0.15 - rise - 1e-6)).not.toContain("electricity");
    expect(at(0.15 - rise + 1e-6)).toContain("electricity");
  });

  it("speaks up below the least depth, and not at it", () => {
    const at = (waterDepth: number) =>
      cautionsOf("bath-level", with_({ waterDepth, immersion: 0.03 }));
    expect(at(0.08)).not.toContain("water-level");
    expect(at(0.08 - 1e-9)).toContain("water-level");
  });

  it("speaks up below the least gap to the floor, and not above it", () => {
    const clearance = valuesOf("bath-level", BATCH)["floorClearance"]!;
    const at = (floorClearanceLeast: number) =>
      cautionsOf("bath-level", with_({ floorClearanceLeast }));
    expect(at(clearance - 1e-9)).not.toContain("bath");
    expect(at(clearance + 1e-9)).toContain("bath");
  });

  it("speaks up for one beaker more than fits", () => {
    const at = (beakersInBath: number) =>
      cautionsOf("bath-level", with_({ beakersInBath, immersion: 0.05 }));
    expect(at(2)).not.toContain("bath");
    expect(at(3)).toContain("bath");
  });
});
