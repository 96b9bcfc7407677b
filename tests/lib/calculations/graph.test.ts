import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  choice,
  readings,
  RefusedError,
  type AnyCalculation,
  type Banded,
} from "../../../lib/calculations/calculation.ts";
import {
  COVERAGE,
  Graph,
  inputsByKey,
  keyOf,
  linkOf,
  type BatchValues,
  type Outcome,
} from "../../../lib/calculations/graph.ts";
import { say } from "../../../lib/calculations/say.ts";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { answer, declare, plain, unsure } from "../../helpers/small-calculations.ts";

const a = unsure("a", 3, 0.03);
const b = unsure("b", 5, 0.2);

const product = declare("product", {
  inputs: { a, b },
  results: { y: answer() },
  compute: (inputs) => ({ y: inputs.a * inputs.b }),
});

/** y = 2a; then z = y + c and a second way to the same a. */
const double = declare("double", {
  inputs: { a },
  results: { y: answer(), none: answer() },
  compute: (inputs) => {
    if (inputs.a > 100) throw new RefusedError("a", ["Too much."]);
    return { y: 2 * inputs.a, none: null };
  },
});
const sum = declare("sum", {
  inputs: { y: plain("y"), again: plain("again"), c: plain("c", { default: 10 }) },
  results: { z: answer(), difference: answer() },
  links: { y: "double.y", again: "double.y" },
  compute: ({ y, again, c }) => ({ z: y + c, difference: y - again }),
});
const chain = new Graph([double, sum]);

function right(outcome: Outcome): Outcome & { readonly ok: true } {
  if (!outcome.ok) throw new Error(outcome.refusals.map((r) => say(r.say)).join(" "));
  return outcome;
}

function resultOf(one: AnyCalculation, batch: BatchValues = {}, name = "y"): Banded {
  const value = right(new Graph([one]).evaluate(one.id, batch)).values[name];
  if (!value) throw new Error(`no ${name}`);
  return value;
}

function refusals(graph: Graph, id: string, batch: BatchValues): readonly string[] {
  const outcome = graph.evaluate(id, batch);
  return outcome.ok ? [] : outcome.refusals.map((r) => `${r.input}: ${say(r.say)}`);
}

const glass = choice("glass", {
  label: "Glass",
  hint: "",
  options: [
    { value: "tall", label: "Tall" },
    { value: "wide", label: "Wide" },
  ],
  default: "tall",
});

describe("keyOf(calculation, input) and linkOf(calculation, input)", () => {
  it("name a plain input by its quantity, a linked one by its place", () => {
    expect(keyOf(double, "a")).toBe("a");
    expect(keyOf(sum, "y")).toBe("sum.y");
    const renamed = declare("renamed", {
      inputs: { width: plain("length") },
      results: { y: answer() },
      compute: ({ width }) => ({ y: width }),
    });
    expect(keyOf(renamed, "width")).toBe("length");
  });

  it("part a link, and find none where there is none", () => {
    expect(linkOf(sum, "y")).toEqual({ calculation: "double", result: "y" });
    expect(linkOf(sum, "c")).toBeUndefined();
    expect(linkOf(double, "a")).toBeUndefined();
  });

  it("refuse an input that the calculation does not have", () => {
    expect(() => keyOf(sum, "d")).toThrow(/^sum has no input "d"$/);
  });
});

describe("Graph.get(id)", () => {
  it("lists what is loaded, for a wrong id", () => {
    expect(chain.get("sum")).toBe(sum);
    expect(() => chain.get("sums")).toThrow(/no calculation "sums"; there are double, sum/);
  });
});

describe("Graph.evaluate(id, batch) and its links", () => {
  it("takes the default, the reader's value or the link, and says which", () => {
    const outcome = right(chain.evaluate("sum", { c: 4 }));
    expect(outcome.inputs).toEqual({ y: 6, again: 6, c: 4 });
    expect(outcome.origins).toEqual({
      y: { calculation: "double", result: "y" },
      again: { calculation: "double", result: "y" },
      c: "reader",
    });
    expect(outcome.values["z"]?.value).toBe(10);
    expect(right(chain.evaluate("double", {})).origins).toEqual({ a: "default" });
  });

  it("follows a value that is changed upstream", () => {
    expect(right(chain.evaluate("sum", { a: 7 })).values["z"]?.value).toBe(24);
  });

  it("lets a link be typed over, that link alone", () => {
    const outcome = right(chain.evaluate("sum", { "sum.y": 1, a: 7 }));
    expect(outcome.inputs).toEqual({ y: 1, again: 14, c: 10 });
    expect(outcome.origins["y"]).toBe("reader");
  });

  it("takes a linked result with a band by its middle", () => {
    const model = declare("model", {
      inputs: { a },
      results: { y: answer() },
      compute: () => ({ y: { value: 4, low: 3, high: 9 } }),
    });
    const after = declare("after", {
      inputs: { y: plain("y") },
      results: { z: answer() },
      links: { y: "model.y" },
      compute: ({ y }) => ({ z: y }),
    });
    expect(new Graph([model, after]).run("after", {})?.["z"]?.value).toBe(4);
  });

  it("computes what two links share only once", () => {
    let count = 0;
    const counted = { ...double, compute: () => (count++, { y: 1, none: null }) };
    new Graph([counted, sum]).run("sum", {});
    expect(count).toBe(1);
  });

  it("takes a number that no scale could tell from nothing as nothing", () => {
    const inverse = declare("inverse", {
      inputs: { a },
      results: { y: answer() },
      compute: (inputs) => ({ y: inputs.a === 0 ? null : 1 / inputs.a }),
    });
    expect(new Graph([inverse]).run("inverse", { a: 1e-101 })?.["y"]).toBeNull();
    expect(new Graph([inverse]).run("inverse", { a: 1e-99 })?.["y"]?.value).toBeCloseTo(1e99, -90);
  });

  it("does not hide a fault behind a refusal", () => {
    const faulty = declare("faulty", {
      inputs: { a },
      results: { y: answer() },
      compute: () => {
        throw new TypeError("a slip");
      },
    });
    expect(() => new Graph([faulty]).evaluate("faulty", {})).toThrow("a slip");
    expect(() => new Graph([faulty]).runner("faulty", {}, [])(none)).toThrow("a slip");
  });

  it("calls a link to a result that is not there a fault", () => {
    const lost = { ...sum, links: { y: "double.gone" } };
    expect(() => new Graph([double, lost]).evaluate("sum", {})).toThrow(/no result "gone"/);
  });
});

describe("Graph.basis(id, batch)", () => {
  it("goes up the links to what a reader can enter, each once", () => {
    expect([...chain.basis("sum", {}).keys()]).toEqual(["a", "c"]);
  });

  it("ends at a link that is typed over", () => {
    expect([...chain.basis("sum", { "sum.y": 1 }).keys()]).toEqual(["sum.y", "a", "c"]);
    expect([...chain.basis("sum", { "sum.y": 1, "sum.again": 2 }).keys()]).toEqual([
      "sum.y",
      "sum.again",
      "c",
    ]);
  });
});

describe("Graph.evaluate(id, batch) and its bands", () => {
  it("adds the relative uncertainties of a product in squares", () => {
    // GUM 5.1.6: (u(y)/y)² = Σ (u(x)/x)² for a product. memory
    const { value, low, high } = resultOf(product);
    const relative = Math.hypot(0.03 / 3, 0.2 / 5);
    expect(value).toBe(15);
    expect((high - value) / value / COVERAGE).toBeCloseTo(relative, 12);
    expect((value - low) / value / COVERAGE).toBeCloseTo(relative, 12);
  });

  it("is exact for a straight line", () => {
    const line = declare("line", {
      inputs: { a, b, sure: plain("sure") },
      results: { y: answer() },
      compute: (inputs) => ({ y: 4 * inputs.a - 7 * inputs.b + 100 * inputs.sure + 2 }),
    });
    const { value, low, high } = resultOf(line);
    const half = 2 * Math.hypot(4 * 0.03, 7 * 0.2);
    expect(value).toBe(79);
    expect(high - value).toBeCloseTo(half, 11);
    expect(value - low).toBeCloseTo(half, 11);
  });

  it("says what each input does, with its sign, and leaves out who is sure", () => {
    const { influences } = right(chain.evaluate("sum", {}));
    expect(influences.map(({ key }) => key)).toEqual(["a"]);
    expect(influences[0]?.standardUncertainty).toBe(0.03);
    expect(influences[0]?.effects["z"]).toBeCloseTo(0.06, 12);
    const falling = declare("falling", {
      inputs: { a },
      results: { y: answer(), none: answer() },
      compute: (inputs) => ({ y: -inputs.a, none: null }),
    });
    const [only] = right(new Graph([falling]).evaluate("falling", {})).influences;
    expect(only?.effects["y"]).toBeCloseTo(-0.03, 12);
    expect(only?.effects).not.toHaveProperty("none");
  });

  it("moves what is shared at its root, so that it cancels", () => {
    const { values } = right(chain.evaluate("sum", {}));
    expect(values["difference"]).toEqual({ value: 0, low: 0, high: 0 });
    expect(values["z"]!.high - values["z"]!.value).toBeCloseTo(2 * 2 * 0.03, 12);
  });

  it("takes a stated share of the value as it is now", () => {
    const share = plain("share", { uncertainty: { relative: 0.01, because: "" } });
    const same = declare("same", {
      inputs: { share },
      results: { y: answer() },
      compute: (inputs) => ({ y: inputs.share }),
    });
    for (const at of [-20, 0.5, 40])
      expect(resultOf(same, { share: at }).high - at).toBeCloseTo(2 * 0.01 * Math.abs(at), 12);
    expect(resultOf(same, { share: 0 })).toEqual({ value: 0, low: 0, high: 0 });
  });

  it.each([
    ["above", 1, (x: number) => x > 1, 1 - 0.9 ** 2],
    ["below", 1, (x: number) => x < 1, 1.1 ** 2 - 1],
    ["on both sides", 1, (x: number) => x !== 1, 0],
  ])("lets one side stand for both beside a refusal %s", (_, start, isRefused, change) => {
    const beside = declare("beside", {
      inputs: { x: unsure("x", start, 0.1) },
      results: { y: answer() },
      compute: ({ x }) => {
        if (isRefused(x)) throw new RefusedError("x", ["No."]);
        return { y: x * x };
      },
    });
    const { value, low, high } = resultOf(beside);
    expect(high - value).toBeCloseTo(2 * change, 12);
    expect(value - low).toBeCloseTo(2 * change, 12);
  });

  it("counts a whole uncertainty at a limit, where only one side can be moved", () => {
    const edge = declare("edge", {
      inputs: { x: unsure("x", 1000, 0.1) },
      results: { y: answer() },
      compute: ({ x }) => ({ y: 3 * x }),
    });
    const { value, low } = resultOf(edge);
    expect(value - low).toBeCloseTo(0.6, 9);
  });

  it("adds in squares what the model brings, each side by itself", () => {
    const model = declare("model", {
      inputs: { a },
      results: { y: answer() },
      compute: (inputs) => ({ y: { value: inputs.a, low: inputs.a - 0.08, high: inputs.a + 0.8 } }),
    });
    const { value, low, high } = resultOf(model);
    expect(value - low).toBeCloseTo(Math.hypot(0.08, 0.06), 12);
    expect(high - value).toBeCloseTo(Math.hypot(0.8, 0.06), 12);
  });

  it("stays within the result's bounds, and never leaves the value out", () => {
    const bounded = declare("bounded", {
      inputs: { a },
      results: { y: answer({ bounds: { min: 0, max: 1 } }), least: answer({ bounds: { min: 0 } }) },
      compute: (inputs) => ({ y: inputs.a, least: inputs.a }),
    });
    expect(resultOf(bounded, { a: 0.02 }).low).toBe(0);
    expect(resultOf(bounded, { a: 0.02 }).high).toBeCloseTo(0.08, 12);
    expect(resultOf(bounded, { a: 0.98 }).high).toBe(1);
    expect(resultOf(bounded, { a: 2 }).high).toBe(2);
    expect(resultOf(bounded, { a: 0.98 }, "least").high).toBeCloseTo(1.04, 12);
  });

  it("takes a factor either way where the result says so", () => {
    const x = unsure("x", 2, 0.4);
    const facts = { inputs: { x }, compute: (inputs: { x: number }) => ({ y: inputs.x ** 3 }) };
    const straight = resultOf(declare("cube", { ...facts, results: { y: answer() } }));
    const factor = resultOf(
      declare("cube", { ...facts, results: { y: answer({ byFactor: true }) } }),
    );
    const spread = Math.exp(COVERAGE * 3 * (Math.log(2.4 / 1.6) / 2));
    expect(straight.low).toBeLessThan(0);
    expect(factor.low).toBeCloseTo(8 / spread, 12);
    expect(factor.high).toBeCloseTo(8 * spread, 12);
  });

  it("gives a statistic no band", () => {
    const x = unsure("x", 2, 0.4);
    const y = resultOf(
      declare("same", {
        inputs: { x },
        results: { y: answer({ unbanded: true }) },
        compute: (inputs) => ({ y: inputs.x }),
      }),
    );
    expect(y).toEqual({ value: 2, low: 2, high: 2 });
  });

  it("gives null where compute does", () => {
    expect(right(chain.evaluate("double", {})).values["none"]).toBeNull();
  });
});

describe("Graph.evaluate(id, batch) with decided inputs", () => {
  const decided: AnyCalculation = { ...sum, decided: ["y", "again"] };
  const graph = new Graph([double, decided]);

  it("does not widen the band by what upstream was unsure of", () => {
    const z = right(graph.evaluate("sum", {})).values["z"];
    expect(z).toEqual({ value: 16, low: 16, high: 16 });
    expect(right(graph.evaluate("sum", {})).influences).toEqual([]);
  });

  it("still starts from upstream", () => {
    const outcome = right(graph.evaluate("sum", { a: 7 }));
    expect(outcome.inputs["y"]).toBe(14);
    expect(outcome.origins["y"]).toEqual({ calculation: "double", result: "y" });
  });

  it("pins in decide() what the links give, and nothing else", () => {
    expect(graph.decide("sum", { a: 7, "sum.again": 2 })).toEqual({
      a: 7,
      "sum.y": 14,
      "sum.again": 2,
    });
    const batch = { a: 7 };
    expect(graph.decide("double", batch)).toBe(batch);
    expect(batch).toEqual({ a: 7 });
  });

  it("pins what is decided further up the chain too", () => {
    const pinned = declare("pinned", {
      inputs: { y: plain("y") },
      results: { z: answer() },
      links: { y: "double.y" },
      decided: ["y"],
      compute: ({ y }) => ({ z: y }),
    });
    const after = declare("after", {
      inputs: { z: plain("z") },
      results: { w: answer() },
      links: { z: "pinned.z" },
      compute: ({ z }) => ({ w: z }),
    });
    const graph = new Graph([double, pinned, after]);
    expect(graph.decide("after", {})).toEqual({ "pinned.y": 6 });
    expect(graph.decide("after", { "after.z": 1 })).toEqual({ "after.z": 1 });
    expect(right(graph.evaluate("after", {})).values["w"]).toEqual({ value: 6, low: 6, high: 6 });
  });

  it("moves the typed value where that has its own uncertainty", () => {
    const scale: AnyCalculation = declare("sum", {
      inputs: { y: unsure("y", 0, 0.5) },
      results: { z: answer() },
      links: { y: "double.y" },
      decided: ["y"],
      compute: ({ y }) => ({ z: y }),
    });
    const z = right(new Graph([double, scale]).evaluate("sum", {})).values["z"];
    expect(z).toEqual({ value: 6, low: 5, high: 7 });
  });
});

describe("Graph.evaluate(id, batch) where there is no answer", () => {
  it("names each input that is out of range, with the range", () => {
    expect(refusals(new Graph([product]), "product", { a: 1001, b: -1000.5 })).toEqual([
      "a: a must be from \u22121000 to 1000.",
      "b: b must be from \u22121000 to 1000.",
    ]);
    expect(refusals(new Graph([product]), "product", { a: 1000, b: -1000 })).toEqual([]);
  });

  it.each([Number.NaN, Infinity, "3"])("refuses %s as a number", (wrong) => {
    expect(refusals(new Graph([product]), "product", { a: wrong })).toHaveLength(1);
  });

  it("refuses a part of what is counted", () => {
    const n = plain("n", { whole: true, limits: { min: 1, max: 9, unit: "1" } });
    const graph = new Graph([
      declare("count", {
        inputs: { n },
        results: { y: answer() },
        compute: (inputs) => ({ y: inputs.n }),
      }),
    ]);
    expect(refusals(graph, "count", { n: 2.5 })).toEqual([
      "n: n must be a whole number from 1 to 9.",
    ]);
    expect(graph.evaluate("count", { n: 2 }).ok).toBe(true);
  });

  it("names the row at fault of readings", () => {
    const log = readings("log", {
      label: "Log",
      hint: "",
      columns: [
        {
          name: "t",
          label: "Time",
          dimension: "fraction",
          units: ["1"],
          digits: 3,
          limits: { min: 0, max: 9, unit: "1" },
        },
      ],
      count: { min: 1, max: 3 },
      default: [[1]],
    });
    const graph = new Graph([
      declare("last", {
        inputs: { log },
        results: { y: answer() },
        compute: (inputs) => ({ y: inputs.log.at(-1)?.[0] ?? null }),
      }),
    ]);
    expect(right(graph.evaluate("last", { log: [[2], [3]] })).values["y"]?.value).toBe(3);
    expect(refusals(graph, "last", { log: [[2], [30]] })).toEqual([
      "log: Row 2: the time must be from 0 to 9.",
    ]);
    expect(refusals(graph, "last", { log: 4 })).toEqual(["log: Log: give rows of time."]);
  });

  it("offers the options of a choice", () => {
    const pour = declare("pour", {
      inputs: { glass },
      results: { y: answer() },
      compute: (inputs) => ({ y: inputs.glass === "tall" ? 1 : 2 }),
    });
    const graph = new Graph([pour]);
    expect(graph.run("pour", {})?.["y"]?.value).toBe(1);
    expect(graph.run("pour", { glass: "wide" })?.["y"]?.value).toBe(2);
    expect(refusals(graph, "pour", { glass: "flat" })).toEqual([
      "glass: Glass: choose one of tall, wide.",
    ]);
    expect(refusals(graph, "pour", { glass: 1 })).toHaveLength(1);
  });

  it("passes on what upstream says, under the input that waits for it", () => {
    const says = "This comes from “The double”, which has no answer yet: Too much.";
    expect(refusals(chain, "sum", { a: 101 })).toEqual([`y: ${says}`, `again: ${says}`]);
    expect(refusals(chain, "sum", { a: 101, "sum.y": 1 })).toEqual([`again: ${says}`]);
    expect(refusals(chain, "sum", { a: 101, "sum.y": 1, "sum.again": 1 })).toEqual([]);
  });

  it("speaks of its own faults first", () => {
    expect(refusals(chain, "sum", { a: 101, c: 2000 })).toEqual([
      "c: c must be from \u22121000 to 1000.",
    ]);
  });

  it("still shows the inputs it could find", () => {
    const outcome = chain.evaluate("sum", { a: 101, "sum.again": 8 });
    expect(outcome.ok).toBe(false);
    expect(outcome.inputs).toEqual({ again: 8, c: 10 });
    expect(outcome.origins["y"]).toEqual({ calculation: "double", result: "y" });
  });

  it("asks for a value where upstream gives none", () => {
    const waits = { ...sum, links: { y: "double.none" } };
    expect(refusals(new Graph([double, waits]), "sum", {})).toEqual([
      "y: “The double” gives no value here. Type one.",
    ]);
  });

  it("refuses a linked value that is out of this input's range", () => {
    const small: AnyCalculation = declare("small", {
      inputs: { y: plain("y", { limits: { min: 0, max: 5, unit: "1" } }) },
      results: { z: answer() },
      links: { y: "double.y" },
      compute: ({ y }) => ({ z: y }),
    });
    const graph = new Graph([double, small]);
    expect(refusals(graph, "small", {})).toEqual(["y: y must be from 0 to 5."]);
    expect(refusals(graph, "small", { a: 2.5 })).toEqual([]);
  });

  it("blames the input that a law's error speaks of", () => {
    const law = declare("law", {
      inputs: { a, b },
      results: { y: answer() },
      blame: { strength: "b" },
      compute: () => {
        throw new OutOfRangeError("strength", 2, { min: 0, max: 1, unit: "1" });
      },
    });
    expect(refusals(new Graph([law]), "law", {})[0]).toMatch(/^b: /);
  });
});

describe("Graph.evaluate(id, batch) and its cautions", () => {
  it("gives those whose condition holds, with the numbers in their words", () => {
    const watched = declare("watched", {
      inputs: { a },
      results: { y: answer() },
      compute: (inputs) => ({ y: 2 * inputs.a }),
      cautions: [
        {
          caution: "hot",
          when: (_, { y }) => (y?.value ?? 0) > 10,
          say: (inputs) => [`a is ${inputs.a}.`],
        },
        { caution: "never", when: () => false, say: () => [""] },
      ],
    });
    const graph = new Graph([watched]);
    expect(right(graph.evaluate("watched", { a: 5 })).cautions).toEqual([]);
    expect(right(graph.evaluate("watched", { a: 6 })).cautions).toEqual([
      { caution: "hot", say: ["a is 6."] },
    ]);
  });
});

describe("Graph.spread(id, batch)", () => {
  it("moves each uncertain quantity behind the inputs, both ways, links followed", () => {
    const [moved, ...others] = chain.spread("sum", {});
    expect(others).toEqual([]);
    expect(moved?.above).toEqual({ y: 6.06, again: 6.06, c: 10 });
    expect(moved?.below).toEqual({ y: 5.94, again: 5.94, c: 10 });
  });

  it("leaves a way out that would be refused", () => {
    const [moved] = chain.spread("sum", { a: 100 });
    expect(moved?.above).toBeUndefined();
    expect(moved?.below).toBeDefined();
  });

  it("leaves a way out that would pass a limit, and goes up to it where it is near", () => {
    const graph = new Graph([product]);
    const [atTop] = graph.spread("product", { a: 1000 });
    expect(atTop).toEqual({ above: undefined, below: { a: 999.97, b: 5 } });
    const [atBottom] = graph.spread("product", { a: -1000 });
    expect(atBottom).toEqual({ above: { a: -999.97, b: 5 }, below: undefined });
    const [near] = graph.spread("product", { a: 999.98 });
    expect(near?.above).toEqual({ a: 1000, b: 5 });
  });
});

describe("Graph.reach(id)", () => {
  it("holds every key that could decide a result, links and what they stand for alike", () => {
    expect([...chain.reach("sum")].sort()).toEqual(["a", "c", "sum.again", "sum.y"]);
    expect([...chain.reach("double")]).toEqual(["a"]);
  });
});

describe("Graph.run(id, batch)", () => {
  it("gives values without bands, and null where refused", () => {
    expect(chain.run("sum", {})).toEqual({
      z: { value: 16, low: 16, high: 16 },
      difference: { value: 0, low: 0, high: 0 },
    });
    expect(chain.run("sum", { a: 101 })).toBeNull();
  });
});

const none = new Float64Array(0);

describe("Graph.runner(id, batch, moving)", () => {
  it("computes what run does, again and again, links and typed values alike", () => {
    for (const moving of [["a"], ["a", "sum.y"], ["c", "a"]]) {
      const runner = chain.runner("sum", {}, moving, ["z"]);
      for (const by of [1, 2, 2, -3]) {
        const batch = Object.fromEntries(moving.map((key, i) => [key, by + i]));
        const moved = Float64Array.from(moving, (_, i) => by + i);
        expect(runner(moved)).toEqual([chain.run("sum", batch)?.["z"]?.value]);
      }
    }
  });

  it("keeps what does not move as the batch has it, links typed over too", () => {
    const batch = { c: 4, "sum.y": 7 };
    const runner = chain.runner("sum", batch, ["c"], ["z"]);
    for (const moved of [1, 2])
      expect(runner(Float64Array.of(moved))).toEqual([
        chain.run("sum", { ...batch, c: moved })?.["z"]?.value,
      ]);
  });

  it("gives nothing where refused, here or upstream, and answers after that", () => {
    const runner = chain.runner("sum", {}, ["a", "c"], ["z"]);
    expect(runner(Float64Array.of(101, 1))).toBeUndefined();
    expect(runner(Float64Array.of(1, 1))).toEqual([3]);
    expect(runner(Float64Array.of(1, 1001))).toBeUndefined();
    expect(runner(Float64Array.of(Number.NaN, 1))).toBeUndefined();
    expect(runner(Float64Array.of(2, 1))).toEqual([5]);
  });

  it("gives nothing at all where what does not move is refused", () => {
    const runner = chain.runner("sum", { c: 1001 }, ["a"], ["z"]);
    expect([runner(Float64Array.of(1)), runner(Float64Array.of(2))]).toEqual([
      undefined,
      undefined,
    ]);
  });

  it("works out what nothing moves only once, and only the results asked for", () => {
    const asked: string[] = [];
    const lazy = declare("lazy", {
      inputs: { a },
      results: { y: answer(), z: answer() },
      compute: (inputs) => ({
        get y() {
          asked.push("y");
          return inputs.a;
        },
        get z() {
          asked.push("z");
          return inputs.a;
        },
      }),
    });
    const still = new Graph([lazy]).runner("lazy", { a: 4 }, [], ["y"]);
    expect([still(none), still(none)]).toEqual([[4], [4]]);
    expect(asked).toEqual(["y"]);
  });

  it("computes what two links share once a turn", () => {
    let count = 0;
    const counted = { ...double, compute: () => (count++, { y: count, none: null }) };
    const runner = new Graph([counted, sum]).runner("sum", {}, ["a"], ["difference"]);
    expect([runner(Float64Array.of(1)), runner(Float64Array.of(2))]).toEqual([[0], [0]]);
    expect(count).toBe(2);
  });

  it("takes a number that no scale could tell from nothing as nothing", () => {
    const runner = chain.runner("sum", {}, ["a", "c"], ["z"]);
    expect(runner(Float64Array.of(1e-101, 0))).toEqual([0]);
  });
});

describe("Graph and how often it computes", () => {
  /** Two roots, each with one unsure quantity, and what comes of both. */
  const counts = { left: 0, right: 0, both: 0 };
  const root = (id: "left" | "right", x: typeof a | typeof b) =>
    declare(id, {
      inputs: { x },
      results: { y: answer() },
      compute: (inputs) => {
        counts[id]++;
        return { y: inputs.x };
      },
    });
  const both = declare("both", {
    inputs: { l: plain("l"), r: plain("r") },
    results: { z: answer() },
    links: { l: "left.y", r: "right.y" },
    compute: ({ l, r }) => {
      counts.both++;
      return { z: l + 2 * r };
    },
  });
  const graph = new Graph([root("left", a), root("right", b), both]);
  const counted = (act: () => unknown): typeof counts => {
    counts.left = counts.right = counts.both = 0;
    act();
    return { ...counts };
  };

  it("works out anew only what a moved quantity reaches, for bands and for the band of a curve", () => {
    // Once for the values, once more unmoved, and twice where something moves.
    expect(counted(() => graph.evaluate("both", {}))).toEqual({ left: 4, right: 4, both: 6 });
    expect(counted(() => graph.spread("both", {}))).toEqual({ left: 3, right: 3, both: 0 });
  });

  it("gives the same as where all is worked out anew", () => {
    const z = right(graph.evaluate("both", {})).values["z"]!;
    expect(z.high - z.value).toBeCloseTo(2 * Math.hypot(0.03, 2 * 0.2), 12);
    const moved = graph.spread("both", {});
    expect(moved.map(({ above }) => above)).toEqual([
      { l: 3.03, r: 5 },
      { l: 3, r: 5.2 },
    ]);
    expect(moved.map(({ below }) => below)).toEqual([
      { l: 2.97, r: 5 },
      { l: 3, r: 4.8 },
    ]);
  });

  it("works out what stays once over all turns, and what comes back to the first turn once", () => {
    const runner = graph.runner("both", {}, ["b"]);
    const turns = (...moved: readonly number[]) =>
      moved.map((value) => runner(Float64Array.of(value)));
    expect(counted(() => expect(turns(1, 2, 1, 3)).toEqual([[5], [7], [5], [9]]))).toEqual({
      left: 1,
      right: 3,
      both: 3,
    });
  });
});

describe("Graph.runner(id, batch, moving) and what it is given", () => {
  const n = plain("n", { whole: true, limits: { min: 1, max: 9, unit: "1" }, default: 2 });
  const count = declare("count", {
    inputs: { n },
    results: { y: answer(), twice: answer(), none: answer() },
    compute: (inputs) => ({
      y: { value: inputs.n, low: 0, high: 10 },
      twice: 2 * inputs.n,
      none: null,
    }),
  });
  const after = declare("after", {
    inputs: { twice: plain("twice"), y: plain("y") },
    results: { sum: answer() },
    links: { twice: "count.twice", y: "count.y" },
    compute: ({ twice, y }) => ({ sum: 10 * twice + y }),
  });
  const graph = new Graph([count, after]);

  it("gives every result, in the order of their declaration, unless it is asked for some", () => {
    const all = [{ value: 3, low: 0, high: 10 }, 6, null];
    expect(graph.runner("count", {}, ["n"])(Float64Array.of(3))).toEqual(all);
    expect(graph.runner("count", {}, ["n"], ["none", "twice"])(Float64Array.of(3))).toEqual([
      null,
      6,
    ]);
  });

  it("takes each linked result by its name, and one with a band by its middle", () => {
    expect(graph.runner("after", {}, ["n"])(Float64Array.of(3))).toEqual([63]);
    expect(graph.runner("after", { n: 4 }, [])(none)).toEqual([84]);
  });

  it("gives nothing for a part of what is counted, nor beyond either limit", () => {
    const runner = graph.runner("count", {}, ["n"], ["twice"]);
    const at = (value: number) => runner(Float64Array.of(value));
    expect([0, 1, 2.5, 9, 10].map(at)).toEqual([undefined, [2], undefined, [18], undefined]);
    expect(graph.runner("count", { n: 2.5 }, [])(none)).toBeUndefined();
  });

  it("goes up a chain of three, and asks nothing of what is typed over", () => {
    const asked: string[] = [];
    const dear = declare("count", {
      inputs: { n },
      results: { y: answer(), twice: answer() },
      compute: (inputs) => ({
        get y() {
          asked.push("y");
          return inputs.n;
        },
        get twice() {
          asked.push("twice");
          return 2 * inputs.n;
        },
      }),
    });
    const last = declare("last", {
      inputs: { sum: plain("sum") },
      results: { z: answer() },
      links: { sum: "after.sum" },
      compute: (inputs) => ({ z: -inputs.sum }),
    });
    const chain = new Graph([dear, after, last]);
    expect(chain.runner("last", {}, ["n"])(Float64Array.of(3))).toEqual([-63]);
    expect(asked.sort()).toEqual(["twice", "y"]);
    expect(chain.runner("last", { "after.y": 1 }, ["n"])(Float64Array.of(3))).toEqual([-61]);
    expect(asked.sort()).toEqual(["twice", "twice", "y"]);
  });

  it("works out a refusal that nothing moves only once", () => {
    let count = 0;
    const refuses = declare("count", {
      inputs: { n },
      results: { y: answer(), twice: answer() },
      compute: () => {
        count++;
        throw new RefusedError("n", ["No."]);
      },
    });
    const runner = new Graph([refuses, after]).runner("after", {}, []);
    expect([runner(none), runner(none)]).toEqual([undefined, undefined]);
    expect(count).toBe(1);
  });

  it("gives nothing where what it waits for has no value", () => {
    const waits = { ...after, links: { y: "count.none" } };
    expect(
      new Graph([count, waits]).runner("after", {}, ["n"])(Float64Array.of(3)),
    ).toBeUndefined();
  });

  it("answers as run does, whatever moves and in whatever order", () => {
    const keys = ["a", "c", "sum.y", "sum.again"];
    const value = fc.integer({ min: -120, max: 1100 });
    fc.assert(
      fc.property(
        fc.subarray(keys),
        fc.dictionary(fc.constantFrom(...keys), value, { noNullPrototype: true }),
        fc.array(fc.array(value, { minLength: 4, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
        (moving, batch, turns) => {
          const runner = chain.runner("sum", batch, moving);
          for (const turn of turns) {
            const moved = Object.fromEntries(moving.map((key, i) => [key, turn[i] as number]));
            const values = chain.run("sum", { ...batch, ...moved });
            expect(runner(Float64Array.from(turn))).toEqual(
              values ? Object.values(values).map((v) => v?.value) : undefined,
            );
          }
        },
      ),
      { seed: 1, numRuns: 200 },
    );
  });
});

describe("Graph.standardUncertainty(key, input, batch)", () => {
  it("is what is stated, or that share of the value's size", () => {
    expect(chain.standardUncertainty("a", a, {})).toBe(0.03);
    expect(chain.standardUncertainty("a", a, { a: 50 })).toBe(0.03);
    const share = plain("share", { uncertainty: { relative: 0.01, because: "" }, default: 3 });
    expect(chain.standardUncertainty("share", share, {})).toBe(0.03);
    expect(chain.standardUncertainty("share", share, { share: -20 })).toBe(0.2);
  });

  it("is nothing where none is stated, or where there is no number", () => {
    expect(chain.standardUncertainty("c", plain("c"), {})).toBe(0);
    expect(chain.standardUncertainty("a", a, { a: "3" })).toBe(0);
  });
});

describe("Graph.evaluate(id, batch) and bands by factor", () => {
  const facts = { x: unsure("x", 2, 0.4) };
  const factor = (f: (x: number) => number) =>
    declare("factor", {
      inputs: facts,
      results: { y: answer({ byFactor: true }) },
      compute: ({ x }) => ({ y: f(x) }),
    });

  it("adds and takes away where a factor would have no meaning", () => {
    for (const shift of [-2, -2.1, -20]) {
      const { value, low, high } = resultOf(factor((x) => x + shift));
      expect(value).toBeCloseTo(2 + shift, 12);
      expect(high - value).toBeCloseTo(0.8, 12);
      expect(value - low).toBeCloseTo(0.8, 12);
    }
  });

  it.each([
    ["below zero under it", (x: number) => x - 1.7, 0.3],
    ["below zero over it", (x: number) => 2.3 - x, 0.3],
    ["zero under it", (x: number) => Math.max(0, x - 1.6), 0.4],
    ["zero over it", (x: number) => Math.max(0, 2.4 - x), 0.4],
  ])("goes by the difference where the result is %s", (_, f, middle) => {
    const { value, low, high } = resultOf(factor(f));
    expect(value).toBeCloseTo(middle, 12);
    expect(low).toBeCloseTo(middle * Math.exp(-0.8 / middle), 12);
    expect(high).toBeCloseTo(middle * Math.exp(0.8 / middle), 12);
  });

  it.each([0, -0.01])("goes by the difference around a lowest value of %d", (least) => {
    // 0.32 above and 0.16 below the middle, less what is lost: half of their difference, doubled.
    const { high } = resultOf(factor((x) => least + (x > 2 ? 2 : 1) * (x - 2) ** 2));
    expect(high - least).toBeCloseTo(0.16, 12);
  });

  it("stays a number where the factor is beyond all sense", () => {
    const { low, high } = resultOf(factor((x) => Math.exp(1000 * (x - 2))));
    expect(low).toBeCloseTo(0, 12);
    expect(high / Math.exp(23)).toBeCloseTo(1, 9);
  });
});

describe("inputsByKey(graph, first)", () => {
  const other = declare("other", {
    inputs: { mass: { ...a, label: "another a" }, d: plain("d") },
    results: { y: answer() },
    compute: (inputs) => ({ y: inputs.mass }),
  });
  const graph = new Graph([double, other, sum]);

  it("finds every input by its key, with the first calculation that asks and its name there", () => {
    const found = inputsByKey(graph);
    expect([...found.keys()]).toEqual(["a", "d", "sum.y", "sum.again", "c"]);
    expect(found.get("a")).toEqual({ input: a, from: "double", name: "a" });
    expect(found.get("sum.y")).toMatchObject({ from: "sum", name: "y" });
  });

  it("asks those first that come first, and passes by what is not loaded", () => {
    const found = inputsByKey(graph, ["gone", "other"]);
    expect(found.get("a")).toMatchObject({
      input: { label: "another a" },
      from: "other",
      name: "mass",
    });
    expect(found.size).toBe(5);
  });
});

describe("Graph.sampler(id, batch)", () => {
  it("gives what run does at each place, whatever differs there from the last", () => {
    const keys = ["a", "c", "sum.y", "sum.again"];
    const some = fc.dictionary(fc.constantFrom(...keys), fc.integer({ min: -120, max: 1100 }), {
      noNullPrototype: true,
    });
    fc.assert(
      fc.property(some, fc.array(some, { minLength: 1, maxLength: 6 }), (batch, places) => {
        const sample = chain.sampler("sum", batch);
        for (const moved of places)
          expect(sample(moved)).toEqual(chain.run("sum", { ...batch, ...moved }));
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it("takes words too, and numbers after them", () => {
    const pour = declare("pour", {
      inputs: {
        drops: plain("drops"),
        glass,
      },
      results: { y: answer() },
      compute: ({ drops, glass }) => ({ y: glass === "tall" ? drops : 2 * drops }),
    });
    const sample = new Graph([pour]).sampler("pour", { drops: 3 });
    const at = [{ glass: "wide" }, { drops: 5 }, { drops: 5, glass: "wide" }, {}];
    expect(at.map((moved) => sample(moved)?.["y"]?.value)).toEqual([6, 5, 10, 3]);
  });
});
