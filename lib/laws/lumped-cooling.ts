import { inRange } from "../errors.ts";

/** Where the model answers. It is exact for any numbers: whether one temperature describes the body is for {@link biotNumber}. */
export const LUMPED_LIMITS = {
  heatCapacity: { min: 1e-6, max: 1e7, unit: "J/K" },
  conductance: { min: 1e-6, max: 1e5, unit: "W/K" },
  temperature: { min: -273.15, max: 1000, unit: "°C" },
  timeConstant: { min: 1e-6, max: 1e9, unit: "s" },
  time: { min: 0, max: 1e9, unit: "s" },
  /** Infinite for a surface that takes its new temperature at once. */
  coefficient: { min: 0, max: Infinity, unit: "W/(m² K)" },
  length: { min: 1e-6, max: 10, unit: "m" },
  conductivity: { min: 1e-3, max: 1000, unit: "W/(m K)" },
} as const;

/** Below this Biot number a body is even in temperature to about 5 %. Source: Incropera & DeWitt. memory */
export const LUMPED_BIOT = 0.1;

/**
 * Time constant of a body that cools through a conductance.
 *
 * @param heatCapacity - C, J/K; 1e-6 to 1e7
 * @param conductance - to the surroundings, G, W/K; 1e-6 to 1e5
 * @returns C/G, s: after it 37 % of the difference is left, after three 5 %
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: heat balance C dT/dt = −G (T − T_s); Incropera & DeWitt, Fundamentals of Heat and Mass Transfer,
 * section 5.1. memory
 *
 * @example
 * timeConstant(2297.5, 5.16895); // 444.5 s
 */
export function timeConstant(heatCapacity: number, conductance: number): number {
  inRange("heatCapacity", heatCapacity, LUMPED_LIMITS.heatCapacity);
  inRange("conductance", conductance, LUMPED_LIMITS.conductance);
  return heatCapacity / conductance;
}

/**
 * Temperature of a body left in surroundings of constant temperature.
 *
 * T = T_s + (T₀ − T_s) e^{−t/τ}
 *
 * @param start - °C; −273.15 to 1000
 * @param surroundings - the same
 * @param timeConstant - s; 1e-6 to 1e9
 * @param time - s; 0 to 1e9
 * @returns °C
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link timeConstant}
 *
 * @example
 * temperatureAfter(60, 20, 600, 600); // 34.7 °C
 */
export function temperatureAfter(
  start: number,
  surroundings: number,
  timeConstant: number,
  time: number,
): number {
  inRange("start", start, LUMPED_LIMITS.temperature);
  inRange("surroundings", surroundings, LUMPED_LIMITS.temperature);
  inRange("timeConstant", timeConstant, LUMPED_LIMITS.timeConstant);
  inRange("time", time, LUMPED_LIMITS.time);
  return surroundings + (start - surroundings) * Math.exp(-time / timeConstant);
}

/**
 * Time for a body to come to a temperature, the inverse of {@link temperatureAfter}.
 *
 * t = τ ln((T₀ − T_s)/(T − T_s))
 *
 * @param start - °C; −273.15 to 1000
 * @param surroundings - the same
 * @param timeConstant - s; 1e-6 to 1e9
 * @param target - °C; −273.15 to 1000
 * @returns s, or null where the body never comes to it: at the surroundings' temperature, beyond it, or away
 * from it
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link timeConstant}
 *
 * @example
 * timeToReach(60, 20, 600, 21); // 2213 s
 */
export function timeToReach(
  start: number,
  surroundings: number,
  timeConstant: number,
  target: number,
): number | null {
  inRange("start", start, LUMPED_LIMITS.temperature);
  inRange("surroundings", surroundings, LUMPED_LIMITS.temperature);
  inRange("timeConstant", timeConstant, LUMPED_LIMITS.timeConstant);
  inRange("target", target, LUMPED_LIMITS.temperature);
  if (target === start) return 0;
  const ratio = (start - surroundings) / (target - surroundings);
  return ratio > 1 && ratio < Infinity ? timeConstant * Math.log(ratio) : null;
}

/**
 * Time constant from two readings of a body left to cool or warm.
 *
 * @param start - first reading, °C; −273.15 to 1000
 * @param later - second reading, °C, nearer to the surroundings than the first and not past them
 * @param surroundings - °C; −273.15 to 1000
 * @param time - between them, s; above 0, to 1e9
 * @returns τ, s
 * @throws OutOfRangeError outside those ranges, NaN included; for a later reading (quantity "later") that no
 * body left alone would show, the temperatures between as limits
 * Source: as {@link timeConstant}
 *
 * @example
 * timeConstantFrom(60, 40, 20, 416); // 600 s
 */
export function timeConstantFrom(
  start: number,
  later: number,
  surroundings: number,
  time: number,
): number {
  inRange("start", start, LUMPED_LIMITS.temperature);
  inRange("surroundings", surroundings, LUMPED_LIMITS.temperature);
  inRange("time", time, { ...LUMPED_LIMITS.time, min: LUMPED_LIMITS.timeConstant.min });
  const between = {
    min: Math.min(start, surroundings),
    max: Math.max(start, surroundings),
    unit: LUMPED_LIMITS.temperature.unit,
  };
  const ratio = (start - surroundings) / (later - surroundings);
  // A reading at either end passes the limits and has no time constant.
  inRange("later", ratio > 1 && ratio < Infinity ? later : Number.NaN, between);
  return time / Math.log(ratio);
}

/**
 * Biot number: the resistance to heat inside a body over that of the film at its surface.
 *
 * Bi = h L/k
 *
 * @param coefficient - of heat transfer at the surface, h, W/(m² K); 0 to infinite
 * @param length - L, m; 1e-6 to 10. Volume over cooled surface for a body as a whole; for a wall from the cooled
 * face to the one no heat crosses: all of it when one face is cooled, half when both are
 * @param conductivity - of the body, k, W/(m K); 1e-3 to 1000
 * @returns 1; under {@link LUMPED_BIOT} one temperature describes the body. For a liquid it says what would
 * be so if it stood still: stirring, sound and its own convection mix it, and then its temperature is even
 * whatever the number
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, section 5.2. memory
 *
 * @example
 * biotNumber(150, 0.02, 0.6); // 5
 */
export function biotNumber(coefficient: number, length: number, conductivity: number): number {
  inRange("coefficient", coefficient, LUMPED_LIMITS.coefficient);
  inRange("length", length, LUMPED_LIMITS.length);
  inRange("conductivity", conductivity, LUMPED_LIMITS.conductivity);
  return (coefficient * length) / conductivity;
}
