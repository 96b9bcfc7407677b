import { leastSquares, type Model } from "../numeric/least-squares.ts";
import {
  heatPhase,
  type HeatNode,
  type HeatNodes,
  type HeatPowers,
  type NodeTemperatures,
} from "./two-node-heat.ts";

/** What a row of readings may hold. */
export const HEAT_FIT_LIMITS = {
  time: { min: 0, max: 1e6, unit: "s" },
  temperature: { min: -20, max: 100, unit: "°C" },
} as const;

/** One row of readings. */
export interface HeatReading {
  /** s */
  readonly time: number;
  /** °C */
  readonly liquid: number;
  /** °C; left out or NaN where the bath was not read. */
  readonly bath?: number;
  /** Whether the power was on from this row to the next. */
  readonly running: boolean;
}

/**
 * What is wrong with the rows: fewer than the fit needs; a value that is not a number, or beyond the limits;
 * a time before the last one, or the same; a liquid that never changes; power never on; no bath temperature
 * in the first row; too few readings at rest to fit losses from.
 */
export type ReadingsReason =
  | "too-few"
  | "not-finite"
  | "out-of-range"
  | "time-order"
  | "time-equal"
  | "constant"
  | "never-running"
  | "no-bath-start"
  | "no-rest";

/** Rows that no fit can start from. Carries the reason and, where one row is at fault, its index from 0. */
export class ReadingsError extends Error {
  override name = "ReadingsError"; // a literal: minifiers rename classes
  readonly reason: ReadingsReason;
  readonly row: number | null;
  constructor(reason: ReadingsReason, row: number | null = null) {
    super(`readings${row === null ? "" : `, row ${row}`}: ${reason}`);
    this.reason = reason;
    this.row = row;
  }
}

export type HeatParameter =
  | "liquidPower"
  | "bathPower"
  | "exchangeConductance"
  | "liquidLossConductance"
  | "bathLossConductance";

export interface FittedParameter {
  readonly parameter: HeatParameter;
  /** W, or W/K. */
  readonly value: number;
  /** One standard uncertainty, from the scatter about the curve. */
  readonly standardError: number;
}

export interface HeatFit {
  /** What the readings could tell, in the order of the correlations. */
  readonly fitted: readonly FittedParameter[];
  /** Shape (fitted, fitted). */
  readonly correlations: readonly (readonly number[])[];
  /** The bench with the fitted values put in. */
  readonly nodes: HeatNodes;
  readonly powers: HeatPowers;
  /** K */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  /** Fitted temperatures at each row, °C; the first row is the start. */
  readonly curve: readonly NodeTemperatures[];
}

/** Bath readings after the first from which the bath's side of the balance is fitted too. */
const BATH_READINGS = 3;
/** Readings at rest from which losses can be told from power. */
const REST_READINGS = 3;
/** A little inside what the model takes, so that differences can be formed at the edge, W and W/K. */
const BOUNDS = { low: 1e-6, high: 9e4 } as const;
/** A guess is at least this, W and W/K: the search counts in its size. */
const LEAST_GUESS = 0.1;

/**
 * Powers and exchange conductance of a beaker in its bath, from readings of both temperatures.
 *
 * The curve of `two-node-heat.ts` is fitted by least squares, every reading weighing the same. The first row
 * fixes the start and is left out of the residuals.
 *
 * @param readings - times increasing, 0 to 1e6 s; temperatures −20 to 100 °C. A row's power holds to the next
 * @param nodes - heat capacities, losses and room as they are; the exchange conductance is a first guess
 * @param guess - of the powers while running, W
 * @param losses - fit both losses too, which takes readings at rest; else they are held
 * @returns what was fitted: liquid power, bath power and exchange conductance, and the losses if asked for.
 * With fewer than three bath readings after the first row only the liquid's power, the rest held at the guess
 * @throws ReadingsError for rows that no fit can start from
 * @throws FitError where the rows cannot tell the parameters apart ("singular"), or are fitted best by a
 * power or conductance below 0 ("at-limit")
 * @throws OutOfRangeError for nodes outside `TWO_NODE_LIMITS`, NaN included
 * @remarks Standard errors hold the scatter only. An error of the heat capacities goes into the powers in
 * proportion.
 * Source: two lumped bodies and nonlinear least squares, as `two-node-heat.ts` and `least-squares.ts`
 *
 * @example
 * fitHeat(readings, nodes, { liquid: 10, bath: 60 }).fitted; // liquidPower 4.94 ± 0.21 W, …
 */
export function fitHeat(
  readings: readonly HeatReading[],
  nodes: HeatNodes,
  guess: HeatPowers,
  losses = false,
): HeatFit {
  const start = checkRows(readings);
  const observed = observations(readings);
  const parameters = fittable(readings, losses);
  if (observed.length <= parameters.length) throw new ReadingsError("too-few");
  const bench = (values: readonly number[]): Bench => benchWith(parameters, values, nodes, guess);
  const model: Model = (values) => {
    const curve = follow(readings, start, bench(values));
    return (i) => {
      const { row, node } = observed[i] as Observation;
      return (curve[row] as NodeTemperatures)[node];
    };
  };
  const first = { ...nodes, liquidPower: guess.liquid, bathPower: guess.bath };
  const fit = leastSquares(
    model,
    observed.map(({ temperature }, i) => [i, temperature]),
    parameters.map((name) => Math.min(Math.max(first[name], LEAST_GUESS), BOUNDS.high)),
    { low: parameters.map(() => BOUNDS.low), high: parameters.map(() => BOUNDS.high) },
  );
  const best = bench(fit.parameters);
  return {
    fitted: parameters.map((parameter, i) => ({
      parameter,
      value: fit.parameters[i] as number,
      standardError: fit.standardErrors[i] as number,
    })),
    correlations: fit.correlations,
    ...best,
    residualSd: fit.residualSd,
    degreesOfFreedom: fit.degreesOfFreedom,
    curve: follow(readings, start, best),
  };
}

interface Bench {
  readonly nodes: HeatNodes;
  readonly powers: HeatPowers;
}

interface Observation {
  readonly row: number;
  readonly node: HeatNode;
  readonly temperature: number;
}

function benchWith(
  parameters: readonly HeatParameter[],
  values: readonly number[],
  nodes: HeatNodes,
  guess: HeatPowers,
): Bench {
  const { liquidPower, bathPower, ...rest } = {
    ...nodes,
    liquidPower: guess.liquid,
    bathPower: guess.bath,
    ...Object.fromEntries(parameters.map((name, i) => [name, values[i] as number])),
  };
  return { nodes: rest, powers: { liquid: liquidPower, bath: bathPower } };
}

/** Temperatures at each row: one closed form for as long as the power stays on or off. */
function follow(
  readings: readonly HeatReading[],
  start: NodeTemperatures,
  { nodes, powers }: Bench,
): readonly NodeTemperatures[] {
  const phaseFrom = (temperatures: NodeTemperatures, running: boolean) =>
    heatPhase(nodes, running ? powers : { liquid: 0, bath: 0 }, temperatures);
  let [{ time: began, running }] = readings as [HeatReading];
  let phase = phaseFrom(start, running);
  return readings.map((row) => {
    const now = phase.at(row.time - began);
    if (row.running !== running) {
      ({ time: began, running } = row);
      phase = phaseFrom(now, running);
    }
    return now;
  });
}

function observations(readings: readonly HeatReading[]): readonly Observation[] {
  return readings.flatMap(({ liquid, bath }, row): Observation[] => {
    if (row === 0) return [];
    const both: Observation[] = [{ row, node: "liquid", temperature: liquid }];
    if (wasRead(bath)) both.push({ row, node: "bath", temperature: bath });
    return both;
  });
}

function fittable(readings: readonly HeatReading[], losses: boolean): readonly HeatParameter[] {
  const later = readings.slice(1);
  if (later.filter(({ bath }) => wasRead(bath)).length < BATH_READINGS) return ["liquidPower"];
  if (!losses) return ["liquidPower", "bathPower", "exchangeConductance"];
  const resting = later.filter((_, i) => !(readings[i] as HeatReading).running);
  if (resting.length < REST_READINGS) throw new ReadingsError("no-rest");
  return [
    "liquidPower",
    "bathPower",
    "exchangeConductance",
    "liquidLossConductance",
    "bathLossConductance",
  ];
}

/** @returns the temperatures that the first row starts from */
function checkRows(readings: readonly HeatReading[]): NodeTemperatures {
  for (const [row, { time, liquid, bath }] of readings.entries()) {
    checkValue(row, "time", time);
    checkValue(row, "temperature", liquid);
    if (wasRead(bath)) checkValue(row, "temperature", bath);
    const before = readings[row - 1]?.time ?? -Infinity;
    if (time === before) throw new ReadingsError("time-equal", row);
    if (time < before) throw new ReadingsError("time-order", row);
  }
  const [first, ...later] = readings;
  if (first === undefined || later.length === 0) throw new ReadingsError("too-few");
  if (!wasRead(first.bath)) throw new ReadingsError("no-bath-start", 0);
  if (later.every(({ liquid }) => liquid === first.liquid)) throw new ReadingsError("constant");
  // The last row's power would only act after it.
  if (!readings.slice(0, -1).some(({ running }) => running))
    throw new ReadingsError("never-running");
  return { liquid: first.liquid, bath: first.bath };
}

function checkValue(row: number, quantity: keyof typeof HEAT_FIT_LIMITS, value: number): void {
  if (!Number.isFinite(value)) throw new ReadingsError("not-finite", row);
  const { min, max } = HEAT_FIT_LIMITS[quantity];
  if (value < min || value > max) throw new ReadingsError("out-of-range", row);
}

function wasRead(bath: number | undefined): bath is number {
  return bath !== undefined && !Number.isNaN(bath);
}
