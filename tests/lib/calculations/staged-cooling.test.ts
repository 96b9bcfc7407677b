import { describe, expect, it } from "vitest";
import { graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const BATCH = {
  glass: "borosilicate-3.3",
  hotTemperature: 95,
  coldTemperature: 10,
  contentsTimeConstant: 600,
  wallThickness: 1.5e-3,
  heatTransferCoefficient: 1000,
  permissibleStress: 7e6,
};
const with_ = (moved: object) => ({ ...BATCH, ...moved });
const stages = graph.get("staged-cooling");
const rowsOf = (batch: object) => stages.tables![0]!.rows({ ...inputsOf(batch) } as never);

function inputsOf(batch: object): object {
  const defaults = Object.entries(stages.inputs).map(([name, input]) => [name, input.default]);
  return { ...Object.fromEntries(defaults), ...batch };
}

describe("staged-cooling", () => {
  it("comes down from hot to cold without a gap, within what is allowed at the rim", () => {
    const { steps, stepSize, hold, totalTime, rimStress } = valuesOf("staged-cooling", BATCH);
    const rows = rowsOf(BATCH);
    expect(rows).toHaveLength(steps!);
    expect(rows[0]![1]).toBe(95);
    expect(rows.at(-1)![2]).toBeCloseTo(10, 9);
    rows.slice(1).forEach((row, i) => expect(row[1]).toBeCloseTo(rows[i]![2]!, 9));
    expect(stepSize! * steps!).toBeCloseTo(85, 9);
    expect(totalTime).toBeCloseTo(steps! * hold!, 6);
    expect(rimStress).toBeLessThanOrEqual(7e6);
    expect(Math.max(...rows.map((row) => row[4]!))).toBe(rimStress);
  });

  it("waits until a twentieth of a step is left in the contents", () => {
    expect(Math.exp(-valuesOf("staged-cooling", BATCH)["hold"]! / 600)).toBeCloseTo(0.05, 9);
  });

  it("takes one step where that is within what is allowed, and more where heat goes faster", () => {
    expect(valuesOf("staged-cooling", with_({ hotTemperature: 40 }))["steps"]).toBe(1);
    const slow = valuesOf("staged-cooling", with_({ heatTransferCoefficient: 500 }))["steps"]!;
    const fast = valuesOf("staged-cooling", with_({ heatTransferCoefficient: 1e9 }))["steps"]!;
    expect(fast).toBeGreaterThan(slow);
  });

  it("refuses where nothing is cooled", () => {
    for (const coldTemperature of [95, 96]) {
      const [refusal] = refusalsOf("staged-cooling", with_({ coldTemperature }));
      expect(refusal?.input).toBe("coldTemperature");
      expect(refusal?.says).toMatch(/95\s°C/);
    }
    expect(valuesOf("staged-cooling", with_({ coldTemperature: 94.999 }))["steps"]).toBe(1);
  });

  it("refuses a plan of more than fifty steps", () => {
    const [refusal] = refusalsOf("staged-cooling", with_({ permissibleStress: 1e5 }));
    expect(refusal?.input).toBe("heatTransferCoefficient");
    expect(refusal?.says).toContain("50 steps");
  });
});
