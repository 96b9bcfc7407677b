import { biotNumber } from "../laws/lumped-cooling.ts";
import {
  attenuationHeldHot,
  characteristicTime,
  fittedAttenuation,
  fullStress,
  largestStep,
  peakAttenuation,
  peakFarFace,
  heatedRimFactor,
  rimFactor,
  stressFraction,
  type Peak,
} from "../laws/thermal-stress.ts";
import { GLASSES, glassValues, type GlassValues } from "../substances/glass.ts";
import {
  amount,
  asResult,
  defineCalculation,
  phrase,
  type Banded,
  type InputValues,
  type Result,
} from "./calculation.ts";
import { wallThickness } from "./quantities/bath.ts";
import {
  conductivity,
  CONDUCTIVITY,
  cooledFaces,
  elasticModulus,
  expansion,
  EXPANSION,
  glass,
  glassDensity,
  glassSpecificHeat,
  heatTransferCoefficient,
  MODULUS,
  permissibleStress,
  poissonRatio,
  temperatureStep,
} from "./quantities/glass.ts";
import { COUNT, LENGTH, RISE, SHARE, STRESS, TIME } from "./quantities/kinds.ts";

const inputs = {
  glass,
  temperatureStep,
  wallThickness,
  heatTransferCoefficient,
  permissibleStress,
  cooledFaces,
  elasticModulus,
  poissonRatio,
  expansion,
  conductivity,
  glassDensity,
  glassSpecificHeat,
} as const;

type Given = InputValues<typeof inputs>;

/** What the choice of a glass needs of the inputs. */
type GlassGiven = Pick<
  Given,
  | "glass"
  | "elasticModulus"
  | "poissonRatio"
  | "expansion"
  | "conductivity"
  | "glassDensity"
  | "glassSpecificHeat"
>;

const tension: Omit<Result, "label" | "symbol"> = { ...STRESS, byFactor: true };
const step: Omit<Result, "label" | "symbol"> = {
  ...RISE,
  digits: 3,
  byFactor: true,
  bounds: { min: 0 },
};
const share: Omit<Result, "label" | "symbol"> = {
  ...COUNT,
  byFactor: true,
  bounds: { min: 0, max: 1 },
};

/** Pa: less than this is the rounding of no step at all. */
const NO_TENSION = 1;

/** Where ψ is printed beside the textbooks’ closed form. */
const COMPARED = [0.01, 0.1, 0.5, 1, 2, 5, 10, 20, 100, 1000];

export const thermalStress = defineCalculation({
  id: "thermal-stress",
  title: "A sudden step of temperature",
  summary: "How hard a step of temperature pulls at a wall of glass, and how large a step may be",
  inputs,
  results: {
    stress: {
      ...tension,
      label: "Stress in the face that meets the step",
      symbol: String.raw`\sigma_\mathrm{s}`,
      hint: "Above zero it is tension, which opens flaws; below zero compression",
    },
    farFaceStress: {
      ...tension,
      label: "Stress at the other face",
      symbol: String.raw`\sigma_\mathrm{f}`,
      hint: "In the middle of the wall where the step reaches both faces",
    },
    rimStress: {
      ...tension,
      label: "The same face at a free rim",
      symbol: String.raw`\sigma_\mathrm{rim}`,
      hint: "If the step reaches the rim",
    },
    largestTension: {
      ...tension,
      label: "Largest tension, the rim included",
      symbol: String.raw`\sigma_\mathrm{max}`,
      bounds: { min: 0 },
    },
    safetyFactor: {
      ...COUNT,
      digits: 2,
      label: "Allowed over the largest tension, away from the rim",
      symbol: "S",
      hint: "“None”: there is no tension",
      byFactor: true,
      bounds: { min: 0 },
    },
    largestStep: {
      ...step,
      label: "Largest step down, away from the rim",
      symbol: String.raw`\Delta T_\mathrm{p}`,
      hint: "Above some 300 K: no step at a bench reaches it",
    },
    largestStepAtRim: {
      ...step,
      label: "Largest step down, at a free rim",
      symbol: String.raw`\Delta T_\mathrm{rim}`,
    },
    timeOfPeak: {
      ...TIME,
      units: ["s", "min"],
      digits: 2,
      label: "Time to the peak in the face that meets the step",
      symbol: String.raw`t_\mathrm{p}`,
      hint: "“None”: with contents that keep the other face warm, it stays",
      byFactor: true,
      bounds: { min: 0 },
    },
    fullStress: {
      ...STRESS,
      label: "Stress if the face changed at once",
      symbol: String.raw`\sigma_\infty`,
    },
    biot: {
      ...COUNT,
      label: "Biot number",
      symbol: String.raw`\mathrm{Bi}`,
      hint: "“None” where heat transfer is infinite",
      byFactor: true,
      bounds: { min: 0 },
    },
    attenuation: {
      ...share,
      label: "Share of that stress which is reached",
      symbol: String.raw`\psi`,
    },
    farAttenuation: {
      ...share,
      label: "Share reached at the other face",
      symbol: String.raw`\psi_\mathrm{f}`,
      minor: true,
    },
    wallTension: {
      ...tension,
      label: "Largest tension away from the rim",
      symbol: String.raw`\sigma_+`,
      bounds: { min: 0 },
      minor: true,
    },
    rimFactor: {
      ...COUNT,
      label: "Rim over wall",
      symbol: String.raw`\kappa`,
      minor: true,
    },
    farRimFactor: {
      ...COUNT,
      label: "Rim over wall, at the other face",
      symbol: String.raw`\kappa_\mathrm{f}`,
      minor: true,
    },
    conductionLength: {
      ...LENGTH,
      label: "Way of the heat through the glass",
      symbol: "L",
      minor: true,
    },
    diffusionTime: {
      ...TIME,
      units: ["s", "min"],
      label: "Time in which heat crosses the wall",
      symbol: String.raw`t_\mathrm{d}`,
      minor: true,
    },
    peakFourier: {
      ...COUNT,
      label: "Share of that time to the peak",
      symbol: String.raw`\mathrm{Fo}`,
      minor: true,
    },
    modulusInUse: asResult(elasticModulus, {
      ...MODULUS,
      label: "Young’s modulus in use",
      minor: true,
    }),
    poissonRatioInUse: asResult(poissonRatio, { label: "Poisson’s ratio in use", minor: true }),
    expansionInUse: asResult(expansion, { ...EXPANSION, label: "Expansion in use", minor: true }),
    conductivityInUse: asResult(conductivity, {
      ...CONDUCTIVITY,
      label: "Conductivity in use",
      minor: true,
    }),
    densityInUse: asResult(glassDensity, { label: "Density in use", minor: true }),
    specificHeatInUse: asResult(glassSpecificHeat, {
      label: "Specific heat in use",
      minor: true,
    }),
  },
  blame: { biot: "heatTransferCoefficient" },
  compute: (given) => {
    const { mild, middle, severe } = glassRange(given);
    const at = stressed(middle, given);
    // Every result moves one way with each property, so the ends of the properties give the ends of it.
    const ends = mild === severe ? [] : [stressed(mild, given), stressed(severe, given)];
    return Object.fromEntries(
      Object.entries(at).map(([name, value]) => {
        if (value === null) return [name, null];
        const all = [value, ...ends.map((end) => end[name as keyof Stressed] ?? value)];
        return [name, { value, low: Math.min(...all), high: Math.max(...all) }];
      }),
    ) as Readonly<Record<keyof Stressed, Banded | null>>;
  },
  steps: [
    {
      result: "fullStress",
      tex: (slot) =>
        String.raw`\frac{${slot("modulusInUse")}\by ${slot("expansionInUse")}\by ${slot("temperatureStep")}}{1 - ${slot("poissonRatioInUse")}}`,
    },
    {
      result: "biot",
      tex: (slot) =>
        String.raw`\frac{${slot("heatTransferCoefficient")}\by ${slot("conductionLength")}}{${slot("conductivityInUse")}}`,
    },
    {
      result: "stress",
      tex: (slot) => String.raw`${slot("attenuation")}\by ${slot("fullStress")}`,
    },
    {
      result: "farFaceStress",
      tex: (slot) => String.raw`-${slot("farAttenuation")}\by ${slot("fullStress")}`,
    },
    {
      result: "rimFactor",
      tex: (slot) =>
        String.raw`1 - ${slot("poissonRatioInUse")} + \sqrt{\frac{1 - ${slot("poissonRatioInUse")}^2}{3}}`,
    },
    {
      result: "rimStress",
      tex: (slot) => String.raw`${slot("rimFactor")}\by ${slot("stress")}`,
    },
    {
      result: "largestTension",
      tex: (slot) =>
        String.raw`\max\left(${slot("rimStress")},\; ${slot("farRimFactor")}\by\wrap{${slot("farFaceStress")}}\right)`,
    },
    {
      result: "safetyFactor",
      tex: (slot) => String.raw`\frac{${slot("permissibleStress")}}{${slot("wallTension")}}`,
    },
    {
      result: "largestStep",
      tex: (slot) =>
        String.raw`\frac{${slot("permissibleStress")}\by\left(1 - ${slot("poissonRatioInUse")}\right)}{${slot("attenuation")}\by ${slot("modulusInUse")}\by ${slot("expansionInUse")}}`,
    },
    {
      result: "largestStepAtRim",
      tex: (slot) => String.raw`\frac{${slot("largestStep")}}{${slot("rimFactor")}}`,
    },
    {
      result: "diffusionTime",
      tex: (slot) =>
        String.raw`\frac{\wrap{${slot("conductionLength")}}^2\by ${slot("densityInUse")}\by ${slot("specificHeatInUse")}}{${slot("conductivityInUse")}}`,
    },
    {
      result: "timeOfPeak",
      tex: (slot) => String.raw`${slot("peakFourier")}\by ${slot("diffusionTime")}`,
    },
  ],
  figures: [
    {
      id: "through-wall",
      title: "Stress through the wall",
      caption:
        "Stress at its peak, from the face that heat does not cross, at the left, to the face that meets your step, at the right. Above zero is tension: cooled, it is the face itself that is pulled; heated, the other one.",
      data: (given) => {
        const { middle } = glassRange(given);
        const { biot } = wallOf(middle, given);
        const full = fullStress(middle, Math.abs(given.temperatureStep));
        const across = (stress: number, { fourier }: Peak): [number, number][] => {
          // An instant change has its peak at no time at all; a thousandth of the way is near enough to draw.
          const at = Math.max(fourier, 1e-3);
          return Array.from({ length: 25 }, (_, i) => {
            const x = 1 - ((24 - i) / 24) ** 2;
            return [x, stress * stressFraction(biot, at, x)];
          });
        };
        return {
          x: { label: "Way through the glass", of: SHARE, domain: [0, 1] },
          y: { label: "Stress", of: STRESS },
          lines: [
            { label: "cooled", points: across(full, peakAttenuation(biot)) },
            { label: "heated", points: across(-full, peakFarFace(biot)), dashed: true },
          ],
        };
      },
    },
    {
      id: "attenuation",
      title: "Share of the full stress",
      caption:
        "The share ψ against the wall’s part in the whole resistance to heat, Bi/(1 + Bi): from still air at the left to an instant change at the right. Dashed: the closed form of the textbooks.",
      data: (given) => {
        const { biot } = wallOf(glassRange(given).middle, given);
        const places = Array.from({ length: 40 }, (_, i) => ((i + 0.5) / 40) ** 1.2);
        const line = (of: (biot: number) => number): [number, number][] =>
          places.map((x) => [x, of(x / (1 - x))]);
        return {
          x: { label: "Wall’s part of the resistance", of: SHARE, domain: [0, 1] },
          y: { label: "Share of the full stress", of: SHARE, domain: [0, 1] },
          lines: [
            { label: "exact series", points: line((bi) => peakAttenuation(bi).attenuation) },
            { label: "closed form", points: line(fittedAttenuation), dashed: true },
          ],
          marks: [{ x: partOf(biot), y: peakAttenuation(biot).attenuation, label: "yours" }],
        };
      },
    },
    {
      id: "fit-error",
      title: "The closed form against the series",
      caption:
        "How far the textbooks’ closed form is from the exact series. Below zero it promises less stress than there is: in air and still water, and again around Bi = 10.",
      data: () => ({
        x: { label: "Wall’s part of the resistance", of: SHARE, domain: [0, 1] },
        y: { label: "Closed form too high by", of: SHARE },
        lines: [
          {
            label: "closed form",
            points: Array.from({ length: 60 }, (_, i) => (i + 0.5) / 60.5).map((x) => [
              x,
              fitError(x / (1 - x)),
            ]),
          },
        ],
      }),
    },
    {
      id: "step-by-film",
      title: "One glass, many allowances",
      caption:
        "Largest step down at the rim for your glass and wall, by how readily the new surroundings take heat. The same beaker has all of these.",
      data: (_, run) => ({
        x: { label: "Largest step at the rim", of: { ...RISE, digits: 3 } },
        bars: [
          { label: "standing water, 500", h: 500 },
          { label: "dipped in water, 1000", h: 1000 },
          { label: "moving water, 5000", h: 5000 },
          { label: "water jet, 20 000", h: 20_000 },
          { label: "at once", h: heatTransferCoefficient.limits.max },
        ].flatMap(({ label, h }) => {
          const value = run({ heatTransferCoefficient: h })?.["largestStepAtRim"]?.value;
          return value === undefined ? [] : [{ label, value }];
        }),
      }),
    },
  ],
  tables: [
    {
      id: "fit",
      title: "Exact series and closed form",
      columns: [
        { name: "biot", label: "Biot number", ...COUNT, digits: 4 },
        { name: "exact", label: "ψ, exact", ...COUNT, digits: 4 },
        { name: "fit", label: "ψ, closed form", ...COUNT, digits: 4 },
        { name: "error", label: "Closed form too high by", ...SHARE, digits: 2 },
      ],
      rows: () =>
        COMPARED.map((biot) => [
          biot,
          peakAttenuation(biot).attenuation,
          fittedAttenuation(biot),
          fitError(biot),
        ]),
    },
  ],
  cautions: [
    {
      caution: "glass",
      when: ({ permissibleStress: most }, { largestTension }) =>
        (largestTension?.value ?? 0) > most,
      say: ({ permissibleStress: most, temperatureStep: step }, { largestTension }) =>
        phrase`A step of ${amount(Math.abs(step), temperatureStep)} may pull at a rim with ${amount(largestTension?.value ?? 0, STRESS)}, more than the ${amount(most, permissibleStress)} that you allow. Take it in smaller steps, or let it stand in air first.`,
    },
  ],
  sources: [
    "timoshenko-goodier-1951",
    "carslaw-jaeger-1959",
    "cheng-1951",
    "lu-fleck-1998",
    "borosilicate-33-sheets",
    "en-1595",
    "cengel-2003",
  ],
});

/** Bi/(1 + Bi). */
function partOf(biot: number): number {
  return 1 / (1 + 1 / biot);
}

function fitError(biot: number): number {
  return fittedAttenuation(biot) / peakAttenuation(biot).attenuation - 1;
}

/** The film as the laws take it: the top of the field’s range stands for infinite. */
export function filmOf(given: number): number {
  return given >= heatTransferCoefficient.limits.max ? Infinity : given;
}

/** A glass, and that glass with every property at the end of its spread that stresses it less, or more. */
export function glassRange(given: GlassGiven): {
  readonly mild: GlassValues;
  readonly middle: GlassValues;
  readonly severe: GlassValues;
} {
  if (given.glass === "own") {
    const own = {
      modulus: given.elasticModulus,
      poissonRatio: given.poissonRatio,
      expansion: given.expansion,
      conductivity: given.conductivity,
      density: given.glassDensity,
      specificHeat: given.glassSpecificHeat,
    };
    return { mild: own, middle: own, severe: own };
  }
  const of = GLASSES[given.glass];
  return {
    mild: {
      modulus: of.modulus.low,
      poissonRatio: of.poissonRatio.low,
      expansion: of.expansion.low,
      conductivity: of.conductivity.high,
      density: of.density.low,
      specificHeat: of.specificHeat.low,
    },
    middle: glassValues(of),
    severe: {
      modulus: of.modulus.high,
      poissonRatio: of.poissonRatio.high,
      expansion: of.expansion.high,
      conductivity: of.conductivity.low,
      density: of.density.high,
      specificHeat: of.specificHeat.high,
    },
  };
}

function wallOf(
  of: GlassValues,
  given: Pick<Given, "wallThickness" | "heatTransferCoefficient" | "cooledFaces">,
): { readonly length: number; readonly biot: number } {
  const length = given.wallThickness / (given.cooledFaces === "both" ? 2 : 1);
  return {
    length,
    biot: biotNumber(filmOf(given.heatTransferCoefficient), length, of.conductivity),
  };
}

type Stressed = ReturnType<typeof stressed>;

function stressed(of: GlassValues, given: Given) {
  const { permissibleStress: most, temperatureStep: step } = given;
  const { length, biot } = wallOf(of, given);
  const full = fullStress(of, step);
  const face = facesOf(biot, given.cooledFaces);
  const diffusionTime = characteristicTime(of, length);
  const stress = face.near * full;
  const farFaceStress = 0 - face.far * full;
  const wallTension = Math.max(stress, farFaceStress);
  const factor = rimFactor(of.poissonRatio);
  const rimStress = factor * stress;
  const farFactor = given.cooledFaces === "one" ? heatedRimFactor(of.poissonRatio) : factor;
  const allowed = largestStep(of, most, face.near);
  return {
    stress,
    farFaceStress,
    rimStress,
    largestTension: Math.max(rimStress, farFactor * farFaceStress),
    safetyFactor: wallTension > NO_TENSION ? most / wallTension : null,
    largestStep: allowed,
    largestStepAtRim: allowed / factor,
    timeOfPeak: face.fourier === null ? null : face.fourier * diffusionTime,
    fullStress: full,
    biot: biot === Infinity ? null : biot,
    attenuation: face.near,
    farAttenuation: face.far,
    wallTension,
    rimFactor: factor,
    farRimFactor: farFactor,
    conductionLength: length,
    diffusionTime,
    peakFourier: face.fourier,
    modulusInUse: of.modulus,
    poissonRatioInUse: of.poissonRatio,
    expansionInUse: of.expansion,
    conductivityInUse: of.conductivity,
    densityInUse: of.density,
    specificHeatInUse: of.specificHeat,
  };
}

/** Shares of the full stress in the two faces, and the Fourier number of the peak where it passes. */
function facesOf(
  biot: number,
  faces: Given["cooledFaces"],
): { readonly near: number; readonly far: number; readonly fourier: number | null } {
  if (faces === "full")
    // The far face only ever gains on the mean until the slope is steady: half of the wall’s own drop.
    return { near: attenuationHeldHot(biot), far: partOf(biot) / 2, fourier: null };
  const near = peakAttenuation(biot);
  return { near: near.attenuation, far: peakFarFace(biot).attenuation, fourier: near.fourier };
}
