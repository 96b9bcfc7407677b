import { quantity, readings } from "../calculation.ts";
import { HEAT_CAPACITY, MASS, SPECIFIC_HEAT, TEMPERATURE, TIME } from "./kinds.ts";

/** °C and s: what a log of one evening can hold. */
const LOGGED = { min: -20, max: 100, unit: "°C" } as const;
const EVENING = { min: 0, max: 86_400, unit: "s" } as const;

export const time = {
  name: "time",
  label: "Time",
  ...TIME,
  limits: EVENING,
} as const;

export const liquidReading = {
  name: "liquidTemperature",
  label: "Liquid",
  ...TEMPERATURE,
  limits: LOGGED,
} as const;

export const bathReading = {
  name: "bathTemperature",
  label: "Bath",
  ...TEMPERATURE,
  limits: LOGGED,
  optional: true,
} as const;

export const running = {
  name: "running",
  label: "Bath runs from here on",
  dimension: "count",
  units: ["1"],
  digits: 1,
  limits: { min: 0, max: 1, unit: "1" },
  words: ["off", "on"],
  spellings: [
    ["no", "n", "0", "false", "aus", "stopped"],
    ["yes", "y", "1", "true", "an", "running"],
  ],
} as const;

export const warmingReadings = readings("warmingReadings", {
  label: "Readings while it warms",
  hint: "Type or paste one reading a line; times of day such as 14:05 will do. Leave out the first minute, when the probe still lags",
  columns: [time, liquidReading],
  count: { min: 3, max: 500 },
  default: [
    [0, 21.4],
    [60, 21.6],
    [120, 21.9],
    [180, 22.1],
    [240, 22.2],
    [300, 22.5],
    [360, 22.7],
    [420, 22.9],
    [480, 23.1],
    [540, 23.4],
    [600, 23.5],
  ],
});

export const warmedMass = quantity("warmedMass", {
  label: "Liquid that is warmed",
  symbol: "m",
  ...MASS,
  limits: { min: 0.001, max: 50, unit: "kg" },
  default: 0.43,
  hint: "By weight; water serves best for a measurement",
  uncertainty: { absolute: 0.25e-3, because: "two readings of a kitchen scale that shows 0.1 g" },
});

export const warmedHeat = quantity("warmedHeat", {
  label: "Its specific heat",
  symbol: "c",
  ...SPECIFIC_HEAT,
  limits: { min: 500, max: 6000, unit: "J/(kg K)" },
  default: 4180,
  hint: "4180 J/(kg K) for water, within 1 % from 0 to 60 °C",
  uncertainty: {
    relative: 0.01,
    because: "a table and an impure liquid (common practice, no source)",
  },
});

export const warmedVessel = quantity("warmedVessel", {
  label: "Heat capacity of its vessel",
  symbol: String.raw`C_\mathrm{v}`,
  ...HEAT_CAPACITY,
  digits: 3,
  limits: { min: 0, max: 50_000, unit: "J/K" },
  default: 249,
  hint: "Mass of the glass times 830 J/(kg K); 0 leaves it out, as many papers do",
  uncertainty: { relative: 0.1, because: "how much of the glass warms along is a guess" },
});

export const heatReadings = readings("heatReadings", {
  label: "Your readings of liquid and bath",
  hint: "Type or paste one reading a line; times of day such as 14:05 will do. “On” or “off” holds from that time to the next line",
  columns: [time, liquidReading, bathReading, running],
  count: { min: 1, max: 500 },
  default: [
    [0, 17.6, 22.5, 1],
    [60, 18.6, 22.4, 1],
    [120, 19.4, 22.3, 1],
    [180, 20.2, 22.4, 1],
    [240, 20.7, 22.5, 1],
    [300, 21.2, 22.5, 1],
    [360, 21.7, 22.6, 1],
    [420, 22, 22.8, 1],
    [480, 22.3, 22.8, 1],
    [540, 22.5, 23, 1],
    [600, 22.8, 23, 1],
    [720, 23.3, 23.4, 1],
    [840, 23.6, 23.6, 1],
    [960, 24, 23.9, 1],
    [1080, 24.3, 24.2, 1],
    [1200, 24.6, 24.5, 1],
    [1320, 24.9, 24.7, 1],
    [1440, 25.1, 24.9, 1],
    [1560, 25.4, 25.2, 1],
    [1680, 25.6, 25.5, 1],
    [1800, 25.9, 25.6, 0],
    [1920, 25.8, 25.6, 0],
    [2040, 25.5, 25.4, 0],
    [2160, 25.4, 25.2, 0],
    [2280, 25.3, 25.2, 0],
    [2400, 25.2, 25, 0],
    [2520, 25, 24.8, 0],
    [2640, 24.9, 24.8, 0],
    [2760, 24.8, 24.7, 0],
    [2880, 24.7, 24.6, 0],
    [3000, 24.5, 24.5, 0],
  ],
});
