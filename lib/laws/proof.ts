import { newtonBracketed } from "../numeric/root.ts";
import { density, massFraction, strength } from "../substances/ethanol-water.ts";

const fahrenheit = (degrees: number): number => ((degrees - 32) * 5) / 9;
const F50 = fahrenheit(50);
const F51 = fahrenheit(51);
const F60 = fahrenheit(60);

/**
 * US degrees of proof: twice the per cent by volume at 60 °F.
 *
 * @param massFraction - ethanol, 0 to 1
 * @returns 0 to 200
 * @throws OutOfRangeError outside 0 to 1, NaN included
 * Source: 27 CFR 5.11 and 19.1. seen
 */
export function usProof(massFraction: number): number {
  return 200 * strength(massFraction, F60);
}

/**
 * Mass fraction from US degrees of proof.
 * @param proof - 0 to 200
 * @throws OutOfRangeError outside that range, NaN included
 */
export function massFractionFromUsProof(proof: number): number {
  return massFraction(proof / 200, F60);
}

/**
 * Proof spirit of the old British (Sikes) scale: at 51 °F it weighs 12/13 of an equal volume of water.
 * Alcoholic Liquor Duties Act 1979, s. 2, as enacted. seen
 */
const PROOF_SPIRIT = newtonBracketed(
  (p) => {
    const step = 1e-6;
    const miss = (x: number): number => density(x, F51) - (12 / 13) * density(0, F51);
    return [miss(p), (miss(p + step) - miss(p - step)) / (2 * step)];
  },
  0.4,
  0.6,
  1e-12,
);

/** Mass of ethanol in a volume at 50 °F, kg/m³: what "volumes of proof spirit" compares. */
function ethanolPerVolume(massFraction: number): number {
  return massFraction * density(massFraction, F50);
}

/**
 * Old British degrees of proof: the volumes of proof spirit that hold as much ethanol as 100 volumes of
 * this one, volumes counted at 50 °F.
 *
 * @param massFraction - ethanol, 0 to 1
 * @returns 0 to about 175; 100 is 57.1 % vol
 * @throws OutOfRangeError outside 0 to 1, NaN included
 * Source: Alcoholic Liquor Duties Act 1979, s. 2, as enacted. seen
 */
export function ukProof(massFraction: number): number {
  return (100 * ethanolPerVolume(massFraction)) / ethanolPerVolume(PROOF_SPIRIT);
}
