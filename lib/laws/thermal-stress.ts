import { inRange } from "../errors.ts";
import { newtonBracketed } from "../numeric/root.ts";
import { biotNumber } from "./lumped-cooling.ts";
import type { GlassValues } from "../substances/glass.ts";

/** Where the formulas hold. The form reads the same object, so page and function cannot disagree. */
export const THERMAL_STRESS_LIMITS = {
  modulus: { min: 1e9, max: 200e9, unit: "Pa" },
  poissonRatio: { min: 0, max: 0.49, unit: "1" },
  expansion: { min: 1e-8, max: 3e-5, unit: "1/K" },
  conductivity: { min: 0.05, max: 500, unit: "W/(m K)" },
  density: { min: 500, max: 20_000, unit: "kg/m³" },
  specificHeat: { min: 100, max: 5000, unit: "J/(kg K)" },
  /** A step of temperature, K; positive is cooling. */
  step: { min: -1000, max: 1000, unit: "K" },
  stress: { min: 1, max: 20e9, unit: "Pa" },
  attenuation: { min: 1e-5, max: 1, unit: "1" },
  thickness: { min: 2e-4, max: 0.1, unit: "m" },
  /** From the cooled face to the one no heat crosses. */
  length: { min: 1e-4, max: 0.1, unit: "m" },
  biot: { min: 1e-4, max: Infinity, unit: "1" },
  fourier: { min: 0, max: 1e6, unit: "1" },
  position: { min: 0, max: 1, unit: "1" },
  /** Vessels and what is in them, within the range that glass properties are stated for. */
  temperature: { min: -50, max: 300, unit: "°C" },
  /** Share of a step that is still left when the next one comes. */
  left: { min: 0.001, max: 0.2, unit: "1" },
  timeConstant: { min: 1, max: 1e6, unit: "s" },
  steps: { min: 1, max: 50, unit: "1" },
} as const;

type Elastic = Pick<GlassValues, "modulus" | "poissonRatio" | "expansion">;

/**
 * Stress in a surface that is cooled at once while the rest of the wall stays as it was.
 *
 * σ = E α ΔT / (1 − ν): the cold skin wants to shrink by α ΔT both ways along the surface, and the wall
 * does not let it. Nothing that happens to a wall kept from bending makes a larger one; see
 * {@link peakAttenuation} for the share that a real film of liquid reaches.
 *
 * @param glass - its modulus, Pa, Poisson ratio and expansion, 1/K
 * @param step - how far the surface is cooled, K; −1000 to 1000, negative for heating
 * @returns Pa; positive is tension, which opens cracks
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks The glass is elastic, with the same properties throughout, and free of stress before.
 * Source: Timoshenko & Goodier, Theory of Elasticity (1951), chapter 14; Kingery, J. Am. Ceram. Soc. 38
 * (1955) 3. memory
 *
 * @example
 * fullStress(glassValues(GLASSES["borosilicate-3.3"]), 100); // 26.4e6
 */
export function fullStress(glass: Elastic, step: number): number {
  inRange("step", step, THERMAL_STRESS_LIMITS.step);
  return stressPerKelvin(glass) * step;
}

/**
 * Largest sudden step of cooling that keeps to a permissible stress: ΔT = σ (1 − ν) / (ψ E α).
 *
 * @param glass - as {@link fullStress}
 * @param permissible - tension, Pa; 1 to 2e10
 * @param attenuation - ψ, share of the full stress that is reached; 1e-5 to 1, as from
 * {@link peakAttenuation}
 * @returns K. Where it is more than some 300 K no step within the range of the properties reaches the stress
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link fullStress}
 *
 * @example
 * largestStep(glassValues(GLASSES["borosilicate-3.3"]), 7e6, 1); // 26.5 K
 */
export function largestStep(glass: Elastic, permissible: number, attenuation: number): number {
  inRange("stress", permissible, THERMAL_STRESS_LIMITS.stress);
  inRange("attenuation", attenuation, THERMAL_STRESS_LIMITS.attenuation);
  return permissible / (attenuation * stressPerKelvin(glass));
}

/**
 * Hoop tension at the free rim over that far from it, for a steady difference across the wall of a thin
 * cylinder, cold outside: 1 − ν + √((1 − ν²)/3).
 *
 * Far from the rim the wall may not bend, and the moment that keeps it straight is M = E α δ h² / (12 (1 − ν)).
 * A free rim carries no moment: adding −M there bends the shell outwards by M / (2 β² D), with
 * D = E h³ / (12 (1 − ν²)) and β⁴ = 3 (1 − ν²) / (R² h²). That stretches the hoop by √((1 − ν²)/3) times
 * the stress far off, while the moment it takes away had given the outer face ν times that stress.
 *
 * @param poissonRatio - ν; 0 to 0.49
 * @returns 1; 1.37 for glass of ν = 0.2. The 25 % of the books is for ν = 0.3
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks A plain edge: a flared or beaded rim is stiffer, and a chip in it is another matter, `flaw.ts`.
 * Source: Timoshenko & Goodier, Theory of Elasticity (1951), thin cylinder with a free end. memory; derived
 * again as above
 */
export function rimFactor(poissonRatio: number): number {
  inRange("poissonRatio", poissonRatio, THERMAL_STRESS_LIMITS.poissonRatio);
  return 1 - poissonRatio + Math.sqrt((1 - poissonRatio ** 2) / 3);
}

/**
 * Hoop tension at the free rim over that far from it, in the insulated face of a wall whose other face is
 * heated: 1 − ν + 1.54 √((1 − ν²)/3).
 *
 * As {@link rimFactor}, but the bending that the rim sets free is 1.5 times what this face itself bears where
 * the profile is a parabola (small Bi), and 1.535 times at the most (infinite Bi).
 *
 * @param poissonRatio - ν; 0 to 0.49
 * @returns 1; 1.67 for glass of ν = 0.2
 * @throws OutOfRangeError outside that range, NaN included
 * Source: derived as {@link rimFactor}; the 1.5 and 1.535 from the series of {@link wallTemperature}
 */
export function heatedRimFactor(poissonRatio: number): number {
  const straight = 1 - poissonRatio;
  return straight + 1.54 * (rimFactor(poissonRatio) - straight);
}

/**
 * Time that heat takes to diffuse through a wall, L² ρ c / k. Times a Fourier number it is a time in seconds.
 *
 * @param glass - its conductivity, W/(m K), density, kg/m³, and specific heat, J/(kg K)
 * @param length - from the cooled face to the one no heat crosses, m; 0.1 mm to 0.1 m
 * @returns s
 * @throws OutOfRangeError outside those ranges, NaN included
 *
 * @example
 * const wall = characteristicTime(glassValues(GLASSES["borosilicate-3.3"]), 0.0015); // 3.47 s
 * peakAttenuation(1.25).fourier * wall; // 0.60 s to the peak
 */
export function characteristicTime(
  glass: Pick<GlassValues, "conductivity" | "density" | "specificHeat">,
  length: number,
): number {
  for (const property of ["conductivity", "density", "specificHeat"] as const)
    inRange(property, glass[property], THERMAL_STRESS_LIMITS[property]);
  inRange("length", length, THERMAL_STRESS_LIMITS.length);
  return (length ** 2 * glass.density * glass.specificHeat) / glass.conductivity;
}

/**
 * Temperature in a wall after its surroundings have changed: 1 as before, 0 as the new surroundings.
 *
 * The wall starts at one temperature; one face is cooled through a film, no heat crosses the other (an empty
 * vessel, or the middle of a wall cooled on both faces):
 * θ = Σ Cₙ exp(−zₙ² Fo) cos(zₙ x), z tan z = Bi, Cₙ = 4 sin z / (2z + sin 2z).
 * Before Fo = 0.01, where the series is slow, the wall is as good as endless:
 * θ = erf s + exp(−s²) w(s + Bi √Fo), s = (1 − x) / (2 √Fo), w(u) = exp(u²) erfc u.
 *
 * @param biot - h L / k; 1e-4 to infinite
 * @param fourier - time over {@link characteristicTime}; 0 to 1e6
 * @param position - x, 0 at the insulated face, 1 at the cooled one
 * @returns 0 to 1, to within 3e-12
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: Carslaw & Jaeger, Conduction of Heat in Solids (1959), sections 2.7 and 3.11. memory
 */
export function wallTemperature(biot: number, fourier: number, position: number): number {
  inRange("biot", biot, THERMAL_STRESS_LIMITS.biot);
  inRange("fourier", fourier, THERMAL_STRESS_LIMITS.fourier);
  inRange("position", position, THERMAL_STRESS_LIMITS.position);
  if (fourier === 0) return position === 1 && biot === Infinity ? 0 : 1;
  if (fourier >= SHORT)
    return sumAt(
      fourier,
      insulatedModes(biot).map(({ z, size }) => ({ z, size: size * Math.cos(z * position) })),
    );
  const depth = (1 - position) / (2 * Math.sqrt(fourier));
  const film = biot * Math.sqrt(fourier);
  return 1 - Math.exp(-(depth ** 2)) * (scaledErfc(depth) - scaledErfc(depth + film));
}

/**
 * Mean temperature over the wall, in the case and on the scale of {@link wallTemperature}.
 *
 * @param biot - 1e-4 to infinite
 * @param fourier - 0 to 1e6
 * @returns 0 to 1, to within 3e-12; 1 minus it is the share of the heat that has left
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link wallTemperature}
 */
export function meanWallTemperature(biot: number, fourier: number): number {
  inRange("biot", biot, THERMAL_STRESS_LIMITS.biot);
  inRange("fourier", fourier, THERMAL_STRESS_LIMITS.fourier);
  if (fourier === 0) return 1;
  if (fourier >= SHORT)
    return sumAt(
      fourier,
      insulatedModes(biot).map(({ z, size }) => ({ z, size: (size * Math.sin(z)) / z })),
    );
  return 1 - 2 * Math.sqrt(fourier / Math.PI) + (1 - scaledErfc(biot * Math.sqrt(fourier))) / biot;
}

/**
 * Stress in the wall as a share of {@link fullStress}, at one time and place: mean minus local temperature.
 *
 * @param biot - 1e-4 to infinite
 * @param fourier - 0 to 1e6
 * @param position - 0 at the insulated face, 1 at the cooled one
 * @returns −1 to 1; on cooling positive is tension. On heating all signs turn
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Of a wall kept from bending: the mean is what the wall as a whole has shrunk to.
 * Source: as {@link fullStress}
 */
export function stressFraction(biot: number, fourier: number, position: number): number {
  return meanWallTemperature(biot, fourier) - wallTemperature(biot, fourier, position);
}

/** Largest share of the full stress, and when. */
export interface Peak {
  /** ψ, share of the stress of an instant change of the surface. */
  readonly attenuation: number;
  /** Time of the peak over {@link characteristicTime}. */
  readonly fourier: number;
}

/**
 * Largest tension in a suddenly cooled face, no heat crossing the other: ψ = max over Fo of mean − surface.
 *
 * From the exact series of {@link wallTemperature}, or, where the peak comes before some Fo = 0.01, from the
 * endless wall, whose peak lies at √π u w(u) = Bi / (1 + Bi), u = Bi √Fo.
 *
 * @param biot - h L / k, with L the full wall when one face is cooled and half when both are; 1e-4 to
 * infinite, which gives 1 at once
 * @returns ψ to within 1e-10 of itself, and its time: ψ → Bi/3 for small Bi, 1 for large
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link wallTemperature}; the definition, Cheng, J. Am. Rocket Soc. 21 (1951) 147. memory
 *
 * @example
 * peakAttenuation(1.25); // { attenuation: 0.2407, fourier: 0.1729 }
 */
export function peakAttenuation(biot: number): Peak {
  inRange("biot", biot, THERMAL_STRESS_LIMITS.biot);
  if (biot >= EARLY) return earlyPeak(biot);
  return latePeak(
    insulatedModes(biot).map(({ z, size }) => ({
      z,
      size: size * (Math.sin(z) / z - Math.cos(z)),
    })),
  );
}

/**
 * Largest tension in the far face when the near one is suddenly heated: ψ = max over Fo of mean − far face.
 *
 * Hot liquid poured into a cold beaker puts the outside in tension, a little later than the inside would be
 * on the same step down and about half as much. Between two heated faces it is the middle.
 *
 * @param biot - as {@link peakAttenuation}; infinite is allowed
 * @returns ψ to within 1e-10 of itself, and its time: ψ → Bi/6 for small Bi, 0.31 for large
 * @throws OutOfRangeError outside that range, NaN included
 * Source: as {@link wallTemperature}; Lu & Fleck, Acta Mater. 46 (1998) 4755. memory
 */
export function peakFarFace(biot: number): Peak {
  inRange("biot", biot, THERMAL_STRESS_LIMITS.biot);
  return latePeak(
    insulatedModes(biot).map(({ z, size }) => ({ z, size: size * (1 - Math.sin(z) / z) })),
  );
}

/**
 * Largest tension in a suddenly cooled face while the other is held at the old temperature: the worst that
 * hot contents can do.
 *
 * With contents that stay hot the wall does not come to rest at one temperature but with a steady slope,
 * θ = 1 − x Bi / (1 + Bi), whose tension is Bi / (2 (1 + Bi)): half as much again as
 * {@link peakAttenuation} for small Bi, and it lasts. For Bi over 2.2 a peak comes before it:
 * θ = slope + Σ Dₙ exp(−zₙ² Fo) sin(zₙ x), z cot z = −Bi, Dₙ = −4 cos z / (2z − sin 2z).
 *
 * @param biot - h L / k with L the full wall; 1e-4 to infinite
 * @returns ψ to within 1e-9
 * @throws OutOfRangeError outside that range, NaN included
 * @remarks Real contents have a film of their own and cool down, so the tension stays below this.
 * Source: derived as above; series as in Carslaw & Jaeger, section 3.11. memory
 */
export function attenuationHeldHot(biot: number): number {
  inRange("biot", biot, THERMAL_STRESS_LIMITS.biot);
  if (biot >= EARLY) return earlyPeak(biot).attenuation;
  const resistance = 1 / biot;
  const steady = 1 / (2 * (1 + resistance));
  const modes = roots(Math.PI / 2, resistance).map((z) => ({
    z,
    size: ((-4 * Math.cos(z)) / (2 * z - Math.sin(2 * z))) * ((1 - Math.cos(z)) / z - Math.sin(z)),
  }));
  // The slowest mode then approaches the steady stress from below, and no peak comes before.
  if (sumAt(LATE, slopeOf(modes)) >= 0) return steady;
  return steady + latePeak(modes).attenuation;
}

/**
 * The closed form of the textbooks, 1/ψ = 1.5 + 3.25/Bi − 0.5 exp(−16/Bi), to compare with
 * {@link peakAttenuation}.
 *
 * It is 4.8 % low at Bi = 0.1 and 7.7 % low for smaller (unsafe: a wall in air), 2.3 % low at 10, 6 % high at
 * 100.
 *
 * @param biot - 1e-4 to infinite
 * @throws OutOfRangeError outside that range, NaN included
 * Source: Cheng (1951), Kingery (1955), also NACA Report 1170 (1954). memory
 */
export function fittedAttenuation(biot: number): number {
  inRange("biot", biot, THERMAL_STRESS_LIMITS.biot);
  return 1 / (1.5 + 3.25 / biot - 0.5 * Math.exp(-16 / biot));
}

/** One wall and how it is cooled. */
export interface CooledWall {
  readonly glass: GlassValues;
  /** m; 0.2 mm to 0.1 m. The thickest part is the worst, often the corner of the base. */
  readonly thickness: number;
  /** Heat transfer to the surroundings, W/(m² K); 0.1 to infinite. */
  readonly film: number;
  /**
   * What the inner face meets: the vessel is empty, or dipped so that the surroundings wet both faces, or it
   * is full of something that cools with this time constant, s; 1 to 1e6.
   */
  readonly inside: "empty" | "surroundings" | { readonly timeConstant: number };
}

/** One move of a staged cooling. */
export interface CoolingStep {
  /** Surroundings before, °C. */
  readonly from: number;
  /** Surroundings after, °C. */
  readonly to: number;
  /** Least time in them before the next step, s. */
  readonly hold: number;
  /** Bound on the tension, Pa. */
  readonly stress: number;
}

/**
 * A staged cooling: equal steps of the surroundings, each held long enough, so that the tension in the wall
 * stays within the permissible.
 *
 * Temperatures add up, so the stress is the sum of what each step alone would make by now.
 * - **Wall alone**: held until its slowest mode is down to `left` of the step, Fo = ln(C₁/left)/z₁². A step Δ
 *   adds at most ψ Δ, and those before it ψ(Fo), ψ(2 Fo), … which shrink at least as a geometric row of ratio
 *   left/C₁. Together (ψ + ψ(Fo) / (1 − left/C₁)) Δ.
 * - **With contents**: they lag far behind the wall and govern it. Their excess over the surroundings falls by
 *   exp(−t/τ), so the hold is τ ln(1/left), or the wall's own if that is longer. After many steps of Δ the
 *   contents are Δ/(1 − left) warmer than the new surroundings, and the tension is at most
 *   {@link attenuationHeldHot} of that.
 *
 * @param wall - what is cooled
 * @param hot - vessel and contents at the start, °C; −50 to 300
 * @param final - surroundings at the end, °C; −50 to `hot`
 * @param permissible - tension, Pa; 1 to 2e10. For the rim of a vessel with contents, divide by
 * {@link rimFactor} first
 * @param left - share of a step left when the next comes; 0.001 to 0.2
 * @returns one row for each step, in order; none when `final` is `hot`
 * @throws OutOfRangeError outside those ranges, NaN included; and when more than 50 steps would be needed
 * (quantity "steps")
 * @remarks The film is taken as the same in all steps: boiling water takes heat many times faster. The time
 * constant is that of the contents in those surroundings, stirred.
 * Source: superposition of {@link wallTemperature}; derived as above
 *
 * @example
 * const wall = { glass, thickness: 0.0015, film: 1000, inside: { timeConstant: 600 } };
 * stagedCooling(wall, 95, 20, 7e6); // one step: 75 K at Bi = 1.25 is 5.5 MPa
 */
export function stagedCooling(
  wall: CooledWall,
  hot: number,
  final: number,
  permissible: number,
  left = 0.05,
): readonly CoolingStep[] {
  const limits = THERMAL_STRESS_LIMITS;
  inRange("hot", hot, limits.temperature);
  inRange("final", final, { ...limits.temperature, max: hot });
  inRange("stress", permissible, limits.stress);
  inRange("left", left, limits.left);
  const { glass, inside } = wall;
  inRange("thickness", wall.thickness, limits.thickness);
  const length = inside === "surroundings" ? wall.thickness / 2 : wall.thickness;
  const biot = biotNumber(wall.film, length, glass.conductivity);
  inRange("biot", biot, limits.biot);
  const [slowest] = insulatedModes(biot) as [Mode];
  const settled = Math.log(slowest.size / left) / slowest.z ** 2;
  let hold = settled * characteristicTime(glass, length);
  let alone = peakAttenuation(biot).attenuation;
  let among = alone + stressFraction(biot, settled, 1) / (1 - left / slowest.size);
  if (typeof inside === "object") {
    inRange("timeConstant", inside.timeConstant, limits.timeConstant);
    hold = Math.max(hold, inside.timeConstant * Math.log(1 / left));
    alone = attenuationHeldHot(biot);
    among = alone / (1 - left);
  }
  const drop = hot - final;
  if (drop === 0) return [];
  const full = fullStress(glass, drop);
  const single = alone * full <= permissible;
  const needed = single ? 1 : Math.ceil((among * full) / permissible);
  inRange("steps", needed, limits.steps);
  return Array.from({ length: needed }, (_, i) => ({
    from: hot - (drop * i) / needed,
    to: hot - (drop * (i + 1)) / needed,
    hold,
    stress: ((i === 0 ? alone : among) * full) / needed,
  }));
}

/** Pa/K */
function stressPerKelvin({ modulus, poissonRatio, expansion }: Elastic): number {
  inRange("modulus", modulus, THERMAL_STRESS_LIMITS.modulus);
  inRange("poissonRatio", poissonRatio, THERMAL_STRESS_LIMITS.poissonRatio);
  inRange("expansion", expansion, THERMAL_STRESS_LIMITS.expansion);
  return (modulus * expansion) / (1 - poissonRatio);
}

/** A part of the solution that falls as exp(−z² Fo). */
interface Mode {
  readonly z: number;
  readonly size: number;
}

/**
 * Fourier number up to which the wall counts as endless. What comes back from the far face is below
 * erfc(1 / (2 √0.01)) = 2e-12 there, and below exp(−1/0.01) at the cooled face.
 */
const SHORT = 0.01;
/** From there on the mode after these is below exp(−(20 π)² × 0.01) = 7e-18. */
const MODES = 20;
/** From this Bi on the peak in the cooled face comes at about SHORT or before. */
const EARLY = 45;
/** No peak of a wall with Bi ≥ 1e-4 is later: the latest, Fo = ln(12/Bi)/π², comes at 1.2. */
const LATE = 2;

/** The modes of a wall with no heat through its far face, sizes as at the far face. */
function insulatedModes(biot: number): readonly Mode[] {
  return roots(0, 1 / biot).map((z) => ({
    z,
    size: (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z)),
  }));
}

/**
 * Roots of z = φ + n π + arctan(1/(r z)), n = 0, 1, …: z tan z = Bi for φ = 0, z cot z = −Bi for φ = π/2.
 * Written with the resistance r = 1/Bi, so that an infinite Bi is an ordinary case.
 */
function roots(phase: number, resistance: number): readonly number[] {
  return Array.from({ length: MODES }, (_, n) => {
    const start = phase + n * Math.PI;
    // The first is near √Bi when Bi is small and π/2 when it is infinite, and between for others.
    const guess =
      start === 0
        ? Math.PI / Math.sqrt(4 + Math.PI ** 2 * resistance)
        : Math.atan2(1, resistance * start);
    const arc = newtonBracketed(
      (beyond) => {
        const reach = resistance * (start + beyond);
        return [beyond - Math.atan2(1, reach), 1 + resistance / (1 + reach ** 2)];
      },
      0,
      Math.PI / 2,
      0,
      guess,
    );
    return start + arc;
  });
}

function sumAt(fourier: number, modes: readonly Mode[]): number {
  let sum = 0;
  for (const { z, size } of modes) sum += size * Math.exp(-(z ** 2) * fourier);
  return sum;
}

/** The slope of a sum of modes against Fo, as modes. */
function slopeOf(modes: readonly Mode[]): readonly Mode[] {
  return modes.map(({ z, size }) => ({ z, size: -size * z ** 2 }));
}

/** Where a sum of modes is largest, from SHORT on. */
function latePeak(modes: readonly Mode[]): Peak {
  const slope = slopeOf(modes);
  const bend = slopeOf(slope);
  const fourier = newtonBracketed((at) => [sumAt(at, slope), sumAt(at, bend)], SHORT, LATE, 1e-12);
  return { attenuation: sumAt(fourier, modes), fourier };
}

/**
 * Peak of mean − surface in an endless wall, for Bi ≥ EARLY.
 *
 * With m = mean and s = w(u) the surface, dm/dFo = −Bi s and ds/dFo = Bi² s − Bi/√(π Fo), so the peak is
 * where √π u w(u) = Bi / (1 + Bi). With √π w = 1 / (u + rest) that is u² = Bi u rest(u), where u rest is
 * near 1/2.
 */
function earlyPeak(biot: number): Peak {
  if (biot === Infinity) return { attenuation: 1, fourier: 0 };
  let u = Math.sqrt(biot / 2);
  // Each round leaves less than 1/u² of the error, here a twentieth.
  for (let round = 0; round < 12; round++) u = Math.sqrt(biot * (u * fractionRest(u)));
  return {
    attenuation: 1 + 1 / biot - (2 * (u / biot) + 1 / u) / Math.sqrt(Math.PI),
    fourier: (u / biot) ** 2,
  };
}

/**
 * w(u) = exp(u²) erfc u, u ≥ 0, infinite included; to within 2e-14.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 7.1.6 and 7.1.14. memory
 */
function scaledErfc(u: number): number {
  if (u < 2) {
    // exp(u²) erf u = (2/√π) Σ 2ⁿ u^(2n+1) / (2n+1)!!, all terms positive.
    let term = (2 * u) / Math.sqrt(Math.PI);
    let sum = term;
    for (let n = 1; term > 1e-17 * sum; n++) {
      term *= (2 * u ** 2) / (2 * n + 1);
      sum += term;
    }
    return Math.exp(u ** 2) - sum;
  }
  return 1 / (Math.sqrt(Math.PI) * (u + fractionRest(u)));
}

/** The continued fraction (1/2)/(u + (2/2)/(u + (3/2)/(u + …, u ≥ 2, from a depth that is ample at 2. */
function fractionRest(u: number): number {
  let rest = 0;
  for (let k = 60; k > 0; k--) rest = k / 2 / (u + rest);
  return rest;
}
