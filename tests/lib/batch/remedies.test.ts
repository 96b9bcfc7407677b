import * as fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { OBSTACLE_CALCULATIONS, survey } from "../../../lib/batch/obstacles.ts";
import { findRemedies, seekRemedies, type Remedy } from "../../../lib/batch/remedies.ts";
import {
  RefusedError,
  type AnyCalculation,
  type CautionRule,
  type Computed,
  type Input,
  type Inputs,
  type InputValue,
  type InputValues,
  type Results,
} from "../../../lib/calculations/calculation.ts";
import { Graph, inputsByKey, type BatchValues } from "../../../lib/calculations/graph.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";
import { say } from "../../../lib/calculations/say.ts";

const graph = await loadGraph(OBSTACLE_CALCULATIONS);

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

type Stands = (inputs: Readonly<Record<string, InputValue>>) => boolean;

/** An input whose doubt moves nothing, so that an evaluation costs little. */
function certain(input: Input): Input {
  if (input.kind !== "number") return input;
  const { uncertainty: _, ...rest } = input;
  return rest;
}

/**
 * The calculations with the demonstration's numbers wherever this one is moved, and nothing that warns: only what
 * is given here stands in the way.
 */
function staged(id: string, own: (numbers: Computed<Results>) => Partial<AnyCalculation>): Graph {
  const { inputs } = graph.evaluate(id, {});
  const numbers = graph.get(id).compute(inputs as InputValues<Inputs>);
  return new Graph(
    [...graph.calculations.values()].map((calculation) => ({
      ...calculation,
      inputs: Object.fromEntries(
        Object.entries(calculation.inputs).map(([name, input]) => [name, certain(input)]),
      ),
      cautions: [],
      ...(calculation.id === id && own(numbers)),
    })),
  );
}

function warning(id: string, caution: string, when: Stands): Graph {
  const rule = {
    caution,
    when: when as CautionRule<Inputs, Results>["when"],
    say: () => ["Mind."],
  };
  return staged(id, (numbers) => ({ compute: () => numbers, cautions: [rule] }));
}

function refusing(id: string, input: string, when: Stands): Graph {
  const compute = (numbers: Computed<Results>, inputs: InputValues<Inputs>) => {
    if (when(inputs as Parameters<Stands>[0])) throw new RefusedError(input, ["Not so."]);
    return numbers;
  };
  return staged(id, (numbers) => ({ compute: (inputs) => compute(numbers, inputs) }));
}

/** What each lever is set to against the one thing that stands in the way. */
function setAgainst(of: Graph, values: BatchValues): Readonly<Record<string, InputValue>> {
  return Object.fromEntries(
    allAgainst(of, values).map(({ lever, set }) => [lever, set[lever] as InputValue]),
  );
}

function allAgainst(of: Graph, values: BatchValues): readonly Remedy[] {
  const now = survey(of, values);
  expect(now.obstacles).toHaveLength(1);
  return findRemedies(of, now, now.obstacles[0]!);
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

describe("findRemedies(graph, now, obstacle), where one number decides", () => {
  const below =
    (name: string, least: number): Stands =>
    (inputs) =>
      Number(inputs[name]) < least;
  const above =
    (name: string, most: number): Stands =>
    (inputs) =>
      Number(inputs[name]) > most;

  it("goes up to the first whole step that will do, from wherever it starts", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 800 }),
        fc.integer({ min: 1, max: 700 }),
        (tenths, far) => {
          const [from, enough] = [tenths * 1e-4, (tenths + far) * 1e-4];
          const shallow = warning("bath-level", "water-level", below("waterDepth", enough));
          const { waterDepth } = setAgainst(shallow, { waterDepth: from });
          expect(waterDepth).toBe(Math.ceil((tenths + far) / 10) / 1000);
        },
      ),
      { seed: 21, numRuns: 10 },
    );
  });

  it("goes down to the first whole step that will do, from wherever it starts", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 990 }),
        fc.integer({ min: 1, max: 550 }),
        (tenths, far) => {
          const few = Math.max(tenths - far, 40);
          const hot = warning("cooling", "scald-and-burns", above("startTemperature", few / 10));
          const { coolStart } = setAgainst(hot, { coolStart: tenths / 10 });
          expect(coolStart).toBe(Math.floor(few / 10));
        },
      ),
      { seed: 22, numRuns: 10 },
    );
  });

  it("takes a value that stands on a step already one step further, whatever its last digit in binary", () => {
    // 0.29 ⋅ 100 comes out below 29, and 0.035 ⋅ 1000 above 35.
    const heavy = warning("weighing", "scale-capacity", above("vesselMass", 0.2899));
    expect(setAgainst(heavy, { vesselMass: 0.29 })).toEqual({ vesselMass: 0.28 });
    const shallow = warning("bath-level", "water-level", below("waterDepth", 0.0351));
    expect(setAgainst(shallow, { waterDepth: 0.035 })).toEqual({ waterDepth: 0.036 });
  });

  it("goes as far as makes sense and no further", () => {
    const rule = (caution: string, stands: Stands) => warning("weighing", caution, stands);
    const from = { vesselMass: 0.29 };
    expect(setAgainst(rule("scale-capacity", above("vesselMass", 0.02)), from)).toEqual({
      vesselMass: 0.02,
    });
    expect(setAgainst(rule("scale-capacity", above("vesselMass", 0.0199)), from)).toEqual({});
    const stale = (least: number) =>
      warning("room-vapour", "ventilation", below("roomVolume", least));
    expect(setAgainst(stale(300), { roomVolume: 27 })).toEqual({ roomVolume: 300 });
    expect(setAgainst(stale(300.1), { roomVolume: 27 })).toEqual({});
    // A quantity whose own limits are narrower than what makes sense.
    const full = (least: number) =>
      warning("bath-level", "water-level", below("waterDepth", least));
    expect(setAgainst(full(1), {})).toEqual({ waterDepth: 1 });
  });

  it("does not turn round where it starts beyond what makes sense", () => {
    const light = warning("weighing", "scale-capacity", below("vesselMass", 0.02));
    expect(setAgainst(light, { vesselMass: 0.015 })).toEqual({});
    const stale = warning("room-vapour", "ventilation", above("roomVolume", 300));
    expect(setAgainst(stale, { roomVolume: 400 })).toEqual({});
  });

  it("offers beakers in the sizes that they come in, nearest first, larger or smaller", () => {
    const small = (least: number) => warning("recipe", "glass", below("beakerVolume", least));
    expect(setAgainst(small(0.5e-3), { beakerVolume: 0.3e-3 })).toMatchObject({
      beakerVolume: 0.6e-3,
    });
    expect(setAgainst(small(3e-3), { beakerVolume: 0.3e-3 })).toMatchObject({ beakerVolume: 3e-3 });
    expect(setAgainst(small(3.1e-3), { beakerVolume: 0.3e-3 })).toEqual({});
    const large = refusing("recipe", "beakerVolume", above("beakerVolume", 0.7e-3));
    expect(setAgainst(large, { beakerVolume: 0.9e-3 })).toEqual({ beakerVolume: 0.6e-3 });
  });

  it("tries both ways what a refusal blames, where nothing better is known", () => {
    const short = refusing("sonication", "restTime", below("restTime", 700));
    expect(setAgainst(short, { restTime: 600 })).toEqual({ restTime: 720 });
    const long = refusing("sonication", "restTime", above("restTime", 500));
    expect(setAgainst(long, { restTime: 600 })).toEqual({ restTime: 480 });
  });

  it("has nothing against a refusal that blames what cannot be moved", () => {
    for (const input of ["heaterOn", "roomTemperature", "liquidHeatCapacity"])
      expect(
        setAgainst(
          refusing("sonication", input, () => true),
          {},
        ),
        input,
      ).toEqual({});
  });

  it("offers every other kind of a thing but the one that only its owner knows", () => {
    const kind =
      (good: string): Stands =>
      (inputs) =>
        inputs["glass"] !== good;
    const against = (good: string) =>
      allAgainst(warning("thermal-stress", "glass", kind(good)), {});
    const [silica, ...rest] = against("fused-silica");
    expect(rest).toEqual([]);
    expect(silica).toMatchObject({ lever: "glass", set: { glass: "fused-silica" } });
    expect(said([silica!])).toEqual(["Kind of glass: fused silica"]);
    expect(against("soda-lime")).toHaveLength(1);
    expect(against("own")).toEqual([]);
  });

  it("offers what is the default where something else was chosen", () => {
    const open = warning("evaporation", "flammable", ({ cover }) => cover !== "open");
    expect(setAgainst(open, { cover: "closed" })).toEqual({ cover: "open" });
  });

  it("offers only scales that show more than the reader's", () => {
    const coarse = (most: number) => warning("weighing", "coarse-scale", above("linearity", most));
    const own = { readability: 0.1e-3, repeatability: 5e-3, linearity: 10e-3 };
    const [finer] = allAgainst(coarse(5e-3), own);
    expect(finer?.set).toEqual({
      readability: 0.01e-3,
      repeatability: 0.01e-3,
      linearity: 0.02e-3,
    });
    expect(said([finer!])).toEqual(["Use a scale that shows 0.01 g instead of 0.1 g"]);
    // A tenth as coarse: ln 10.
    expect(finer?.change).toBeCloseTo(2.302585, 6);
    const finest = { readability: 0.001e-3, repeatability: 5e-3, linearity: 10e-3 };
    expect(allAgainst(coarse(5e-3), finest)).toEqual([]);
    // The reader said nothing of it: it is taken to show 0.1 g.
    expect(setAgainst(coarse(0.1e-3), { repeatability: 5e-3 })).toEqual({ readability: 0.01e-3 });
  });

  it("reckons how far it goes by ratio, degrees by tens, and from nothing as all of it", () => {
    const change = (of: Graph, values: BatchValues) => allAgainst(of, values)[0]?.change;
    // From 0.3 to 0.1 kg: ln 3.
    const heavy = warning("weighing", "scale-capacity", above("vesselMass", 0.1));
    expect(change(heavy, { vesselMass: 0.3 })).toBeCloseTo(1.098612, 6);
    const stale = warning("room-vapour", "ventilation", below("roomVolume", 40));
    expect(change(stale, { roomVolume: 20 })).toBeCloseTo(0.693147, 6);
    const hot = warning("cooling", "scald-and-burns", above("startTemperature", 28));
    expect(change(hot, { coolStart: 60 })).toBeCloseTo(3.2, 9);
    const cold = warning("cooling", "scald-and-burns", above("startTemperature", 0));
    expect(change(cold, { coolStart: 4 })).toBeCloseTo(0.4, 9);
    const steep = warning("thermal-stress", "glass", above("temperatureStep", 5));
    expect(change(steep, { temperatureStep: 30 })).toBeCloseTo(2.5, 9);
    const light = warning("stand-balance", "tipping", below("counterweightMass", 2));
    expect(change(light, { counterweightMass: 0 })).toBe(1);
    const loaded = warning("stand-balance", "tipping", above("counterweightMass", 0));
    expect(change(loaded, { counterweightMass: 2 })).toBe(1);
  });

  it("puts the nearest change first", () => {
    const stale = warning("room-vapour", "ventilation", ({ airChanges, roomVolume }) => {
      return Number(airChanges) * 3600 < 3 && Number(roomVolume) < 45;
    });
    const levers = (airChanges: number) =>
      allAgainst(stale, { airChanges: airChanges / 3600, roomVolume: 30 }).map(
        ({ lever }) => lever,
      );
    expect(levers(2.5)).toEqual(["airChanges", "roomVolume"]);
    expect(levers(0.5)).toEqual(["roomVolume", "airChanges"]);
  });
});

describe("what a search for remedies asks for", () => {
  it("is nothing but the calculation at fault as long as that says the same", () => {
    const asked = (of: Graph): ReadonlySet<string> => {
      const now = survey(of, {});
      const evaluate = vi.spyOn(of, "evaluate");
      expect(findRemedies(of, now, now.obstacles[0]!)).toEqual([]);
      return new Set(evaluate.mock.calls.map(([id]) => id));
    };
    expect(asked(warning("thermal-stress", "glass", () => true))).toEqual(
      new Set(["thermal-stress"]),
    );
    expect(asked(refusing("sonication", "ceiling", () => true))).toEqual(new Set(["sonication"]));
  });

  it("is, where it says so no more, what the change can reach and the plan, each once", () => {
    const steep = warning("thermal-stress", "glass", ({ glass }) => glass !== "soda-lime");
    const now = survey(steep, {});
    const search = seekRemedies(steep, now, now.obstacles[0]!);
    const evaluate = vi.spyOn(steep, "evaluate");
    let breaths = 0;
    while (!search.next().done) breaths++;
    const calls = evaluate.mock.calls.map(([id]) => id);
    expect(calls.filter((id) => id === "thermal-stress")).toHaveLength(breaths);
    expect(new Set(calls)).toEqual(new Set(["thermal-stress", "strength", "recipe", "weighing"]));
  });

  it("is no place twice, and fourteen places at most, where none will do", () => {
    const breaths = (of: Graph, values: BatchValues): number => {
      const now = survey(of, values);
      const search = seekRemedies(of, now, now.obstacles[0]!);
      let count = 0;
      while (!search.next().done) count++;
      return count;
    };
    const hot = warning("cooling", "scald-and-burns", () => true);
    expect(breaths(hot, { coolStart: 5 })).toBe(5);
    expect(breaths(hot, { coolStart: 0 })).toBe(0);
    expect(breaths(hot, { coolStart: 90 })).toBe(14);
  });

  it("is nothing where the reader has typed over what the change would decide", () => {
    const heavy = warning("weighing", "scale-capacity", () => true);
    const typed = {
      "weighing.waterMass": 0.3,
      "weighing.spiritMass": 0.1,
      "weighing.ascorbicAcidMass": 0.05,
      "weighing.lecithinMass": 0.02,
      vesselMass: 0.02,
    };
    const now = survey(heavy, typed);
    const evaluate = vi.spyOn(heavy, "evaluate");
    expect(findRemedies(heavy, now, now.obstacles[0]!)).toEqual([]);
    expect(evaluate).not.toHaveBeenCalled();
  });
});

describe("findRemedies(graph, now, obstacle), where a batch is made in several beakers", () => {
  it("minds what the scale carries with one beaker's part, not with all of the batch", () => {
    const parted = { batchVolume: 2e-3, beakerVolume: 0.6e-3, scaleCapacity: 0.9, vesselMass: 0.6 };
    const vessels = remediesOf(parted, "weighing scale-capacity").filter(
      ({ lever }) => lever === "vesselMass",
    );
    expect(vessels).toHaveLength(1);
    const lighter = { ...parted, ...vessels[0]!.set };
    expect(inTheWay(lighter)).not.toContain("weighing scale-capacity");
    const whole = graph.evaluate("weighing", lighter);
    expect(whole.ok && whole.cautions.map(({ caution }) => caution)).toContain("scale-capacity");
  });
});
