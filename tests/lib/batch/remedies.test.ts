import { describe, expect, it } from "vitest";
import {
  findRemedies,
  REMEDY_CALCULATIONS,
  seekRemedies,
  survey,
  type Remedy,
} from "../../../lib/batch/remedies.ts";
import { inputsByKey, type BatchValues } from "../../../lib/calculations/graph.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";
import { say } from "../../../lib/calculations/say.ts";

const graph = await loadGraph(REMEDY_CALCULATIONS);

function inTheWay(values: BatchValues): readonly string[] {
  return survey(graph, values)
    .obstacles.filter(({ care }) => !care)
    .map(({ id }) => id);
}

function remediesOf(values: BatchValues, id: string): readonly Remedy[] {
  const now = survey(graph, values);
  const obstacle = now.obstacles.find((candidate) => candidate.id === id);
  if (!obstacle) throw new Error(`not there: ${id}; there are ${inTheWay(values).join(", ")}`);
  return findRemedies(graph, now, obstacle);
}

function said(remedies: readonly Remedy[]): readonly string[] {
  return remedies.map((remedy) => say(remedy.say).replaceAll("\u00a0", " "));
}

/** Rests too short for a warm bath. */
const HASTY = { restTime: 300, stints: 4 };

/** Benches with something wrong, and what. */
const CASES: readonly (readonly [string, BatchValues])[] = [
  ["sonication ceiling", HASTY],
  ["sonication refuses ceiling", { liquidTemperature: 33 }],
  ["sonication refuses heaterSetting", { heaterOn: "on", heaterSetting: 40 }],
  ["recipe refuses ascorbicAcidConcentration", { ascorbicAcidConcentration: 300 }],
  ["recipe glass", { batchVolume: 1.2e-3 }],
  ["weighing scale-capacity", { scaleCapacity: 0.7 }],
  ["weighing coarse-scale", { readability: 2e-3, repeatability: 2e-3, linearity: 4e-3 }],
  ["bath-level electricity", { waterDepth: 0.095 }],
  ["bath-level water-level", { waterDepth: 0.055 }],
  ["bath-level bath", { waterDepth: 0.064, immersion: 0.07 }],
  ["bath-level refuses vesselDiameter", { vesselDiameter: 0.15 }],
  ["hang bath", { immersion: 0.09, waterDepth: 0.07, vesselMass: 0.2 }],
  ["stand-balance tipping", { armLength: 0.5 }],
  ["blending ceiling", { blendTime: 240 }],
  ["cooling refuses targetTemperature", { surroundings: "air", coolTarget: 15 }],
  ["cooling glass", { coolStart: 70 }],
  ["thermal-stress glass", { temperatureStep: 150 }],
  ["evaporation flammable", { alcoholStrength: 0.25, bathTemperature: 30, cover: "open" }],
  ["evening refuses chillTarget", { chillTarget: 4 }],
  ["evening running-bath", { stints: 5 }],
];

describe("survey(graph, values)", () => {
  it("finds nothing in the way of the demonstration, only what wants care", () => {
    const { obstacles } = survey(graph, {});
    expect(obstacles.map(({ id, care }) => [id, care])).toEqual([["recipe flammable", true]]);
  });

  it("names each thing once, under the calculation that is at fault", () => {
    const ids = inTheWay({ alcoholStrength: 0.5 });
    expect(ids).toEqual(["recipe refuses alcoholStrength"]);
  });
});

describe("findRemedies(graph, now, obstacle)", () => {
  it.each(CASES)("mends “%s” by a single change and brings nothing new", (id, values) => {
    const remedies = remediesOf(values, id);
    expect(remedies.length).toBeGreaterThan(0);
    const before = inTheWay(values);
    // What had no answer before may have something to say now.
    const now = survey(graph, values);
    const judged = (obstacle: string): boolean => now.outcomeOf(obstacle.split(" ")[0]!).ok;
    for (const { set, say: text, left } of remedies) {
      const after = inTheWay({ ...values, ...set });
      expect(after, say(text)).not.toContain(id);
      expect(after.filter((other) => !before.includes(other) && judged(other))).toEqual([]);
      expect(left).toBe(after.length);
      expect(say(text)).not.toMatch(/undefined|NaN|Infinity/);
    }
    const changes = remedies.map(({ change }) => change);
    expect(changes).toEqual([...changes].sort((a, b) => a - b));
  });

  it.each([
    ["sonication ceiling", HASTY],
    ["blending ceiling", { blendTime: 240 }],
    ["stand-balance tipping", { armLength: 0.7 }],
    ["bath-level electricity", { waterDepth: 0.095 }],
    ["weighing scale-capacity", { scaleCapacity: 0.7 }],
  ] as const)(
    "goes no further than it must against “%s”: a step less does not do",
    (id, values) => {
      /** One step back towards what it was. */
      const back: Readonly<Record<string, number>> = {
        restTime: -60,
        stintTime: 60,
        stints: 1,
        bathTemperature: 1,
        blendTime: 5,
        blendStart: 1,
        armLength: 0.005,
        counterweightMass: -0.1,
        waterDepth: 0.001,
        immersion: 0.001,
        batchVolume: 10e-6,
        vesselMass: 0.01,
      };
      const remedies = remediesOf(values, id);
      expect(remedies.length).toBeGreaterThan(0);
      const before = inTheWay(values);
      for (const { lever, set } of remedies) {
        expect(back[lever], lever).toBeDefined();
        const nearer = inTheWay({ ...values, [lever]: Number(set[lever]) + (back[lever] ?? 0) });
        const fresh = nearer.filter((other) => other === id || !before.includes(other));
        expect(fresh, lever).not.toEqual([]);
      }
    },
  );

  it("offers values that one can measure out, in words", () => {
    const remedies = remediesOf(HASTY, "sonication ceiling");
    for (const { lever, set } of remedies)
      if (lever.endsWith("Time")) expect(Number(set[lever]) % 60, lever).toBe(0);
    expect(said(remedies)).toContain("Stints: 2 instead of 4");
    expect(said(remedies).join("\n")).toMatch(/^Rest \d+ min instead of 5 min$/m);
  });

  it("sets all that a finer scale changes", () => {
    const coarse = { readability: 2e-3, repeatability: 2e-3, linearity: 4e-3 };
    const [scale] = remediesOf(coarse, "weighing coarse-scale").filter(
      ({ lever }) => lever === "readability",
    );
    expect(Object.keys(scale?.set ?? {})).toEqual(["readability", "repeatability", "linearity"]);
  });

  it.each([
    ["bath-level refuses vesselDiameter", { vesselDiameter: 0.15 }, "vesselDiameter", 3],
    ["recipe glass", { beakerVolume: 0.4e-3 }, "beakerVolume", 3],
    ["weighing scale-capacity", { scaleCapacity: 0.7 }, "vesselMass", 3],
    ["bath-level water-level", { waterDepth: 0.055 }, "waterDepth", 1],
    ["sonication electricity", { bathWaterVolume: 0.1e-3 }, "bathWaterVolume", 1],
  ] as const)("asks against “%s” for what else is measured anew", (id, values, lever, count) => {
    const labels = [...inputsByKey(graph).values()].map(({ input }) => input.label);
    const remedies = remediesOf(values, id);
    const [moved] = remedies.filter((remedy) => remedy.lever === lever);
    expect(new Set(moved?.too).size).toBe(count);
    expect(labels).toEqual(expect.arrayContaining([...(moved?.too ?? [])]));
    // What the remedy sets itself is not asked for again.
    expect(moved?.too).not.toContain(inputsByKey(graph).get(lever)?.input.label);
    for (const other of remedies.filter((remedy) => remedy.lever === "immersion"))
      expect(other.too).toBeUndefined();
  });

  it("says of what lies behind a refusal that something is left, where all is not well then", () => {
    const remedies = remediesOf({ alcoholStrength: 0.5 }, "recipe refuses alcoholStrength");
    const [spirit] = remedies.filter(({ lever }) => lever === "spiritStrength");
    expect(spirit?.left).toBeGreaterThan(0);
    const [weaker] = remedies.filter(({ lever }) => lever === "alcoholStrength");
    expect(weaker?.left).toBe(0);
  });

  it("finds nothing where no single change helps", () => {
    const hopeless = { batchVolume: 2e-3, beakerVolume: 0.6e-3, dissolveTime: 7200 };
    expect(remediesOf(hopeless, "evening spoilage")).toEqual([]);
  });

  it("offers nothing against what only wants care", () => {
    expect(remediesOf({}, "recipe flammable")).toEqual([]);
  });

  it("does not move what the reader's own values have taken out of play", () => {
    // The masses are typed over, so that a smaller batch weighs the same.
    const typed = {
      "weighing.waterMass": 0.5,
      "weighing.spiritMass": 0.2,
      scaleCapacity: 0.9,
    };
    const levers = remediesOf(typed, "weighing scale-capacity").map(({ lever }) => lever);
    expect(levers).not.toContain("batchVolume");
  });
});

describe("seekRemedies(graph, now, obstacle)", () => {
  it("stops for breath between two evaluations, and ends with the same", () => {
    const now = survey(graph, HASTY);
    const obstacle = now.obstacles.find(({ id }) => id === "sonication ceiling")!;
    const search = seekRemedies(graph, now, obstacle);
    let breaths = 0;
    let step = search.next();
    for (; !step.done; step = search.next()) breaths++;
    expect(breaths).toBeGreaterThan(20);
    expect(step.value).toEqual(findRemedies(graph, now, obstacle));
  });
});
