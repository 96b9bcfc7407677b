import { inRange } from "../errors.ts";
import { straightLine, type StraightLine } from "../numeric/least-squares.ts";
import { studentFactor } from "../numeric/student.ts";

/** Where the balance is asked for. */
export const CALORIMETRY_LIMITS = {
  heatCapacity: { min: 1, max: 1e7, unit: "J/K" },
  temperature: { min: -20, max: 100, unit: "°C" },
} as const;

/** Power that warms a liquid, W, with its 95 % interval from the scatter of the readings. */
export interface CalorimetricPower {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** One standard uncertainty, W. */
  readonly standardError: number;
  /** Temperature against time, K/s and °C. */
  readonly line: StraightLine;
}

/**
 * Power taken up by a liquid and its vessel, from the slope of temperature against time.
 *
 * P = (m c + C_vessel) dT/dt
 *
 * @param readings - time s and temperature °C, shape (n, 2), n ≥ 3; times not all equal; −20 to 100 °C
 * @param heatCapacity - of liquid and vessel together, J/K; 1 to 1e7
 * @returns W; the interval holds what the readings scatter, not the uncertainty of the heat capacity
 * @throws OutOfRangeError outside those ranges, NaN included
 * @throws FitError for fewer than three readings, times all equal or not finite
 * @remarks What the surroundings give or take is not in it: true where the vessel passes the temperature of
 * its surroundings, too low by a fifth or more in a warm open bath. A curve that bends calls for a fit with
 * losses.
 * Source: standard practice of sonochemistry, P = m c dT/dt, with the vessel added. seen; the losses:
 * Caparrós et al., Tecniacústica 2009. seen (abstract)
 *
 * @example
 * calorimetricPower([[0, 27], [60, 28], [120, 29.5]], 837.4); // 17.4 W
 */
export function calorimetricPower(
  readings: readonly (readonly [time: number, temperature: number])[],
  heatCapacity: number,
): CalorimetricPower {
  inRange("heatCapacity", heatCapacity, CALORIMETRY_LIMITS.heatCapacity);
  for (const [, temperature] of readings)
    inRange("temperature", temperature, CALORIMETRY_LIMITS.temperature);
  const line = straightLine(
    readings.map(([time]) => time),
    readings.map(([, temperature]) => temperature),
  );
  const value = heatCapacity * line.slope;
  const standardError = heatCapacity * line.slopeError;
  const half = studentFactor(line.degreesOfFreedom) * standardError;
  return { value, low: value - half, high: value + half, standardError, line };
}
