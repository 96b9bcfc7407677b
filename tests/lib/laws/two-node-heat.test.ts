import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRangeError } from "../../../lib/errors.ts";
import {
  type HeatNodes,
  heatPhase,
  type HeatPowers,
  heldBathPhase,
  type NodeTemperatures,
  steadyTemperatures,
  temperaturesAfter,
} from "../../../lib/laws/two-node-heat.ts";

interface Case {
  readonly nodes: HeatNodes;
  readonly powers: HeatPowers;
  readonly start: NodeTemperatures;
}

// Two baths with round numbers. Their values: matrix exponential of the model, checked with Runge–Kutta steps of
// 0.25 s to 1e-12. computed
const A: Case = {
  nodes: {
    liquidHeatCapacity: 2200,
    bathHeatCapacity: 10_500,
    exchangeConductance: 8,
    liquidLossConductance: 0.4,
    bathLossConductance: 2.5,
    roomTemperature: 21,
  },
  powers: { liquid: 12, bath: 60 },
  start: { liquid: 24, bath: 23 },
};
const B: Case = {
  nodes: {
    liquidHeatCapacity: 2600,
    bathHeatCapacity: 8400,
    exchangeConductance: 3.5,
    liquidLossConductance: 0.3,
    bathLossConductance: 2,
    roomTemperature: 20,
  },
  powers: { liquid: 5, bath: 90 },
  start: { liquid: 22, bath: 22 },
};
const NO_POWER = { liquid: 0, bath: 0 };
const NO_LOSS = { liquidLossConductance: 0, bathLossConductance: 0 };

const phase = ({ nodes, powers, start }: Case) => heatPhase(nodes, powers, start);

function expectNear(found: NodeTemperatures, liquid: number, bath: number, within = 1e-6): void {
  expect(Math.abs(found.liquid - liquid)).toBeLessThanOrEqual(within);
  expect(Math.abs(found.bath - bath)).toBeLessThanOrEqual(within);
}

/** Runge–Kutta steps of fourth order, written from the balances alone. */
function stepped({ nodes, powers, start }: Case, time: number, steps: number): NodeTemperatures {
  const slope = (liquid: number, bath: number): readonly [number, number] => {
    const exchange = nodes.exchangeConductance * (bath - liquid);
    const room = nodes.roomTemperature;
    return [
      (powers.liquid + exchange - nodes.liquidLossConductance * (liquid - room)) /
        nodes.liquidHeatCapacity,
      (powers.bath - exchange - nodes.bathLossConductance * (bath - room)) / nodes.bathHeatCapacity,
    ];
  };
  let { liquid, bath } = start;
  const h = time / steps;
  for (let i = 0; i < steps; i++) {
    const a = slope(liquid, bath);
    const b = slope(liquid + (h / 2) * a[0], bath + (h / 2) * a[1]);
    const c = slope(liquid + (h / 2) * b[0], bath + (h / 2) * b[1]);
    const d = slope(liquid + h * c[0], bath + h * c[1]);
    liquid += (h / 6) * (a[0] + 2 * b[0] + 2 * c[0] + d[0]);
    bath += (h / 6) * (a[1] + 2 * b[1] + 2 * c[1] + d[1]);
  }
  return { liquid, bath };
}

/** Evenly spread: drawn as floating-point numbers, nearly all would be next to 0. */
const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1_000_000 }).map((n) => min + ((max - min) * n) / 1_000_000);
const conductance = fc.oneof(
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: between(0, 1e-9) },
  { weight: 4, arbitrary: between(0, 30) },
);
const capacity = between(100, 50_000);
const temperature = between(-20, 100);
const power = fc.oneof(fc.constant(0), between(0, 500));
const anyCase: fc.Arbitrary<Case> = fc.record({
  nodes: fc.record({
    liquidHeatCapacity: capacity,
    bathHeatCapacity: capacity,
    exchangeConductance: conductance,
    liquidLossConductance: conductance,
    bathLossConductance: conductance,
    roomTemperature: temperature,
  }),
  powers: fc.record({ liquid: power, bath: power }),
  start: fc.record({ liquid: temperature, bath: temperature }),
});
const anyTime = between(0, 40_000);
const SEED = { seed: 20_260, numRuns: 300 };

describe("temperaturesAfter(nodes, powers, start, time)", () => {
  it.each([
    [A, 60, 24.10409529, 23.35155015],
    [A, 300, 24.87155543, 24.6331067],
    [A, 600, 26.12442935, 26.06496242],
    [A, 900, 27.40516329, 27.3785459],
    [A, 1800, 30.85472257, 30.80040428],
    [A, 3600, 35.97101063, 35.85164109],
    [A, 7200, 41.61345163, 41.42204694],
    [B, 60, 22.1210335, 22.60379124],
    [B, 300, 22.92025146, 24.83556831],
    [B, 600, 24.3729201, 27.30465842],
    [B, 900, 26.06954606, 29.51455437],
    [B, 1800, 31.36152315, 35.11256919],
    [B, 3600, 40.08528727, 43.38083084],
    [B, 7200, 50.34974351, 52.94766622],
  ])("of bath %# at %d s", ({ nodes, powers, start }, time, liquid, bath) => {
    expectNear(temperaturesAfter(nodes, powers, start, time), liquid, bath);
  });

  it.each([
    [60, 37.043066, 20.7744351],
    [600, 26.1610242, 23.6244937],
  ])("is the handbook's hot body in a finite pool after %d s", (time, hot, pool) => {
    // Bejan & Kraus, Heat Transfer Handbook (2003), eqs 3.287 and 3.288. seen. The values: computed
    const nodes = {
      liquidHeatCapacity: 2200,
      bathHeatCapacity: 8400,
      exchangeConductance: 6,
      ...NO_LOSS,
      roomTemperature: 0,
    };
    const found = temperaturesAfter(nodes, NO_POWER, { liquid: 40, bath: 20 }, time);
    expectNear(found, hot, pool);
    const gone = 1 - Math.exp(-6 * (1 / 2200 + 1 / 8400) * time);
    const poolWith = (drive: number) => 20 + (drive / (1 + 8400 / 2200)) * gone;
    expectNear(found, 40 - (20 / (1 + 2200 / 8400)) * gone, poolWith(40 - 20), 1e-12);
    // Misprint: eq. 3.288 has the sum of the two starts for their difference.
    expect(Math.abs(found.bath - poolWith(40 + 20))).toBeGreaterThan(1);
  });

  it("takes zero conductances, all kinds", () => {
    // As A and B. computed
    const { powers, start } = A;
    expectNear(
      temperaturesAfter({ ...A.nodes, ...NO_LOSS }, powers, start, 600),
      26.5885267,
      26.57192774,
    );
    const apart = { ...A.nodes, exchangeConductance: 0 };
    expectNear(temperaturesAfter(apart, powers, start, 600), 26.79047969, 25.92868621);
    const equalRates = {
      liquidHeatCapacity: 2000,
      bathHeatCapacity: 10_000,
      exchangeConductance: 0,
      liquidLossConductance: 1,
      bathLossConductance: 5,
      roomTemperature: 20,
    };
    const warm = { liquid: 25, bath: 30 };
    const some = { liquid: 10, bath: 50 };
    expectNear(temperaturesAfter(equalRates, some, warm, 1800), 27.9671517, 30);
    expectNear(temperaturesAfter({ ...equalRates, ...NO_LOSS }, some, warm, 1800), 34, 39, 1e-9);
  });

  it("heats at the common rate with the known lag where nothing is lost", () => {
    // Rate = ΣP/ΣC, lag = (P_b/C_b − P_ℓ/C_ℓ) μ/G with μ the reduced heat capacity. computed
    for (const [{ nodes, powers, start }, perHour, lag] of [
      [A, 20.4094488, 0.0590551181],
      [B, 31.0909091, 4.98701299],
    ] as const) {
      const at = (time: number) => temperaturesAfter({ ...nodes, ...NO_LOSS }, powers, start, time);
      expect(at(23_600).liquid - at(20_000).liquid).toBeCloseTo(perHour, 6);
      expect(at(20_000).bath - at(20_000).liquid).toBeCloseTo(lag, 6);
    }
  });

  it("dies out at the rates of the two modes", () => {
    // Eigenvalues of the model. computed
    for (const [{ nodes, start }, slow, fast] of [
      [A, 0.0002282424594, 0.004589939359],
      [B, 0.0002074918857, 0.001908808481],
    ] as const) {
      const excess = (time: number) =>
        temperaturesAfter(nodes, NO_POWER, start, time).liquid - nodes.roomTemperature;
      const late = 60 / fast;
      expect(Math.log(excess(late) / excess(late + 600)) / 600).toBeCloseTo(slow, 11);
    }
  });

  it("agrees with steps of a Runge–Kutta method for any coefficients", () => {
    fc.assert(
      fc.property(anyCase, between(0, 3600), (any, time) => {
        const { liquid, bath } = stepped(any, time, 4000);
        expectNear(temperaturesAfter(any.nodes, any.powers, any.start, time), liquid, bath);
      }),
      { ...SEED, numRuns: 100 },
    );
  });

  it("is the same in one go as in two", () => {
    fc.assert(
      fc.property(anyCase, anyTime, anyTime, ({ nodes, powers, start }, first, second) => {
        const between = temperaturesAfter(nodes, powers, start, first);
        const { liquid, bath } = temperaturesAfter(nodes, powers, start, first + second);
        const size = 1 + Math.abs(liquid) + Math.abs(bath);
        expectNear(temperaturesAfter(nodes, powers, between, second), liquid, bath, 1e-11 * size);
      }),
      SEED,
    );
  });

  it.each([-1, 1.1e12, Number.NaN, Infinity])("refuses a time of %d s", (time) => {
    expect(() => temperaturesAfter(A.nodes, A.powers, A.start, time)).toThrow(OutOfRangeError);
  });
});

describe("heatPhase(nodes, powers, start)", () => {
  it("says when the liquid reaches 32 °C", () => {
    // As A and B. computed
    expect(phase(A).timeToReach(32, "liquid", 7200)).toBeCloseTo(2143.58306, 3);
    expect(phase(B).timeToReach(32, "liquid", 7200)).toBeCloseTo(1913.70767, 3);
    expect(phase(B).timeToReach(32, "liquid", 1913)).toBeNull();
  });

  it("says when a heated bath trips and how far the liquid is behind", () => {
    // As A, with 100 W into the bath and no ultrasound. computed
    const heated = heatPhase(A.nodes, { liquid: 0, bath: 100 }, A.start);
    const trip = heated.timeToReach(40, "bath", 7200) as number;
    expect(trip).toBeCloseTo(3140.50499, 2);
    expectNear(heated.at(trip), 38.1439414, 40);
    expectNear(temperaturesAfter(A.nodes, NO_POWER, heated.at(trip), 600), 37.3481552, 37.2715647);
  });

  it("turns where the liquid is highest after a stint", () => {
    // As B: 464.9435 s after 30 min, 32.0951174 °C; as A: at once. computed
    const after = (bath: Case) => heatPhase(bath.nodes, NO_POWER, phase(bath).at(1800));
    const turn = after(B).turn("liquid") as number;
    expect(Math.abs(turn - 464.9435)).toBeLessThanOrEqual(0.01);
    expect(after(B).at(turn).liquid).toBeCloseTo(32.0951174, 6);
    expect(after(A).turn("liquid")).toBeNull();
    expect(after(B).turn("bath")).toBeNull();
  });

  it("counts touching at the turn, but not a start at the temperature", () => {
    const rest = heatPhase(B.nodes, NO_POWER, phase(B).at(1800));
    const turn = rest.turn("liquid") as number;
    const top = rest.at(turn).liquid;
    expect(rest.timeToReach(top, "liquid", 7200)).toBe(turn);
    expect(rest.timeToReach(top + 1e-12, "liquid", 7200)).toBeNull();
    const start = rest.at(0).liquid;
    const back = rest.timeToReach(start, "liquid", 7200) as number;
    expect(back).toBeGreaterThan(turn);
    expect(rest.at(back).liquid).toBeCloseTo(start, 12);
    expect(rest.timeToReach(start, "liquid", 7200, "rising")).toBeNull();
    expect(rest.timeToReach(start, "liquid", turn)).toBeNull();
  });

  it("finds the way that is asked for, and nothing later than is asked", () => {
    const rest = heatPhase(B.nodes, NO_POWER, phase(B).at(1800));
    const turn = rest.turn("liquid") as number;
    const up = rest.timeToReach(32, "liquid", 7200, "rising") as number;
    const down = rest.timeToReach(32, "liquid", 7200, "falling") as number;
    expect(up).toBeLessThan(turn);
    expect(down).toBeGreaterThan(turn);
    for (const time of [up, down]) expect(rest.at(time).liquid).toBeCloseTo(32, 12);
    expect(rest.timeToReach(32, "liquid", up * 0.99)).toBeNull();
    expect(rest.timeToReach(32, "liquid", up * 1.01)).toBe(up);
  });

  it("misses no crossing and no turn, whatever the coefficients", () => {
    fc.assert(
      fc.property(
        anyCase,
        fc.constantFrom("liquid", "bath"),
        temperature,
        anyTime,
        (any, node, goal, within) => {
          const curve = phase(any);
          const first = curve.timeToReach(goal, node, within);
          const turn = curve.turn(node);
          const until = first ?? within;
          const side = Math.sign(curve.at(0)[node] - goal);
          const direction: number[] = [];
          for (let i = 1; i <= 50; i++) {
            const [before, now] = [until * ((i - 1) / 50), until * (i / 50)];
            const value = curve.at(now)[node];
            expect(Number.isFinite(value)).toBe(true);
            if (i < 50) expect((value - goal) * side).toBeGreaterThanOrEqual(-1e-9);
            const change = value - curve.at(before)[node];
            if (Math.abs(change) > 1e-9 && !(turn !== null && turn > before && turn < now))
              direction.push(Math.sign(change) * (turn !== null && now > turn ? -1 : 1));
          }
          // Apart from the one turn, all changes go the same way.
          expect(new Set(direction).size).toBeLessThanOrEqual(1);
          if (first !== null) expect(curve.at(first)[node]).toBeCloseTo(goal, 9);
        },
      ),
      SEED,
    );
  });

  it("puts in, loses and stores what the two baths do in 30 min", () => {
    // As A and B: loss by the augmented matrix exponential. computed
    for (const [bath, input, lost, stored] of [
      [A, 129_600, 32_615.3654, 96_984.6346],
      [B, 171_000, 36_514.4586, 134_485.541],
    ] as const) {
      const found = phase(bath).energy(1800);
      expect(found.input / input).toBeCloseTo(1, 12);
      expect(found.lost / lost).toBeCloseTo(1, 8);
      expect(found.stored / stored).toBeCloseTo(1, 8);
    }
  });

  it("balances for any coefficients, a held bath too", () => {
    fc.assert(
      fc.property(anyCase, anyTime, fc.boolean(), (any, time, held) => {
        const { nodes, powers, start } = any;
        const curve = held ? heldBathPhase(nodes, powers.liquid, start) : phase(any);
        const { input, lost, stored } = curve.energy(time);
        const size = Math.abs(input) + Math.abs(lost) + Math.abs(stored);
        expect(Math.abs(input - lost - stored)).toBeLessThanOrEqual(1e-9 * size + 1e-9);
      }),
      SEED,
    );
  });

  it("does not lose the loss of a moment", () => {
    const { lost } = phase(A).energy(1e-6);
    expect(lost / (1e-6 * (0.4 * 3 + 2.5 * 2))).toBeCloseTo(1, 8);
    // From room temperature it grows with the square of the time.
    const fromRoom = heatPhase(A.nodes, A.powers, { liquid: 21, bath: 21 }).energy(1e-6).lost;
    const rate = (0.4 * 12) / 2200 + (2.5 * 60) / 10_500;
    expect(fromRoom / ((rate * 1e-12) / 2)).toBeCloseTo(1, 7);
  });

  it.each([
    ["liquidHeatCapacity", 0.9],
    ["liquidHeatCapacity", 1.1e7],
    ["bathHeatCapacity", 0],
    ["bathHeatCapacity", Number.NaN],
    ["exchangeConductance", -1e-9],
    ["exchangeConductance", 1.1e5],
    ["liquidLossConductance", -1],
    ["liquidLossConductance", Number.NaN],
    ["bathLossConductance", -1],
    ["bathLossConductance", Infinity],
    ["roomTemperature", -274],
    ["roomTemperature", Number.NaN],
  ])("refuses a %s of %d", (name, value) => {
    const nodes = { ...A.nodes, [name]: value };
    for (const run of [
      () => heatPhase(nodes, A.powers, A.start),
      () => heldBathPhase(nodes, 5, A.start),
      () => steadyTemperatures(nodes, A.powers),
    ])
      expect(run).toThrow(OutOfRangeError);
  });

  it.each([-1, 1.1e5, Number.NaN])("refuses a power of %d W", (watts) => {
    expect(() => heatPhase(A.nodes, { liquid: watts, bath: 0 }, A.start)).toThrow(OutOfRangeError);
    expect(() => heatPhase(A.nodes, { liquid: 0, bath: watts }, A.start)).toThrow(OutOfRangeError);
    expect(() => heldBathPhase(A.nodes, watts, A.start)).toThrow(OutOfRangeError);
    expect(() => steadyTemperatures(A.nodes, { liquid: 0, bath: watts })).toThrow(OutOfRangeError);
  });

  it.each([-274, Number.NaN, Infinity])("refuses %d °C", (t) => {
    for (const start of [
      { liquid: t, bath: 20 },
      { liquid: 20, bath: t },
    ]) {
      expect(() => heatPhase(A.nodes, A.powers, start)).toThrow(OutOfRangeError);
      expect(() => heldBathPhase(A.nodes, 5, start)).toThrow(OutOfRangeError);
    }
    expect(() => phase(A).timeToReach(t, "liquid", 60)).toThrow(OutOfRangeError);
  });

  it.each([-1, Number.NaN, Infinity])("refuses %d s", (time) => {
    expect(() => phase(A).at(time)).toThrow(OutOfRangeError);
    expect(() => phase(A).energy(time)).toThrow(OutOfRangeError);
    expect(() => phase(A).timeToReach(32, "liquid", time)).toThrow(OutOfRangeError);
  });

  it("answers at the edges", () => {
    const least = { ...A.nodes, liquidHeatCapacity: 1, bathHeatCapacity: 1e7 };
    const most = { ...least, exchangeConductance: 1e5 };
    const faint = { ...least, exchangeConductance: Number.MIN_VALUE, ...NO_LOSS };
    for (const nodes of [least, most, faint])
      for (const time of [0, 1e12]) {
        const { liquid, bath } = temperaturesAfter(nodes, { liquid: 1e5, bath: 0 }, A.start, time);
        expect(Number.isFinite(liquid) && Number.isFinite(bath)).toBe(true);
      }
  });
});

describe("heldBathPhase(nodes, liquidPower, start)", () => {
  it("is the limit of a very large bath", () => {
    const large = { ...A.nodes, bathHeatCapacity: 1e7 };
    const free = temperaturesAfter(large, { liquid: 12, bath: 0 }, { liquid: 24, bath: 40 }, 600);
    const held = heldBathPhase(large, 12, { liquid: 24, bath: 40 }).at(600);
    expect(Math.abs(held.liquid - free.liquid)).toBeLessThanOrEqual(0.01);
    expect(held.bath).toBe(40);
  });

  it("comes to 1 − 1/e of the way in one time constant", () => {
    // Newton's law of cooling. memory
    const nodes = { ...A.nodes, liquidLossConductance: 0 };
    const held = heldBathPhase(nodes, 0, { liquid: 20, bath: 40 });
    expect(held.at(2200 / 8).liquid).toBeCloseTo(40 - 20 / Math.E, 11);
    expect(held.timeToReach(40 - 20 / Math.E, "liquid", 3600)).toBeCloseTo(2200 / 8, 9);
    expect(held.timeToReach(41, "liquid", 3600)).toBeNull();
  });
});

describe("steadyTemperatures(nodes, powers)", () => {
  it("agrees with both baths", () => {
    // As A and B. computed
    expectNear(steadyTemperatures(A.nodes, A.powers) as NodeTemperatures, 46.04132231, 45.79338843);
    expectNear(steadyTemperatures(B.nodes, B.powers) as NodeTemperatures, 59.59537572, 61.56069364);
  });

  it("is where any loss carries off all the power, and stays", () => {
    fc.assert(
      fc.property(anyCase, ({ nodes, powers }) => {
        const steady = steadyTemperatures(nodes, powers);
        fc.pre(steady !== null && steady.liquid < 1e6 && steady.bath < 1e6);
        const { liquid, bath } = steady as NodeTemperatures;
        const later = temperaturesAfter(nodes, powers, { liquid, bath }, 1e5);
        expectNear(later, liquid, bath, 1e-9 * (1 + Math.abs(liquid) + Math.abs(bath)));
      }),
      SEED,
    );
  });

  it("is null where one of them keeps its heat", () => {
    expect(steadyTemperatures({ ...A.nodes, ...NO_LOSS }, A.powers)).toBeNull();
    const apart = { ...A.nodes, exchangeConductance: 0 };
    expect(steadyTemperatures({ ...apart, liquidLossConductance: 0 }, A.powers)).toBeNull();
    expect(steadyTemperatures({ ...apart, bathLossConductance: 0 }, NO_POWER)).toBeNull();
    expect(steadyTemperatures(apart, NO_POWER)).toEqual({ liquid: 21, bath: 21 });
  });
});
