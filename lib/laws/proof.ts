import { inRange } from "../errors.ts";
import {
  density,
  massFraction,
  massFractionFromDensity,
  strength,
} from "../substances/ethanol-water.ts";

/** 60 °F: where the United States count strength, °C. */
export const US_PROOF_TEMPERATURE = (60 - 32) / 1.8;
/** 51 °F: where proof spirit was compared with water, °C. */
const SIKES_TEMPERATURE = (51 - 32) / 1.8;
/** 50 °F: where the volumes of spirit and proof spirit were counted, °C. */
const SIKES_VOLUME_TEMPERATURE = (50 - 32) / 1.8;

/**
 * Mass fraction of proof spirit, 0.4927: its weight is 12/13 of that of an equal volume of water at 51 °F.
 * Taken as masses; comparing weights in air instead would make it 0.04 % vol weaker.
 * Source: Alcoholic Liquor Duties Act 1979, section 2 (as enacted). seen
 */
export const PROOF_SPIRIT = massFractionFromDensity(
  (12 / 13) * density(0, SIKES_TEMPERATURE),
  SIKES_TEMPERATURE,
);
const PROOF_SPIRIT_STRENGTH = strength(PROOF_SPIRIT, SIKES_VOLUME_TEMPERATURE);

/** Where the scales begin and end. The form reads the same object, so page and function cannot disagree. */
export const PROOF_LIMITS = {
  massFraction: { min: 0, max: 1, unit: "1" },
  usProof: { min: 0, max: 200, unit: "US proof" },
  /** Pure ethanol is 175.4 degrees. */
  ukProof: { min: 0, max: 100 / PROOF_SPIRIT_STRENGTH, unit: "° proof (Sikes)" },
} as const;

/**
 * Proof as the United States count it: twice the per cent by volume at 60 °F.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @returns 0 to 200
 * @throws OutOfRangeError outside 0 to 1, NaN included
 * @remarks The volumes are at 60 °F, so 100 proof is 50.06 % vol at 20 °C.
 * Source: 27 CFR 5.11 and 19.1. seen
 *
 * @example
 * usProof(massFraction(0.4)); // 79.9
 */
export function usProof(massFraction: number): number {
  inRange("massFraction", massFraction, PROOF_LIMITS.massFraction);
  return 200 * strength(massFraction, US_PROOF_TEMPERATURE);
}

/**
 * Mass fraction from United States proof, the inverse of {@link usProof}.
 *
 * @param proof - 0 to 200
 * @returns ethanol in ethanol + water, 0 to 1
 * @throws OutOfRangeError outside 0 to 200, NaN included
 * Source: as {@link usProof}
 */
export function massFractionFromUsProof(proof: number): number {
  inRange("usProof", proof, PROOF_LIMITS.usProof);
  return massFraction(proof / 200, US_PROOF_TEMPERATURE);
}

/**
 * Degrees of the old British (Sikes) scale: how many volumes of proof spirit hold the ethanol that is in
 * 100 volumes of this one.
 *
 * @param massFraction - ethanol in ethanol + water, 0 to 1
 * @returns 0 to 175.4; 100 is 57.1 % vol, and "20 over proof" is 120
 * @throws OutOfRangeError outside 0 to 1, NaN included
 * @remarks Volumes are counted at 50 °F. A label's "40 proof" may be this scale (23 % vol) or the American
 * one (20 % vol): nothing on the label decides it, so show both.
 * Source: Alcoholic Liquor Duties Act 1979, section 2 (as enacted). seen
 */
export function ukProof(massFraction: number): number {
  inRange("massFraction", massFraction, PROOF_LIMITS.massFraction);
  return (100 * strength(massFraction, SIKES_VOLUME_TEMPERATURE)) / PROOF_SPIRIT_STRENGTH;
}

/**
 * Mass fraction from degrees of the old British (Sikes) scale, the inverse of {@link ukProof}.
 *
 * @param proof - degrees, 0 to 175.4
 * @returns ethanol in ethanol + water, 0 to 1
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link ukProof}
 */
export function massFractionFromUkProof(proof: number): number {
  inRange("ukProof", proof, PROOF_LIMITS.ukProof);
  // Rounding may carry the end of the scale past 1.
  const ofVolume = Math.min((proof / 100) * PROOF_SPIRIT_STRENGTH, 1);
  return massFraction(ofVolume, SIKES_VOLUME_TEMPERATURE);
}
