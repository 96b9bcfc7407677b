import { describe, expect, it } from "vitest";
import {
  amount,
  asResult,
  choice,
  phrase,
  quantity,
  refusalOf,
  RefusedError,
} from "../../../lib/calculations/calculation.ts";
import { say } from "../../../lib/calculations/say.ts";
import { OutOfRangeError } from "../../../lib/errors.ts";
import { answer, declare, plain } from "../../helpers/small-calculations.ts";

const fill = plain("fill", {
  label: "Fill",
  dimension: "volume",
  units: ["mL", "L"],
  limits: { min: 0, max: 1, unit: "m³" },
});
const kind = choice("kind", {
  label: "Kind",
  hint: "",
  options: [{ value: "only", label: "Only" }],
  default: "only",
});

const calculation = declare("tray", {
  inputs: { fill, width: plain("width"), kind },
  results: { area: answer(), share: answer() },
  blame: { strength: "width", sort: "kind" },
  compute: ({ fill, width }) => ({ area: fill * width, share: null }),
  steps: [{ result: "area", tex: (slot) => `${slot("fill")}${slot("width")}` }],
});

describe("defineCalculation(calculation)", () => {
  it("gives back what was declared", () => {
    expect(calculation.id).toBe("tray");
    expect(calculation.compute({ fill: 2, width: 3, kind: "only" } as never)).toEqual({
      area: 6,
      share: null,
    });
  });

  const wrong = (result: string, name: string) => () =>
    declare("wrong", {
      inputs: { fill },
      results: { area: answer() },
      compute: () => ({ area: 1 }),
      steps: [{ result, tex: (slot) => slot(name) }],
    });

  it("lets a step speak of inputs and results", () => {
    expect(wrong("area", "fill")).not.toThrow();
    expect(wrong("area", "area")).not.toThrow();
  });

  it("refuses a step that speaks of nothing there", () => {
    expect(wrong("area", "fil")).toThrow(/wrong has no "fil"/);
    expect(wrong("aera", "fill")).toThrow(/"aera"/);
    expect(wrong("area", "fil")).toThrow(TypeError);
  });
});

describe("quantity(name, facts), choice(name, facts) and asResult(quantity, changes)", () => {
  it("keep their facts and gain name and kind", () => {
    const { kind: _kind, name: _name, ...facts } = fill;
    expect(quantity("fill", facts)).toEqual(fill);
    expect(fill).toMatchObject({ kind: "number", name: "fill", label: "Fill" });
    expect(kind).toMatchObject({ kind: "choice", name: "kind", default: "only" });
  });

  it("make a result with nothing to enter", () => {
    expect(asResult(fill)).toEqual({
      label: "Fill",
      symbol: "x",
      dimension: "volume",
      units: ["mL", "L"],
      digits: 4,
    });
    expect(asResult(fill, { digits: 2, bounds: { min: 0 } })).toMatchObject({
      label: "Fill",
      digits: 2,
      bounds: { min: 0 },
    });
  });
});

describe("phrase and amount(value, of)", () => {
  it("keep texts and amounts in order", () => {
    const some = amount(0.5, fill);
    expect(phrase`Take ${some} of ${"water"}.`).toEqual(["Take ", some, " of ", "water", "."]);
    expect(phrase`Nothing.`).toEqual(["Nothing."]);
    expect(some).toEqual({ value: 0.5, of: fill });
  });
});

describe("refusalOf(calculation, error)", () => {
  const range = (quantityName: string, unit: string) =>
    new OutOfRangeError(quantityName, 2, { min: 0.1, max: 0.25, unit });

  it("passes on what compute refused by name", () => {
    const refused = new RefusedError("width", ["Less of this."]);
    expect(refusalOf(calculation, refused)).toEqual({ input: "width", say: ["Less of this."] });
    expect(refused.name).toBe("RefusedError");
    expect(refused.message).toContain("width");
  });

  it("says the range in the reader's unit where a law speaks of the input itself", () => {
    const { input, say: words } = refusalOf(calculation, range("fill", "m³"));
    expect(input).toBe("fill");
    expect(say(words)).toBe(
      "With the other values as they are, this must be from 100\u202f000\u00a0mL to 250\u202f000\u00a0mL.",
    );
    expect(say(words, () => "L")).toContain("from 100\u00a0L to 250\u00a0L");
  });

  it("names no number of the law's own where its unit is another", () => {
    const { input, say: words } = refusalOf(calculation, range("fill", "m"));
    expect(input).toBe("fill");
    expect(say(words)).toMatch(/^Together these values [^0-9]* Change this one\.$/);
  });

  it("blames the declared input for a quantity that a reader cannot enter", () => {
    const { input, say: words } = refusalOf(calculation, range("strength", "1"));
    expect(input).toBe("width");
    expect(say(words)).not.toMatch(/strength|\d/);
  });

  it("needs no blame declared where a law speaks of the input itself", () => {
    const { blame: _, ...blameless } = calculation;
    expect(refusalOf(blameless, range("fill", "m³")).input).toBe("fill");
    expect(() => refusalOf(blameless, range("strength", "1"))).toThrow(OutOfRangeError);
  });

  it("throws on what nobody is to blame for", () => {
    for (const error of [
      range("density", "kg/m³"),
      range("sort", "1"),
      range("toString", "1"),
      new TypeError("a slip"),
      new RangeError("a slip"),
      "a word",
    ]) {
      let thrown: unknown;
      try {
        refusalOf(calculation, error);
      } catch (caught) {
        thrown = caught;
      }
      expect(thrown).toBe(error);
    }
  });
});

describe("defineCalculation(calculation): what it names must be there", () => {
  const odd = (facts: object) => () =>
    declare("odd", {
      inputs: { fill },
      results: { area: answer() },
      compute: () => ({ area: 1 }),
      ...facts,
    });

  it.each([
    ["a link of an input it does not have", { links: { fil: "tray.area" } }],
    ["a decision on an input that has no link", { decided: ["fill"] }],
    ["blame on an input it does not have", { blame: { density: "fil" } }],
    ["a step of a result it does not have", { steps: [{ result: "gone", tex: () => "1" }] }],
  ])("refuses %s", (_, facts) => {
    expect(odd(facts)).toThrow(TypeError);
  });
});
