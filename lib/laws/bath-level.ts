import { inRange } from "../errors.ts";

/** Where the tank laws hold. The form reads the same object, so page and function cannot disagree. */
export const BATH_LEVEL_LIMITS = {
  length: { min: 0.05, max: 2, unit: "m" },
  depth: { min: 0.01, max: 1, unit: "m" },
  diameter: { min: 0.02, max: 0.5, unit: "m" },
  count: { min: 1, max: 1000, unit: "1" },
  clearance: { min: 0, max: 0.2, unit: "m" },
} as const;

/** A tank with straight walls, m inside. */
export interface Tank {
  readonly bathLength: number;
  readonly bathWidth: number;
  readonly bathHeight: number;
}

/** Equal upright cylinders, hung so that each reaches this far below the water as it stands afterwards. */
export interface HungBeakers {
  /** outside, m */
  readonly vesselDiameter: number;
  /** from the water surface, once it has risen, down to the beaker's bottom, m */
  readonly immersion: number;
  readonly count: number;
}

export interface BathLevel {
  /** what the beakers push aside below the water surface, m³ */
  readonly displaced: number;
  /** m */
  readonly levelRise: number;
  /** m */
  readonly newDepth: number;
  /** what runs over the rim, m³ */
  readonly overflow: number;
}

/**
 * Where the water stands once the beakers hang in it.
 *
 * The water keeps its volume: A h₁ − n a d = A h₀ with A the tank's area, a a beaker's, and d measured from
 * the new surface, so that h₁ − h₀ = n a d/A holds without going round in circles. What would stand above
 * the rim has run over.
 *
 * @param tank - length and width 0.05 to 2 m, height 0.01 to 1 m
 * @param waterDepth - without beakers, m; 0.01 to the tank's height
 * @param beakers - diameter from 0.02 m to the tank's smaller side; count at least 1 and no more than fit
 * touching; immersion from 0 to what leaves the bottoms on the tank's floor
 * @returns m and m³; overflow 0 where the rim is high enough
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Rounded corners and a sloping floor make the real tank a little smaller.
 * Source: conservation of volume. computed
 *
 * @example
 * bathLevel(
 *   { bathLength: 0.24, bathWidth: 0.135, bathHeight: 0.1 },
 *   0.068,
 *   { vesselDiameter: 0.105, immersion: 0.06, count: 1 },
 * ).levelRise; // 0.0160 m
 */
export function bathLevel(tank: Tank, waterDepth: number, beakers: HungBeakers): BathLevel {
  const { bathHeight } = tank;
  const max = deepestImmersion(tank, waterDepth, beakers);
  inRange("immersion", beakers.immersion, { min: 0, max, unit: "m" });
  const area = tank.bathLength * tank.bathWidth;
  const taken = shareTaken(tank, beakers);
  const levelRise = Math.min(taken * beakers.immersion, bathHeight - waterDepth);
  const displaced = taken * beakers.immersion * area;
  return {
    displaced,
    levelRise,
    newDepth: waterDepth + levelRise,
    // A difference of equal numbers may fall a hair below nothing.
    overflow: Math.max(displaced - levelRise * area, 0),
  };
}

/**
 * How deep the beakers can hang before their bottoms touch the floor.
 *
 * On the floor the immersion is the depth itself, d = h₀ + n a d/A, so that d = h₀/(1 − n a/A); water that
 * has run over leaves the tank's height.
 *
 * @param tank - length and width 0.05 to 2 m, height 0.01 to 1 m
 * @param waterDepth - without beakers, m; 0.01 to the tank's height
 * @param beakers - diameter and count as for {@link bathLevel}
 * @returns m
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: conservation of volume. computed
 */
export function deepestImmersion(
  tank: Tank,
  waterDepth: number,
  beakers: Omit<HungBeakers, "immersion">,
): number {
  refuseUnlessTheyFit(tank, beakers.vesselDiameter, beakers.count);
  const { bathHeight } = tank;
  inRange("waterDepth", waterDepth, { ...BATH_LEVEL_LIMITS.depth, max: bathHeight });
  return Math.min(bathHeight, waterDepth / (1 - shareTaken(tank, beakers)));
}

/** Beakers in rows and columns. */
export interface Grid {
  readonly along: number;
  readonly across: number;
}

/**
 * The largest grid of beakers in a tank, each this far from the walls and from its neighbours.
 *
 * Along one side n beakers need n D + (n + 1) c, so n = ⌊(side − c)/(D + c)⌋.
 *
 * @param tank - sides 0.05 to 2 m
 * @param vesselDiameter - outside, m; 0.02 to 0.5
 * @param clearance - m; 0 to 0.2
 * @returns how many along the length and across the width; 0 where not even one fits
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Staggered rows can now and then hold one more.
 * Source: geometry. computed
 */
export function largestGrid(tank: Tank, vesselDiameter: number, clearance: number): Grid {
  refuseOddTank(tank);
  inRange("vesselDiameter", vesselDiameter, BATH_LEVEL_LIMITS.diameter);
  inRange("clearance", clearance, BATH_LEVEL_LIMITS.clearance);
  const beside = (side: number): number =>
    // A billionth, because 0.3/0.1 is a hair below three.
    Math.max(Math.floor((side - clearance) / (vesselDiameter + clearance) + 1e-9), 0);
  return { along: beside(tank.bathLength), across: beside(tank.bathWidth) };
}

/** A grid and the gap it leaves. */
export interface SpreadGrid extends Grid {
  /** the narrower of the gaps along and across, m */
  readonly clearance: number;
}

/**
 * The grid that leaves these beakers the most room: gaps to the walls and between neighbours alike.
 *
 * @param tank - sides 0.05 to 2 m
 * @param vesselDiameter - outside, m; from 0.02 to the tank's smaller side
 * @param count - at least 1, and no more than fit touching
 * @returns rows, columns and the narrowest gap
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: geometry. computed
 */
export function roomiestGrid(tank: Tank, vesselDiameter: number, count: number): SpreadGrid {
  refuseUnlessTheyFit(tank, vesselDiameter, count);
  const gap = (side: number, n: number): number => (side - n * vesselDiameter) / (n + 1);
  const most = largestGrid(tank, vesselDiameter, 0).along;
  const grids = Array.from({ length: most }, (_, i): SpreadGrid => {
    const along = i + 1;
    const across = Math.ceil(count / along);
    const clearance = Math.min(gap(tank.bathLength, along), gap(tank.bathWidth, across));
    return { along, across, clearance };
  });
  const best = grids.reduce((a, b) => (b.clearance > a.clearance ? b : a));
  // Beakers that touch may come out a hair closer than that.
  return { ...best, clearance: Math.max(best.clearance, 0) };
}

/**
 * Water to pour into the empty tank so that it stands at this depth once the beakers hang in it.
 *
 * @param tank - length and width 0.05 to 2 m, height 0.01 to 1 m
 * @param newDepth - wanted with the beakers in, m; 0 to the tank's height
 * @param beakers - as for {@link bathLevel}; immersion from 0 to the wanted depth
 * @returns m³
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: conservation of volume, the inverse of {@link bathLevel}. computed
 */
export function waterToFill(tank: Tank, newDepth: number, beakers: HungBeakers): number {
  refuseUnlessTheyFit(tank, beakers.vesselDiameter, beakers.count);
  inRange("newDepth", newDepth, { min: 0, max: tank.bathHeight, unit: "m" });
  inRange("immersion", beakers.immersion, { min: 0, max: newDepth, unit: "m" });
  return (
    tank.bathLength * tank.bathWidth * newDepth -
    beakers.count * crossSection(beakers.vesselDiameter) * beakers.immersion
  );
}

/** Share of the tank's area that the beakers take; below 1, for they are round. */
function shareTaken(tank: Tank, beakers: Omit<HungBeakers, "immersion">): number {
  const area = tank.bathLength * tank.bathWidth;
  return (beakers.count * crossSection(beakers.vesselDiameter)) / area;
}

function crossSection(diameter: number): number {
  return (Math.PI / 4) * diameter ** 2;
}

function refuseOddTank({ bathLength, bathWidth, bathHeight }: Tank): void {
  inRange("bathLength", bathLength, BATH_LEVEL_LIMITS.length);
  inRange("bathWidth", bathWidth, BATH_LEVEL_LIMITS.length);
  inRange("bathHeight", bathHeight, BATH_LEVEL_LIMITS.depth);
}

function refuseUnlessTheyFit(tank: Tank, vesselDiameter: number, count: number): void {
  refuseOddTank(tank);
  const { diameter, count: counts } = BATH_LEVEL_LIMITS;
  inRange("vesselDiameter", vesselDiameter, {
    ...diameter,
    max: Math.min(diameter.max, tank.bathLength, tank.bathWidth),
  });
  const { along, across } = largestGrid(tank, vesselDiameter, 0);
  inRange("count", count, { ...counts, max: along * across });
}
