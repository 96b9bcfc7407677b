import { describe, expect, it } from "vitest";
import { PLAN_CALCULATIONS, planBatch, stillInvented } from "../../../lib/batch/plan.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";

const graph = await loadGraph(PLAN_CALCULATIONS);

function plan(values: Record<string, number>) {
  const planned = planBatch(graph, values);
  if (!planned.ok) throw new Error("refused");
  return planned.plan;
}

describe("planBatch(graph, batch)", () => {
  it("adds water, spirit, acid and lecithin in that order, each reading the sum so far", () => {
    const { additions } = plan({});
    expect(additions.map(({ ingredient }) => ingredient)).toEqual([
      "water",
      "spirit",
      "ascorbic acid",
      "lecithin",
    ]);
    let sum = 0;
    for (const { portion, reading } of additions) {
      sum += portion;
      expect(reading).toBeCloseTo(sum, 12);
    }
  });

  it("splits a batch that does not fit one beaker into equal parts", () => {
    const whole = plan({ batchVolume: 1e-3, beakerVolume: 2e-3 });
    const parts = plan({ batchVolume: 1e-3, beakerVolume: 0.5e-3 });
    expect(whole.vessels).toBe(1);
    expect(parts.vessels).toBe(3);
    const last = (p: typeof whole) => p.additions.at(-1)?.reading ?? 0;
    expect(last(parts) * 3).toBeCloseTo(last(whole), 12);
  });

  it("leaves out what is not in the recipe", () => {
    const { additions } = plan({ alcoholStrength: 0 });
    expect(additions.map(({ ingredient }) => ingredient)).not.toContain("spirit");
  });

  it("never asks for closer than the scale can weigh", () => {
    const coarse = plan({ readability: 5e-3, repeatability: 5e-3, linearity: 5e-3 });
    // 2 √2 √(5²/12 + 5² + 5²/3) g
    const scale = 2 * Math.SQRT2 * Math.sqrt(25 / 12 + 25 + 25 / 3) * 1e-3;
    for (const { tolerance } of coarse.additions) expect(tolerance).toBeCloseTo(scale, 12);
    expect(coarse.cautions.map(({ caution }) => caution)).toContain("coarse-scale");
  });

  it("allows 1 % of a portion where the scale can do better", () => {
    const fine = { readability: 1e-6, repeatability: 1e-6, linearity: 2e-6 };
    const [water] = plan({ ...fine, "weighing.waterMass": 0.3 }).additions;
    expect(water?.tolerance).toBeCloseTo(0.003, 12);
  });

  it("weighs in what the reader typed over, not what the recipe gives", () => {
    const [water] = plan({ "weighing.waterMass": 0.3 }).additions;
    expect(water).toMatchObject({ ingredient: "water", portion: 0.3, reading: 0.3 });
    const [part] = plan({ "weighing.waterMass": 0.3, beakerVolume: 0.5e-3 }).additions;
    expect(part?.portion).toBeCloseTo(0.15, 12);
  });

  it("warns of the spirit even where the recipe is refused", () => {
    const planned = planBatch(graph, { alcoholStrength: 0.5, spiritStrength: 0.4 });
    expect(planned).toMatchObject({ ok: false, cautions: [{ caution: "flammable" }] });
  });

  it("refuses a mass beyond the scale's range even where each beaker's part of it would do", () => {
    const planned = planBatch(graph, { "weighing.waterMass": 30, beakerVolume: 0.2e-3 });
    expect(planned).toMatchObject({
      ok: false,
      refusals: [{ calculation: "weighing", input: "waterMass" }],
    });
  });

  it("passes on what stands in the way", () => {
    const planned = planBatch(graph, { alcoholStrength: 0.5, spiritStrength: 0.4 });
    expect(planned).toMatchObject({ ok: false, refusals: [{ input: "alcoholStrength" }] });
  });
});

describe("stillInvented(graph, batch)", () => {
  it("names what the reader has not set, by its label", () => {
    expect(stillInvented(graph, {})).toHaveLength(6);
    const left = stillInvented(graph, { batchVolume: 1e-3, spiritStrength: 0.4 });
    expect(left).toHaveLength(4);
    expect(left).toContain("Alcohol in the finished liquid");
  });
});
