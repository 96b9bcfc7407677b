import { describe, expect, it } from "vitest";
import { againOtherwise, typedOver } from "../../../lib/batch/otherwise.ts";
import { planBatch } from "../../../lib/batch/plan.ts";
import { EMPTY_BATCH, type Batch } from "../../../lib/batch/record.ts";
import { graph } from "../../helpers/calculations.ts";

const MARCH: Batch = {
  ...EMPTY_BATCH,
  name: "March",
  id: "march-0001",
  notes: "sunflower",
  made: "2026-03-14",
  values: {
    batchVolume: 0.5e-3,
    spiritStrength: 0.4,
    alcoholStrength: 0.1,
    "weighing.waterMass": 0.3,
    "sonication.powerToLiquid": 12,
    "composition.waterMass": 0.31,
  },
};

function massOf(ingredient: string, { values }: Batch): number {
  const planned = planBatch(graph, values);
  if (!planned.ok) throw new Error("refused");
  return planned.plan.additions.find((one) => one.ingredient === ingredient)?.portion ?? 0;
}

describe("againOtherwise(graph, batch, changes, newId)", () => {
  const twice = againOtherwise(graph, MARCH, { batchVolume: 1e-3 }, "april-0001");

  it("makes twice the batch from twice of everything, typed over or not", () => {
    const { "weighing.waterMass": _, ...values } = MARCH.values;
    const plain = { ...MARCH, values: { ...values, beakerVolume: 2e-3 } };
    const roomy = { ...twice, values: { ...twice.values, beakerVolume: 2e-3 } };
    for (const ingredient of ["water", "spirit", "ascorbic acid", "lecithin"])
      expect(massOf(ingredient, roomy) / massOf(ingredient, plain)).toBeCloseTo(2, 9);
  });

  it("keeps the recipe and what belongs to gear, and nothing of the last evening", () => {
    expect(twice).toEqual({
      name: "March",
      id: "april-0001",
      repeats: "march-0001",
      notes: "",
      units: {},
      values: {
        batchVolume: 1e-3,
        spiritStrength: 0.4,
        alcoholStrength: 0.1,
        "sonication.powerToLiquid": 12,
      },
    });
  });

  it("takes more water and less spirit where the spirit is stronger", () => {
    const strong = againOtherwise(graph, MARCH, { spiritStrength: 0.8 }, "april-0001");
    const same = againOtherwise(graph, MARCH, {}, "april-0001");
    expect(massOf("spirit", strong)).toBeLessThan(massOf("spirit", same));
    expect(massOf("water", strong)).toBeGreaterThan(massOf("water", same));
  });
});

describe("typedOver(graph, values)", () => {
  it("names what another size would make wrong, by the label of its field", () => {
    expect(
      typedOver(graph, MARCH.values)
        .map(({ key }) => key)
        .sort(),
    ).toEqual(["composition.waterMass", "weighing.waterMass"]);
    expect(typedOver(graph, { batchVolume: 1e-3 })).toEqual([]);
  });
});
