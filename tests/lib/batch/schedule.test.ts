import { describe, expect, it } from "vitest";
import {
  faultsOf,
  SCHEDULE_CALCULATIONS,
  scheduleBatch,
  STAGES,
  stepKind,
  type ScheduledStep,
} from "../../../lib/batch/schedule.ts";
import type { BatchValues } from "../../../lib/calculations/graph.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";

const graph = await loadGraph(SCHEDULE_CALCULATIONS);

function schedule(values: BatchValues) {
  const scheduled = scheduleBatch(graph, values);
  if (!scheduled.ok) throw new Error("refused");
  return scheduled;
}

function ids(steps: readonly ScheduledStep[]): readonly string[] {
  return steps.map(({ id }) => id);
}

describe("scheduleBatch(graph, values)", () => {
  it("gives the demonstration's evening, step by step", () => {
    expect(ids(schedule({}).steps)).toEqual([
      "weigh",
      "dissolve",
      "cool",
      "blend-1",
      "set-up-1",
      "stint-1",
      "rest-1",
      "stint-2",
      "rest-2",
      "stint-3",
      "lift-out-1",
      "degas",
      "skim",
      "bottle",
      "chill",
    ]);
  });

  it("gives ids that a log takes, each once, however many loads there are", () => {
    const { steps } = schedule({ batchVolume: 2e-3, beakerVolume: 0.6e-3, pulses: 3 });
    expect(new Set(ids(steps)).size).toBe(steps.length);
    for (const id of ids(steps)) expect(id).toMatch(/^[a-z][a-z0-9-]{0,39}$/);
    expect(ids(steps)).toContain("stint-15");
    expect(ids(steps)).toContain("blend-15");
  });

  it("names its steps by stage, in the order of the stages", () => {
    const { steps } = schedule({});
    const places = steps.map(({ stage }) => STAGES.indexOf(stage));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(new Set(places).size).toBe(STAGES.length);
    expect(steps.find(({ id }) => id === "stint-2")?.label).toBe("Stint 2 of 3");
    expect(steps.find(({ id }) => id === "blend-1")?.label).toBe("Blend");
  });

  it("says which load and which beaker a step is for, where there are several", () => {
    const { steps } = schedule({ beakerVolume: 0.5e-3, beakersInBath: 1, pulses: 2 });
    const labels = Object.fromEntries(steps.map(({ id, label }) => [id, label]));
    expect(labels).toMatchObject({
      dissolve: "Dissolve and stir",
      "blend-2": "Beaker 1, blend 2 of 2",
      "blend-3": "Beaker 2, blend 1 of 2",
      "pause-2": "Beaker 2 of 2, pause of the blender",
      "set-up-2": "Load 2 of 2, set up the bath",
      "stint-3": "Load 1, stint 3 of 3",
      "stint-4": "Load 2, stint 1 of 3",
      "rest-4": "Load 2, rest 2 of 2",
      skim: "Skim",
    });
    const together = schedule({ beakerVolume: 0.5e-3, beakersInBath: 2 }).steps;
    expect(together.find(({ id }) => id === "stint-2")?.label).toBe("Stint 2 of 3");
    expect(together.find(({ id }) => id === "blend-2")?.label).toBe("Beaker 2 of 2, blend");
  });

  it("adds up: each step begins where the last one ends, and all before the fridge are the total", () => {
    const { steps, hands, waiting, total } = schedule({ stints: 4, restTime: 900 });
    for (const [i, { start, length }] of steps.entries()) {
      const next = steps[i + 1];
      if (next) expect(next.start).toBeCloseTo(start + length, 6);
      if (next?.stage === "chill") expect(next.start).toBeCloseTo(total, 6);
    }
    expect(hands + waiting).toBeCloseTo(total, 6);
    const work = steps.filter((step) => step.hands).reduce((sum, step) => sum + step.length, 0);
    expect(work).toBeCloseTo(hands, 6);
  });

  it("lets the ultrasound run in stints alone, and nobody's hands with it", () => {
    for (const { id, running, hands } of schedule({}).steps) {
      expect(running, id).toBe(id.startsWith("stint-"));
      if (running) expect(hands, id).toBe(false);
    }
  });

  it("passes a refusal on under the calculation that is at fault, once", () => {
    const scheduled = scheduleBatch(graph, { alcoholStrength: 0.5 });
    if (scheduled.ok) throw new Error("planned");
    expect(scheduled.refusals.map(({ calculation, input }) => [calculation, input])).toEqual([
      ["recipe", "alcoholStrength"],
    ]);
  });

  it("names every calculation that is at fault, and itself", () => {
    const scheduled = scheduleBatch(graph, {
      surroundings: "air",
      coolTarget: 15,
      bottleVolume: 1,
    });
    if (scheduled.ok) throw new Error("planned");
    expect(scheduled.refusals.map(({ calculation }) => calculation).sort()).toEqual([
      "bottling",
      "cooling",
    ]);
    const own = scheduleBatch(graph, { chillTarget: 4 });
    expect(own.ok ? [] : own.refusals.map(({ calculation }) => calculation)).toEqual(["evening"]);
  });
});

describe("faultsOf(graph, id, values)", () => {
  it("finds none where there is an answer", () => {
    expect(faultsOf(graph, "evening", {})).toEqual([]);
  });

  it("blames what was typed out of range, whatever it was typed over", () => {
    const faults = faultsOf(graph, "evening", { "evening.coolTime": -1, alcoholStrength: 0.5 });
    expect(faults.map(({ calculation, input }) => [calculation, input])).toEqual([
      ["evening", "coolTime"],
    ]);
  });
});

describe("stepKind(id)", () => {
  it.each([
    ["stint-2", "stint"],
    ["blend-15", "blend"],
    ["set-up-1", "set-up"],
    ["weigh", "weigh"],
    ["lift-out", "lift-out"],
    ["stir-2-more", "stir-2-more"],
  ])("of %s is %s", (id, kind) => {
    expect(stepKind(id)).toBe(kind);
  });
});
