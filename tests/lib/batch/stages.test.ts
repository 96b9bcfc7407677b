import { describe, expect, it } from "vitest";
import {
  benchStillInvented,
  STAGE_CALCULATIONS,
  stageNotices,
  type StageNotice,
} from "../../../lib/batch/stages.ts";
import type { BatchValues, Outcome } from "../../../lib/calculations/graph.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";
import { say } from "../../../lib/calculations/say.ts";

const graph = await loadGraph(STAGE_CALCULATIONS);

function notices(batch: BatchValues): readonly StageNotice[] {
  return stageNotices((id) => graph.evaluate(id, batch));
}

function cautions(batch: BatchValues): readonly string[] {
  return notices(batch).map(({ calculation, caution }) => `${calculation}: ${caution}`);
}

/** Strong, warm, much spilled, in a cupboard of a kitchen. */
const CARELESS = {
  spiritStrength: 0.96,
  alcoholStrength: 0.5,
  liquidTemperature: 31,
  bathTemperature: 40,
  roomTemperature: 28,
  spilledMass: 0.5,
  "room-vapour.solventMassFraction": 0.9,
  roomVolume: 8,
  airChanges: 0,
};

describe("benchStillInvented(graph, batch)", () => {
  it("names what a reader has not typed of their own bench", () => {
    const all = benchStillInvented(graph, {});
    expect(all).toContain("Water in the bath");
    expect(all).toContain("Rated ultrasonic power");
    expect(benchStillInvented(graph, { bathWaterVolume: 0.003 })).not.toContain(
      "Water in the bath",
    );
  });

  it("asks for readings instead of a rating where those are chosen", () => {
    const chosen = benchStillInvented(graph, { knownFrom: "readings" });
    expect(chosen).toContain("Your readings of liquid and bath");
    expect(chosen).not.toContain("Rated ultrasonic power");
    const given = benchStillInvented(graph, {
      knownFrom: "readings",
      heatReadings: [[0, 20, 20, 1]],
    });
    expect(given).not.toContain("Your readings of liquid and bath");
  });
});

describe("stageNotices(outcomeOf)", () => {
  it("leaves a sound batch in peace", () => {
    expect(cautions({})).toEqual([]);
  });

  it("warns a careless one at each stage, and of the stints' vapour only once", () => {
    const said = cautions(CARELESS);
    expect(said).toContain("flash-point: flammable");
    expect(said).toContain("room-vapour: flammable");
    expect(said).toContain("sonication: ceiling");
    expect(said).not.toContain("sonication: flammable");
    expect(said).toEqual([...new Set(said)]);
  });

  it("does not let one stage's advice stand for another's", () => {
    const said = cautions({ ...CARELESS, shaftPower: 300, blendTime: 60, blendStart: 28 });
    expect(said).toContain("blending: flammable");
    expect(said).toContain("flash-point: flammable");
    expect(said).toContain("blending: ceiling");
    expect(said).toContain("sonication: ceiling");
  });

  it("says what a stage has no answer to, with the stage's own input", () => {
    const found = notices({ liquidTemperature: 34, ceiling: 32 });
    const refusal = found.find((notice) => "input" in notice);
    expect(refusal).toMatchObject({ calculation: "sonication", input: "ceiling" });
    expect(refusal && say(refusal.say)).toMatch(/ceiling must lie above/);
  });

  it("names one input at a time of a stage that has no answer", () => {
    const found = notices({ stints: 99, stintTime: 1 });
    expect(found.filter((notice) => "input" in notice)).toHaveLength(1);
  });

  it("lets only the flash point speak for the stints", () => {
    const warned = (...ids: readonly string[]): readonly string[] => {
      const nothing: Outcome & { readonly ok: true } = {
        ok: true,
        inputs: {},
        origins: {},
        values: {},
        influences: [],
        cautions: [],
      };
      const flammable = [{ caution: "flammable", say: [] }];
      return stageNotices((id) =>
        ids.includes(id) ? { ...nothing, cautions: flammable } : nothing,
      ).map(({ calculation }) => calculation);
    };
    expect(warned("room-vapour", "sonication")).toEqual(["room-vapour", "sonication"]);
    expect(warned("flash-point", "sonication", "blending")).toEqual(["flash-point", "blending"]);
  });

  it("does not say again what an earlier stage lacks", () => {
    const without = notices({ spiritStrength: 0.1, alcoholStrength: 0.3 });
    expect(without.filter((notice) => "input" in notice)).toEqual([]);
  });
});
