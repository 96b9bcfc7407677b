import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { FACT_GROUPS, factsOf, type Fact, type FactGroup } from "../../../lib/batch/facts.ts";
import type { Log } from "../../../lib/batch/log.ts";
import { EMPTY_BATCH, valuesOf, type Batch } from "../../../lib/batch/record.ts";
import { evaluated, graph } from "../../helpers/calculations.ts";
import { evening } from "../../helpers/evening.ts";
import { LOG, MARCH } from "../../helpers/march.ts";
import { batches } from "../../helpers/records.ts";

function factOf(id: string, batch: Batch): Fact | undefined {
  return factsOf(graph, batch).find((fact) => fact.id === id);
}
function valueOf(id: string, batch: Batch): Fact["value"] | undefined {
  return factOf(id, batch)?.value;
}
function idsOf(group: FactGroup, batch: Batch): readonly string[] {
  return factsOf(graph, batch).flatMap((fact) => (fact.group === group ? [fact.id] : []));
}
/** Twice √2 √(0.1²/12 + 0.1² + 0.2²/3) g: what the demonstration's scale may be off by with a portion, kg. */
const SCALE = 2 * Math.SQRT2 * Math.sqrt(0.1 ** 2 / 12 + 0.1 ** 2 + 0.2 ** 2 / 3) * 1e-3;

describe("factsOf(graph, batch)", () => {
  it("tells what was weighed, read, how long it took, and what came of it", () => {
    expect(valueOf("composition.spiritMass", MARCH)).toBeCloseTo(0.1111, 9);
    expect(valueOf("liquid.highest", MARCH)).toBe(27);
    expect(valueOf("bath.highest", MARCH)).toBe(25);
    // The reading of the rest is not one of the stint.
    expect(valueOf("liquid.stint-1", MARCH)).toBe(26.1);
    expect(valueOf("time.stint-1", MARCH)).toBe(600);
    expect(valueOf("time.all", MARCH)).toBe(45 * 60);
    expect(valueOf("bottles", MARCH)).toBe(5);
    expect(valueOf("notes.log", MARCH)).toBe("20:42 smells clean");
    expect(valueOf("composition.ascorbicAcidConcentration", MARCH)).toBeGreaterThan(90);
  });

  it("gives no composition while something is not weighed", () => {
    const half = { ...MARCH, log: LOG.slice(0, 3) };
    expect(valueOf("composition.spiritMass", half)).toBeDefined();
    expect(valueOf("composition.alcoholStrength", half)).toBeUndefined();
  });

  it("keeps apart what was planned and what was changed after it had begun", () => {
    const changed = { ...MARCH, values: { ...MARCH.values, spiritStrength: 0.38 } };
    expect(valueOf("spiritStrength", changed)).toBe(0.4);
    expect(valueOf("spiritStrength.changed", changed)).toBe(0.38);
  });

  it("has a row for every value, known here or not", () => {
    const odd = { ...MARCH, values: { ...MARCH.values, moonPhase: 0.5, glass: "sodaLime" } };
    expect(valueOf("moonPhase", odd)).toBe(0.5);
    expect(valueOf("glass", odd)).toBeDefined();
  });

  it("says without limit where the top of a range stands for that", () => {
    const dipped = { ...MARCH, values: { ...MARCH.values, heatTransferCoefficient: 1e9 } };
    expect(valueOf("heatTransferCoefficient", dipped)).toBe("without limit");
  });

  it("has an answer for any record, in order of the groups", () => {
    fc.assert(
      fc.property(batches, (batch) => {
        const places = factsOf(graph, batch).map(({ group }) => FACT_GROUPS.indexOf(group));
        expect(places).toEqual([...places].sort((a, b) => a - b));
      }),
      { seed: 51, numRuns: 40 },
    );
  });

  it("has the recipe's own numbers, the demonstration's where none was typed", () => {
    expect(idsOf("recipe", EMPTY_BATCH)).toHaveLength(7);
    expect(factOf("batchVolume", EMPTY_BATCH)).toMatchObject({ value: 0.5e-3, from: "recipe" });
    expect(factOf("spiritStrength", MARCH)).toMatchObject({ value: 0.4, from: "recipe" });
  });

  it("says how far a number may be off, and that what is counted or written is not", () => {
    const { spiritStrength } = graph.get("recipe").inputs;
    const u = graph.standardUncertainty("spiritStrength", spiritStrength!, { spiritStrength: 0.4 });
    expect(u).toBeGreaterThan(0);
    expect(factOf("spiritStrength", MARCH)?.doubt).toBeCloseTo(2 * u, 12);
    expect(factOf("waterMass", MARCH)?.doubt).toBeCloseTo(SCALE, 12);
    expect(factOf("composition.waterMass", MARCH)?.doubt).toBeCloseTo(SCALE, 12);
    // Twice the half degree of a kitchen probe.
    expect(factOf("liquid.highest", MARCH)?.doubt).toBeCloseTo(1, 12);
    expect(factOf("time.stint-1", MARCH)?.doubt).toBe(10);
    for (const id of ["bottles", "beakers", "notes.notes", "gear.scale"])
      expect(factOf(id, MARCH)?.doubt, id).toBe(0);
    const { values } = evaluated("composition", valuesOf(MARCH));
    const { low = 0, high = 0 } = values["alcoholStrength"] ?? {};
    expect(factOf("composition.alcoholStrength", MARCH)?.doubt).toBeCloseTo((high - low) / 2, 12);
  });

  it("has the masses of the whole batch, each weighed once in each beaker", () => {
    const values = { ...MARCH.values, batchVolume: 1e-3, beakerVolume: 2e-3 };
    const whole = { ...MARCH, values, planned: values, log: [] };
    const parts = { ...values, beakerVolume: 0.5e-3 };
    const three = { ...MARCH, values: parts, planned: parts, log: [] };
    expect([valueOf("beakers", whole), valueOf("beakers", three)]).toEqual([1, 3]);
    for (const id of ["waterMass", "spiritMass", "ascorbicAcidMass", "lecithinMass"]) {
      expect(valueOf(id, three)).toBeCloseTo(valueOf(id, whole) as number, 12);
      expect(factOf(id, three)?.doubt).toBeCloseTo(SCALE * Math.sqrt(3), 12);
    }
    const log = LOG.flatMap((entry): Log =>
      entry.kind === "weighed" ? [entry, { ...entry, vessel: 2 }] : [entry],
    );
    expect(factOf("composition.waterMass", { ...MARCH, log })).toMatchObject({
      value: expect.closeTo(2 * 0.3203, 9),
      doubt: expect.closeTo(SCALE * Math.SQRT2, 12),
    });
  });

  it("leaves out what is not in the recipe, and has no plan where it is refused", () => {
    const plain = { ...EMPTY_BATCH, values: { alcoholStrength: 0 } };
    expect(idsOf("planned", plain)).toEqual([
      "waterMass",
      "ascorbicAcidMass",
      "lecithinMass",
      "beakers",
    ]);
    const refused = {
      ...MARCH,
      values: { alcoholStrength: 0.6 },
      planned: { alcoholStrength: 0.6 },
    };
    expect(idsOf("planned", refused)).toEqual([]);
    expect(valueOf("time.stint-1", refused)).toBe(600);
    expect(factOf("time.stint-1", refused)?.label).toBe("stint-1");
    expect(factOf("time.stint-1", MARCH)?.label).toBe("Stint 1 of 3");
  });

  it("has a composition once all that the recipe asks for is weighed, spirit or not", () => {
    const values = { alcoholStrength: 0 };
    const log = LOG.filter((entry) => entry.kind !== "weighed" || entry.ingredient !== "spirit");
    const plain = { ...MARCH, values, planned: values, log };
    expect(valueOf("composition.batchVolume", plain)).toBeGreaterThan(0);
    expect(idsOf("weighed", { ...MARCH, log: [] })).toEqual([]);
    expect(idsOf("weighed", MARCH)).toHaveLength(8);
    const nothing = log.map((entry) =>
      entry.kind === "weighed" ? { ...entry, reading: 0 } : entry,
    );
    expect(idsOf("weighed", { ...plain, log: nothing })).toHaveLength(3);
  });

  it("has no temperature that was not read", () => {
    const made = evening().step(0, "stint-1");
    expect(idsOf("temperatures", made.end(600).batch())).toEqual([]);
    expect(idsOf("temperatures", made.read(60, 25).batch())).toEqual([
      "liquid.highest",
      "liquid.stint-1",
    ]);
    expect(valueOf("bath.highest", made.read(60, 25, 30).read(90, 26, 29).batch())).toBe(30);
  });

  it("counts a reading at either end of a stint, and in one that goes on", () => {
    const made = evening().step(0, "blend-1").read(5, 20).step(60, "stint-1");
    expect(idsOf("temperatures", made.batch())).toEqual(["liquid.highest"]);
    expect(valueOf("liquid.stint-1", made.read(60, 22).batch())).toBe(22);
    expect(valueOf("liquid.stint-1", made.read(9000, 23).batch())).toBe(23);
    const rest = made.read(660, 24).step(660, "rest-1").read(700, 25);
    expect(valueOf("liquid.stint-1", rest.batch())).toBe(24);
    expect(factOf("liquid.stint-1", rest.batch())?.label).toBe(
      "Liquid, last reading of stint 1 of 3",
    );
  });

  it("adds up a step that was done twice, and does not count one that goes on", () => {
    const made = evening().step(0, "weigh").step(100, "dissolve").step(300, "weigh");
    expect(idsOf("times", evening().step(0, "weigh").batch())).toEqual([]);
    expect(valueOf("time.weigh", made.batch())).toBe(100);
    const done = made.step(450, "stint-1").batch();
    expect(valueOf("time.weigh", done)).toBe(250);
    expect(valueOf("time.all", done)).toBe(450);
    expect(valueOf("time.stint-1", done)).toBeUndefined();
  });

  it("has each amount as it was last noted, with the doubt of scale or eye", () => {
    const made = evening()
      .amount(0, "skimmedVolume", 60e-6)
      .amount(1, "skimmedVolume", 50e-6)
      .amount(2, "skimmedMass", 0.04)
      .amount(3, "lastVolume", 80e-6)
      .amount(4, "bottles", 0)
      .batch();
    expect(idsOf("bottled", made)).toEqual([
      "skimmedVolume",
      "skimmedMass",
      "bottles",
      "lastVolume",
    ]);
    expect(idsOf("bottled", evening().amount(0, "bottles", 3).batch())).toEqual(["bottles"]);
    expect(valueOf("skimmedVolume", made)).toBe(50e-6);
    expect(valueOf("bottles", made)).toBe(0);
    expect(factOf("skimmedMass", made)?.doubt).toBeCloseTo(SCALE, 12);
    expect(factOf("skimmedVolume", made)?.doubt).toBeGreaterThan(0);
    expect(factOf("skimmedVolume", made)!.doubt / 50).toBeCloseTo(
      factOf("lastVolume", made)!.doubt / 80,
      12,
    );
  });

  it("shows a choice by its words, readings as they are, and no evening's number twice", () => {
    const heatReadings = [[0, 20, 20, 1]];
    const made = {
      ...MARCH,
      values: {
        ...MARCH.values,
        glass: "soda-lime",
        surroundings: "a drawer",
        heatReadings,
        "composition.waterMass": 0.31,
      },
    };
    const { glass } = graph.get("thermal-stress").inputs;
    const jars = glass?.kind === "choice" ? glass.options : [];
    const label = jars.find((option) => option.value === "soda-lime")?.label;
    expect(label).not.toBe("soda-lime");
    expect(valueOf("glass", made)).toBe(label);
    expect(valueOf("surroundings", made)).toBe("a drawer");
    expect(factOf("heatReadings", made)).toMatchObject({ value: heatReadings, doubt: 0 });
    expect(factOf("heatReadings", made)).not.toHaveProperty("of");
    expect(factsOf(graph, made).filter(({ id }) => id === "composition.waterMass")).toEqual([
      expect.objectContaining({ group: "weighed", value: 0.31 }),
    ]);
    expect(idsOf("other", made)).toEqual(["ceiling", "glass", "surroundings", "heatReadings"]);
  });

  it("has what was written, and no row for what was not", () => {
    const label = {
      made: "2026-03-14",
      discard: "2026-05-01",
      lecithinSource: "soy",
      labelSize: "small",
    };
    const log = [...LOG, { kind: "note", at: LOG[0]!.at, text: "foams" }] as Batch["log"] & object;
    expect(
      factsOf(graph, { ...MARCH, ...(label as Partial<Batch>), log })
        .filter(({ group }) => group === "notes" || group === "gear")
        .map(({ id, value }) => [id, value]),
    ).toEqual([
      ["gear.scale", "Small scale"],
      ["notes.made", "2026-03-14"],
      ["notes.discard", "2026-05-01"],
      ["notes.lecithinSource", "soy"],
      ["notes.labelSize", "small"],
      ["notes.notes", "sunflower"],
      ["notes.log", "20:42 smells clean\n20:00 foams"],
    ]);
    expect([...idsOf("notes", EMPTY_BATCH), ...idsOf("gear", EMPTY_BATCH)]).toEqual([]);
  });
});
