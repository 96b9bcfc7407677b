import { kineticTemperature as meansOf } from "../laws/kinetic-temperature.ts";
import { amount, defineCalculation, phrase, RefusedError, type Rows } from "./calculation.ts";
import { inOrder } from "./fit-refusal.ts";
import { TEMPERATURE, TIME } from "./quantities/kinds.ts";
import {
  FRIDGE_LIMIT,
  fridgeLog,
  loggerOffset,
  meanActivationEnergy,
} from "./quantities/storage.ts";

const HOUR = 3600;
/** A fridge that is left open or without power warms by degrees within this (common practice, no source). */
const GAP_NOTICED = 2 * HOUR;
/** Past this a log no longer says what the bottle went through. */
const GAP_REFUSED = 24 * HOUR;

const LOG_TIME = { ...TIME, units: ["h", "d", "min"] } as const;

export const kineticTemperature = defineCalculation({
  id: "kinetic-temperature",
  title: "What a fridge log amounts to",
  summary: "The one temperature that does as much harm as the changing one in a log",
  inputs: { readings: fridgeLog, activationEnergy: meanActivationEnergy, loggerOffset },
  results: {
    meanKineticTemperature: {
      ...TEMPERATURE,
      label: "Mean kinetic temperature",
      symbol: String.raw`T_\mathrm{K}`,
    },
    arithmeticMean: {
      ...TEMPERATURE,
      label: "Plain mean",
      symbol: String.raw`\overline{T}`,
    },
    longestGap: {
      ...LOG_TIME,
      label: "Longest time without a reading",
      symbol: String.raw`\Delta t`,
      unbanded: true,
    },
    warmest: {
      ...TEMPERATURE,
      label: "Warmest reading",
      symbol: String.raw`T_\mathrm{max}`,
    },
    loggedTime: {
      ...LOG_TIME,
      label: "Time that the log spans",
      symbol: String.raw`t_\mathrm{log}`,
      minor: true,
      unbanded: true,
    },
  },
  compute: ({ readings, activationEnergy, loggerOffset: offset }) => {
    const rows = readings as readonly (readonly [number, number])[];
    inOrder("readings", readings);
    const { gap, row } = longestGapOf(rows);
    if (gap > GAP_REFUSED)
      throw new RefusedError(
        "readings",
        phrase`There is no reading for ${amount(gap, LOG_TIME)} after row ${String(row)}: nobody knows how warm it was. Log at least once a day, or give only the part of the log before or after.`,
      );
    const { meanKineticTemperature, arithmeticMean } = meansOf(
      rows.map(([time, temperature]) => ({ time, temperature: temperature + offset })),
      activationEnergy,
    );
    return {
      meanKineticTemperature,
      arithmeticMean,
      longestGap: gap,
      warmest: Math.max(...rows.map(([, temperature]) => temperature)) + offset,
      loggedTime: (rows.at(-1)?.[0] ?? 0) - (rows[0]?.[0] ?? 0),
    };
  },
  steps: [],
  figures: [
    {
      id: "log",
      title: "The log and its means",
      caption:
        "Readings of the fridge, joined, with the mean kinetic temperature as a line across. Warm hours pull it above the plain mean.",
      data: ({ readings }, run) => {
        const mean = run({})?.["meanKineticTemperature"]?.value;
        return {
          x: { label: "Time", of: LOG_TIME },
          y: { label: "Fridge", of: TEMPERATURE },
          lines: [
            { label: "readings", points: readings as readonly (readonly [number, number])[] },
          ],
          rules: mean === undefined ? [] : [{ y: mean, label: "kinetic mean" }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "storage",
      when: (_inputs, { longestGap }) => (longestGap?.value ?? 0) > GAP_NOTICED,
      say: (_inputs, { longestGap }) =>
        phrase`The log is silent for ${amount(longestGap?.value ?? 0, LOG_TIME)} at a stretch. A power cut or a door left ajar would not show in it: log at least every ${amount(GAP_NOTICED, LOG_TIME)}.`,
    },
    {
      caution: "storage",
      when: (_inputs, { meanKineticTemperature: mean }) => (mean?.value ?? 0) > FRIDGE_LIMIT,
      say: (_inputs, { meanKineticTemperature: mean }) =>
        phrase`This fridge counts as ${amount(mean?.value ?? 0, TEMPERATURE)}, and food agencies ask for ${amount(FRIDGE_LIMIT, TEMPERATURE)} or below. Set it colder and log again.`,
    },
  ],
  sources: ["usp-1160", "fsa-fridge"],
});

/** Seconds, and the row (counted from 1) that it follows. */
function longestGapOf(rows: Rows): { readonly gap: number; readonly row: number } {
  let found = { gap: 0, row: 1 };
  rows.forEach(([time], i) => {
    const gap = Number(time) - Number(rows[i - 1]?.[0] ?? time);
    if (gap > found.gap) found = { gap, row: i };
  });
  return found;
}
