/**
 * Lecithin is a mixture: phospholipids, oil, glycolipids, sugars and a little water. Only the phospholipids
 * make bilayers, and no label says how much of them there is.
 */

/** How lecithin is sold: fluid, or with the oil washed out (granules and powder). */
export type LecithinKind = "soyFluid" | "soyDeoiled" | "sunflowerFluid" | "sunflowerDeoiled";

/**
 * Phospholipids in lecithin, share of its mass. Wide on purpose: crops, makers and ways of counting differ.
 *
 * - fluid soy: PC 16, PE 14 and PI 10 % are 40 %, each ±3, beside 35 % oil. Szuhaj in Bailey's Industrial Oil
 *   and Fat Products, 6th ed. (2005) Table 17. seen (quoted)
 * - de-oiled soy: PC 20 to 23, PE 22, PI 9 to 19 % and some PA: 60 to 74 %. Bueschelberger et al. in
 *   Emulsifiers in Food Technology, 2nd ed. (2015); EFSA (2017), summarised. seen (quoted)
 * - fluid sunflower: PC 13 to 17, PE 4 to 8, PI 11 to 15 %. EFSA J. 15 (2017) 4742. memory
 * - de-oiled sunflower: about twice that. memory
 */
export const PHOSPHOLIPID_SHARE: Readonly<
  Record<LecithinKind, { readonly low: number; readonly high: number }>
> = {
  soyFluid: { low: 0.31, high: 0.49 },
  soyDeoiled: { low: 0.55, high: 0.75 },
  sunflowerFluid: { low: 0.28, high: 0.4 },
  sunflowerDeoiled: { low: 0.5, high: 0.8 },
};

/**
 * Thickness of a fluid bilayer, m. Source: 3.85 nm by volume over area, 4.65 nm with the heads, dipalmitoyl-PC at
 * 50 °C: Nagle & Tristram-Nagle, in Int. J. Mol. Sci. 13 (2012) 11610, Table 1. seen. Liposome papers take 4
 * or 5 nm.
 */
export const BILAYER_THICKNESS = { value: 4e-9, low: 3.85e-9, high: 5e-9 } as const;

/**
 * Area that one fluid, unsaturated phosphatidylcholine takes up in a bilayer, m².
 * Source: Nagle & Tristram-Nagle, Biochim. Biophys. Acta 1469 (2000) 159; Kučerka et al. (2008). memory
 */
export const AREA_PER_LIPID = { value: 0.7e-18, low: 0.65e-18, high: 0.725e-18 } as const;

/**
 * Molar mass of plant phosphatidylcholine, kg/mol: mostly dilinoleoyl (`high`) and palmitoyl-linoleoyl (`low`).
 * Source: atomic masses of C₄₄H₈₀NO₈P and C₄₂H₈₀NO₈P. computed
 */
export const LIPID_MOLAR_MASS = { value: 0.77, low: 0.758, high: 0.782 } as const;

/**
 * Water between one bilayer and the next in a stack, m.
 * Source: 2.05 nm, dipalmitoyl-PC at 50 °C, full of water: as {@link BILAYER_THICKNESS}. seen
 */
export const WATER_GAP = 2.05e-9;

/**
 * Where a bilayer in water goes from stiff to fluid, °C. Plant lecithin, rich in linoleate, is fluid in any
 * fridge; only saturated chains are not.
 * Source: Drummond et al., Pharmacol. Rev. 51 (1999) Table 2. seen. Other tables differ by up to 5 K.
 */
export const FLUID_FROM = {
  stearoylLinoleoyl: -16.7,
  dioleoyl: -21,
  palmitoylOleoyl: -7,
  dipalmitoyl: 42,
} as const;

/** A figure from somebody else's bench, with what it was measured on. */
export interface Measured {
  readonly low: number;
  readonly high: number;
  readonly conditions: string;
  readonly source: string;
  readonly how: "seen" | "memory";
}

/** Water that vesicles were measured to hold, m³ per mol of lipid. */
export const MEASURED_CAPTURED_VOLUME = {
  sonicated: {
    low: 0.2e-3,
    high: 0.5e-3,
    conditions: "sonicated to small vesicles, 25 to 50 nm",
    source: "Szoka & Papahadjopoulos, Annu. Rev. Biophys. Bioeng. 9 (1980) 467",
    how: "memory",
  },
  extruded: {
    low: 1e-3,
    high: 3e-3,
    conditions: "pressed through 100 nm pores, 60 to 100 nm",
    source:
      "Hope et al., Biochim. Biophys. Acta 812 (1985) 55; Mayer et al., Biochim. Biophys. Acta 858 (1986) 161",
    how: "memory",
  },
  shaken: {
    low: 3e-3,
    high: 4.1e-3,
    conditions: "shaken by hand from a dry film, many layers",
    source: "Szoka & Papahadjopoulos (1980); Perkins et al., Biochim. Biophys. Acta 943 (1988) 103",
    how: "memory",
  },
  reversePhase: {
    low: 12.3e-3,
    high: 15.1e-3,
    conditions: "from ether and water, little salt: not a way for a kitchen",
    source: "Szoka & Papahadjopoulos, PNAS 75 (1978) 4194: 13.7 L/mol, ±10 %",
    how: "memory",
  },
} as const satisfies Readonly<Record<string, Measured>>;

/**
 * Share of vitamin C that was reported to be inside. None is to be expected at home: the first takes 25 g of
 * lipid for each gram of vitamin, and the next two are more than geometry allows unless lipid is very
 * concentrated, or what stayed outside was under-counted.
 */
export const REPORTED_ENTRAPMENT = {
  film: {
    low: 0.421,
    high: 0.421,
    conditions: "dry film and ultrasound, 25 g of lipid for each gram of vitamin C, 374 nm",
    source: "Yang et al., Food Science (China) 31(20) (2010) 230",
    how: "seen",
  },
  industrial: {
    low: 0.6401,
    high: 0.6769,
    conditions: "industrial preparation, below 100 nm; printed 65.85 ± 1.84 %",
    source: "PubMed 32901526 (2020)",
    how: "seen",
  },
  homogenised: {
    low: 0.8,
    high: 1,
    conditions: "high-pressure homogeniser, “more than 80 %”",
    source: "Romano et al., Nanomaterials 14 (2024) 516",
    how: "seen",
  },
  reversePhase: {
    low: 0,
    high: 0.65,
    conditions: "of any solute, from ether and water, little salt: “up to 65 %”",
    source: "Szoka & Papahadjopoulos (1978), in a review",
    how: "seen",
  },
} as const satisfies Readonly<Record<string, Measured>>;
