import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { INGREDIENTS, type Entry, type Ingredient, type Log } from "../../../lib/batch/log.ts";
import { PLAN_CALCULATIONS, planBatch, type Plan } from "../../../lib/batch/plan.ts";
import {
  MOST_GROWTH,
  OVERFILL,
  READING_LIMITS,
  weighingBounds,
  weighingIn,
  type Bounds,
} from "../../../lib/batch/weighing-in.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";
import { OutOfRangeError } from "../../../lib/errors.ts";

const PORTIONS = [0.25, 0.12, 0.05, 0.03] as const;
const ROOMY: Bounds = { readability: 1e-4, capacity: 5, vesselMass: 0.3, fullest: 2 };

function planOf(portions: readonly number[] = PORTIONS, vessels = 1): Plan {
  let reading = 0;
  return {
    vessels,
    cautions: [],
    additions: portions.map((portion, i) => {
      reading += portion;
      const ingredient = INGREDIENTS[i] as Ingredient;
      return { ingredient, label: ingredient, portion, tolerance: 0.01 * portion, reading };
    }),
  };
}
const PLAN = planOf();

type Weighing = readonly [ingredient: Ingredient, reading: number, vessel?: number];
function logOf(...weighings: readonly Weighing[]): Log {
  return weighings.map(([ingredient, reading, vessel = 1]): Entry => ({
    kind: "weighed",
    at: "2026-11-25T20:00:00.000+01:00",
    vessel,
    ingredient,
    reading,
  }));
}
function accept(log: Log): Log {
  const last = log.at(-1);
  if (last?.kind !== "weighed") throw new TypeError("nothing to accept");
  return [...log, { ...last, accepted: true }];
}
const stand = (log: Log, bounds = ROOMY, plan = PLAN) => weighingIn(plan, log, bounds);
const inOrder = (log: Log, bounds = ROOMY, plan = PLAN) =>
  stand(log, bounds, plan).asks.map(({ ingredient, reading }) => [
    ingredient,
    Number(reading.toFixed(9)),
  ]);

describe("weighingIn(plan, log, bounds)", () => {
  it("asks for the plan, reading upon reading, before anything is in", () => {
    const { asks, last, growth, refusal } = stand([]);
    expect(asks.map(({ reading }) => reading)).toEqual(
      PLAN.additions.map(({ reading }) => expect.closeTo(reading, 12) as number),
    );
    expect(asks.every(({ more }) => !more)).toBe(true);
    expect([last, growth, refusal]).toEqual([undefined, [1], undefined]);
  });

  it("adds the whole next portion to what the scale really shows", () => {
    expect(inOrder(logOf(["water", 0.252]))[0]).toEqual(["spirit", 0.372]);
    expect(stand(logOf(["water", 0.252])).last?.verdict).toBe("within");
  });

  it("asks for more of what is short, up to the same reading", () => {
    const { asks, last } = stand(logOf(["water", 0.2]));
    expect(last).toMatchObject({ verdict: "short", off: expect.closeTo(-0.05, 12) as number });
    expect(asks[0]).toMatchObject({ ingredient: "water", more: true });
    expect(asks[0]?.portion).toBeCloseTo(0.05, 12);
    expect(asks[0]?.reading).toBeCloseTo(0.25, 12);
  });

  it.each([
    [0.2525, "within"],
    [0.2526, "over"],
    [0.2475, "within"],
    [0.2474, "short"],
  ])("judges a reading of %d kg for 250 ± 2.5 g: %s", (reading, verdict) => {
    expect(stand(logOf(["water", reading])).last?.verdict).toBe(verdict);
  });

  it("is never finer than the scale shows", () => {
    const coarse = { ...ROOMY, readability: 5e-3 };
    const log = logOf(["water", 0.25], ["spirit", 0.37], ["ascorbic acid", 0.424]);
    expect(stand(log, coarse).last?.verdict).toBe("within");
    expect(stand(log).last?.verdict).toBe("over");
    expect(stand([], coarse).asks.at(-1)?.tolerance).toBe(5e-3);
  });

  it("makes the rest grow with an overshoot, so that the recipe stays", () => {
    const { growth, masses } = stand(logOf(["water", 0.275]));
    expect(growth[0]).toBeCloseTo(1.1, 12);
    expect(inOrder(logOf(["water", 0.275]))).toEqual([
      ["spirit", 0.407],
      ["ascorbic acid", 0.462],
      ["lecithin", 0.495],
    ]);
    for (const [i, name] of INGREDIENTS.entries())
      expect(masses.get(name)).toBeCloseTo(1.1 * (PORTIONS[i] ?? 0), 12);
  });

  it("tops up what is in already, in the order of the plan, before the rest", () => {
    const log = logOf(["water", 0.25], ["spirit", 0.37], ["ascorbic acid", 0.425]);
    expect(inOrder(log)).toEqual([
      ["water", 0.45],
      ["spirit", 0.462],
      ["lecithin", 0.495],
    ]);
    expect(stand(log).asks.map(({ more }) => more)).toEqual([true, true, false]);
  });

  it("tops up everything when the last thing was too much", () => {
    const log = logOf(
      ["water", 0.25],
      ["spirit", 0.37],
      ["ascorbic acid", 0.42],
      ["lecithin", 0.453],
    );
    expect(inOrder(log)).toEqual([
      ["water", 0.478],
      ["spirit", 0.49],
      ["ascorbic acid", 0.495],
    ]);
  });

  it("takes a new reading of the same thing for the last word on it", () => {
    const spooned = logOf(["water", 0.3], ["water", 0.25]);
    expect(stand(spooned)).toMatchObject({ growth: [1], last: { verdict: "within" } });
  });

  it("goes on as it is when the maker says so, and asks for no more of it", () => {
    const over = accept(logOf(["water", 0.275]));
    expect(stand(over)).toMatchObject({ growth: [1], last: { accepted: true } });
    expect(inOrder(over)[0]).toEqual(["spirit", 0.395]);
    expect(stand(over).masses.get("water")).toBeCloseTo(0.275, 12);
    const short = accept(logOf(["water", 0.2]));
    expect(inOrder(short)[0]).toEqual(["spirit", 0.32]);
  });

  it("is done when all is in", () => {
    const log = logOf(...PLAN.additions.map((a) => [a.ingredient, a.reading] as const));
    expect(stand(log).asks).toEqual([]);
  });

  it("tares each vessel by itself and lets only the one grow that was overfilled", () => {
    const plan = planOf(PORTIONS, 2);
    const log = logOf(
      ["water", 0.275],
      ["spirit", 0.407],
      ["ascorbic acid", 0.462],
      ["lecithin", 0.495],
    );
    const { asks, growth } = stand(log, ROOMY, plan);
    expect(asks.map(({ vessel }) => vessel)).toEqual([2, 2, 2, 2]);
    expect(asks.at(-1)?.reading).toBeCloseTo(0.45, 12);
    expect(growth.map((g) => Number(g.toFixed(9)))).toEqual([1.1, 1]);
    expect(stand([...log, ...logOf(["water", 0.25, 2])], ROOMY, plan).shown[1]).toBe(0.25);
  });

  it.each([
    ["beaker", { fullest: 0.494 }, 0.495, 0.494],
    ["scale", { capacity: 0.794 }, 0.795, 0.794],
    ["spirit", { spirit: 0.131 }, 0.132, 0.131],
  ] as const)(
    "refuses to grow past the %s, and says what it would come to",
    (reason, own, needed, limit) => {
      const log = logOf(["water", 0.275]);
      const { refusal, asks } = stand(log, { ...ROOMY, ...own });
      expect(refusal).toMatchObject({ reason, limit });
      expect(refusal?.needed).toBeCloseTo(needed, 12);
      // The rest as planned: 475 g in the beaker, 120 g of it spirit.
      const asItIs = { beaker: 0.475, scale: 0.775, spirit: 0.12 }[reason];
      expect(refusal?.asItIs).toBeCloseTo(asItIs, 12);
      // Until the maker decides, the rest stands as planned.
      expect(asks[0]?.portion).toBeCloseTo(0.12, 12);
      expect(stand(accept(log), { ...ROOMY, ...own }).refusal).toBeUndefined();
      const name = Object.keys(own)[0] as keyof typeof own;
      expect(stand(log, { ...ROOMY, [name]: needed }).refusal).toBeUndefined();
    },
  );

  it("refuses to grow by more than a quarter", () => {
    const log = (factor: number) => logOf(["water", 0.25 * factor]);
    expect(stand(log(MOST_GROWTH)).refusal).toBeUndefined();
    expect(stand(log(MOST_GROWTH + 1e-3)).refusal).toMatchObject({
      reason: "share",
      factor: expect.closeTo(MOST_GROWTH + 1e-3, 9) as number,
    });
  });

  it("counts the spirit of all vessels against what is there", () => {
    const plan = planOf(PORTIONS, 2);
    const log = logOf(["water", 0.275]);
    expect(stand(log, { ...ROOMY, spirit: 0.252 }, plan).refusal).toBeUndefined();
    expect(stand(log, { ...ROOMY, spirit: 0.2519 }, plan).refusal?.reason).toBe("spirit");
  });

  it.each([Number.NaN, -0.001, Infinity, READING_LIMITS.max + 1e-3])(
    "refuses a reading of %d kg",
    (reading) => {
      expect(() => stand(logOf(["water", reading]))).toThrow(OutOfRangeError);
    },
  );
  it.each([READING_LIMITS.min, READING_LIMITS.max])("reads %d kg", (reading) => {
    expect(stand(logOf(["water", reading])).last?.in).toBe(reading);
  });

  it("keeps the recipe through any sequence of overshoots, or refuses", () => {
    const portion = fc.double({ min: 0.005, max: 0.6, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(portion, { minLength: 2, maxLength: 4 }),
        fc.integer({ min: 1, max: 3 }),
        fc.array(fc.double({ min: 0, max: 1.4, noNaN: true }), { minLength: 1, maxLength: 30 }),
        (portions, vessels, hands) => {
          const plan = planOf(portions, vessels);
          let log: Log = [];
          // Hands that miss at first and hit the mark at last.
          for (let turn = 0; turn < 60; turn++) {
            const now = stand(log, ROOMY, plan);
            for (const ask of now.asks) expect(ask.portion).toBeGreaterThan(0);
            if (now.refusal) {
              expect(now.refusal.needed).toBeGreaterThan(now.refusal.limit);
              return;
            }
            const [ask] = now.asks;
            if (!ask) break;
            const shown = now.shown[ask.vessel - 1] ?? 0;
            const reading = shown + ask.portion * (hands[turn] ?? 1);
            log = [...log, ...logOf([ask.ingredient, reading, ask.vessel])];
          }
          const { asks, growth, masses } = stand(log, ROOMY, plan);
          expect(asks).toEqual([]);
          const whole = growth.reduce((sum, g) => sum + g, 0);
          for (const { ingredient, portion: p, tolerance } of plan.additions) {
            const mass = masses.get(ingredient) ?? 0;
            const allowed = vessels * (Math.max(tolerance, ROOMY.readability) + 1e-8);
            expect(Math.abs(mass - whole * p)).toBeLessThanOrEqual(allowed);
          }
        },
      ),
      { seed: 1965, numRuns: 400 },
    );
  });
});

describe("weighingBounds(graph, values)", () => {
  it("takes the scale, the vessel, a little over the beaker's two thirds and the spirit that is there", async () => {
    const graph = await loadGraph(PLAN_CALCULATIONS);
    const bounds = weighingBounds(graph, {
      readability: 1e-3,
      scaleCapacity: 3,
      vesselMass: 0.4,
      beakerVolume: 9e-4,
      spiritInStock: 0.7,
    });
    expect(bounds).toMatchObject({ readability: 1e-3, capacity: 3, vesselMass: 0.4, spirit: 0.7 });
    // 600 mL of a liquid a little denser than water.
    expect(bounds.fullest).toBeGreaterThan(0.59 * OVERFILL);
    expect(bounds.fullest).toBeLessThan(0.65 * OVERFILL);
    expect(weighingBounds(graph, {}).spirit).toBeUndefined();
    const planned = planBatch(graph, {});
    if (!planned.ok) throw new Error("refused");
    const { asks } = weighingIn(planned.plan, [], weighingBounds(graph, {}));
    expect(asks).toHaveLength(4);
  });
  it("leaves a few per cent of room in a beaker that is just full", async () => {
    const graph = await loadGraph(PLAN_CALCULATIONS);
    // 500 mL in 750 mL: two thirds to the drop.
    const full = { batchVolume: 5e-4, beakerVolume: 7.5e-4 };
    const planned = planBatch(graph, full);
    if (!planned.ok) throw new Error("refused");
    expect(planned.plan.vessels).toBe(1);
    const bounds = weighingBounds(graph, full);
    const water = planned.plan.additions[0]?.portion ?? NaN;
    const after = (factor: number) =>
      weighingIn(planned.plan, logOf(["water", factor * water]), bounds);
    expect(after(1.04).refusal).toBeUndefined();
    expect(after(1.04).growth[0]).toBeCloseTo(1.04, 9);
    expect(after(1.06).refusal).toMatchObject({ reason: "beaker" });
  });
});
