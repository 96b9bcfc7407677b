import { describe, expect, it } from "vitest";
import { PORTIONS } from "../../../lib/batch/plan.ts";
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

  it("warms with each further beaker so much less water", () => {
    const [one, two] = compareBeakers(graph, {}, LARGE);
    const displaced = (Math.PI / 4) * 0.105 ** 2 * 0.06;
    const stint = (batchVolume: number, count: number, water: number): number | undefined =>
      value("sonication", "longestStint", {
        ...LARGE,
        batchVolume,
        beakersInBath: count,
        bathWaterVolume: water,
        "heat-capacity.beakers": count,
      });
    expect(one!.longestStint!.value).toBeCloseTo(stint(0.5e-3, 1, 0.012)!, 6);
    expect(two!.longestStint!.value).toBeCloseTo(stint(1e-3, 2, 0.012 - displaced)!, 6);
  });

  it("fills the tank anew for each number of beakers, to where the reader wants the level", () => {
    for (const { hung, water, waterDepth, clearance } of compareBeakers(graph, {}, LARGE)) {
      const filled = { ...LARGE, beakersInBath: hung, waterDepth: waterDepth! };
      expect(waterDepth).toBeCloseTo(water! / (LARGE.bathLength * LARGE.bathWidth), 9);
      expect(value("bath-level", "wallClearance", filled)).toBeCloseTo(clearance!, 9);
    }
    // Filled as the one beaker needs it, four of them would make this tank run over.
    const low = { ...LARGE, bathHeight: 0.1, rimClearance: 0.005, waterDepth: 0.094 };
    const [, , , four] = compareBeakers(graph, {}, low);
    expect(value("bath-level", "overflow", { ...low, beakersInBath: 4 })).toBeGreaterThan(0);
    expect(four!.notices.filter(({ calculation }) => calculation === "bath-level")).toEqual([]);
  });

  it("parts the batch into as many as are compared, were it small enough for fewer", () => {
    const small = { batchVolume: 0.25e-3 };
    const [one, two] = compareBeakers(graph, small, LARGE);
    expect(value("recipe", "beakers", { batchVolume: 0.5e-3 })).toBe(1);
    const hands = (beakers: number): number | undefined =>
      value("evening", "handsTime", {
        ...LARGE,
        batchVolume: beakers * 0.25e-3,
        beakersInBath: beakers,
        "evening.beakers": beakers,
      });
    expect(one!.hands!.value).toBeCloseTo(hands(1)!, 6);
    expect(two!.hands!.value).toBeCloseTo(hands(2)!, 6);
    expect(two!.hands!.value).toBeGreaterThan(one!.hands!.value);
  });

  it("says what the scale may be off by, of the portion where that is most", () => {
    const shares = PORTIONS.map(
      ({ mass, doubt }) => (2 * value("weighing", doubt, {})!) / value("recipe", mass, {})!,
    );
    const [one] = compareBeakers(graph, {});
    expect(one!.weighingShare).toBeCloseTo(Math.max(...shares), 12);
    // Half the batch in one beaker is half as well known.
    const [half] = compareBeakers(graph, { batchVolume: 0.25e-3 });
    expect(half!.weighingShare! / one!.weighingShare!).toBeCloseTo(2, 1);
    const [plain] = compareBeakers(graph, { lecithinConcentration: 0 });
    expect(plain!.weighingShare).toBeLessThan(one!.weighingShare!);
    expect(plain!.weighingShare).toBeGreaterThan(0);
    // No kitchen scale shows steps of 5 kg.
    const [coarse] = compareBeakers(graph, { readability: 5 });
    expect(coarse!.weighingShare).toBeNull();
    expect(coarse!.volume).toBeCloseTo(0.5e-3, 12);
  });

  it("takes the reader's own water where the tank's size says that less than none is left of it", () => {
    const little = { ...LARGE, bathWaterVolume: 0.6e-3 };
    const [, two, three, four] = compareBeakers(graph, {}, little);
    // π/4 × 105² × 60 mm³ are 0.52 L: one more beaker leaves some of it, two and three do not.
    const stint = (count: number, water: number): number | undefined =>
      value("sonication", "longestStint", {
        ...little,
        batchVolume: count * 0.5e-3,
        beakersInBath: count,
        bathWaterVolume: water,
        "heat-capacity.beakers": count,
      });
    const left = 0.6e-3 - (Math.PI / 4) * 0.105 ** 2 * 0.06;
    expect(left).toBeGreaterThan(0);
    // Less than the bath may hold: refused.
    expect(two!.longestStint).toBeNull();
    expect(three!.longestStint!.value).toBeCloseTo(stint(3, 0.6e-3)!, 6);
    expect(four!.longestStint!.value).toBeCloseTo(stint(4, 0.6e-3)!, 6);
  });

  it("leaves out what cannot be worked out, and gives the rest", () => {
    const [blind] = compareBeakers(graph, { knownFrom: "readings", heatReadings: [] });
    expect(blind).toMatchObject({ heatByVolume: null, longestStint: null });
    expect(blind!.water).toBeGreaterThan(0);
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
