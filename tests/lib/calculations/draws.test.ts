import { describe, expect, it } from "vitest";
import {
  choice,
  readings,
  RefusedError,
  type AnyCalculation,
} from "../../../lib/calculations/calculation.ts";
import { drawBands, type Drawn } from "../../../lib/calculations/draws.ts";
import { Graph } from "../../../lib/calculations/graph.ts";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { evaluated, graph } from "../../helpers/calculations.ts";
import { answer, declare, plain, unsure } from "../../helpers/small-calculations.ts";

const DRAWS = 20_000;
const SEED = 20_250_101;
/** 97.5 % point of the standard normal distribution: any table of Φ. memory */
const Z = 1.959_964;

function draw(one: AnyCalculation, batch = {}, draws = DRAWS, seed = SEED): Drawn {
  return drawBands(new Graph([one]), one.id, batch, draws, seed);
}

function curve(
  f: (x: number) => number | null,
  x: ReturnType<typeof plain<"x">> = unsure("x", 0, 1),
): AnyCalculation {
  return declare("curve", {
    inputs: { x },
    results: { y: answer() },
    compute: (inputs) => ({ y: f(inputs.x) }),
  });
}

describe("drawBands(graph, id, batch, draws, seed)", () => {
  it.each([{}, { spiritStrength: 0.4, alcoholStrength: 0.2, lecithinConcentration: 150 }])(
    "agrees with the straight-line bands of the recipe within 5 %% (batch %#)",
    (batch) => {
      const { bands, refused } = drawBands(graph, "recipe", batch, DRAWS, SEED);
      expect(refused).toBe(0);
      const { values } = evaluated("recipe", batch);
      const unsureResults = Object.keys(values).filter((name) => {
        const { low, high } = values[name]!;
        if (high > low) return true;
        // What no uncertain input moves has no band by draws either.
        expect(bands[name]!.high - bands[name]!.low).toBeCloseTo(0, 12);
        return false;
      });
      expect(unsureResults).toContain("waterMass");
      expect(unsureResults).toContain("spiritMass");
      for (const name of unsureResults) {
        const [straight, drawn] = [values[name]!, bands[name]!];
        const width = (drawn.high - drawn.low) / (straight.high - straight.low);
        // 95 % of a normal spread is 1.96 of the 2 standard uncertainties each side.
        expect(Math.abs((width * 2) / Z - 1), name).toBeLessThan(0.05);
        expect(Math.abs(drawn.value - straight.value), name).toBeLessThan(
          0.05 * (straight.high - straight.value),
        );
      }
    },
  );

  it("gives the published interval for the sum of four normal numbers", () => {
    // JCGM 101:2008 (GUM Supplement 1), 9.2.2: four standard normal inputs, 95 % interval ± 3.92. memory
    const sum = declare("sum", {
      inputs: {
        a: unsure("a", 0, 1),
        b: unsure("b", 0, 1),
        c: unsure("c", 0, 1),
        d: unsure("d", 0, 1),
      },
      results: { y: answer() },
      compute: ({ a, b, c, d }) => ({ y: a + b + c + d }),
    });
    const y = draw(sum, {}, 200_000).bands["y"]!;
    // Four standard errors of such a quantile of 200 000 draws: 4 × 2 × √(0.025 × 0.975 / n) / φ(1.96).
    expect(Math.abs(y.low + 3.92)).toBeLessThan(0.05);
    expect(Math.abs(y.high - 3.92)).toBeLessThan(0.05);
    expect(Math.abs(y.value)).toBeLessThan(0.025);
  });

  it("bends with the curve: an exponential has the exponentials of the ends", () => {
    const { low, value, high } = draw(curve(Math.exp, unsure("x", 1, 0.5)), {}, 100_000).bands[
      "y"
    ]!;
    // On the logarithm, four standard errors: 4 × 0.5 × 0.0085 and 4 × 0.5 × 1.2533/√n.
    expect(Math.abs(Math.log(low) - (1 - Z * 0.5))).toBeLessThan(0.018);
    expect(Math.abs(Math.log(value) - 1)).toBeLessThan(0.008);
    expect(Math.abs(Math.log(high) - (1 + Z * 0.5))).toBeLessThan(0.018);
  });

  it("sees a spread at the foot of a curve, where a straight line sees none", () => {
    const square = curve((x) => x * x);
    const straight = new Graph([square]).evaluate("curve", {});
    expect(straight.ok && straight.values["y"]).toEqual({ value: 0, low: 0, high: 0 });
    // χ² with one degree of freedom, 2.5 %, 50 % and 97.5 % points: any table. memory
    const { low, value, high } = draw(square, {}, 100_000).bands["y"]!;
    expect(Math.abs(low - 0.000_98)).toBeLessThan(0.0002);
    expect(Math.abs(value - 0.455)).toBeLessThan(0.015);
    expect(Math.abs(high - 5.024)).toBeLessThan(0.15);
  });

  it("gives the same for the same seed and other numbers for another", () => {
    const one = curve(Math.sinh);
    expect(draw(one)).toEqual(draw(one));
    expect(draw(one, {}, DRAWS, SEED + 1)).not.toEqual(draw(one));
  });

  it("holds an input inside its limits", () => {
    const limited = unsure("x", 1, 0.1, { limits: { min: 0.95, max: 1, unit: "1" } });
    const { bands, refused } = draw(curve((x) => x, limited));
    expect(bands["y"]).toEqual({ value: 1, low: 0.95, high: 1 });
    expect(refused).toBe(0);
  });

  it("draws around the reader's value, by its share where that is stated", () => {
    const share = plain("x", { uncertainty: { relative: 0.01, because: "" } });
    const { low, value, high } = draw(
      curve((x) => x, share),
      { x: 200 },
    ).bands["y"]!;
    expect(value).toBeCloseTo(200, 0);
    expect((high - low) / 2 / Z).toBeGreaterThan(1.92);
    expect((high - low) / 2 / Z).toBeLessThan(2.08);
  });

  it("counts what is refused and goes by the rest", () => {
    const half = curve((x) => {
      if (x < 0) throw new RefusedError("x", ["No."]);
      return x;
    });
    const { bands, refused } = draw(half);
    expect(Math.abs(refused / DRAWS - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / DRAWS));
    expect(bands["y"]!.low).toBeGreaterThan(0);
    // The half-normal distribution's median. memory
    expect(Math.abs(bands["y"]!.value - 0.6745)).toBeLessThan(0.04);
  });

  it("gives null where no draw gave a value", () => {
    expect(draw(curve(() => null)).bands["y"]).toBeNull();
    expect(draw(curve(() => null)).refused).toBe(0);
    const never = curve(() => {
      throw new RefusedError("x", ["No."]);
    });
    expect(draw(never)).toEqual({ bands: { y: null }, refused: DRAWS });
  });

  it("has no band where all is sure", () => {
    expect(
      draw(
        curve((x) => 3 * x, plain("x")),
        { x: 2 },
      ).bands["y"],
    ).toEqual({
      value: 6,
      low: 6,
      high: 6,
    });
  });

  it("goes by the middle of a value that the model gives a band of its own", () => {
    const model = declare("model", {
      inputs: { x: plain("x") },
      results: { y: answer() },
      compute: ({ x }) => ({ y: { value: 4 * x, low: x, high: 9 * x } }),
    });
    expect(draw(model, { x: 2 }).bands["y"]).toEqual({ value: 8, low: 8, high: 8 });
  });

  it("draws for what is unsure alone: sure numbers, choices and readings change no draw", () => {
    const x = unsure("x", 5, 0.5);
    const alone = declare("alone", {
      inputs: { x },
      results: { y: answer() },
      compute: (inputs) => ({ y: 2 * inputs.x + 3 }),
    });
    const column = { name: "t", label: "Time", dimension: "fraction", units: ["1"] } as const;
    const among = declare("among", {
      inputs: {
        sure: plain("sure", { default: 2 }),
        kind: choice("kind", {
          label: "Kind",
          hint: "",
          options: [{ value: "only", label: "Only" }],
          default: "only",
        }),
        log: readings("log", {
          label: "Log",
          hint: "",
          columns: [{ ...column, digits: 3, limits: { min: 0, max: 9, unit: "1" } }],
          count: { min: 1, max: 3 },
          default: [[3]],
        }),
        x,
      },
      results: { y: answer() },
      compute: (inputs) => ({ y: inputs.sure * inputs.x + (inputs.log[0]?.[0] ?? 0) }),
    });
    expect(draw(among)).toEqual(draw(alone));
    expect(draw(among).bands["y"]!.high).toBeGreaterThan(14);
    expect(draw(among, { x: "5" }).refused).toBe(DRAWS);
  });

  const first = declare("first", {
    inputs: { x: unsure("x", 1, 0.1) },
    results: { y: answer() },
    compute: ({ x }) => ({ y: 2 * x }),
  });
  const second = declare("second", {
    inputs: { y: plain("y"), again: plain("again") },
    results: { z: answer(), difference: answer() },
    links: { y: "first.y", again: "first.y" },
    compute: ({ y, again }) => ({ z: y, difference: y - again }),
  });

  it("draws what is shared at its root, so that it cancels", () => {
    const { bands } = drawBands(new Graph([first, second]), "second", {}, DRAWS, SEED);
    expect(bands["difference"]).toEqual({ value: 0, low: 0, high: 0 });
    expect((bands["z"]!.high - bands["z"]!.low) / (2 * Z * 0.2)).toBeCloseTo(1, 1);
  });

  it("leaves alone what is decided, and the reader's batch", () => {
    const decided: AnyCalculation = { ...second, decided: ["y", "again"] };
    const batch = { x: 3 };
    const { bands } = drawBands(new Graph([first, decided]), "second", batch, DRAWS, SEED);
    expect(bands["z"]).toEqual({ value: 6, low: 6, high: 6 });
    expect(batch).toEqual({ x: 3 });
  });

  it("takes 100 draws", () => {
    expect(draw(first, {}, 100).bands["y"]!.high).toBeGreaterThan(2);
  });

  it.each([99, 1_000_001, 0, Number.NaN])("refuses %d draws", (draws) => {
    expect(() => draw(first, {}, draws)).toThrow(OutOfRangeError);
  });
});
