import { inRange } from "../errors.ts";
import {
  heatCapacity,
  HEAT_CAPACITY_LIMITS,
  heatCapacitySpread,
} from "../substances/ethanol-water.ts";

/** Where the sum answers. */
export const BATCH_HEAT_LIMITS = {
  mass: { min: 0, max: 100, unit: "kg" },
  massFraction: HEAT_CAPACITY_LIMITS.massFraction,
  temperature: HEAT_CAPACITY_LIMITS.temperature,
  specificHeat: { min: 0, max: 10_000, unit: "J/(kg K)" },
} as const;

/** A value with the edges of its band, all in one unit. */
export interface Banded {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Of what is dissolved or dispersed, J/(kg K). */
export const SOLUTE_SPECIFIC_HEAT = {
  /** Crystals have about 1.2 kJ/(kg K), a dissolved sugar-like solute up to 1.7. memory */
  ascorbicAcid: { value: 1450, low: 1200, high: 1700 },
  /** Vegetable oils 1.9 to 2.1 kJ/(kg K); de-oiled powder less. memory */
  lecithin: { value: 2000, low: 1700, high: 2200 },
} as const;

/** What is warmed together, kg. */
export interface BatchMasses {
  /** Ethanol and water. */
  readonly solvent: number;
  /** Ethanol in ethanol + water, 0 to 1. */
  readonly massFraction: number;
  readonly ascorbicAcid: number;
  readonly lecithin: number;
  /** The part of the vessel that the liquid wets: the rest stays cool. */
  readonly glass: number;
}

/**
 * Heat capacity of a batch with its beaker, from what it is made of.
 *
 * C = Σ m c
 *
 * @param masses - 0 to 100 kg each
 * @param temperature - °C; 3 to 60
 * @param glassSpecificHeat - of the vessel, J/(kg K), 0 to 10 000
 * @returns J/K; each part's band moves the sum on its own, and the moves are added in squares
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Takes the parts as they are: what little dissolving changes is in their bands.
 * Source: heat balance; the parts as cited where they are declared
 *
 * @example
 * const glass = { value: 830, low: 800, high: 900 };
 * batchHeatCapacity({ solvent: 0.45, massFraction: 0.2, ascorbicAcid: 0.05, lecithin: 0.03, glass: 0.25 },
 *   25, glass); // 2283 J/K
 */
export function batchHeatCapacity(
  masses: BatchMasses,
  temperature: number,
  glassSpecificHeat: Banded,
): Banded {
  for (const name of ["solvent", "ascorbicAcid", "lecithin", "glass"] as const)
    inRange(name, masses[name], BATCH_HEAT_LIMITS.mass);
  for (const edge of ["value", "low", "high"] as const)
    inRange("glassSpecificHeat", glassSpecificHeat[edge], BATCH_HEAT_LIMITS.specificHeat);
  const solvent = heatCapacity(masses.massFraction, temperature);
  const spread = heatCapacitySpread(temperature);
  const parts: readonly (readonly [mass: number, specificHeat: Banded])[] = [
    [masses.solvent, { value: solvent, low: solvent * (1 - spread), high: solvent * (1 + spread) }],
    [masses.ascorbicAcid, SOLUTE_SPECIFIC_HEAT.ascorbicAcid],
    [masses.lecithin, SOLUTE_SPECIFIC_HEAT.lecithin],
    [masses.glass, glassSpecificHeat],
  ];
  const value = parts.reduce((sum, [mass, each]) => sum + mass * each.value, 0);
  return {
    value,
    low: value - Math.hypot(...parts.map(([mass, each]) => mass * (each.value - each.low))),
    high: value + Math.hypot(...parts.map(([mass, each]) => mass * (each.high - each.value))),
  };
}
