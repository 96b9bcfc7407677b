import { inRange, OutOfRangeError } from "../errors.ts";
import {
  density,
  densityRange,
  ETHANOL_WATER_LIMITS,
  massFraction,
  massFractionFromDensity,
  strength as strengthOf,
} from "../substances/ethanol-water.ts";

/** Where the balance holds. The form reads the same object, so page and function cannot disagree. */
export const HYDROMETER_LIMITS = {
  reading: { min: 0, max: 1, unit: "1" },
  strength: ETHANOL_WATER_LIMITS.strength,
  temperature: ETHANOL_WATER_LIMITS.temperature,
  referenceTemperature: ETHANOL_WATER_LIMITS.referenceTemperature,
} as const;

/**
 * Cubic expansion of soda-lime glass, 1/K. Borosilicate would be 10e-6 and move a reading by 0.2 % vol over
 * 20 K. Source: the value that reproduces the table cited at {@link trueStrength}; handbooks give 24 to 27.
 * memory
 */
export const GLASS_EXPANSION = 25e-6;

/**
 * True strength from a glass hydrometer read away from its own temperature.
 *
 * The hydrometer sinks until the liquid it pushes aside weighs as much as it does, and its glass has grown:
 * ρ(p, t) (1 + γ (t − t₀)) = ρ(p_read, t₀).
 *
 * @param reading - strength by volume on the stem, 0 to 1
 * @param temperature - of the liquid, °C; −20 to 40, above its freezing point
 * @param referenceTemperature - that the stem is graduated at, °C; 0 to 40
 * @returns strength by volume at the reference temperature
 * @throws OutOfRangeError outside those ranges, NaN included; and for a reading (quantity "reading") that no
 * mixture of ethanol and water gives at that temperature, with the readings that one does give as limits
 * @remarks Ethanol and water only: dissolved solids hold a hydrometer up and it reads too low. Ignores
 * surface tension. Within 0.15 % vol of the source from −1 to 29 °C.
 * Source: Table 55, Encyclopedia of Practical Receipts and Processes (19th century): its rows are the true
 * strength and its cells the reading. seen
 *
 * @example
 * trueStrength(0.454, 29.44, 15.56); // 0.399
 */
export function trueStrength(
  reading: number,
  temperature: number,
  referenceTemperature = 20,
): number {
  inRange("reading", reading, HYDROMETER_LIMITS.reading);
  inRange("temperature", temperature, HYDROMETER_LIMITS.temperature);
  inRange("referenceTemperature", referenceTemperature, HYDROMETER_LIMITS.referenceTemperature);
  const glass = glassGrowth(temperature, referenceTemperature);
  const shown = density(massFraction(reading, referenceTemperature), referenceTemperature);
  const liquid = densityRange(temperature);
  const here = shown / glass;
  if (beyond(here, liquid)) {
    const stem = densityRange(referenceTemperature);
    const onStem = (atTemperature: number): number =>
      strengthAt(atTemperature * glass, stem, referenceTemperature, referenceTemperature);
    throw new OutOfRangeError("reading", reading, {
      min: onStem(liquid.max),
      max: onStem(liquid.min),
      unit: HYDROMETER_LIMITS.reading.unit,
    });
  }
  return strengthAt(here, liquid, temperature, referenceTemperature);
}

/**
 * What a glass hydrometer shows in a liquid of known strength, the inverse of {@link trueStrength}.
 *
 * @param strength - true, by volume at the reference temperature, 0 to 1
 * @param temperature - of the liquid, °C; −20 to 40, above its freezing point
 * @param referenceTemperature - that the stem is graduated at, °C; 0 to 40
 * @returns strength by volume on the stem
 * @throws OutOfRangeError outside those ranges, NaN included; and for a strength whose reading lies off the
 * stem (quantity "strength"), with the strengths that can be read at that temperature as limits
 * Source: as {@link trueStrength}
 *
 * @example
 * hydrometerReading(0.4, 29.44, 15.56); // 0.455
 */
export function hydrometerReading(
  strength: number,
  temperature: number,
  referenceTemperature = 20,
): number {
  inRange("strength", strength, HYDROMETER_LIMITS.strength);
  inRange("temperature", temperature, HYDROMETER_LIMITS.temperature);
  inRange("referenceTemperature", referenceTemperature, HYDROMETER_LIMITS.referenceTemperature);
  const glass = glassGrowth(temperature, referenceTemperature);
  const shown = density(massFraction(strength, referenceTemperature), temperature) * glass;
  const stem = densityRange(referenceTemperature);
  if (beyond(shown, stem)) {
    const liquid = densityRange(temperature);
    const readable = (onStem: number): number =>
      strengthAt(onStem / glass, liquid, temperature, referenceTemperature);
    throw new OutOfRangeError("strength", strength, {
      min: readable(stem.max),
      max: readable(stem.min),
      unit: HYDROMETER_LIMITS.strength.unit,
    });
  }
  return strengthAt(shown, stem, referenceTemperature, referenceTemperature);
}

/** Strength of the mixture with this density at this temperature, the nearest there is past an end. */
function strengthAt(
  density: number,
  range: DensityRange,
  temperature: number,
  referenceTemperature: number,
): number {
  const fraction = massFractionFromDensity(clamp(density, range), temperature);
  return strengthOf(fraction, referenceTemperature);
}

function glassGrowth(temperature: number, referenceTemperature: number): number {
  return 1 + GLASS_EXPANSION * (temperature - referenceTemperature);
}

interface DensityRange {
  readonly min: number;
  readonly max: number;
}

/** Past an end by more than rounding, kg/m³. */
function beyond(density: number, { min, max }: DensityRange): boolean {
  return density < min - 1e-9 || density > max + 1e-9;
}

function clamp(density: number, { min, max }: DensityRange): number {
  return Math.min(Math.max(density, min), max);
}
