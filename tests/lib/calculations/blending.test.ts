import { describe, expect, it } from "vitest";
import { figureData } from "../../../components/figure/data.ts";
import { solveFor } from "../../../lib/calculations/solve.ts";
import { temperatureWhileHeated } from "../../../lib/laws/blending.ts";
import { flashPoint } from "../../../lib/laws/flash-point.ts";
import { heatCapacity } from "../../../lib/substances/ethanol-water.ts";
import { cautionsOf, evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const GIVEN = {
  shaftPower: 120,
  blendTime: 100,
  blendStart: 18,
  ceiling: 32,
  pulses: 1,
  pulseRest: 300,
  "blending.liquidMass": 0.5,
  "blending.solventMassFraction": 0.1,
  "blending.vesselHeatCapacity": 300,
  roomTemperature: 20,
  blendLoss: 0,
};
/** Nothing unsure, so that a band cannot cross a threshold before its value does. */
const sure = { ...GIVEN, shaftPower: 0 };

describe("blending", () => {
  it("turns work into warmth, degree by degree", () => {
    const values = valuesOf("blending", GIVEN);
    const whole = 0.5 * heatCapacity(0.1, 18) + 300;
    expect(values["wholeHeatCapacity"]).toBeCloseTo(whole, 9);
    expect(values["rise"]).toBeCloseTo((120 * 100) / whole, 9);
    expect(values["timeToCeiling"]).toBeCloseTo((whole * 14) / 120, 9);
  });

  it("gives the blender's power back from the rise of one minute", () => {
    const { rise } = valuesOf("blending", { ...GIVEN, blendTime: 60, shaftPower: 87 });
    const solved = solveFor(
      graph,
      "blending",
      { ...GIVEN, blendTime: 60 },
      { result: "rise", value: rise! },
      "shaftPower",
    );
    expect(solved.ok && solved.value).toBeCloseTo(87, 6);
  });

  it("is three times as sure of a power that was measured", () => {
    const half = (powerKnown: string): number => {
      const { high, low } = evaluated("blending", { ...GIVEN, powerKnown }).values["warmingRate"]!;
      return (high - low) / 2;
    };
    const { warmingRate } = valuesOf("blending", GIVEN);
    expect(half("guessed") / warmingRate!).toBeCloseTo(0.8, 2);
    expect(half("measured") / warmingRate!).toBeCloseTo(0.24, 2);
  });

  it("shows one run as its equation has it", () => {
    const values = valuesOf("blending", { ...GIVEN, blendLoss: 2 });
    const { steadyTemperature: end, timeConstant: constant } = values;
    const run = end! + (18 - end!) * Math.exp(-100 / constant!);
    expect(values["runTemperature"]).toBeCloseTo(run, 9);
    expect(values["endTemperature"]).toBeCloseTo(run, 9);
  });

  it("names no time constant and no end where nothing is lost", () => {
    const values = valuesOf("blending", GIVEN);
    expect(values).not.toHaveProperty("timeConstant");
    expect(values).not.toHaveProperty("steadyTemperature");
  });

  it("adds pulses up to one run where nothing is lost, and to less where something is", () => {
    const end = (changes: object): number =>
      valuesOf("blending", { ...GIVEN, ...changes })["endTemperature"]!;
    expect(end({ pulses: 5 })).toBeCloseTo(end({}), 9);
    const [once, often] = [end({ blendLoss: 2 }), end({ blendLoss: 2, pulses: 5 })];
    expect(often).toBeLessThan(once);
    // Five pulses and four rests, one after the other.
    const rest = {
      power: 0,
      heatCapacity: 0.5 * heatCapacity(0.1, 18) + 300,
      conductance: 2,
      surroundings: 20,
    };
    let temperature = 18;
    for (let pulse = 0; pulse < 5; pulse++) {
      if (pulse > 0) temperature = temperatureWhileHeated(rest, temperature, 300);
      temperature = temperatureWhileHeated({ ...rest, power: 120 }, temperature, 20);
    }
    expect(often).toBeCloseTo(temperature, 9);
  });

  it("remembers the warmest pulse, even if the last one is cooler", () => {
    const values = valuesOf("blending", {
      ...GIVEN,
      blendStart: 30,
      blendLoss: 15,
      pulses: 4,
      pulseRest: 600,
    });
    expect(values["peakTemperature"]).toBeGreaterThan(values["endTemperature"]!);
  });

  it("has no time to the ceiling where it is never reached, and none left where it is passed", () => {
    const never = evaluated("blending", { ...GIVEN, blendLoss: 20, shaftPower: 100 });
    expect(never.values["timeToCeiling"]).toBeNull();
    const passed = valuesOf("blending", { ...GIVEN, blendStart: 32, shaftPower: 0 });
    expect(passed["timeToCeiling"]).toBe(0);
  });

  it("refuses to blend on past 60 °C, and says what to do", () => {
    const [refusal] = refusalsOf("blending", { ...GIVEN, blendTime: 1800, shaftPower: 500 });
    expect(refusal?.input).toBe("blendTime");
    expect(refusal?.says).toMatch(/60.*Blend for a shorter time/);
  });

  it("refuses half a pulse", () => {
    expect(refusalsOf("blending", { ...GIVEN, pulses: 1.5 })[0]?.input).toBe("pulses");
  });

  it("draws a band about the liquid that is as wide as the result's", () => {
    const outcome = evaluated("blending", GIVEN);
    const drawn = figureData(graph, graph.get("blending"), "warming", outcome, GIVEN);
    if (!("lines" in drawn)) throw new Error("a curve was expected");
    const there = drawn.bands?.[0]?.points.find(([time]) => time === 100);
    const end = outcome.values["endTemperature"];
    expect(there?.[1]).toBeCloseTo(end!.low, 6);
    expect(there?.[2]).toBeCloseTo(end!.high, 6);
  });
});

describe("cautions of blending", () => {
  it("speak of the ceiling when the high end passes it, and not before", () => {
    const { high } = evaluated("blending", GIVEN).values["peakTemperature"]!;
    expect(cautionsOf("blending", { ...GIVEN, ceiling: high - 0.01 })).toContain("ceiling");
    expect(cautionsOf("blending", { ...GIVEN, ceiling: high + 0.01 })).not.toContain("ceiling");
  });

  it("say “may” while only the high end is past it", () => {
    const { value, high } = evaluated("blending", GIVEN).values["peakTemperature"]!;
    const says = (ceiling: number): string =>
      JSON.stringify(evaluated("blending", { ...GIVEN, ceiling }).cautions);
    expect(says((value + high) / 2)).toContain("may pass");
    expect(says(value - 0.01)).toContain("goes to");
  });

  it("speak of fire from the cautious end of the flash point", () => {
    const { low } = flashPoint(0.35)!;
    const at = (high: number): readonly string[] =>
      // A probe may be off by a degree, two standard deviations.
      cautionsOf("blending", {
        ...sure,
        "blending.solventMassFraction": 0.35,
        ceiling: 60,
        blendStart: high - 1,
      });
    expect(at(low + 0.05)).toContain("flammable");
    expect(at(low - 0.05)).not.toContain("flammable");
  });

  it("speak of scalds from 44 °C", () => {
    const at = (high: number): readonly string[] =>
      cautionsOf("blending", { ...sure, ceiling: 60, blendStart: high - 1 });
    expect(at(44.05)).toContain("scald-and-burns");
    expect(at(43.95)).not.toContain("scald-and-burns");
  });
});
