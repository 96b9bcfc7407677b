import { inRange } from "../errors.ts";
import { density, massFraction } from "../substances/ethanol-water.ts";

/** Pure ethanol at 20 °C by the same formula as every mixture, so that balances close. kg/m³ */
export const ETHANOL_DENSITY = density(1, 20);

export const CONTENTS_LIMITS = {
  volume: { min: 1e-9, max: 1, unit: "m³" },
  mass: { min: 0, max: 1000, unit: "kg" },
  specificVolume: { min: 0, max: 0.01, unit: "m³/kg" },
} as const;

/** What is dissolved or dispersed: its mass, and how much it swells the liquid. */
export interface Solute {
  /** kg */
  readonly mass: number;
  /** apparent specific volume, m³/kg */
  readonly specificVolume: number;
}

/**
 * The space that the solutes leave for ethanol and water.
 *
 * V_solvent = V − Σ m v. May be negative: the caller says which input asks too much.
 *
 * @param volume - finished liquid, m³
 * @param solutes - mass kg and apparent specific volume m³/kg
 * @returns m³
 * @throws OutOfRangeError outside {@link CONTENTS_LIMITS}, NaN included
 */
export function solventVolume(volume: number, solutes: readonly Solute[]): number {
  inRange("volume", volume, CONTENTS_LIMITS.volume);
  let left = volume;
  for (const { mass, specificVolume } of solutes) {
    inRange("mass", mass, CONTENTS_LIMITS.mass);
    inRange("specificVolume", specificVolume, CONTENTS_LIMITS.specificVolume);
    left -= mass * specificVolume;
  }
  return left;
}

/**
 * Ethanol and water that fill a volume at 20 °C with a given mass of ethanol in it.
 *
 * The ethanol's own volume over the whole gives the strength, the strength gives the mass fraction, and
 * that the density: contraction is inside.
 *
 * @param volume - of the solvent mixture at 20 °C, m³, > 0
 * @param ethanolMass - kg, 0 up to what fills the volume
 * @returns strength (1, at 20 °C), mass fraction and mass in kg of the solvent mixture
 * @throws OutOfRangeError for more ethanol than the volume holds (quantity "strength"), NaN included
 */
export function solventMixture(
  volume: number,
  ethanolMass: number,
): { readonly strength: number; readonly massFraction: number; readonly mass: number } {
  inRange("volume", volume, CONTENTS_LIMITS.volume);
  const share = ethanolMass / ETHANOL_DENSITY / volume;
  // A volume that is full to the last drop may come out a rounding above one.
  const strength = share > 1 && share < 1 + 1e-12 ? 1 : share;
  const fraction = massFraction(strength);
  return { strength, massFraction: fraction, mass: volume * density(fraction, 20) };
}
