import { inRange, OutOfRangeError } from "../errors.ts";
import { WATER_GAP } from "../substances/lecithin.ts";

/** 1/mol, exact. Source: SI Brochure, 9th ed. (2019). memory */
export const AVOGADRO = 6.02214076e23;

/** Where the geometry is used. The form reads the same object, so page and function cannot disagree. */
export const VESICLE_LIMITS = {
  // The smallest that lipids bend to, and what a light microscope shows.
  outerDiameter: { min: 20e-9, max: 10e-6, unit: "m" },
  bilayerThickness: { min: 2e-9, max: 8e-9, unit: "m" },
  areaPerLipid: { min: 0.3e-18, max: 1e-18, unit: "m²" },
  lipidMolarMass: { min: 0.3, max: 1.5, unit: "kg/mol" },
  layers: { min: 1, max: 2000, unit: "1" },
  waterGap: { min: 0, max: 100e-9, unit: "m" },
  lecithinConcentration: { min: 0, max: 400, unit: "kg/m³" },
  phospholipidShare: { min: 0.01, max: 1, unit: "1" },
  ascorbicAcidConcentration: { min: 0, max: 400, unit: "kg/m³" },
} as const;

/**
 * Densest that equal balls pack, share of the space: π/√18.
 * Source: Kepler's conjecture, proved by Hales (2005). memory
 */
export const DENSEST_PACKING = Math.PI / Math.sqrt(18);

/** A ball of one bilayer, or of several, one inside another with water between. */
export interface Vesicle {
  /** m */
  readonly outerDiameter: number;
  /** of one bilayer, m */
  readonly bilayerThickness: number;
  /** that one molecule takes up in one leaf of a bilayer, m² */
  readonly areaPerLipid: number;
  /** kg/mol */
  readonly lipidMolarMass: number;
  /** whole */
  readonly layers: number;
  /** water between layers, m; {@link WATER_GAP} if left out */
  readonly waterGap?: number;
}

/** What one vesicle is made of and holds. */
export interface VesicleContents {
  /** molecules */
  readonly lipidsPerVesicle: number;
  /** water inside, between the layers too, m³ */
  readonly internalVolume: number;
  /** water inside for each mole of lipid, m³/mol: the same number as µL/µmol divided by 1000 */
  readonly capturedVolume: number;
  /** in a kilogram of lipid, 1/kg */
  readonly vesiclesPerLipidMass: number;
}

/**
 * What a vesicle of given size is made of and how much water it holds.
 *
 * Each bilayer has two leaves, at its outer and its inner surface: N = Σ 4π [Rᵢ² + (Rᵢ − t)²]/a. The water is
 * the ball less the bilayers: V = 4π/3 [R³ − Σ (Rᵢ³ − (Rᵢ − t)³)]. Captured volume is V N_A/N.
 *
 * @param vesicle - outer diameter 20 nm to 10 µm; bilayer 2 to 8 nm, and no thicker than the radius; area per
 * lipid 0.3 to 1 nm²; molar mass 0.3 to 1.5 kg/mol; layers from 1 to as many as fit ({@link mostLayers});
 * gap 0 to 100 nm
 * @returns molecules, m³, m³/mol and 1/kg
 * @throws OutOfRangeError outside those ranges, NaN included
 * @throws TypeError for layers that are not whole
 * @remarks An upper bound on what such vesicles hold: real ones differ in size, are not all round, and some
 * lipid makes none. Both leaves are given the same area; in vesicles below 50 nm the outer has up to a fifth
 * more (memory). Steric thickness counts water bound to the heads as bilayer.
 * Source: geometry of a spherical shell, as in liposome papers. computed
 *
 * @example
 * vesicleContents({
 *   outerDiameter: 100e-9, bilayerThickness: 5e-9, areaPerLipid: 0.71e-18, lipidMolarMass: 0.77, layers: 1,
 * }).lipidsPerVesicle; // 80 090
 */
export function vesicleContents(vesicle: Vesicle): VesicleContents {
  refuseMisfit(vesicle);
  const { lipids, water } = shells(vesicle, vesicle.layers);
  return {
    lipidsPerVesicle: lipids,
    internalVolume: water,
    capturedVolume: (water * AVOGADRO) / lipids,
    vesiclesPerLipidMass: AVOGADRO / (lipids * vesicle.lipidMolarMass),
  };
}

/**
 * The most layers that fit one inside another.
 *
 * n t + (n − 1) g ≤ R
 *
 * @param vesicle - as in {@link vesicleContents}; its own layers do not matter
 * @returns whole, 1 or more
 * @throws OutOfRangeError as there
 */
export function mostLayers(vesicle: Omit<Vesicle, "layers">): number {
  const { bilayerThickness, waterGap = WATER_GAP } = vesicle;
  refuseMisfit({ ...vesicle, layers: 1 });
  // A billionth, because what fits exactly may come out a hair too long.
  const fits = (vesicle.outerDiameter / 2 + waterGap) / (bilayerThickness + waterGap);
  return Math.min(Math.floor(fits + 1e-9), VESICLE_LIMITS.layers.max);
}

/** The liquid that vesicles are made in. */
export interface Dispersion {
  /** kg of lecithin in each m³ of liquid */
  readonly lecithinConcentration: number;
  /** phospholipids in the lecithin, share of its mass */
  readonly phospholipidShare: number;
  /** kg in each m³ of liquid */
  readonly ascorbicAcidConcentration: number;
}

/** The most that vesicles of one size can hold of what was dissolved before they formed. */
export interface Entrapment {
  /** captured volume times lipid concentration: water inside, share of the liquid's volume */
  readonly enclosedVolume: number;
  /** water inside, share of all the liquid that is not bilayer; the same share of what is dissolved in it */
  readonly entrapmentBound: number;
  /** of the acid, inside, kg in each m³ of liquid */
  readonly entrappedConcentration: number;
  /** the same bound for every number of layers that fits vesicle and liquid */
  readonly lamellarity: {
    readonly fewest: LayeredBound;
    readonly most: LayeredBound;
  };
}

/** A bound and the number of layers that it belongs to. */
export interface LayeredBound {
  readonly layers: number;
  readonly entrapmentBound: number;
}

/**
 * The most that vesicles can enclose when they close up in a solution that already holds the acid.
 *
 * All phospholipid is taken to be in vesicles of one size, as many as there is lipid for; the acid is as
 * strong inside as outside.
 *
 * @param dispersion - lecithin 0 to 400 kg/m³; phospholipid share 0.01 to 1; acid 0 to 400 kg/m³
 * @param vesicle - as in {@link vesicleContents}
 * @returns shares and kg/m³: a bound, not an expectation
 * @throws OutOfRangeError outside those ranges, NaN included; and where the vesicles would take up more of the
 * liquid than equal balls can (quantity "lecithinConcentration", with the most that fits as limit): they must
 * then have more layers, or be smaller
 * @throws TypeError for layers that are not whole
 * @remarks What is added after the vesicles have closed stays outside. What is inside leaks out in days to
 * weeks, sooner with alcohol (memory). Oil in the lecithin takes up room too, which is not counted.
 * Source: definition of captured volume; {@link DENSEST_PACKING}. computed
 *
 * @example
 * const solution = { lecithinConcentration: 60, phospholipidShare: 0.6, ascorbicAcidConcentration: 100 };
 * entrapment(solution, { ...vesicle, outerDiameter: 100e-9, layers: 1 }).entrapmentBound; // 0.14
 */
export function entrapment(dispersion: Dispersion, vesicle: Vesicle): Entrapment {
  const { lecithinConcentration, phospholipidShare, ascorbicAcidConcentration } = dispersion;
  inRange("lecithinConcentration", lecithinConcentration, VESICLE_LIMITS.lecithinConcentration);
  inRange("phospholipidShare", phospholipidShare, VESICLE_LIMITS.phospholipidShare);
  inRange(
    "ascorbicAcidConcentration",
    ascorbicAcidConcentration,
    VESICLE_LIMITS.ascorbicAcidConcentration,
  );
  refuseMisfit(vesicle);
  const molecules = (AVOGADRO * lecithinConcentration * phospholipidShare) / vesicle.lipidMolarMass;
  const chosen = filled(vesicle, vesicle.layers, molecules);
  if (chosen.occupied > DENSEST_PACKING)
    throw new OutOfRangeError("lecithinConcentration", lecithinConcentration, {
      ...VESICLE_LIMITS.lecithinConcentration,
      max: (lecithinConcentration * DENSEST_PACKING) / chosen.occupied,
    });
  const most = mostLayers(vesicle);
  const fewest = fewestLayers(vesicle, molecules, vesicle.layers);
  const boundOf = (layers: number): LayeredBound => ({
    layers,
    entrapmentBound: filled(vesicle, layers, molecules).bound,
  });
  return {
    enclosedVolume: chosen.enclosed,
    entrapmentBound: chosen.bound,
    entrappedConcentration: chosen.bound * ascorbicAcidConcentration,
    lamellarity: { fewest: boundOf(fewest), most: boundOf(most) },
  };
}

/** Each layer more takes lipid from the others, so the vesicles get fewer: the first number that fits is found by halving. */
function fewestLayers(vesicle: Vesicle, molecules: number, enough: number): number {
  let [low, high] = [1, enough];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (filled(vesicle, middle, molecules).occupied <= DENSEST_PACKING) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Shares of the liquid's volume, and of what of it is not bilayer. */
function filled(vesicle: Vesicle, layers: number, molecules: number) {
  const { lipids, water } = shells(vesicle, layers);
  const vesicles = molecules / lipids;
  const occupied = vesicles * ball(vesicle.outerDiameter / 2);
  const enclosed = vesicles * water;
  return { occupied, enclosed, bound: enclosed / (1 - (occupied - enclosed)) };
}

/** Molecules, and water in m³. */
function shells(vesicle: Vesicle, layers: number) {
  const { outerDiameter, bilayerThickness, areaPerLipid, waterGap = WATER_GAP } = vesicle;
  let leaves = 0;
  let bilayers = 0;
  for (let layer = 0; layer < layers; layer++) {
    const outer = outerDiameter / 2 - layer * (bilayerThickness + waterGap);
    // What fits exactly may come out a hair below nothing.
    const inner = Math.max(outer - bilayerThickness, 0);
    leaves += 4 * Math.PI * (outer ** 2 + inner ** 2);
    bilayers += ball(outer) - ball(inner);
  }
  return {
    lipids: leaves / areaPerLipid,
    water: Math.max(ball(outerDiameter / 2) - bilayers, 0),
  };
}

function ball(radius: number): number {
  return ((4 * Math.PI) / 3) * radius ** 3;
}

function refuseMisfit(vesicle: Vesicle): void {
  const { layers, waterGap = WATER_GAP } = vesicle;
  // The smallest ball has room for the thickest bilayer.
  inRange("outerDiameter", vesicle.outerDiameter, VESICLE_LIMITS.outerDiameter);
  inRange("bilayerThickness", vesicle.bilayerThickness, VESICLE_LIMITS.bilayerThickness);
  inRange("areaPerLipid", vesicle.areaPerLipid, VESICLE_LIMITS.areaPerLipid);
  inRange("lipidMolarMass", vesicle.lipidMolarMass, VESICLE_LIMITS.lipidMolarMass);
  inRange("waterGap", waterGap, VESICLE_LIMITS.waterGap);
  if (layers === 1) return;
  inRange("layers", layers, { ...VESICLE_LIMITS.layers, max: mostLayers(vesicle) });
  if (!Number.isInteger(layers)) throw new TypeError(`layers are whole, got ${layers}`);
}
