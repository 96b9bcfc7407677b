import { describe, expect, it } from "vitest";
import { compareBeakers, SCALING_CALCULATIONS } from "../../../lib/batch/scaling-up.ts";
import type { BatchValues } from "../../../lib/calculations/graph.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";

const graph = await loadGraph(SCALING_CALCULATIONS);

/** Room for four low beakers of a litre in two rows. */
const LARGE = { bathLength: 0.5, bathWidth: 0.3, bathWaterVolume: 0.012, ratedPower: 300 };

function value(id: string, result: string, values: BatchValues): number | undefined {
  return graph.run(id, values)?.[result]?.value;
}

describe("compareBeakers(graph, values, bath)", () => {
  it("grows the batch and what it needs by the number of beakers, each as full as before", () => {
    const all = compareBeakers(graph, {}, LARGE);
    expect(all.map(({ beakers }) => beakers)).toEqual([1, 2, 3, 4]);
    for (const { beakers, volume, spirit, weighingShare } of all) {
      expect(volume).toBeCloseTo(beakers * 0.5e-3, 12);
      expect(spirit / beakers).toBeCloseTo(value("recipe", "spiritMass", {})!, 9);
      expect(weighingShare).toBeCloseTo(all[0]!.weighingShare!, 12);
    }
  });

  it("measures the spirit to buy by its density as the bottle states it", () => {
    const density = value("strength", "referenceDensity", { spiritStrength: 0.4 })!;
    // 948.05 kg/m³ for 40 % vol at 20 °C: OIML R 22 (1975), table. memory
    expect(density).toBeCloseTo(948.05, 1);
    for (const { spirit, spiritVolume } of compareBeakers(graph, {
      spiritStrength: 0.4,
      alcoholStrength: 0.1,
    }))
      expect(spiritVolume! * density).toBeCloseTo(spirit, 12);
  });

  it("takes a beaker's part of a batch that has several already", () => {
    const [one] = compareBeakers(graph, { batchVolume: 1.2e-3 });
    expect(one?.volume).toBeCloseTo(0.6e-3, 12);
  });

  it("hangs as many at once as fit, and the rest in later loads", () => {
    const own = compareBeakers(graph, {});
    expect(value("bath-level", "fits", {})).toBe(2);
    expect(own.map(({ hung, loads }) => [hung, loads])).toEqual([
      [1, 1],
      [2, 1],
      [2, 2],
      [2, 2],
    ]);
    expect(compareBeakers(graph, {}, LARGE).map(({ loads }) => loads)).toEqual([1, 1, 1, 1]);
  });

  it("shares the heat of one bath among the beakers that hang in it", () => {
    const all = compareBeakers(graph, {}, LARGE);
    for (const { hung, heatByVolume } of all)
      expect(heatByVolume! * hung).toBeCloseTo(all[0]!.heatByVolume!, 6);
    // 45 % of 300 W in half a litre, by hand.
    expect(all[0]!.heatByVolume).toBeCloseTo(270_000, 6);
  });

  it("pours less water in for more beakers, and gives them less room", () => {
    const all = compareBeakers(graph, {}, LARGE);
    for (const [i, { water, clearance }] of all.entries()) {
      const next = all[i + 1];
      if (!next) continue;
      // Each beaker takes the place of π/4 × 105² × 60 mm³ of water.
      expect(water! - next.water!).toBeCloseTo((Math.PI / 4) * 0.105 ** 2 * 0.06, 9);
      expect(next.clearance).toBeLessThan(clearance!);
    }
  });

  it("takes longer by hand for each beaker, and far longer for a second load", () => {
    const own = compareBeakers(graph, {});
    const hands = own.map((column) => column.hands!.value);
    expect([...hands].sort((a, b) => a - b)).toEqual(hands);
    expect(own[2]!.whole!.value - own[1]!.whole!.value).toBeGreaterThan(6000);
    const large = compareBeakers(graph, {}, LARGE);
    expect(large[2]!.whole!.value - large[1]!.whole!.value).toBeLessThan(3600);
  });

  it("says what does not fit or is not safe", () => {
    const own = compareBeakers(graph, {});
    expect(own[0]!.notices).toEqual([]);
    expect(own[1]!.notices.map(({ calculation }) => calculation)).toContain("bath-level");
    expect(own[3]!.notices.map(({ calculation }) => calculation)).toContain("evening");
    // A tank that no beaker fits into.
    const small = compareBeakers(graph, {}, { bathWidth: 0.08 });
    expect(small[0]!.notices.map(({ calculation }) => calculation)).toContain("bath-level");
    expect(small[0]!.clearance).toBeNull();
  });

  it("forgets of another bath what was read in the reader's own", () => {
    const read = { "sonication.powerToBath": 200, "sonication.powerToLiquid": 50 };
    const [another] = compareBeakers(graph, read, LARGE);
    const [fresh] = compareBeakers(graph, {}, LARGE);
    expect(another?.longestStint).toEqual(fresh?.longestStint);
    const [own] = compareBeakers(graph, read);
    expect(own?.longestStint?.value).toBeLessThan(
      compareBeakers(graph, {})[0]!.longestStint!.value,
    );
  });

  it("gives nothing where the recipe is refused", () => {
    expect(compareBeakers(graph, { alcoholStrength: 0.5 })).toEqual([]);
  });
});
