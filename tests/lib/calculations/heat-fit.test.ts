import { describe, expect, it } from "vitest";
import type { Rows } from "../../../lib/calculations/calculation.ts";
import { FITTED } from "../../../lib/calculations/quantities/heat.ts";
import { heatProgramme, programmeAt } from "../../../lib/laws/heat-programme.ts";
import { tableObjects } from "../../helpers/tables.ts";
import { evaluated, graph, refusalsOf, valuesOf } from "../../helpers/calculations.ts";

const HELD = {
  "heat-fit.assumedBathPower": 30,
  exchangeGuess: 6,
  roomTemperature: 20,
  "heat-fit.liquidHeatCapacity": 2230,
  "heat-fit.bathHeatCapacity": 9580,
  liquidLossConductance: 0.3,
  bathLossConductance: 2,
};

/** Rows without scatter: half an hour on, twenty minutes off, every two minutes. */
function exactRows(liquid: number, bath: number, exchange: number): Rows {
  const pieces = heatProgramme({
    nodes: {
      liquidHeatCapacity: 2230,
      bathHeatCapacity: 9580,
      exchangeConductance: exchange,
      liquidLossConductance: 0.3,
      bathLossConductance: 2,
      roomTemperature: 20,
    },
    start: { liquid: 17, bath: 22 },
    sonication: { liquid, bath },
    heater: { power: 0, setting: 20, on: false },
    stintTime: 1800,
    restTime: 0,
    stints: 1,
    coolDown: 1200,
  });
  return Array.from({ length: 26 }, (_, i) => {
    const at = programmeAt(pieces, i * 120);
    return [i * 120, at.liquid, at.bath, i < 15 ? 1 : 0];
  });
}

const says = (heatReadings: Rows): string =>
  refusalsOf("heat-fit", { ...HELD, heatReadings })
    .map(({ input, says: text }) => `${input}: ${text}`)
    .join(" ");

describe("heat-fit", () => {
  it("says of each number that it fits how sure it is", () => {
    const results = Object.keys(graph.get("heat-fit").results);
    expect(results).toEqual(expect.arrayContaining(FITTED.map(({ of }) => of.name)));
    expect(results.filter((name) => name.endsWith("Error")).sort()).toEqual(
      FITTED.map(({ error }) => error).sort(),
    );
  });

  it.each([
    [4, 30, 6],
    [12, 60, 15],
    [2, 120, 3],
  ])("finds %d W, %d W and %d W/K again from readings without scatter", (liquid, bath, g) => {
    const found = valuesOf("heat-fit", { ...HELD, heatReadings: exactRows(liquid, bath, g) });
    expect(found["powerToLiquid"]).toBeCloseTo(liquid, 5);
    expect(found["powerToBath"]).toBeCloseTo(bath, 4);
    expect(found["exchangeConductance"]).toBeCloseTo(g, 5);
    expect(found["residualDeviation"]).toBeLessThan(1e-6);
  });

  it("fits the losses too where there are readings at rest", () => {
    const heatReadings = exactRows(4, 30, 6);
    const fitted = valuesOf("heat-fit", {
      ...HELD,
      heatReadings,
      lossesFitted: "fitted",
      bathLossConductance: 3,
    });
    expect(fitted["fittedBathLoss"]).toBeCloseTo(2, 3);
    expect(fitted["fittedLiquidLoss"]).toBeCloseTo(0.3, 3);
    const running = heatReadings.slice(0, 14);
    expect(
      refusalsOf("heat-fit", { ...HELD, heatReadings: running, lossesFitted: "fitted" })[0]?.says,
    ).toMatch(/^Losses can be told from power only at rest/);
  });

  it("fits only the liquid's power where the bath was read only once", () => {
    const once = exactRows(4, 30, 6).map(
      ([t, liquid, bath, on], i) => [t, liquid, i === 0 ? bath : null, on] as Rows[number],
    );
    const outcome = evaluated("heat-fit", { ...HELD, heatReadings: once });
    expect(outcome.values["powerToLiquid"]?.value).toBeCloseTo(4, 5);
    expect(outcome.values["powerToBath"]).toBeNull();
    expect(outcome.values["exchangeConductance"]).toBeNull();
  });

  it("shows how the errors are tied, 1 on the diagonal", () => {
    const { inputs } = evaluated("heat-fit", {});
    const rows = tableObjects(graph.get("heat-fit"), "correlations", inputs);
    expect(rows.map((row, i) => row[`with${i}`])).toEqual(
      [1, 1, 1].map((one) => expect.closeTo(one, 9)),
    );
    expect(rows[0]?.["with1"]).toBeCloseTo(Number(rows[1]?.["with0"]), 9);
  });

  const rows = exactRows(4, 30, 6);
  it.each<[string, Rows, RegExp]>([
    ["two readings", rows.slice(0, 2), /^readings: .*too few/i],
    ["equal times", [rows[0]!, rows[0]!, ...rows.slice(1)], /^readings: Row 2 has the same time/],
    ["times out of order", [rows[1]!, rows[0]!, ...rows.slice(2)], /^readings: Row 2 is earlier/],
    [
      "a liquid that never changes",
      rows.map(([t, , bath, on]) => [t!, 20, bath!, on!]),
      /never changes/,
    ],
    ["a bath that never ran", rows.map(([t, l, b]) => [t!, l!, b!, 0]), /never runs/],
    ["no first bath reading", rows.map(([t, l, , on]) => [t!, l!, null, on!]), /^readings: Row 1 /],
  ])("refuses %s in plain words", (_, heatReadings, message) => {
    expect(says(heatReadings)).toMatch(message);
  });
});

describe("bath-heat", () => {
  it("takes the fitted numbers where the reader chose readings, and the guesses otherwise", () => {
    const fit = valuesOf("heat-fit", {});
    const known = valuesOf("bath-heat", { knownFrom: "readings" });
    for (const name of ["powerToLiquid", "powerToBath", "exchangeConductance"])
      expect(known[name]).toBeCloseTo(fit[name]!, 7);
    const guess = valuesOf("bath-heat", { ratedPower: 100, liquidShare: 0.1, bathShare: 0.5 });
    expect(guess).toMatchObject({ powerToLiquid: 10, powerToBath: 50 });
  });

  it("carries the errors and their ties: the doubts together make the fit's standard errors", () => {
    const at = (moved: object): Readonly<Record<string, number>> =>
      valuesOf("bath-heat", { knownFrom: "readings", ...moved });
    const centre = at({});
    const moves = ["fitDoubt1", "fitDoubt2", "fitDoubt3"].map((name) => at({ [name]: 1 }));
    const fit = valuesOf("heat-fit", {});
    const change = (name: string): readonly number[] => moves.map((m) => m[name]! - centre[name]!);
    for (const [name, error] of [
      ["powerToLiquid", "powerToLiquidError"],
      ["powerToBath", "powerToBathError"],
      ["exchangeConductance", "exchangeConductanceError"],
    ] as const)
      expect(Math.hypot(...change(name))).toBeCloseTo(fit[error]!, 7);
    const [liquid, bath] = [change("powerToLiquid"), change("powerToBath")];
    const product = liquid.reduce((sum, by, i) => sum + by * bath[i]!, 0);
    expect(product / (Math.hypot(...liquid) * Math.hypot(...bath))).toBeCloseTo(
      fit["correlationPowers"]!,
      7,
    );
  });

  it("answers from guesses even where the readings carry no fit", () => {
    const broken = [[0, 20, 20, 0]];
    expect(refusalsOf("bath-heat", { heatReadings: broken })).toEqual([]);
    expect(
      refusalsOf("bath-heat", { heatReadings: broken, knownFrom: "readings" }).map((r) => r.input),
    ).toEqual(["readings"]);
  });
});

describe("heat-capacity", () => {
  it("adds up what warms together, other beakers on the bath's side", () => {
    const one = valuesOf("heat-capacity", {});
    expect(one["liquidHeatCapacity"]).toBeCloseTo(
      one["solventHeatCapacity"]! + one["powderHeatCapacity"]! + one["glassHeatCapacity"]!,
      9,
    );
    const three = valuesOf("heat-capacity", { beakersInBath: 3 });
    expect(three["bathHeatCapacity"]! - one["bathHeatCapacity"]!).toBeCloseTo(
      2 * one["liquidHeatCapacity"]!,
      9,
    );
  });
  it("parts the batch among its beakers", () => {
    const whole = valuesOf("heat-capacity", { vesselMass: 0 });
    const half = valuesOf("heat-capacity", { vesselMass: 0, "heat-capacity.beakers": 2 });
    expect(half["liquidHeatCapacity"]).toBeCloseTo(whole["liquidHeatCapacity"]! / 2, 9);
  });
  it("refuses an empty beaker", () => {
    const empty = Object.fromEntries(
      ["waterMass", "spiritMass", "ascorbicAcidMass", "lecithinMass"].map((name) => [
        `heat-capacity.${name}`,
        0,
      ]),
    );
    expect(refusalsOf("heat-capacity", { ...empty, vesselMass: 0 })[0]?.input).toBe("waterMass");
  });
});

describe("calorimetry", () => {
  it.each<[string, Rows, RegExp]>([
    [
      "equal times",
      [
        [0, 20],
        [0, 21],
        [60, 22],
      ],
      /^Rows 1 and 2 have the same time/,
    ],
    [
      "times out of order",
      [
        [60, 20],
        [0, 21],
        [120, 22],
      ],
      /^Row 2 is earlier/,
    ],
  ])("refuses %s", (_, warmingReadings, message) => {
    expect(refusalsOf("calorimetry", { warmingReadings })[0]?.says).toMatch(message);
  });
  it("gives a share of the rating", () => {
    const { power = 0, shareOfRated } = valuesOf("calorimetry", { ratedPower: 50 });
    expect(shareOfRated).toBeCloseTo(power / 50, 12);
  });
});
