import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { choice, RefusedError, type Quantity } from "../../../lib/calculations/calculation.ts";
import { Graph, type BatchValues } from "../../../lib/calculations/graph.ts";
import { say } from "../../../lib/calculations/say.ts";
import { solveFor, type Solved } from "../../../lib/calculations/solve.ts";
import { answer, declare, plain } from "../../helpers/small-calculations.ts";

const UNIT = { limits: { min: 0, max: 1, unit: "1" }, default: 0.5 } as const;

/** Which x gives f(x) = wanted; f gives `undefined` where it refuses. */
function solve(
  f: (x: number) => number | null | undefined,
  wanted: number,
  facts: Partial<Omit<Quantity, "kind" | "name">> = UNIT,
): Solved {
  const curve = declare("curve", {
    inputs: { x: plain("x", facts) },
    results: { y: answer() },
    compute: ({ x }) => {
      const y = f(x);
      if (y === undefined) throw new RefusedError("x", ["No."]);
      return { y };
    },
  });
  return solveFor(new Graph([curve]), "curve", {}, { result: "y", value: wanted }, "x");
}

function root(solved: Solved): number {
  if (!solved.ok) throw new Error(say(solved.say));
  return solved.value;
}

function why(solved: Solved): string {
  if (solved.ok) throw new Error(`found ${solved.value}`);
  return say(solved.say);
}

/** The answers that a refusal names because there are several. */
function answers(solved: Solved): readonly number[] {
  if (solved.ok) throw new Error(`found ${solved.value} alone`);
  return solved.say.flatMap((part) => (typeof part === "string" ? [] : [part.value]));
}

/** Where a solver looks, in its order, while the result stays what it is. */
function looks(min: number, max: number): readonly number[] {
  const xs: number[] = [];
  class Watched extends Graph {
    override sampler(id: string, batch: BatchValues) {
      const sample = super.sampler(id, batch);
      return (moved: BatchValues) => {
        xs.push(moved["x"] as number);
        return sample(moved);
      };
    }
  }
  const flat = declare("flat", {
    inputs: { x: plain("x", { limits: { min, max, unit: "1" }, default: min }) },
    results: { y: answer() },
    compute: () => ({ y: 4 }),
  });
  solveFor(new Watched([flat]), "flat", {}, { result: "y", value: 5 }, "x");
  return xs;
}

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Whole numbers are looked at, and nothing between them. */
const WHOLE = { limits: { min: 10, max: 250, unit: "1" }, default: 20 } as const;

describe("solveFor(graph, id, batch, wanted, moving) and where it looks", () => {
  it("looks from one end of the range to the other, never beyond, at 240 steps or more", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), number(1e-3, 1e6), (thousandths, width) => {
        const min = thousandths / 1000;
        const xs = looks(min, min + width);
        expect([xs[0], xs.at(-1)]).toEqual([min, expect.closeTo(min + width, 8)]);
        expect(Math.max(...xs)).toBeLessThanOrEqual(min + width);
        xs.slice(1).forEach((x, i) => {
          expect(x).toBeGreaterThan(xs[i] as number);
          expect(x - (xs[i] as number)).toBeLessThan((width / 240) * 1.001);
        });
      }),
      { seed: 1, numRuns: 20 },
    );
  });

  it("looks at 240 steps of one factor too, where a range above zero goes over two decades", () => {
    fc.assert(
      fc.property(number(1e-6, 10), number(100.001, 1e6), (min, factor) => {
        const xs = looks(min, min * factor);
        const step = factor ** (1 / 240) * 1.001;
        xs.slice(1).forEach((x, i) => expect(x / (xs[i] as number)).toBeLessThan(step));
      }),
      { seed: 2, numRuns: 20 },
    );
    expect(looks(1, 99)).toHaveLength(241);
    expect(looks(1, 100).length).toBeGreaterThan(400);
  });

  it.each([0, -1])("goes down to a millionth of the top where the range begins at %d", (min) => {
    const xs = looks(min, 1).filter((x) => x >= 1e-6);
    expect(xs[0]).toBe(1e-6);
    const step = 1e6 ** (1 / 240) * 1.001;
    xs.slice(1).forEach((x, i) => expect(x / (xs[i] as number)).toBeLessThan(step));
  });

  it("looks evenly at a range below zero", () => {
    expect(looks(-480, 0)).toEqual(Array.from({ length: 241 }, (_, i) => -480 + 2 * i));
    expect(looks(-480, -240)).toEqual(Array.from({ length: 241 }, (_, i) => -480 + i));
  });
});

describe("solveFor(graph, id, batch, wanted, moving)", () => {
  it("finds what a rising or falling curve was worked out from", () => {
    fc.assert(
      fc.property(number(0, 1), number(-0.5, 8), fc.boolean(), (x, bend, falls) => {
        const f = (at: number) => (falls ? -1 : 1) * (at + 1) * Math.exp(bend * at);
        expect(root(solve(f, f(x)))).toBeCloseTo(x, 9);
      }),
      { seed: 3, numRuns: 20 },
    );
  });

  it("names all answers of a polynomial, the least first", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 2, maxLength: 5 }),
        fc.integer({ min: -9, max: 9 }),
        (hundredths, shift) => {
          const roots = hundredths.map((n) => n / 100 + 0.001).sort((a, b) => a - b);
          const f = (x: number) => shift + roots.reduce((y, at) => y * (x - at), 1);
          // The shift costs digits: what is left of 16 is enough for six.
          const found = answers(solve(f, shift));
          expect(found).toEqual(roots.map((at) => expect.closeTo(at, 3)));
        },
      ),
      { seed: 4, numRuns: 20 },
    );
  });

  it("counts five answers as several, and six as any", () => {
    const waves = (n: number) => solve((x) => Math.sin(n * Math.PI * (x + 0.5 / n)), 0);
    expect(answers(waves(5))).toEqual([0.1, 0.3, 0.5, 0.7, 0.9].map((x) => expect.closeTo(x, 9)));
    expect(why(waves(6))).toBe("Any value of x gives that, or nearly any. Type one.");
  });

  it("finds an answer that is looked at twice but for rounding", () => {
    // A tenth of the range is one of its even steps and one of its steps of a factor.
    expect(root(solve((x) => 5 * x, 5 * (0.1 - 2 ** -56)))).toBeCloseTo(0.1, 15);
    for (const x of [0.1 - 2 ** -56, 0.1, 0.1 + 2 ** -56])
      expect(root(solve((at) => Math.sin(at - 0.1), Math.sin(x - 0.1)))).toBeCloseTo(0.1, 15);
  });

  it("names an answer once that lies in the middle between two places it looks at", () => {
    const f = (x: number) => (x - 100.5) ** 2;
    expect(root(solve(f, 0, WHOLE))).toBeCloseTo(100.5, 4);
    expect(answers(solve(f, 0.01, WHOLE))).toEqual([
      expect.closeTo(100.4, 9),
      expect.closeTo(100.6, 9),
    ]);
  });

  it.each([1e-8, 1, 1e8])(
    "tells touching from coming near where results are of size %d",
    (size) => {
      for (const at of [100.3, 100.5, 100.7]) {
        expect(root(solve((x) => size * (x - at) ** 2, 0, WHOLE))).toBeCloseTo(at, 4);
        expect(root(solve((x) => -size * (x - at) ** 2, 0, WHOLE))).toBeCloseTo(at, 4);
        const near = why(solve((x) => size * ((x - at) ** 2 + 1e-6), 0, WHOLE));
        expect(near).toContain("out of reach");
      }
    },
  );

  it("names the other answer where one of two between two samples is refused", () => {
    const dip = (refused: number) => (x: number) =>
      Math.abs(x - refused) < 0.01 ? undefined : (x - 100.5) ** 2;
    expect(root(solve(dip(100.4), 0.01, WHOLE))).toBeCloseTo(100.6, 9);
    expect(root(solve(dip(100.6), 0.01, WHOLE))).toBeCloseTo(100.4, 9);
  });

  it("takes no refusal between two samples for an answer, nor a fault for a refusal", () => {
    const gap = (x: number, inside: () => undefined) =>
      Math.abs(x - 100.5) < 0.1 ? inside() : x - 100.5;
    expect(why(solve((x) => gap(x, () => undefined), 0, WHOLE))).toContain("out of reach");
    const slip = (): never => {
      throw new TypeError("a slip");
    };
    expect(() => solve((x) => gap(x, slip), 0, WHOLE)).toThrow("a slip");
  });

  it.each([
    ["a line", (x: number) => 3 * x - 1, 0.1, 1.1 / 3],
    ["a falling line", (x: number) => -x, -0.123, 0.123],
    ["a cubic", (x: number) => x ** 3, 0.2, 0.2 ** (1 / 3)],
    ["an exponential", (x: number) => Math.exp(9 * x), 4000, Math.log(4000) / 9],
    ["a steep step that is smooth", (x: number) => Math.tanh(500 * (x - 0.501)), 0, 0.501],
  ])("finds the one root of %s", (_, f, wanted, x) => {
    expect(root(solve(f, wanted))).toBeCloseTo(x, 11);
  });

  it("takes an answer at an end of the range, and just one", () => {
    expect(root(solve((x) => x * x + x, 0))).toBe(0);
    expect(root(solve((x) => x * x + x, 2))).toBe(1);
  });

  it("counts a root that is a sample once", () => {
    expect(root(solve((x) => x, 0.5))).toBe(0.5);
  });

  it("finds small answers in a range of many decades", () => {
    const decades = { limits: { min: 1e-8, max: 1, unit: "1" } };
    expect(root(solve((x) => Math.log10(x), -6.5, decades)) / 10 ** -6.5).toBeCloseTo(1, 10);
    expect(root(solve((x) => 1 / x, 3e7, decades)) * 3e7).toBeCloseTo(1, 10);
    // From zero on, six decades below the top.
    expect(root(solve((x) => Math.sqrt(x), 2e-3))).toBeCloseTo(4e-6, 15);
  });

  it("finds a root on either side of zero", () => {
    const both = { limits: { min: -10, max: 10, unit: "1" } };
    expect(root(solve((x) => x ** 3, -8, both))).toBeCloseTo(-2, 11);
    expect(root(solve((x) => x + 5, 5, both))).toBeCloseTo(0, 11);
  });

  it("says how far the result goes when no value gives the one wanted", () => {
    const says = why(solve((x) => 2 + x, 7));
    expect(says).toContain("Answer goes from 2 to 3 while x goes over its range");
    expect(says).toContain("so 7 is out of reach");
  });

  it("names all the answers when there are several", () => {
    const says = why(solve((x) => Math.abs(x - 0.4), 0.103));
    expect(says).toBe("Several values of x give that: 0.297, 0.503. Type the one you mean.");
    expect(why(solve((x) => Math.sin(15 * x), 0.5))).toMatch(
      /^Several values of x give that: (?:[^,]+, ){4}/,
    );
  });

  it("finds where a curve just touches, between two samples", () => {
    expect(root(solve((x) => 3 - (x - 0.31415) ** 2, 3))).toBeCloseTo(0.31415, 6);
    expect(root(solve((x) => (x - 0.31415) ** 2, 0))).toBeCloseTo(0.31415, 6);
  });

  it("tells two answers apart that lie between two samples", () => {
    const says = why(solve((x) => 3 - (x - 0.3141) ** 2, 3 - 1e-6));
    expect(says).toBe("Several values of x give that: 0.3131, 0.3151. Type the one you mean.");
  });

  it("says how high a curve goes that turns between two samples", () => {
    const says = why(solve((x) => 3 - 1000 * (x - 0.31415) ** 2, 3.01));
    expect(says).toContain("Answer goes from \u2212467.4 to 3 while");
  });

  it("calls it any value where the result does not move, and says so where it is another", () => {
    expect(why(solve(() => 4, 4))).toMatch(/^Any value of x gives that/);
    for (const same of [0, 4, -4, 4e9])
      expect(why(solve(() => same, 5))).toContain("does not depend on this input");
    expect(why(solve((x) => 1e-6 * x, 5))).toContain("out of reach");
  });

  it("takes no jump for an answer", () => {
    expect(why(solve((x) => (x < 0.31 ? 0 : 1), 0.5))).toContain("out of reach");
    const across = { limits: { min: -1, max: 1, unit: "1" } };
    expect(why(solve((x) => 1 / (x - 0.0123), 0, across))).toContain("out of reach");
  });

  it("finds an answer between the edge of a refusal and the next sample", () => {
    const edge = 0.31371;
    for (const beyond of [1e-3, 1e-5, 1e-9]) {
      const above = solve((x) => (x < edge ? undefined : x), edge + beyond);
      expect(root(above)).toBeCloseTo(edge + beyond, 11);
      const below = solve((x) => (x > edge ? undefined : x), edge - beyond);
      expect(root(below)).toBeCloseTo(edge - beyond, 11);
    }
  });

  it("finds the very edge of a refusal", () => {
    const edge = 0.31371;
    expect(root(solve((x) => (x < edge ? undefined : x - edge), 0))).toBe(edge);
    expect(root(solve((x) => (x > edge ? undefined : x - edge), 0))).toBe(edge);
  });

  it("finds none beyond the edge of a refusal", () => {
    const says = why(solve((x) => (x < 0.25 ? undefined : x), 0.2));
    expect(says).toContain("Answer goes from 0.25 to 1");
  });

  it("passes by where the result has no value", () => {
    expect(root(solve((x) => (x < 0.25 ? null : x), 0.7))).toBeCloseTo(0.7, 11);
    expect(why(solve((x) => (x < 0.5 ? null : x), 0.3))).toContain("out of reach");
  });

  it("says so where every value is refused", () => {
    expect(why(solve(() => undefined, 1))).toBe("No value of x gives an answer here.");
  });

  it.each([Number.NaN, Infinity, -Infinity])("asks for a number instead of %d", (wanted) => {
    expect(why(solve((x) => x, wanted))).toBe("Type the value you want.");
  });

  const graph = new Graph([
    declare("first", {
      inputs: { x: plain("x") },
      results: { y: answer() },
      compute: ({ x }) => ({ y: 2 * x }),
    }),
    declare("second", {
      inputs: {
        y: plain("y"),
        c: plain("c", { default: 10 }),
        kind: choice("kind", {
          label: "Kind",
          hint: "",
          options: [{ value: "only", label: "Only" }],
          default: "only",
        }),
      },
      results: { z: answer() },
      links: { y: "first.y" },
      compute: ({ y, c }) => ({ z: y + c }),
    }),
  ]);

  it("types over a link that may move, and keeps all else as the reader has it", () => {
    const batch = { x: 4, c: 1 };
    const wanted = { result: "z", value: 30 };
    expect(root(solveFor(graph, "second", batch, wanted, "y"))).toBeCloseTo(29, 9);
    expect(root(solveFor(graph, "second", batch, wanted, "c"))).toBeCloseTo(22, 9);
    expect(batch).toEqual({ x: 4, c: 1 });
  });

  it("refuses names that are not there, and a choice", () => {
    const to = (id: string, result: string, moving: string) => () =>
      solveFor(graph, id, {}, { result, value: 1 }, moving);
    expect(to("third", "z", "c")).toThrow(TypeError);
    expect(to("second", "y", "c")).toThrow(/no result "y"/);
    expect(to("second", "z", "x")).toThrow(/no number input "x"/);
    expect(to("second", "z", "kind")).toThrow(/no number input "kind"/);
  });
});
