import { describe, expect, it } from "vitest";
import { figureData } from "../../../components/figure/data.ts";
import { EVENING_STEPS } from "../../../lib/calculations/evening.ts";
import type { BatchValues } from "../../../lib/calculations/graph.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

/** Two loads of two beakers, each step of another length. */
const TWO_LOADS = {
  "evening.beakers": 3,
  beakersInBath: 2,
  ingredients: 4,
  weighTime: 60,
  dissolveTime: 600,
  "evening.coolTime": 300,
  blendTime: 120,
  pulses: 2,
  pulseRest: 180,
  setUpTime: 240,
  stintTime: 900,
  restTime: 600,
  stints: 2,
  liftTime: 120,
  "evening.bubbleTime": 30,
  skimTime: 90,
  "evening.bottles": 7,
  "evening.lastBottle": 20e-6,
  fillTime: 45,
} as const;

function rows(batch: BatchValues) {
  const table = graph.get("evening").tables!.find(({ id }) => id === "stages")!;
  return table.rows(evaluated("evening", batch).inputs as never).map((row) => ({
    step: EVENING_STEPS[row[0]!]!.id,
    number: row[1],
    begins: row[2]!,
    lasts: row[3]!,
    hands: row[4] === 1,
    running: row[5] === 1,
  }));
}

describe("evening", () => {
  it("adds work and waiting up as a clock would", () => {
    // By hand. Work: 3 (4 × 60 + 600 + 120 + 90) + 2 (240 + 120) + 8 × 45. Waiting: 300 + 3 × 180 + 2 (2 × 900 + 600) + 30.
    const { handsTime, waitingTime, eveningTime, runningTime, loads } = valuesOf(
      "evening",
      TWO_LOADS,
    );
    expect(handsTime).toBeCloseTo(3150 + 720 + 360, 9);
    expect(waitingTime).toBeCloseTo(300 + 540 + 4800 + 30, 9);
    expect(eveningTime).toBeCloseTo(4230 + 5670, 9);
    expect(runningTime).toBeCloseTo(3600, 9);
    expect(loads).toBe(2);
  });

  it("lets each step begin where the one before it ends, and agrees with its own sums", () => {
    const steps = rows(TWO_LOADS);
    let clock = 0;
    for (const { begins, lasts } of steps) {
      expect(begins).toBeCloseTo(clock, 9);
      clock += lasts;
    }
    const { eveningTime, handsTime, chillTime } = valuesOf("evening", TWO_LOADS);
    expect(clock).toBeCloseTo(eveningTime! + chillTime!, 6);
    const work = steps.filter(({ hands }) => hands).reduce((sum, { lasts }) => sum + lasts, 0);
    expect(work).toBeCloseTo(handsTime!, 9);
  });

  it("blends each beaker in its pulses, and hangs each load for its stints", () => {
    const of = (kind: string) => rows(TWO_LOADS).filter(({ step }) => step === kind);
    expect(of("blend").map(({ lasts }) => lasts)).toEqual(Array(6).fill(60));
    expect(of("pause")).toHaveLength(3);
    expect(of("set-up")).toHaveLength(2);
    expect(of("stint").map(({ number, running }) => [number, running])).toEqual([
      [1, true],
      [2, true],
      [3, true],
      [4, true],
    ]);
    expect(of("rest")).toHaveLength(2);
    expect(rows(TWO_LOADS).filter(({ running }) => running)).toHaveLength(4);
  });

  it("leaves out what takes no time", () => {
    const kinds = rows({ ...TWO_LOADS, blendTime: 0, pulses: 1, restTime: 0 }).map(
      ({ step }) => step,
    );
    expect(kinds).not.toContain("blend");
    expect(kinds).not.toContain("pause");
    expect(kinds).not.toContain("rest");
    expect(kinds).toContain("stint");
  });

  it("fills no last bottle where nothing is left for one", () => {
    const { bottlesFilled } = valuesOf("evening", { ...TWO_LOADS, "evening.lastBottle": 0 });
    expect(bottlesFilled).toBe(7);
  });

  it("takes beakers, cooling, bubbles and bottles from what gives them", () => {
    const batch = { batchVolume: 1e-3, beakerVolume: 0.6e-3 };
    const { inputs } = evaluated("evening", batch);
    expect(inputs["beakers"]).toBe(valuesOf("recipe", batch)["beakers"]);
    expect(inputs["coolTime"]).toBeCloseTo(valuesOf("cooling", batch)["time"]!, 9);
    expect(inputs["bubbleTime"]).toBeCloseTo(valuesOf("bubble-rise", batch)["time"]!, 9);
    expect(inputs["bottles"]).toBe(valuesOf("bottling", batch)["bottles"]);
  });

  it("chills a bottle by its time constant, and a larger one for longer", () => {
    // τ ln 4 leaves a quarter of the gap; of 20 K over a fridge of 5 °C that is 10 °C.
    const batch = { chillStart: 25, chillTarget: 10, fridgeTemperature: 5 };
    const { chillTime, chillConstant } = valuesOf("evening", batch);
    expect(chillTime! / chillConstant!).toBeCloseTo(Math.log(4), 9);
    const larger = valuesOf("evening", { ...batch, "evening.bottleLiquid": 0.5e-3 });
    // Of two like bodies, what is not glass goes with the third root of the volume.
    expect(larger["chillConstant"]! / chillConstant!).toBeGreaterThan(1.4);
    expect(larger["chillConstant"]! / chillConstant!).toBeLessThan(5 ** (1 / 3));
  });

  it("needs no chilling where the liquid is cold already", () => {
    const cold = { chillStart: 7, chillTarget: 8 };
    expect(valuesOf("evening", cold)["chillTime"]).toBe(0);
    expect(rows(cold).map(({ step }) => step)).not.toContain("chill");
  });

  it("refuses a fridge that never gets there", () => {
    const [refusal] = refusalsOf("evening", { fridgeTemperature: 9, chillTarget: 8 });
    expect(refusal?.input).toBe("chillTarget");
    expect(refusal?.says).toMatch(/never brings it to 8/);
  });

  it("plans 24 beakers and no more", () => {
    expect(refusalsOf("evening", { "evening.beakers": 24 })).toEqual([]);
    expect(refusalsOf("evening", { "evening.beakers": 25 })[0]?.says).toMatch(/^25 beakers/);
  });

  it("leaves the demonstration in peace, and warns of a long warm evening and of long noise", () => {
    expect(cautionsOf("evening", {})).toEqual([]);
    const long = { batchVolume: 2e-3, beakerVolume: 0.8e-3 };
    expect(cautionsOf("evening", long)).toEqual(["spoilage", "running-bath"]);
    // 90 min of ultrasound are the most that is said nothing about.
    expect(cautionsOf("evening", { stintTime: 1800 })).toEqual([]);
    expect(cautionsOf("evening", { stintTime: 1801 })).toEqual(["running-bath"]);
  });

  it("draws a row for each stage, to the end, in the order of the work", () => {
    const outcome = evaluated("evening", TWO_LOADS);
    const data = figureData(graph, graph.get("evening"), "timeline", outcome, TWO_LOADS);
    if (!("rows" in data)) throw new Error("a timeline was expected");
    expect(data.rows.map(({ label }) => label)).toEqual([
      "Weigh in",
      "Dissolve",
      "Cool",
      "Blend",
      "Bath",
      "Bubbles rise",
      "Skim",
      "Bottle",
      "Fridge",
    ]);
    const bath = data.rows[4]!.spans;
    expect(bath.map(({ look }) => look).join(" ")).toBe(
      "solid tinted open tinted solid solid tinted open tinted solid",
    );
    const chill = outcome.values["chillTime"]!.value;
    expect(data.rows.at(-1)!.spans[0]!.to).toBeCloseTo(9900 + chill, 6);
    expect(data.x.domain).toEqual([0, data.rows.at(-1)!.spans[0]!.to]);
  });
});
