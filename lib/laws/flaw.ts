import { inRange } from "../errors.ts";

/** Where the formulas hold. The form reads the same object, so page and function cannot disagree. */
export const FLAW_LIMITS = {
  stress: { min: 1e3, max: 20e9, unit: "Pa" },
  // From a few atoms to the thickest wall.
  depth: { min: 1e-9, max: 0.02, unit: "m" },
  shape: { min: 0.5, max: 2, unit: "1" },
  // Glass only: a figure in the tens belongs to metals, and one such misprint is in circulation for glass.
  toughness: { min: 0.3e6, max: 1.5e6, unit: "Pa √m" },
  modulus: { min: 1e9, max: 200e9, unit: "Pa" },
  surfaceEnergy: { min: 0.01, max: 20, unit: "J/m²" },
  // Faster, damp air has no time to act; slower, a crack below a least load does not grow at all.
  loadTime: { min: 0.01, max: 1e9, unit: "s" },
  exponent: { min: 10, max: 50, unit: "1" },
} as const;

/** Shape factor Y of a straight crack that runs in from a free edge. Source: Irwin. memory */
export const EDGE_CRACK = 1.12;

/**
 * Stress intensity at which glass cracks right through, Pa √m.
 * Source: soda-lime 0.77 MPa √m dry, ASME J. Eng. Mater. Technol. 112 (1990) 151; borosilicate 0.8, a material
 * property database. seen; 0.75 is the usual textbook figure. memory
 */
export const GLASS_TOUGHNESS = { value: 0.75e6, low: 0.7e6, high: 0.8e6 } as const;

/**
 * Short-time strength of glass by the state of its surface, Pa: it is flaws, not composition, that decide.
 *
 * `handled` is everyday glass without visible damage, `working` the stress one may count on in used glass.
 * Orders of magnitude, not limits.
 * Source: Kasunic, Optomechanical Systems Engineering (2015), quoted in an encyclopaedia; notes on glass
 * strength. seen
 */
export const STRENGTH_BY_SURFACE = {
  theoretical: 17e9,
  pristine: 10e9,
  handled: { low: 50e6, high: 70e6 },
  working: 7e6,
} as const;

/**
 * Load-time exponent of annealed soda-lime glass in damp air.
 * Source: ASTM E1300. memory. Borosilicate resists better (27 to 40, memory): 16 errs on the safe side for
 * loads longer than the test.
 */
export const FATIGUE_EXPONENT = 16;

/** Length of load that strength tests and {@link fatigueFactor} refer to, s. Source: ASTM E1300. memory */
export const REFERENCE_LOAD_TIME = 3;

/**
 * How hard a stress pulls at the tip of a crack.
 *
 * K = Y σ √(π a)
 *
 * @param stress - tension across the crack, far from it, Pa; 1 kPa to 20 GPa
 * @param depth - of a surface crack, or half the length of an inner one, m; 1 nm to 20 mm
 * @param shape - Y; 0.5 to 2: 1.12 for an edge crack, 1 for an inner one, less for a half-round scratch
 * @returns Pa √m; the crack runs when it reaches the toughness
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks The wall must be many times as thick as the crack is deep.
 * Source: Irwin, J. Appl. Mech. 24 (1957) 361. memory
 *
 * @example
 * stressIntensity(7e6, 0.001); // 0.44e6: over half of what breaks glass
 */
export function stressIntensity(stress: number, depth: number, shape = EDGE_CRACK): number {
  inRange("stress", stress, FLAW_LIMITS.stress);
  return stress * intensityPerStress(depth, shape);
}

/**
 * Stress at which a crack of this depth runs, in a short dry test: σ = K / (Y √(π a)).
 *
 * @param toughness - of the glass, Pa √m; 0.3e6 to 1.5e6
 * @param depth - m; 1 nm to 20 mm
 * @param shape - as {@link stressIntensity}
 * @returns Pa; multiply by {@link fatigueFactor} for a load that lasts
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link stressIntensity}
 *
 * @example
 * criticalStress(0.75e6, 100e-6); // 37.8e6
 */
export function criticalStress(toughness: number, depth: number, shape = EDGE_CRACK): number {
  inRange("toughness", toughness, FLAW_LIMITS.toughness);
  return toughness / intensityPerStress(depth, shape);
}

/**
 * Depth of crack that runs at this stress, in a short dry test: a = (K / (Y σ))² / π.
 *
 * @param toughness - of the glass, Pa √m; 0.3e6 to 1.5e6
 * @param stress - Pa; 1 kPa to 20 GPa. For a load that lasts, divide it by {@link fatigueFactor} first
 * @param shape - as {@link stressIntensity}
 * @returns m; deeper than the wall means that the stress alone breaks nothing
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link stressIntensity}
 *
 * @example
 * criticalDepth(0.75e6, 7e6); // 0.0029 m: a visible chip
 */
export function criticalDepth(toughness: number, stress: number, shape = EDGE_CRACK): number {
  inRange("toughness", toughness, FLAW_LIMITS.toughness);
  inRange("stress", stress, FLAW_LIMITS.stress);
  inRange("shape", shape, FLAW_LIMITS.shape);
  return (toughness / (shape * stress)) ** 2 / Math.PI;
}

/**
 * Stress at which a crack pays for its new surface: σ = √(2 E γ / (π a)).
 *
 * The same law as {@link criticalStress} with K = √(2 E γ) and Y = 1, from energy alone. With the surface
 * energy of glass it gives a quarter of the real toughness: breaking glass costs more than new surface.
 *
 * @param modulus - Young's, Pa; 1 to 200 GPa
 * @param surfaceEnergy - of one new face, J/m²; 0.01 to 20
 * @param depth - of a surface crack, or half the length of an inner one, m; 1 nm to 20 mm
 * @returns Pa
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Griffith, Phil. Trans. R. Soc. A 221 (1921) 163. memory
 *
 * @example
 * griffithStress(69e9, 0.3, 0.0004); // 5.74e6
 */
export function griffithStress(modulus: number, surfaceEnergy: number, depth: number): number {
  inRange("modulus", modulus, FLAW_LIMITS.modulus);
  inRange("surfaceEnergy", surfaceEnergy, FLAW_LIMITS.surfaceEnergy);
  return Math.sqrt(2 * modulus * surfaceEnergy) / intensityPerStress(depth, 1);
}

/**
 * Strength under a load that lasts, over strength in a test of the reference length: damp air lets cracks
 * creep.
 *
 * σ(t) / σ(t_ref) = (t_ref / t)^(1/n)
 *
 * @param loadTime - how long the stress lasts, s; 0.01 to 10⁹ (30 years)
 * @param referenceTime - how long the test lasted, s; the same range
 * @param exponent - n; 10 to 50
 * @returns below 1 for a load longer than the test
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks For a steady load in ordinary air. Dry glass tires less, and no glass mends: loads add up.
 * Source: ASTM E1300, load duration factors of annealed glass, (3 s / t)^(1/16). memory
 *
 * @example
 * fatigueFactor(3600); // 0.64
 */
export function fatigueFactor(
  loadTime: number,
  referenceTime = REFERENCE_LOAD_TIME,
  exponent = FATIGUE_EXPONENT,
): number {
  inRange("loadTime", loadTime, FLAW_LIMITS.loadTime);
  inRange("referenceTime", referenceTime, FLAW_LIMITS.loadTime);
  inRange("exponent", exponent, FLAW_LIMITS.exponent);
  return (referenceTime / loadTime) ** (1 / exponent);
}

/** K/σ, √m. */
function intensityPerStress(depth: number, shape: number): number {
  inRange("depth", depth, FLAW_LIMITS.depth);
  inRange("shape", shape, FLAW_LIMITS.shape);
  return shape * Math.sqrt(Math.PI * depth);
}
