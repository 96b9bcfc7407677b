/** One property in SI units, with the spread between sources. */
export interface GlassProperty {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Where it comes from, and whether it was seen there or recalled. */
  readonly source: string;
}

/** What the laws of thermal stress need to know of a glass. */
export interface GlassValues {
  /** Young's modulus, Pa. */
  readonly modulus: number;
  /** Sideways shrinkage over stretch, 1. */
  readonly poissonRatio: number;
  /** Mean linear expansion, 1/K. */
  readonly expansion: number;
  /** Thermal conductivity, W/(m K). */
  readonly conductivity: number;
  /** kg/m³ */
  readonly density: number;
  /** Specific heat capacity, J/(kg K). */
  readonly specificHeat: number;
}

export type Glass = { readonly [property in keyof GlassValues]: GlassProperty };
export type GlassName = "borosilicate-3.3" | "soda-lime" | "fused-silica";

const SHEETS = "borosilicate 3.3 property sheets citing ISO 7991 and EN 1595";
const FLOAT = "glazing handbooks citing EN 572 (float glass)";
const DATABASE = "a material property database";
const TEXTBOOK = "Callister & Rethwisch, Materials Science and Engineering, Appendix B";
const OPEN_DATA = "refractiveindex.info, glass specification records (CC0)";

/**
 * Glasses that vessels are made of, between 20 and about 300 °C.
 *
 * Where sources differ, `low` and `high` hold them all and `value` is the one that gives the larger thermal
 * stress, or the one in commoner use where that makes no difference.
 */
export const GLASSES: Readonly<Record<GlassName, Glass>> = {
  "borosilicate-3.3": {
    modulus: {
      value: 64e9,
      low: 63e9,
      high: 64e9,
      source: `${SHEETS}: 63 GPa on tubing sheets, 64 on sheets for pressed and floated glass. seen`,
    },
    poissonRatio: { value: 0.2, low: 0.19, high: 0.21, source: `${SHEETS}, to one digit. seen` },
    expansion: {
      value: 3.3e-6,
      low: 3.2e-6,
      high: 3.4e-6,
      source: `${SHEETS}: (3.3 ± 0.1) × 10⁻⁶ from 20 to 300 °C, the figure ISO 3585 names the glass after. seen`,
    },
    conductivity: { value: 1.2, low: 1.1, high: 1.3, source: `${SHEETS}, at 90 °C. seen` },
    density: { value: 2230, low: 2210, high: 2250, source: `${SHEETS}. seen` },
    specificHeat: {
      value: 830,
      low: 800,
      high: 900,
      source: `${DATABASE}, borosilicate family: 830. seen; process-plant handbooks: 800 (20 to 100 °C) and 900 (20 to 200 °C). memory`,
    },
  },
  "soda-lime": {
    modulus: {
      value: 70e9,
      low: 69e9,
      high: 71e9,
      source: `${TEXTBOOK}: 69 GPa; ${FLOAT}: 70; ${DATABASE}: to 71. seen`,
    },
    poissonRatio: {
      value: 0.22,
      low: 0.2,
      high: 0.23,
      source: `${FLOAT}: 0.2; ${DATABASE}: 0.23. seen; the value between them is the usual one. memory`,
    },
    expansion: {
      value: 9e-6,
      low: 8.8e-6,
      high: 9e-6,
      source: `${TEXTBOOK} and ${FLOAT}: 9.0 × 10⁻⁶; ${DATABASE}: from 8.8 × 10⁻⁶. seen`,
    },
    conductivity: {
      value: 1,
      low: 0.8,
      high: 1.7,
      source: `${FLOAT}: 1; a maker's sheet: 0.8; ${TEXTBOOK}: 1.7. seen`,
    },
    density: {
      value: 2500,
      low: 2400,
      high: 2500,
      source: `${FLOAT}: 2500; ${DATABASE}: 2400. seen`,
    },
    specificHeat: {
      value: 720,
      low: 720,
      high: 800,
      source: `${FLOAT}: 720; ${DATABASE}: 720 to 800. seen`,
    },
  },
  "fused-silica": {
    modulus: {
      value: 73.1e9,
      low: 73e9,
      high: 73.1e9,
      source: `${OPEN_DATA}: 73.1 GPa; ${TEXTBOOK}: 73. seen`,
    },
    poissonRatio: {
      value: 0.17,
      low: 0.16,
      high: 0.18,
      source: `${OPEN_DATA} and ${DATABASE}: 0.17. seen; the width is that of the last digit, twice`,
    },
    expansion: {
      value: 5.5e-7,
      low: 4e-7,
      high: 5.7e-7,
      source: `${OPEN_DATA}: 0.55 × 10⁻⁶; ${TEXTBOOK}: 0.4 × 10⁻⁶; a maker's sheet: to 0.57 × 10⁻⁶. seen`,
    },
    conductivity: {
      value: 1.38,
      low: 1.38,
      high: 1.4,
      source: `${OPEN_DATA}: 1.38; ${TEXTBOOK}: 1.4. seen`,
    },
    density: {
      value: 2203,
      low: 2200,
      high: 2203,
      source: `${OPEN_DATA}: 2203; ${DATABASE}: 2200. seen`,
    },
    specificHeat: {
      value: 740,
      low: 720,
      high: 775,
      source: `${DATABASE}: 720. seen; handbooks: 740 to 775. memory`,
    },
  },
};

/**
 * Permissible tension in sound borosilicate 3.3, Pa: stress-free, unscratched, and no thermal load at the
 * same time. Notes on glass strength give the same figure as a working stress for glass in general. It is a
 * design figure: what a fresh piece breaks at is ten times as much, and no figure holds for a chipped one.
 *
 * Source: EN 1595, K/S = 70 bar, quoted on a borosilicate 3.3 property sheet. seen
 */
export const PERMISSIBLE_TENSION = 7e6;

/**
 * The middle values of a glass as plain numbers, for the laws of thermal stress.
 *
 * @param glass - an entry of {@link GLASSES}
 *
 * @example
 * glassValues(GLASSES["borosilicate-3.3"]).expansion; // 3.3e-6 per K
 */
export function glassValues(glass: Glass): GlassValues {
  return {
    modulus: glass.modulus.value,
    poissonRatio: glass.poissonRatio.value,
    expansion: glass.expansion.value,
    conductivity: glass.conductivity.value,
    density: glass.density.value,
    specificHeat: glass.specificHeat.value,
  };
}
