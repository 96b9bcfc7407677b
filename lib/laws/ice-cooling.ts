import { inRange } from "../errors.ts";
import { ICE, type Ice } from "../substances/ice.ts";

/** Where the balance answers. */
export const ICE_LIMITS = {
  heatCapacity: { min: 1, max: 1e6, unit: "J/K" },
  /** A liquid above freezing: what a spirit does below 0 °C is not in the balance. */
  temperature: { min: 0, max: 100, unit: "°C" },
  iceTemperature: { min: -40, max: 0, unit: "°C" },
  iceMass: { min: 0, max: 100, unit: "kg" },
  power: { min: 0, max: 1e5, unit: "W" },
  time: { min: 0, max: 1e6, unit: "s" },
} as const;

/**
 * Ice that cools a liquid to a target by melting in it.
 *
 * m = C (T₀ − T₁)/(L + c_w T₁ − c_i T_ice): its meltwater warms to the target too.
 *
 * @param heatCapacity - of what is cooled, vessel included, J/K; 1 to 1e6
 * @param start - °C; 0 to 100
 * @param target - °C; 0 to the start
 * @param iceTemperature - °C; −40 to 0
 * @param ice - its properties
 * @returns kg, with no heat from the room
 * @throws OutOfRangeError outside those ranges, NaN included; a target above the start (quantity "target")
 * Source: heat balance
 *
 * @example
 * iceNeeded(10_450, 32, 22); // 0.2455 kg
 */
export function iceNeeded(
  heatCapacity: number,
  start: number,
  target: number,
  iceTemperature = 0,
  ice: Ice = ICE,
): number {
  inRange("heatCapacity", heatCapacity, ICE_LIMITS.heatCapacity);
  inRange("start", start, ICE_LIMITS.temperature);
  inRange("target", target, { ...ICE_LIMITS.temperature, max: start });
  inRange("iceTemperature", iceTemperature, ICE_LIMITS.iceTemperature);
  const taken = ice.latentHeat + ice.meltHeatCapacity * target - ice.heatCapacity * iceTemperature;
  return (heatCapacity * (start - target)) / taken;
}

/**
 * Where a liquid comes to once ice has been put in it.
 *
 * @param heatCapacity - of the liquid, vessel included, J/K; 1 to 1e6
 * @param start - °C; 0 to 100
 * @param iceMass - kg; 0 to 100
 * @param iceTemperature - °C; −40 to 0
 * @param ice - its properties
 * @returns the temperature, °C, and the ice left, kg; where ice is left it is 0 °C
 * @throws OutOfRangeError outside those ranges, NaN included; for so much cold ice that the liquid would
 * freeze onto it (quantity "iceMass")
 * Source: heat balance
 *
 * @example
 * temperatureWithIce(1046.5, 20, 0.018); // 13.3 °C, no ice left
 */
export function temperatureWithIce(
  heatCapacity: number,
  start: number,
  iceMass: number,
  iceTemperature = 0,
  ice: Ice = ICE,
): { readonly temperature: number; readonly iceLeft: number } {
  inRange("heatCapacity", heatCapacity, ICE_LIMITS.heatCapacity);
  inRange("start", start, ICE_LIMITS.temperature);
  inRange("iceTemperature", iceTemperature, ICE_LIMITS.iceTemperature);
  const offered = heatCapacity * start;
  const asked = -ice.heatCapacity * iceTemperature;
  inRange("iceMass", iceMass, {
    ...ICE_LIMITS.iceMass,
    max: asked > 0 ? Math.min(offered / asked, ICE_LIMITS.iceMass.max) : ICE_LIMITS.iceMass.max,
  });
  // Heat to spare once both are at 0 °C.
  const spare = offered - iceMass * asked;
  const melted = spare / ice.latentHeat;
  if (melted < iceMass) return { temperature: 0, iceLeft: iceMass - melted };
  return {
    temperature:
      (spare - iceMass * ice.latentHeat) / (heatCapacity + iceMass * ice.meltHeatCapacity),
    iceLeft: 0,
  };
}

/**
 * Ice that takes up a power for a time while it melts, its water staying at 0 °C.
 *
 * @param power - W; 0 to 1e5
 * @param time - s; 0 to 1e6
 * @param ice - its properties
 * @returns kg
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: heat balance
 *
 * @example
 * iceToHold(80, 1800); // 0.432 kg
 */
export function iceToHold(power: number, time: number, ice: Ice = ICE): number {
  inRange("power", power, ICE_LIMITS.power);
  inRange("time", time, ICE_LIMITS.time);
  return (power * time) / ice.latentHeat;
}
