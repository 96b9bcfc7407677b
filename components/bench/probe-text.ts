import {
  HORIZON,
  READING_IS_OLD,
  type Forecast,
  type Predicted,
  type Reach,
} from "../../lib/batch/forecast.ts";
import type { FigureData } from "../../lib/calculations/calculation.ts";
import { liquidTemperature } from "../../lib/calculations/quantities/heat.ts";
import { RISE, TEMPERATURE, TIME } from "../../lib/calculations/quantities/kinds.ts";
import { showText, type UnitChoice } from "../../lib/calculations/say.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { clockText, lengthText, wallClockAt } from "./clock.ts";

/** What the probe calls out for; an old reading at the ceiling only asks for a new one. */
export type CeilingAlarm = "ceiling" | "near-ceiling" | "old-reading";

/** s: this long before the earliest time at the ceiling the hand should be at the switch. */
export const NEAR = 60;

/** K: what no kitchen probe shows as a difference. */
const AT_CEILING = 0.05;

/** A number in large digits, and what stands over and under it. */
export interface Large {
  readonly before: string;
  readonly digits: string;
  readonly after: string;
}

/** What is known at a moment, for {@link alarmOf}. */
export interface Sight {
  readonly forecast: Forecast | undefined;
  /** s since the forecast was made */
  readonly passed: number;
  /** last reading of the liquid, °C */
  readonly reading: number | undefined;
  /** of that reading, s; `undefined` where there is none */
  readonly age: number | undefined;
  /** °C */
  readonly ceiling: number;
  /** whether the step that goes on is one that the ceiling is meant for */
  readonly heeded: boolean;
}

/**
 * What calls for a hand now: a reading at the ceiling that the model does not say is over, or the ceiling within
 * a minute by the warmest that is likely.
 */
export function alarmOf({
  forecast,
  passed,
  reading,
  age = 0,
  ceiling,
  heeded,
}: Sight): CeilingAlarm | undefined {
  if (!heeded) return undefined;
  const predicted = forecast?.ok ? forecast : undefined;
  const may = predicted === undefined || predicted.liquid.high >= ceiling;
  if (reading !== undefined && reading >= ceiling && may)
    return age < READING_IS_OLD ? "ceiling" : "old-reading";
  const earliest = predicted?.toCeiling.low ?? null;
  return earliest !== null && earliest - passed <= NEAR ? "near-ceiling" : undefined;
}

/**
 * Whether an alarm is a new crossing: the same one goes on, and coming down from the ceiling to near it is none.
 */
export function isNewCrossing(
  before: CeilingAlarm | undefined,
  now: CeilingAlarm | undefined,
): boolean {
  return now !== undefined && now !== "old-reading" && now !== before && before !== "ceiling";
}

/**
 * What to do at an alarm.
 *
 * @param running - whether the ultrasound is on; `undefined` where the beaker is not in the bath
 */
export function alarmText(
  alarm: CeilingAlarm | undefined,
  running: boolean | undefined,
  { reading, ceiling, age = 0 }: Pick<Sight, "reading" | "ceiling" | "age">,
  unitFor: UnitChoice,
): string {
  if (alarm === undefined) return "";
  const above = (reading ?? ceiling) - ceiling;
  const place =
    above < AT_CEILING
      ? "at your ceiling"
      : `${formatAmount(above, RISE.dimension, unitFor(RISE), 2)} above your ceiling`;
  if (alarm === "old-reading") {
    const off = running ? "switch the bath off" : "leave all that warms it off";
    return `By your last reading, ${lengthText(age)} old, the liquid was ${place}. Stir, and read again; until then ${off}.`;
  }
  const what =
    alarm === "ceiling"
      ? `The liquid is ${place}.`
      : "The liquid may be at your ceiling within a minute.";
  const glass = "No ice and no sudden cold on warm glass: it can crack.";
  if (running === undefined)
    return `${what} Switch off now, and let the liquid cool before you go on. ${glass}`;
  const off = running ? "Switch the bath off now." : "Leave the bath off.";
  return `${what} ${off} Lift the beaker out with a dry cloth, or with the plug pulled change some of the warm water in the tank for cold, a little at a time. ${glass}`;
}

/** The earliest time to the ceiling, counted down, and what else may be. */
export function toCeilingText(
  { toCeiling, ceiling, running }: Predicted,
  passed: number,
  now: number,
  unitFor: UnitChoice,
): Large {
  const top = formatAmount(ceiling, "temperature", unitFor(liquidTemperature), 3);
  const before = running ? `Earliest at ${top} in` : `Left at rest, earliest at ${top} in`;
  const { low, value } = toCeiling;
  if (low === null) return { before, digits: "–", after: `not within ${lengthText(HORIZON)}` };
  return {
    before,
    digits: clockText(Math.max(low - passed, 0)),
    after:
      value === null
        ? `most likely not within ${lengthText(HORIZON)}`
        : value <= passed
          ? "most likely by now"
          : `most likely in ${lengthText(value - passed)}, at ${at(value - passed, now)}`,
  };
}

/** When to switch off, or how long a stint begun now may last; by the warmest that is likely. */
export function switchOffText(
  { runFor, running, ceiling }: Predicted,
  passed: number,
  now: number,
  unitFor: UnitChoice,
): Large {
  const top = formatAmount(ceiling, "temperature", unitFor(liquidTemperature), 3);
  const after = `to stay under ${top} afterwards too`;
  // A run that is not on does not use up its time.
  const left = leftOf(runFor, running ? passed : 0);
  if (!running && left === 0)
    return { before: "Switch on again", digits: "not yet", after: `to stay under ${top}` };
  if (!running)
    return {
      before: "Switched on now, it may run",
      digits: left === null ? lengthText(HORIZON) : lengthText(left),
      after: left === null ? "and longer" : after,
    };
  if (left === null)
    return { before: "Switch off by", digits: "–", after: `no need within ${lengthText(HORIZON)}` };
  return { before: "Switch off by", digits: left === 0 ? "now" : at(left, now), after };
}

function leftOf({ low }: Reach, passed: number): number | null {
  return low === null ? null : Math.max(low - passed, 0);
}

function at(seconds: number, now: number): string {
  return wallClockAt(now + Math.max(seconds, 0) * 1000);
}

/** The liquid at this moment by the model. */
export function liquidText({ liquid }: Predicted, unitFor: UnitChoice): string {
  const shown = { ...liquidTemperature, label: "", symbol: "" };
  return `The liquid by the model: ${showText(liquid, shown, unitFor(liquidTemperature))}.`;
}

/** @param age - of the last reading, s; `undefined` where there is none */
export function ageText(age: number | undefined): string {
  if (age === undefined) return "No reading yet: put the probe into the liquid, stir, and read.";
  return age >= READING_IS_OLD
    ? `The last reading is more than ${lengthText(READING_IS_OLD)} old. Read again.`
    : "";
}

/** Prediction, readings and ceiling: the band from the start up to the last reading, and from there its own. */
export function probeFigure({
  planned,
  carried,
  readings,
  now,
  liquid,
  ceiling,
}: Predicted): FigureData {
  const from = carried[0]?.[0] ?? 0;
  const again = readings.length > 0 && from > 0;
  const before = again ? planned.filter(([time]) => time <= from) : [];
  const line = (curve: Predicted["planned"]): readonly (readonly [number, number])[] =>
    curve.map(([time, , value]) => [time, value]);
  const band = (curve: Predicted["planned"]) => ({
    points: curve.map(([time, low, , high]) => [time, low, high] as const),
  });
  return {
    x: { label: "Time since the first stint", of: TIME },
    y: { label: "Liquid", of: { ...liquidTemperature, ...TEMPERATURE } },
    lines: [
      { label: again ? "from the last reading" : "predicted", points: line(carried) },
      ...(again ? [{ label: "from the start", points: line(planned), dashed: true }] : []),
    ],
    bands: [band(before), band(carried)].filter(({ points }) => points.length > 1),
    rules: [{ y: ceiling, label: "your ceiling" }],
    marks: [
      ...readings.map(({ time, entry }) => ({ x: time, y: entry.liquid, label: "" })),
      { x: now, y: liquid.value, label: "now" },
    ],
  };
}
