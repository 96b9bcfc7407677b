import { describe, expect, it } from "vitest";
import { againOtherwise, typedOver } from "../../../lib/batch/otherwise.ts";
import { planBatch } from "../../../lib/batch/plan.ts";
import { EMPTY_BATCH, type Batch } from "../../../lib/batch/record.ts";
import { Graph } from "../../../lib/calculations/graph.ts";
import { graph } from "../../helpers/calculations.ts";
import { answer, declare, plain } from "../../helpers/small-calculations.ts";

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
  const twiceOf = (batch: Batch): Batch =>
    againOtherwise(graph, batch, { batchVolume: 1e-3 }, "april-0001");

  it("makes twice the batch from twice of everything, typed over or not", () => {
    const { "weighing.waterMass": _, ...values } = MARCH.values;
    const plain = { ...MARCH, values: { ...values, beakerVolume: 2e-3 } };
    const roomy = twiceOf({ ...MARCH, values: { ...MARCH.values, beakerVolume: 2e-3 } });
    for (const ingredient of ["water", "spirit", "ascorbic acid", "lecithin"])
      expect(massOf(ingredient, roomy) / massOf(ingredient, plain)).toBeCloseTo(2, 9);
  });

  it("keeps the recipe and what belongs to gear, and nothing of the last evening", () => {
    expect(twiceOf(MARCH)).toEqual({
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

  it("leaves alone what follows neither from the size nor from the spirit", () => {
    const own = { "flaw.stress": 5e6, "serving.entrapment": 0.1, "serving.alcoholStrength": 0.1 };
    expect(typedOver(graph, own).map(({ key }) => key)).toEqual(["serving.alcoholStrength"]);
  });

  it("names what follows from one of the two alone", () => {
    const from = (input: string) =>
      declare(`${input} doubled`, {
        inputs: { [input]: plain(input) },
        results: { y: answer() },
        compute: (given) => ({ y: 2 * Number(given[input]) }),
      });
    const after = (input: string) =>
      declare(`after ${input}`, {
        inputs: { x: plain("x", { label: `twice ${input}` }) },
        links: { x: `${input} doubled.y` },
        results: { y: answer() },
        compute: ({ x }) => ({ y: x }),
      });
    const inputs = ["batchVolume", "spiritStrength", "roomTemperature"];
    const small = new Graph(inputs.flatMap((input) => [from(input), after(input)]));
    const typed = Object.fromEntries(inputs.map((input) => [`after ${input}.x`, 7]));
    expect(typedOver(small, typed)).toEqual([
      { key: "after batchVolume.x", label: "twice batchVolume" },
      { key: "after spiritStrength.x", label: "twice spiritStrength" },
    ]);
  });
});
