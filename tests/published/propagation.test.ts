import { describe, expect, it } from "vitest";
import { defineCalculation, quantity } from "../../lib/calculations/calculation.ts";
import { COVERAGE, Graph } from "../../lib/calculations/graph.ts";

/**
 * A calibration standard as the guide makes it: 100.28 mg of cadmium in 100 mL of acid. It is a calculation
 * of the tests only: what is checked is how the graph carries uncertainty.
 */
function standard() {
  const shared = { symbol: "x", digits: 5, hint: "" } as const;
  return defineCalculation({
    id: "standard",
    title: "Calibration standard",
    summary: "",
    inputs: {
      purity: quantity("purity", {
        ...shared,
        label: "Purity",
        dimension: "fraction",
        units: ["1"],
        limits: { min: 0, max: 1, unit: "1" },
        default: 0.9999,
        uncertainty: { absolute: 0.000058, because: "the supplier's ± 0.0001, a rectangle" },
      }),
      mass: quantity("mass", {
        ...shared,
        label: "Mass",
        dimension: "mass",
        units: ["mg"],
        limits: { min: 0, max: 1, unit: "kg" },
        default: 100.28e-6,
        uncertainty: { absolute: 0.05e-6, because: "the balance, twice" },
      }),
      volume: quantity("volume", {
        ...shared,
        label: "Volume",
        dimension: "volume",
        units: ["mL"],
        limits: { min: 1e-6, max: 1, unit: "m³" },
        default: 100e-6,
        uncertainty: { absolute: 0.07e-6, because: "the flask, its filling and the room's warmth" },
      }),
    },
    results: {
      concentration: {
        ...shared,
        label: "Concentration",
        dimension: "concentration",
        units: ["g/L"],
      },
    },
    compute: ({ purity, mass, volume }) => ({ concentration: (purity * mass) / volume }),
    steps: [],
    sources: ["eurachem-quam"],
  });
}

describe("Graph.evaluate(id, batch) as an uncertainty budget", () => {
  it("gives the concentration and the uncertainty of a published calibration standard", () => {
    // Eurachem/CITAC Guide CG 4, Example A1, Table A1.1: c = 1002.7 mg/L, u = 0.9 mg/L, u/c = 0.0009. seen
    const outcome = new Graph([standard()]).evaluate("standard", {});
    const result = outcome.ok ? outcome.values["concentration"] : null;
    const { value, low, high } = result ?? { value: NaN, low: NaN, high: NaN };
    const u = (high - low) / 2 / COVERAGE;
    expect(Math.abs(value * 1000 - 1002.7)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(u * 1000 - 0.9)).toBeLessThanOrEqual(0.06);
    expect(Math.abs(u / value - 0.0009)).toBeLessThanOrEqual(0.00005);
    // With the guide's rounded inputs, unrounded. computed
    expect(value * 1000).toBeCloseTo(1002.7, 2);
    expect(u * 1000).toBeCloseTo(0.86, 2);
  });
});
