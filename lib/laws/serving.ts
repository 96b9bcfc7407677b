import { inRange } from "../errors.ts";
import { ETHANOL_DENSITY } from "./recipe.ts";

/** Where the balance is used. The form reads the same object, so page and function cannot disagree. */
export const SERVING_LIMITS = {
  servingVolume: { min: 1e-7, max: 1e-3, unit: "m³" },
  bottleVolume: { min: 1e-7, max: 0.02, unit: "m³" },
  ascorbicAcidConcentration: { min: 0, max: 400, unit: "kg/m³" },
  alcoholStrength: { min: 0, max: 1, unit: "1" },
  entrapment: { min: 0, max: 1, unit: "1" },
} as const;

/**
 * Most vitamin C a day, food and supplements together, for adults from 19 on, kg: an upper level, not a target.
 * Source: US Institute of Medicine (2000). seen. EFSA sets none; its reference intake is 0.11 g for men and
 * 0.095 g for women (EFSA J. 11(11) (2013) 3418). seen
 */
export const UPPER_INTAKE = 2e-3;

/** The liquid in the bottle. */
export interface BottledLiquid {
  /** kg/m³ */
  readonly ascorbicAcidConcentration: number;
  /** by volume at 20 °C */
  readonly alcoholStrength: number;
  /** share of the acid inside vesicles, at most */
  readonly entrapment: number;
}

/** What is in one serving. */
export interface Serving {
  /** kg */
  readonly ascorbicAcidMass: number;
  /** of it inside vesicles, at most, kg */
  readonly enclosedMass: number;
  /** kg */
  readonly ethanolMass: number;
  /** acid in one serving over {@link UPPER_INTAKE} of a day */
  readonly shareOfUpperIntake: number;
  /** whole ones */
  readonly servingsPerBottle: number;
}

/**
 * What is in one serving.
 *
 * Acid c V; ethanol φ V ρ, ρ of pure ethanol at 20 °C.
 *
 * @param servingVolume - m³; 0.1 mL to 1 L, and no more than the bottle
 * @param bottleVolume - of liquid, m³; 0.1 mL to 20 L
 * @param liquid - acid 0 to 400 kg/m³; strength 0 to 1; entrapment 0 to 1
 * @returns kg, a share and whole servings; what is left over in the bottle is not counted
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Volume and strength both at 20 °C. Not a dose, and not advice to take one.
 * Source: conservation of mass. computed
 *
 * @example
 * const liquid = { ascorbicAcidConcentration: 100, alcoholStrength: 0.12, entrapment: 0.1 };
 * serving(10e-6, 250e-6, liquid).ascorbicAcidMass; // 0.001 kg
 */
export function serving(
  servingVolume: number,
  bottleVolume: number,
  liquid: BottledLiquid,
): Serving {
  const { ascorbicAcidConcentration, alcoholStrength, entrapment } = liquid;
  inRange("bottleVolume", bottleVolume, SERVING_LIMITS.bottleVolume);
  inRange("servingVolume", servingVolume, {
    ...SERVING_LIMITS.servingVolume,
    max: Math.min(SERVING_LIMITS.servingVolume.max, bottleVolume),
  });
  inRange(
    "ascorbicAcidConcentration",
    ascorbicAcidConcentration,
    SERVING_LIMITS.ascorbicAcidConcentration,
  );
  inRange("alcoholStrength", alcoholStrength, SERVING_LIMITS.alcoholStrength);
  inRange("entrapment", entrapment, SERVING_LIMITS.entrapment);
  const ascorbicAcidMass = ascorbicAcidConcentration * servingVolume;
  return {
    ascorbicAcidMass,
    enclosedMass: entrapment * ascorbicAcidMass,
    ethanolMass: alcoholStrength * servingVolume * ETHANOL_DENSITY,
    shareOfUpperIntake: ascorbicAcidMass / UPPER_INTAKE,
    // A billionth, because what fits exactly may come out a hair short.
    servingsPerBottle: Math.floor((bottleVolume / servingVolume) * (1 + 1e-9)),
  };
}
