import { inRange } from "../errors.ts";
import { ReadingsError } from "./heat-fit.ts";
import { GAS_CONSTANT } from "./stefan-tube.ts";
import { STORAGE_LIMITS } from "./storage-loss.ts";

/** Where the mean is taken. The form reads the same object, so page and function cannot disagree. */
export const KINETIC_LIMITS = {
  temperature: { min: -30, max: 60, unit: "°C" },
  activationEnergy: STORAGE_LIMITS.activationEnergy,
  weight: { min: 0, max: 1e9, unit: "s" },
  reach: { min: 1, max: Infinity, unit: "s" },
} as const;

/** J/mol. Source: USP <1160>, a figure for many medicines, not for this liquid. seen */
export const USUAL_ACTIVATION_ENERGY = 83_144;

/** One row of a log. */
export interface TemperatureReading {
  /** s, from any start */
  readonly time: number;
  /** °C */
  readonly temperature: number;
}

/** A temperature and how long it held. */
export interface Spell {
  /** °C */
  readonly temperature: number;
  /** s, or any other unit that is the same for all */
  readonly weight: number;
}

/**
 * The one temperature that does as much harm as a changing one.
 *
 * T_K = (E/R) / −ln(Σ wᵢ exp(−E/(R Tᵢ)) / Σ wᵢ)
 *
 * @param spells - temperatures −30 to 60 °C, and how long each held, 0 or more; at least one above 0
 * @param activationEnergy - E, J/mol; 10 000 to 200 000
 * @returns °C; never below the plain mean, and the further above it the larger E
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Long averages hide a hot day: keep the window short.
 * Source: USP <1160>. seen (a page that has lost the minus of an exponent; others carry a doubled logarithm)
 *
 * @example
 * const day = [{ temperature: 5, weight: 23 }, { temperature: 25, weight: 1 }];
 * meanKineticTemperature(day, 83_144); // 7.76 °C
 */
export function meanKineticTemperature(spells: readonly Spell[], activationEnergy: number): number {
  inRange("activationEnergy", activationEnergy, KINETIC_LIMITS.activationEnergy);
  const total = totalWeight(spells);
  const kelvins = activationEnergy / GAS_CONSTANT;
  // Counted from the first spell, so that the exponentials stay near 1 and lose no digits.
  const start = 1 / ((spells[0] as Spell).temperature + 273.15);
  let sum = 0;
  for (const { temperature, weight } of spells)
    sum += weight * Math.exp(kelvins * (start - 1 / (temperature + 273.15)));
  return 1 / (start - Math.log(sum / total) / kelvins) - 273.15;
}

function totalWeight(spells: readonly Spell[]): number {
  let total = 0;
  for (const { temperature, weight } of spells) {
    inRange("temperature", temperature, KINETIC_LIMITS.temperature);
    inRange("weight", weight, KINETIC_LIMITS.weight);
    total += weight;
  }
  inRange("totalWeight", total, { min: Number.MIN_VALUE, max: Infinity, unit: "s" });
  return total;
}

/** What a log says. */
export interface LoggedTemperature {
  /** °C */
  readonly meanKineticTemperature: number;
  /** weighted by time, °C */
  readonly arithmeticMean: number;
  /** between first and last reading, s, that no reading speaks for */
  readonly gap: number;
}

/**
 * Mean kinetic temperature of a log, even or not.
 *
 * Each reading speaks for half the way to the next one on either side, the first and the last for as much
 * outwards as inwards: with even steps that is the pharmacopoeia's plain count of readings.
 *
 * @param readings - times increasing; temperatures −30 to 60 °C; at least two
 * @param activationEnergy - J/mol; 10 000 to 200 000
 * @param reach - longest that a reading speaks for on either side, s; 1 or more, no end if left out. What lies
 * beyond is a gap, and counts for neither mean
 * @returns both means and the gap
 * @throws ReadingsError for fewer than two rows, a time that is not a number, not later than the one before
 * ("time-equal", "time-order"), or a temperature out of range, with the row
 * @throws OutOfRangeError for an activation energy or reach out of range
 * Source: as {@link meanKineticTemperature}; the weights are ours
 *
 * @example
 * const log = [{ time: 0, temperature: 20 }, { time: 3600, temperature: 30 }];
 * kineticTemperature(log, 83_144); // { meanKineticTemperature: 26.26, arithmeticMean: 25, gap: 0 }
 */
export function kineticTemperature(
  readings: readonly TemperatureReading[],
  activationEnergy: number,
  reach = Infinity,
): LoggedTemperature {
  inRange("reach", reach, KINETIC_LIMITS.reach);
  checkRows(readings);
  const steps = readings.slice(1).map(({ time }, i) => time - (readings[i]?.time ?? Number.NaN));
  const spoken = (step: number): number => Math.min(step / 2, reach);
  const [first, last] = [steps[0] as number, steps.at(-1) as number];
  const spells = readings.map(({ temperature }, i) => ({
    temperature,
    weight: spoken(steps[i - 1] ?? first) + spoken(steps[i] ?? last),
  }));
  const total = totalWeight(spells);
  const mean = spells.reduce((sum, { temperature, weight }) => sum + temperature * weight, 0);
  return {
    meanKineticTemperature: meanKineticTemperature(spells, activationEnergy),
    arithmeticMean: mean / total,
    gap: steps.reduce((sum, step) => sum + (step - 2 * spoken(step)), 0),
  };
}

function checkRows(readings: readonly TemperatureReading[]): void {
  const { min, max } = KINETIC_LIMITS.temperature;
  for (const [row, { time, temperature }] of readings.entries()) {
    if (!Number.isFinite(time) || !Number.isFinite(temperature))
      throw new ReadingsError("not-finite", row);
    if (Math.abs(time) > KINETIC_LIMITS.weight.max / 4 || temperature < min || temperature > max)
      throw new ReadingsError("out-of-range", row);
    const before = readings[row - 1]?.time ?? -Infinity;
    if (time === before) throw new ReadingsError("time-equal", row);
    if (time < before) throw new ReadingsError("time-order", row);
  }
  if (readings.length < 2) throw new ReadingsError("too-few");
}
