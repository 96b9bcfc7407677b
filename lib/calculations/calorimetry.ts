import { calorimetricPower } from "../laws/calorimetry.ts";
import { FitError } from "../numeric/least-squares.ts";
import { defineCalculation, RefusedError, type Result } from "./calculation.ts";
import { COVERAGE } from "./graph.ts";
import { ratedPower } from "./quantities/heat.ts";
import { COUNT, POWER, RISE, SHARE } from "./quantities/kinds.ts";
import { warmedHeat, warmedMass, warmedVessel, warmingReadings } from "./quantities/readings.ts";
import { fitRefusal, inOrder } from "./fit-refusal.ts";

const rate: Omit<Result, "label" | "symbol"> = {
  dimension: "warmingRate",
  units: ["K/h", "K/min"],
  digits: 3,
};

export const calorimetry = defineCalculation({
  id: "calorimetry",
  title: "Power from a slope",
  summary: "The heat that goes into a liquid, from how fast it warms",
  inputs: {
    readings: warmingReadings,
    liquidMass: warmedMass,
    heatCapacity: warmedHeat,
    vesselHeatCapacity: warmedVessel,
    ratedPower,
  },
  blame: { temperature: "readings", heatCapacity: "liquidMass" },
  results: {
    slope: { ...rate, label: "Warming rate", symbol: "s" },
    slopeError: {
      unbanded: true,
      ...rate,
      digits: 2,
      label: "Its standard error",
      symbol: "u_s",
      bounds: { min: 0 },
    },
    power: {
      ...POWER,
      label: "Power into liquid and vessel",
      symbol: "P",
      hint: "What the surroundings give or take is not in it",
    },
    powerError: {
      unbanded: true,
      ...POWER,
      digits: 2,
      label: "Its standard error, from the scatter",
      symbol: "u_P",
      bounds: { min: 0 },
    },
    shareOfRated: {
      ...SHARE,
      label: "Share of the rated power",
      symbol: String.raw`\eta`,
    },
    residualDeviation: {
      unbanded: true,
      ...RISE,
      label: "Scatter about the line",
      symbol: "s_r",
      hint: "About 0.3 of the probe’s display step if nothing else is wrong",
      bounds: { min: 0 },
    },
    degreesOfFreedom: {
      unbanded: true,
      ...COUNT,
      label: "Degrees of freedom",
      symbol: String.raw`\nu`,
      minor: true,
    },
    wholeHeatCapacity: {
      dimension: "heatCapacity",
      units: ["J/K", "kJ/K"],
      digits: 4,
      label: "Liquid and vessel together",
      symbol: "C",
      minor: true,
    },
  },
  compute: ({ readings, liquidMass, heatCapacity, vesselHeatCapacity, ratedPower: rated }) => {
    const rows = readings as readonly (readonly [number, number])[];
    inOrder("readings", readings);
    const whole = liquidMass * heatCapacity + vesselHeatCapacity;
    try {
      const { value, low, high, standardError, line } = calorimetricPower(rows, whole);
      return {
        slope: around(line.slope, line.slopeError),
        slopeError: line.slopeError,
        power: { value, low, high },
        powerError: standardError,
        shareOfRated: { value: value / rated, low: low / rated, high: high / rated },
        residualDeviation: line.residualSd,
        degreesOfFreedom: line.degreesOfFreedom,
        wholeHeatCapacity: whole,
      };
    } catch (error) {
      if (error instanceof FitError) throw new RefusedError("readings", fitRefusal(error));
      throw error;
    }
  },
  steps: [
    {
      result: "wholeHeatCapacity",
      tex: (slot) =>
        String.raw`${slot("liquidMass")}\by ${slot("heatCapacity")} + ${slot("vesselHeatCapacity")}`,
    },
    {
      result: "power",
      tex: (slot) => String.raw`${slot("wholeHeatCapacity")}\by ${slot("slope")}`,
    },
    {
      result: "powerError",
      tex: (slot) => String.raw`${slot("wholeHeatCapacity")}\by ${slot("slopeError")}`,
    },
  ],
  figures: [
    {
      id: "slope",
      title: "Readings and their line",
      caption:
        "The points should scatter about the line at random. If they bend away from it at the end, heat is being lost: use the earlier part, or the fit with losses.",
      data: ({ readings }, run) => {
        const values = run({});
        const slope = values?.["slope"]?.value ?? 0;
        const rows = readings as readonly (readonly [number, number])[];
        const mean = (i: 0 | 1): number => rows.reduce((sum, row) => sum + row[i], 0) / rows.length;
        const [t, T] = [mean(0), mean(1)];
        const ends = [rows[0]?.[0] ?? 0, rows.at(-1)?.[0] ?? 1];
        return {
          x: { label: "Time", of: { dimension: "time", units: ["min"], digits: 3 } },
          y: { label: "Liquid", of: { dimension: "temperature", units: ["°C", "°F"], digits: 3 } },
          lines: [
            { label: "fitted line", points: ends.map((time) => [time, T + slope * (time - t)]) },
          ],
          marks: rows.map(([x, y]) => ({ x, y, label: "" })),
        };
      },
    },
  ],
  sources: ["munich-acoustics-script", "plattes-2017", "caparros-2009"],
});

function around(value: number, error: number): { value: number; low: number; high: number } {
  return { value, low: value - COVERAGE * error, high: value + COVERAGE * error };
}
