import { describe, expect, it } from "vitest";
import { influenceRows } from "../../../components/calculation/influence-rows.ts";
import { Graph, type Outcome } from "../../../lib/calculations/graph.ts";
import { answer, declare, plain, unsure } from "../../helpers/small-calculations.ts";
import { evaluated, graph } from "../../helpers/calculations.ts";

const warmth = answer({ dimension: "temperature", units: ["°C", "°F"] });
const calculation = declare("sum", {
  inputs: {
    small: unsure("small", 1, 0.5, { label: "Small one" }),
    large: unsure("large", 20, 2, { label: "Large one" }),
    falling: unsure("falling", 3, 1, { label: "Falling one" }),
    idle: unsure("idle", 5, 1, { label: "Idle one" }),
    sure: plain("sure"),
  },
  results: { y: warmth, twice: warmth, constant: answer(), none: answer() },
  compute: ({ small, large, falling, sure }) => ({
    y: small + large - falling + sure,
    twice: 2 * small,
    constant: 7,
    none: null,
  }),
});

function outcome(): Outcome & { readonly ok: true } {
  const found = new Graph([calculation]).evaluate("sum", {});
  if (!found.ok) throw new Error("refused");
  return found;
}

const first = (_: string, units: readonly string[]): string => units[0]!;
const second = (_: string, units: readonly string[]): string => units[1]!;
const rows = (name: string, unitOf = first) => influenceRows(calculation, outcome(), unitOf, name);

describe("influenceRows(calculation, outcome, unitOf, name)", () => {
  it("puts first what moves the result most, whichever way", () => {
    expect(rows("y").map(({ label }) => label)).toEqual(["Large one", "Falling one", "Small one"]);
  });

  it("gives each its share of the largest", () => {
    const shares = rows("y").map(({ share }) => share);
    expect(shares[0]).toBe(1);
    expect(shares[1]).toBeCloseTo(0.5, 12);
    expect(shares[2]).toBeCloseTo(0.25, 12);
  });

  it("says the effect of twice the standard uncertainty, with its unit", () => {
    expect(rows("y").map(({ effect }) => effect)).toEqual([
      "±\u00a04.0\u00a0°C",
      "±\u00a02.0\u00a0°C",
      "±\u00a01.0\u00a0°C",
    ]);
  });

  it("does not add a scale's zero to an effect", () => {
    expect(rows("y", second).map(({ effect }) => effect)).toEqual([
      "±\u00a07.2\u00a0°F",
      "±\u00a03.6\u00a0°F",
      "±\u00a01.8\u00a0°F",
    ]);
    expect(rows("y", second).map(({ share }) => share)[1]).toBeCloseTo(0.5, 12);
  });

  it("says why each is unsure", () => {
    expect(rows("y")[0]?.because).toBe("large is off by that much");
  });

  it("leaves out what does not move this result", () => {
    expect(rows("twice").map(({ label }) => label)).toEqual(["Small one"]);
    expect(rows("constant")).toEqual([]);
    expect(rows("none")).toEqual([]);
  });

  it("leaves out what is no more than rounding, of the result or of the largest effect", () => {
    const slight = declare("slight", {
      inputs: {
        large: unsure("large", 20, 2),
        small: unsure("small", 1, 0.5),
      },
      results: { y: warmth, z: warmth },
      compute: ({ large, small }) => ({ y: large + 1e-4 * small, z: 5 + 1e-12 * small }),
    });
    const found = new Graph([slight]).evaluate("slight", {});
    if (!found.ok) throw new Error("refused");
    expect(influenceRows(slight, found, first, "y")).toHaveLength(1);
    expect(influenceRows(slight, found, first, "z")).toEqual([]);
  });

  it("is empty for a result that is not there", () => {
    expect(rows("gone")).toEqual([]);
  });

  it("makes up the recipe's band when added in squares", () => {
    const recipe = graph.get("recipe");
    const found = evaluated("recipe", {});
    const { value, high } = found.values["waterMass"]!;
    const effects = influenceRows(recipe, found, first, "waterMass");
    expect(effects.length).toBeGreaterThan(1);
    // The largest is written in grams with two digits.
    const largest = Number(effects[0]!.effect.replaceAll(/[^\d.]/g, ""));
    const half = Math.hypot(...effects.map(({ share }) => share)) * largest;
    expect(Math.abs(half / ((high - value) * 1000) - 1)).toBeLessThan(0.05);
  });
});
