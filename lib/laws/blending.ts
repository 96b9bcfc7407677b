import { inRange } from "../errors.ts";

/** Where the model answers. It is exact for any numbers; that the liquid has one temperature is up to the blender. */
export const BLENDING_LIMITS = {
  power: { min: 0, max: 1e5, unit: "W" },
  heatCapacity: { min: 1, max: 1e7, unit: "J/K" },
  conductance: { min: 0, max: 1e5, unit: "W/K" },
  temperature: { min: -273.15, max: 1000, unit: "°C" },
  time: { min: 0, max: 1e7, unit: "s" },
} as const;

/** A body of one temperature that takes up a steady power and loses heat to its surroundings. */
export interface HeatedBody {
  /** P, W; 0 to 1e5 */
  readonly power: number;
  /** C, J/K; 1 to 1e7 */
  readonly heatCapacity: number;
  /** To the surroundings, G, W/K; 0 to 1e5 */
  readonly conductance: number;
  /** Their temperature, °C; −273.15 to 1000 */
  readonly surroundings: number;
}

/**
 * Temperature of a body that a steady power heats, such as a liquid under a blender.
 *
 * C dT/dt = P − G (T − T_s), so T = T₀ + (P − G (T₀ − T_s)) (t/C) (1 − e^{−x})/x with x = G t/C
 *
 * @param body - power, heat capacity and losses, each in its range
 * @param start - T₀, °C; −273.15 to 1000
 * @param time - t, s; 0 to 1e7
 * @returns °C; without losses T₀ + P t/C
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks With no power it is Newton's law of cooling.
 * Source: heat balance; Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, section 5.3. memory
 *
 * @example
 * const jug = { power: 150, heatCapacity: 2231, conductance: 0.4, surroundings: 20 };
 * temperatureWhileHeated(jug, 18, 90); // 24.0 °C
 */
export function temperatureWhileHeated(body: HeatedBody, start: number, time: number): number {
  const drive = driveAt(body, start);
  inRange("time", time, BLENDING_LIMITS.time);
  const x = (body.conductance * time) / body.heatCapacity;
  // Written so that no loss at all needs no formula of its own.
  const slowed = x === 0 ? 1 : -Math.expm1(-x) / x;
  return start + ((drive * time) / body.heatCapacity) * slowed;
}

/**
 * Time until a heated body comes to a temperature, the inverse of {@link temperatureWhileHeated}.
 *
 * t = (C ΔT/D) · (−ln(1 − y))/y with ΔT = T − T₀, D = P − G (T₀ − T_s), y = G ΔT/D
 *
 * @param body - power, heat capacity and losses, each in its range
 * @param start - T₀, °C; −273.15 to 1000
 * @param target - T, °C; −273.15 to 1000
 * @returns s, or null where it never comes to it, or not within 1e7 s
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link temperatureWhileHeated}
 *
 * @example
 * const jug = { power: 150, heatCapacity: 2231, conductance: 0.4, surroundings: 20 };
 * timeWhileHeated(jug, 18, 32); // 211 s
 */
export function timeWhileHeated(body: HeatedBody, start: number, target: number): number | null {
  const drive = driveAt(body, start);
  inRange("target", target, BLENDING_LIMITS.temperature);
  const rise = target - start;
  if (rise === 0) return 0;
  const y = (body.conductance * rise) / drive;
  if (!(rise / drive > 0)) return null;
  // From y = 1 on, where the loss has eaten up the power, this is infinite or no number.
  const slowed = y === 0 ? 1 : -Math.log1p(-y) / y;
  const time = ((body.heatCapacity * rise) / drive) * slowed;
  return time <= BLENDING_LIMITS.time.max ? time : null;
}

/** W left to warm the body at the start. */
function driveAt(body: HeatedBody, start: number): number {
  const { power, heatCapacity, conductance, surroundings } = body;
  inRange("power", power, BLENDING_LIMITS.power);
  inRange("heatCapacity", heatCapacity, BLENDING_LIMITS.heatCapacity);
  inRange("conductance", conductance, BLENDING_LIMITS.conductance);
  inRange("surroundings", surroundings, BLENDING_LIMITS.temperature);
  inRange("start", start, BLENDING_LIMITS.temperature);
  return power - conductance * (start - surroundings);
}
