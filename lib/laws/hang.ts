import { inRange } from "../errors.ts";
import { STANDARD_GRAVITY } from "./gravity.ts";

/** Where the laws of a hung beaker hold. The form reads the same object. */
export const HANG_LIMITS = {
  vesselMass: { min: 0.001, max: 10, unit: "kg" },
  contentsMass: { min: 0, max: 50, unit: "kg" },
  vesselDiameter: { min: 0.02, max: 0.5, unit: "m" },
  vesselHeight: { min: 0.02, max: 1, unit: "m" },
  immersion: { min: 0, max: 1, unit: "m" },
  thickness: { min: 0.0003, max: 0.005, unit: "m" },
  density: { min: 700, max: 1500, unit: "kg/m³" },
} as const;

/**
 * The water's push on an upright cylinder.
 *
 * B = ρ g π/4 D² d: as much as the water weighs that would stand in its place.
 *
 * @param bathDensity - kg/m³; 700 to 1500
 * @param vesselDiameter - outside, m; 0.02 to 0.5
 * @param immersion - from the surface down to the flat bottom, m; 0 to 1
 * @returns upwards, N
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Archimedes’ principle. memory
 *
 * @example
 * buoyantForce(997.05, 0.09, 0.06); // 3.732 N
 */
export function buoyantForce(
  bathDensity: number,
  vesselDiameter: number,
  immersion: number,
): number {
  inRange("vesselDiameter", vesselDiameter, HANG_LIMITS.vesselDiameter);
  inRange("immersion", immersion, HANG_LIMITS.immersion);
  return STANDARD_GRAVITY * massPerDepth(bathDensity, vesselDiameter) * immersion;
}

/**
 * Immersion at which a beaker carries itself: it lifts off whatever holds it.
 *
 * d = m/(ρ π/4 D²)
 *
 * @param mass - vessel and contents, kg; 0.001 to 60
 * @param bathDensity - kg/m³; 700 to 1500
 * @param vesselDiameter - outside, m; 0.02 to 0.5
 * @returns m; a beaker that is shorter than this sinks
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Archimedes’ principle. memory
 *
 * @example
 * floatingDepth(0.5, 997.05, 0.09); // 0.0788 m
 */
export function floatingDepth(mass: number, bathDensity: number, vesselDiameter: number): number {
  const { vesselMass, contentsMass } = HANG_LIMITS;
  inRange("vesselDiameter", vesselDiameter, HANG_LIMITS.vesselDiameter);
  inRange("mass", mass, { ...vesselMass, max: vesselMass.max + contentsMass.max });
  return mass / massPerDepth(bathDensity, vesselDiameter);
}

/** An upright beaker as a tube on a flat disc, and what is in it. */
export interface FilledBeaker {
  /** kg */
  readonly vesselMass: number;
  /** outside, m */
  readonly vesselDiameter: number;
  /** m */
  readonly wallThickness: number;
  /** m */
  readonly baseThickness: number;
  /** of the empty vessel's centre of mass above its bottom, m */
  readonly vesselCentre: number;
  /** kg */
  readonly contentsMass: number;
  /** kg/m³ */
  readonly contentsDensity: number;
}

/**
 * Centre of mass of an empty beaker whose wall and base are of one glass.
 *
 * @param vesselDiameter - outside, m; 0.02 to 0.5
 * @param vesselHeight - m; 0.02 to 1
 * @param wallThickness - m; 0.0003 to 0.005
 * @param baseThickness - m; 0.0003 to 0.005
 * @returns above the bottom, m
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks A rolled rim and a spout lift it by a millimetre or two.
 * Source: geometry. computed
 */
export function emptyCentre(
  vesselDiameter: number,
  vesselHeight: number,
  wallThickness: number,
  baseThickness: number,
): number {
  inRange("vesselDiameter", vesselDiameter, HANG_LIMITS.vesselDiameter);
  inRange("vesselHeight", vesselHeight, HANG_LIMITS.vesselHeight);
  const inner = innerDiameter(vesselDiameter, wallThickness);
  inRange("baseThickness", baseThickness, HANG_LIMITS.thickness);
  const base = vesselDiameter ** 2 * baseThickness;
  const wall = (vesselDiameter ** 2 - inner ** 2) * (vesselHeight - baseThickness);
  return (base * (baseThickness / 2) + wall * ((vesselHeight + baseThickness) / 2)) / (base + wall);
}

/**
 * How high the liquid stands above the beaker's bottom, base included.
 *
 * @param beaker - thicknesses 0.0003 to 0.005 m, diameter 0.02 to 0.5 m, contents 0 to 50 kg of 700 to
 * 1500 kg/m³
 * @returns m
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: geometry. computed
 */
export function insideLevel({
  vesselDiameter,
  wallThickness,
  baseThickness,
  contentsMass,
  contentsDensity,
}: Omit<FilledBeaker, "vesselMass" | "vesselCentre">): number {
  inRange("vesselDiameter", vesselDiameter, HANG_LIMITS.vesselDiameter);
  inRange("baseThickness", baseThickness, HANG_LIMITS.thickness);
  inRange("contentsMass", contentsMass, HANG_LIMITS.contentsMass);
  const inner = innerDiameter(vesselDiameter, wallThickness);
  return baseThickness + contentsMass / massPerDepth(contentsDensity, inner);
}

/** A beaker that floats upright by itself, heights above its bottom, m. */
export interface Afloat {
  /** how deep it floats */
  readonly depth: number;
  /** centre of mass */
  readonly centre: number;
  /** what the liquid inside gives away by running to the low side */
  readonly freeSurface: number;
  /** above zero the beaker rights itself when nudged, below zero it falls over */
  readonly metacentricHeight: number;
}

/**
 * Whether a beaker that floats by itself stands up.
 *
 * GM = KB + BM − KG − F, measured from the bottom K: the centre of what it pushes aside, KB = d/2; how far
 * that push wanders over when the beaker leans, BM = (π D⁴/64)/V = D²/(16 d); its centre of mass, KG; and
 * the liquid inside, F = ϱ (π D_i⁴/64)/m.
 *
 * @param beaker - masses, thicknesses and diameters as for the other functions here; centre 0 to 1 m
 * @param bathDensity - kg/m³; 700 to 1500
 * @returns m
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks For small leanings, and for a beaker taller than the depth: a shorter one sinks.
 * Source: statics of ships. memory
 *
 * @example
 * afloat(
 *   {
 *     vesselMass: 0.2, vesselDiameter: 0.09, wallThickness: 0.0013, baseThickness: 0.002,
 *     vesselCentre: 0.05, contentsMass: 0.3, contentsDensity: 1000,
 *   },
 *   997.05,
 * ).metacentricHeight; // 0.0039 m
 */
export function afloat(beaker: FilledBeaker, bathDensity: number): Afloat {
  const { vesselMass, contentsMass, contentsDensity, vesselCentre, vesselDiameter } = beaker;
  inRange("vesselMass", vesselMass, HANG_LIMITS.vesselMass);
  inRange("vesselCentre", vesselCentre, { min: 0, max: HANG_LIMITS.vesselHeight.max, unit: "m" });
  const contentsCentre = (beaker.baseThickness + insideLevel(beaker)) / 2;
  const mass = vesselMass + contentsMass;
  const depth = floatingDepth(mass, bathDensity, vesselDiameter);
  const centre = (vesselMass * vesselCentre + contentsMass * contentsCentre) / mass;
  const inner = innerDiameter(vesselDiameter, beaker.wallThickness);
  // An empty beaker has no liquid to run.
  const freeSurface = contentsMass > 0 ? (contentsDensity * (Math.PI / 64) * inner ** 4) / mass : 0;
  const metacentricHeight = depth / 2 + vesselDiameter ** 2 / (16 * depth) - centre - freeSurface;
  return { depth, centre, freeSurface, metacentricHeight };
}

/** Mass of liquid that a cylinder of this diameter holds or pushes aside for each metre, kg/m. */
function massPerDepth(density: number, diameter: number): number {
  inRange("density", density, HANG_LIMITS.density);
  return density * (Math.PI / 4) * diameter ** 2;
}

function innerDiameter(vesselDiameter: number, wallThickness: number): number {
  inRange("wallThickness", wallThickness, HANG_LIMITS.thickness);
  return vesselDiameter - 2 * wallThickness;
}
