import { describe, expect, it } from "vitest";
import { deviationsOf, type Deviation } from "../../../lib/batch/deviations.ts";
import { INGREDIENTS } from "../../../lib/batch/log.ts";
import { planBatch } from "../../../lib/batch/plan.ts";
import { EMPTY_BATCH } from "../../../lib/batch/record.ts";
import { scheduleBatch } from "../../../lib/batch/schedule.ts";
import type { BatchValues } from "../../../lib/calculations/graph.ts";
import { say } from "../../../lib/calculations/say.ts";
import { graph, valuesOf } from "../../helpers/calculations.ts";
import { evening, type Evening } from "../../helpers/evening.ts";

const scheduled = scheduleBatch(graph, {});
const steps = scheduled.ok ? scheduled.steps : [];

function deviations(made: Evening, values: BatchValues = {}): readonly Deviation[] {
  return deviationsOf(graph, made.batch(values));
}

function sentences(made: Evening, values: BatchValues = {}): readonly string[] {
  return deviations(made, values).map((found) => say(found.say).replaceAll("\u00a0", " "));
}

/** Everything weighed into its beakers, each ingredient by a factor of its portion. */
function weighing(
  factors: Readonly<Record<string, number>> = {},
  values: BatchValues = {},
): Evening {
  const made = planBatch(graph, values);
  if (!made.ok) throw new Error("no plan");
  const { additions, vessels } = made.plan;
  let out = evening().step(0, "weigh");
  for (let vessel = 1; vessel <= vessels; vessel++) {
    let shown = 0;
    for (const { ingredient, portion } of additions) {
      shown += portion * (factors[ingredient] ?? 1);
      out = out.weighed(60, ingredient, shown, vessel);
    }
  }
  return out;
}

/** Every step of the schedule, each as long as planned or as told. */
function stepping(lengths: Readonly<Record<string, number>> = {}, planned = steps): Evening {
  let made = evening();
  let time = 0;
  for (const { id, length } of planned) {
    made = made.step(time, id);
    time += lengths[id] ?? length;
  }
  return made.end(time);
}

describe("deviationsOf(graph, batch)", () => {
  it("finds none where all went as planned", () => {
    expect(deviations(weighing())).toEqual([]);
    expect(deviations(stepping())).toEqual([]);
    expect(deviations(evening())).toEqual([]);
  });

  it("finds none before an evening has begun", () => {
    const { log } = weighing({ spirit: 2 });
    expect(deviationsOf(graph, { ...EMPTY_BATCH, log })).toEqual([]);
  });

  it("finds none where an evening has begun and nothing was noted", () => {
    expect(deviationsOf(graph, { ...EMPTY_BATCH, planned: {} })).toEqual([]);
  });

  it("names the ingredient that is off, by what share, and what it makes of the batch", () => {
    const found = sentences(weighing({ spirit: 1.05 }));
    expect(found[0]).toMatch(/^Spirit: [\d.]+ g went in, 5 % more than the [\d.]+ g planned\.$/);
    // 5 % more of the spirit, and a little more of the whole: nearly 5 % more alcohol of it.
    const [, after = "", before = ""] =
      /: ([\d.]+) % vol by what was weighed, where ([\d.]+) % vol/.exec(found[1] ?? "") ?? [];
    const strengthened = Number(after) / Number(before);
    expect(strengthened).toBeGreaterThan(1.02);
    expect(strengthened).toBeLessThan(1.05);
    expect(deviations(weighing({ spirit: 1.05 }))[0]).toMatchObject({
      kind: "mass",
      stage: "weigh",
      key: "spiritMass",
    });
  });

  it("takes a portion within its give or take as planned", () => {
    expect(deviations(weighing({ spirit: 1.009, water: 1.009 }))).toEqual([]);
    expect(deviations(weighing({ lecithin: 0.98 }))[0]).toMatchObject({ key: "lecithinMass" });
  });

  it("takes a portion at the very end of its give or take as planned, and says less of what is less", () => {
    expect(deviations(weighing({ spirit: 1.01 })).map(({ kind }) => kind)).not.toContain("mass");
    expect(sentences(weighing({ spirit: 0.95 }))[0]).toMatch(/ went in, 5 % less than the /);
    // All keep the ratio within give or take, but one alone is off.
    const rest = { water: 1.009, "ascorbic acid": 1.009, lecithin: 1.009 };
    expect(sentences(weighing({ ...rest, spirit: 1.012 }))[0]).toMatch(/^Spirit: .* 1\.2 % more/);
  });

  it("says of each portion how far it is off where they do not keep the ratio", () => {
    const off = weighing({ water: 1.02, spirit: 1.1, "ascorbic acid": 1.05, lecithin: 1.05 });
    const names = deviations(off).filter(({ kind }) => kind === "mass");
    expect(names.map(({ key }) => key)).toEqual([
      "waterMass",
      "spiritMass",
      "ascorbicAcidMass",
      "lecithinMass",
    ]);
  });

  it("says nothing of a composition that cannot be worked out", () => {
    const none = Object.fromEntries(INGREDIENTS.map((name) => [name, 0]));
    expect(sentences(weighing(none))).toEqual([
      "Everything is in the planned ratio, and 100 % less of it.",
    ]);
    const water = evening().step(0, "weigh").weighed(10, "water", 0.2);
    expect(deviations(water).map(({ kind }) => kind)).toEqual(["mass"]);
  });

  it("says it once where all was weighed by the same factor", () => {
    const factors = Object.fromEntries(INGREDIENTS.map((name) => [name, 1.04]));
    expect(sentences(weighing(factors))).toEqual([
      "Everything is in the planned ratio, and 4 % more of it.",
      expect.stringMatching(/^Finished batch.*by what was weighed/),
    ]);
  });

  it("names the beaker where there are several, and waits with the whole until all are weighed", () => {
    const values = { batchVolume: 1.2e-3 };
    const whole = weighing({ water: 1.1 }, values);
    expect(sentences(whole, values)[0]).toMatch(/^Water, beaker 1 of \d: /);
    const half = { ...whole, log: whole.log.slice(0, 3) } as unknown as Evening;
    const some = deviationsOf(graph, { ...EMPTY_BATCH, planned: values, values, log: half.log });
    expect(some.map(({ kind }) => kind)).not.toContain("composition");
  });

  it("holds each beaker against its own part", () => {
    const values = { batchVolume: 1.2e-3 };
    const { log } = weighing({}, values);
    const second = log.map((entry) =>
      entry.kind === "weighed" && entry.vessel === 2
        ? { ...entry, reading: entry.reading + 0.05 }
        : entry,
    );
    const found = (noted: Evening["log"]) =>
      deviationsOf(graph, { ...EMPTY_BATCH, planned: values, values, log: noted });
    expect(found(second).filter(({ kind }) => kind === "mass")).toHaveLength(1);
    expect(say(found(second)[0]!.say)).toMatch(/^Water, beaker 2 of 2: /);
    // The first beaker has all, and too much of it; of the whole nothing is known yet.
    const first = weighing({ water: 1.2 }, values).log.filter(
      (entry) => entry.kind !== "weighed" || entry.vessel === 1,
    );
    expect(found(first).map(({ kind }) => kind)).toEqual(["mass"]);
  });

  it("misses a weighing once the work has gone on", () => {
    const made = evening().step(0, "weigh").weighed(10, "water", 0.2);
    expect(sentences(made).join()).not.toContain("no weighing");
    expect(sentences(made.step(100, "dissolve")).join()).toContain(
      "Lecithin: planned, and no weighing of it is noted.",
    );
  });

  it("notes a timer that was off by more than a tenth and a minute, and work off by half", () => {
    expect(deviations(stepping({ "stint-2": 1200 + 115 }))).toEqual([]);
    expect(sentences(stepping({ "stint-2": 1200 + 125 }))).toEqual([
      "Stint 2 of 3: 22.1 min, where 20 min was planned.",
    ]);
    expect(deviations(stepping({ "stint-2": 900 }))[0]).toMatchObject({ key: "stintTime" });
    expect(deviations(stepping({ dissolve: 900 * 1.45 }))).toEqual([]);
    expect(deviations(stepping({ dissolve: 900 * 1.55 }))).toHaveLength(1);
  });

  it("says a short time in seconds", () => {
    expect(sentences(stepping({ degas: 660 }))[0]).toMatch(/: 11 min, where 3\d s was planned\.$/);
  });

  it("puts the times of one stage under one sentence", () => {
    const alike = stepping({ "stint-1": 1500, "stint-3": 1800 });
    expect(sentences(alike)).toEqual([
      "Stint, 2 of 3: 25 min to 30 min, where 20 min each was planned.",
    ]);
    expect(deviations(alike)[0]).toMatchObject({ derivation: "stint-1", key: "stintTime" });
    const mixed = stepping({ "stint-1": 1500, "stint-3": 1500, "set-up-1": 3000, dissolve: 3000 });
    expect(sentences(mixed)).toEqual([
      expect.stringMatching(/^Dissolve and stir: 50 min, where [\d.]+ min was planned\.$/),
      expect.stringMatching(
        /^[^;:]+: 50 min, where [\d.]+ min was planned; Stint, 2 of 3: 25 min, where 20 min each was planned\.$/,
      ),
    ]);
    expect(deviations(mixed)[1]).toMatchObject({ kind: "time", stage: "bath", derivation: "bath" });
    expect(deviations(mixed)[1]).not.toHaveProperty("key");
  });

  it("puts the loads of the bath together too", () => {
    const values = { beakerVolume: 5e-4, beakersInBath: 1 };
    const loads = scheduleBatch(graph, values);
    if (!loads.ok) throw new Error("refused");
    const made = stepping({ "stint-2": 1500, "stint-4": 1500 }, loads.steps);
    expect(sentences(made, values)).toContain(
      "Stint, 2 of 6: 25 min, where 20 min each was planned.",
    );
  });

  it("does not wait for the fridge", () => {
    expect(deviations(stepping({ chill: 20 }))).toEqual([]);
  });

  it("does not judge a step that goes on", () => {
    expect(deviations(evening().step(0, "weigh").step(400, "dissolve").read(9000, 20))).toEqual([]);
  });

  it("does not judge a step that was begun again and goes on", () => {
    const again = evening().step(0, "weigh").step(5000, "dissolve").step(5900, "weigh");
    expect(deviations(again).map(({ kind }) => kind)).not.toContain("time");
    expect(deviations(again.end(6000))).toContainEqual(
      expect.objectContaining({ kind: "time", key: "weighTime" }),
    );
  });

  it("tells what was left out, done twice, done early, or not planned", () => {
    const order = (...ids: readonly string[]): readonly string[] =>
      sentences(ids.reduce((made, id, i) => made.step(i, id), evening())).filter(
        (text) => !text.includes("was planned"),
      );
    expect(order("weigh", "cool")).toEqual(["Dissolve and stir: left out."]);
    expect(order("weigh", "dissolve", "weigh")).toEqual(["Weigh in: begun 2 times."]);
    expect(order("dissolve", "weigh")).toEqual(["Weigh in came after Dissolve and stir."]);
    expect(order("weigh", "stint-9")).toEqual(["“stint-9” was not in the plan."]);
  });

  it("holds the highest reading against the ceiling, where the ceiling is meant", () => {
    const ceiling = { ceiling: 32 };
    const above = evening().step(0, "blend-1").read(30, 33.5).read(40, 31);
    expect(sentences(above, ceiling)).toContain(
      "The highest reading, 33.5 °C at 20:00, is 1.5 K above the ceiling of 32 °C.",
    );
    expect(deviations(evening().step(0, "blend-1").read(30, 32), ceiling)).toEqual([
      expect.objectContaining({ kind: "order" }),
      expect.objectContaining({ kind: "order" }),
      expect.objectContaining({ kind: "order" }),
    ]);
    const dissolving = evening().step(0, "weigh").step(9, "dissolve").read(30, 45);
    expect(sentences(dissolving, ceiling).join()).not.toContain("highest");
  });

  it("tells the highest reading, the first of equals, and takes the ceiling from the batch", () => {
    const rising = evening().step(0, "blend-1").read(30, 31).read(60, 33.5).read(120, 33.5);
    expect(sentences(rising, { ceiling: 30 })).toContain(
      "The highest reading, 33.5 °C at 20:01, is 3.5 K above the ceiling of 30 °C.",
    );
    expect(sentences(rising)).toContain(
      "The highest reading, 33.5 °C at 20:01, is 1.5 K above the ceiling of 32 °C.",
    );
    expect(sentences(rising, { ceiling: 34 }).join()).not.toContain("highest");
    // It was warm while it dissolved, where no ceiling is meant, and is blended now.
    const later = evening().step(0, "dissolve").read(30, 45).step(900, "blend-1");
    expect(sentences(later).join()).not.toContain("highest");
  });

  it("counts the readings that were not as expected", () => {
    const made = evening().step(0, "stint-1").read(60, 22.3).read(120, 28);
    const found = sentences(made).find((text) => text.includes("not as expected"));
    expect(found).toMatch(
      /^One of the readings in the bath is not as expected\. .* 28 °C at 20:02/,
    );
  });

  it("tells of the reading that was furthest off, whichever came first", () => {
    const said = (first: number, then: number): string | undefined => {
      const made = evening().step(0, "stint-1").read(60, first).step(1200, "rest-1");
      return sentences(made.step(2400, "stint-2").read(2460, then)).find((text) =>
        text.includes("as expected"),
      );
    };
    const furthest = (reading: number, clock: string) =>
      expect.stringMatching(
        new RegExp(`^2 of the readings .* are not as expected\\. .* is ${reading} °C at ${clock},`),
      );
    expect(said(26, 31.5)).toEqual(furthest(31.5, "20:41"));
    expect(said(40, 31.5)).toEqual(furthest(40, "20:01"));
    // Too cold counts as much as too warm.
    expect(said(28, 12)).toEqual(furthest(12, "20:41"));
    expect(said(16, 28)).toEqual(furthest(16, "20:01"));
  });

  it("notes more foam and fewer bottles than planned, the last word counting", () => {
    expect(sentences(evening().amount(0, "skimmedVolume", 60e-6))).toEqual([
      "Skimmed: 60 mL of foam, where the plan reckons with 40 mL.",
    ]);
    expect(deviations(evening().amount(0, "skimmedVolume", 40e-6))).toEqual([]);
    expect(
      deviations(evening().amount(0, "skimmedVolume", 60e-6).amount(9, "skimmedVolume", 30e-6)),
    ).toEqual([]);
    expect(deviations(evening().amount(0, "skimmedMass", 0.5))[0]).toMatchObject({
      kind: "skimmed",
      stage: "skim",
    });
    expect(sentences(evening().amount(0, "bottles", 1))[0]).toMatch(
      /^Bottles filled: 1, where \d+ were planned\.$/,
    );
    const { bottles } = valuesOf("bottling", {});
    expect(deviations(evening().amount(0, "bottles", bottles!))).toEqual([]);
    expect(deviations(evening().amount(0, "bottles", bottles! - 1))).toHaveLength(1);
    expect(sentences(evening().amount(0, "skimmedMass", 0.5))).toEqual([
      expect.stringMatching(/^Skimmed: 500 g of foam, where the plan reckons with [\d.]+ g\.$/),
    ]);
    expect(deviations(evening().amount(0, "bottles", 99))).toEqual([]);
  });

  it("tells of a clock that jumped, at the stage in which it did", () => {
    const made = evening().step(0, "weigh").step(480, "dissolve").jump(500, -3600);
    expect(deviations(made)).toEqual([
      expect.objectContaining({ kind: "clock", stage: "dissolve" }),
    ]);
    expect(sentences(made)[0]).toMatch(/^The clock jumped back by 60 min at 19:08/);
  });

  it("tells which way the clock jumped, and counts it where it did, not where the work is now", () => {
    const made = evening().step(0, "weigh").step(480, "dissolve").jump(500, 3600);
    expect(sentences(made)[0]).toMatch(/^The clock jumped forward by 60 min at 21:08/);
    const stages = (later: Evening) =>
      deviations(later)
        .filter(({ kind }) => kind === "clock")
        .map(({ stage }) => stage);
    expect(stages(made.step(1380, "cool"))).toEqual(["dissolve"]);
    expect(stages(evening().jump(0, 60).step(10, "dissolve"))).toEqual(["weigh"]);
    expect(stages(evening().step(0, "stint-9").jump(10, 60))).toEqual(["weigh"]);
  });

  it("lists them in the order of the work", () => {
    const made = weighing({ spirit: 1.1 })
      .amount(90, "bottles", 0)
      .amount(99, "skimmedVolume", 1e-4);
    const stages = deviations(made).map(({ stage }) => stage);
    expect(stages.slice(-2)).toEqual(["skim", "bottle"]);
    expect(stages[0]).toBe("weigh");
  });

  describe("what was set otherwise after the evening had begun", () => {
    const since = (values: BatchValues, planned: BatchValues = {}): readonly Deviation[] =>
      deviationsOf(graph, { ...EMPTY_BATCH, planned, values, log: evening().step(0, "weigh").log });
    const said = (values: BatchValues, planned: BatchValues = {}): readonly string[] =>
      since(values, planned).map((found) => say(found.say).replaceAll("\u00a0", " "));

    it("is named with both values, the default where none was typed", () => {
      expect(said({ batchVolume: 0.8e-3 }, { batchVolume: 0.4e-3 })).toEqual([
        "Finished batch: planned 400 mL, now 800 mL.",
      ]);
      expect(said({ batchVolume: 0.8e-3 })).toEqual([
        "Finished batch: planned 500 mL, now 800 mL.",
      ]);
      expect(said({}, { batchVolume: 0.8e-3 })).toEqual([
        "Finished batch: planned 800 mL, now 500 mL.",
      ]);
      expect(since({ batchVolume: 0.8e-3 })[0]).toMatchObject({
        kind: "changed",
        stage: "weigh",
        key: "batchVolume",
        derivation: "recipe",
      });
    });

    it("is held against what a link gave, and named by its words where it is a choice", () => {
      expect(said({ "heat-capacity.beakers": 2 })).toEqual([
        expect.stringMatching(/: planned 1, now 2\.$/),
      ]);
      const { knownFrom } = graph.get("bath-heat").inputs;
      const [rating, readings] = knownFrom?.kind === "choice" ? knownFrom.options : [];
      expect(said({ knownFrom: readings!.value })[0]).toBe(
        `${knownFrom!.label}: planned “${rating!.label}”, now “${readings!.label}”.`,
      );
    });

    it("is not known where a record has a word for a number or a number for a choice", () => {
      expect(said({ batchVolume: "much" })).toEqual([
        "Finished batch: planned 500 mL, now not known.",
      ]);
      expect(said({ knownFrom: 3 })).toEqual([expect.stringMatching(/”, now not known\.$/)]);
    });

    it("is without limit where the top of a range stands for that", () => {
      const key = "heatTransferCoefficient";
      expect(said({ [key]: 1e9 }, { [key]: 500 })).toEqual([
        "Heat transfer at the glass: planned 500 W/(m² K), now without limit.",
      ]);
    });

    it("is neither the same number typed, nor what the bench weighs and skims, nor an unknown key", () => {
      expect(since({ batchVolume: 0.5e-3 })).toEqual([]);
      expect(since({ "composition.waterMass": 0.3, skimmedVolume: 50e-6 })).toEqual([]);
      expect(since({ nothingOfOurs: 1 })).toEqual([]);
      expect(since({ heatReadings: [[0, 20, 20, 1]] })).toEqual([]);
    });

    it("stands where it counts in the evening", () => {
      expect(since({ pulses: 2, batchVolume: 0.8e-3 }).map(({ stage }) => stage)).toEqual([
        "weigh",
        "blend",
      ]);
    });
  });

  it("says nothing of what a refused plan would have been", () => {
    const made = evening().step(0, "weigh").amount(10, "bottles", 0);
    expect(deviations(made.amount(20, "skimmedMass", 0.5), { batchVolume: -1 })).toEqual([]);
  });
});
