import { EXPLOSIVE_LIMITS } from "../laws/flash-point.ts";
import { diffusivity, DIFFUSIVITY_SPREAD } from "../substances/diffusivity.ts";
import {
  activityCoefficients,
  boilingPoint,
  solventShare,
  totalPressure,
  TOTAL_PRESSURE_SPREAD,
  VAPOUR_LIMITS,
} from "../substances/ethanol-water-vapour.ts";
import {
  massFraction as massFractionOf,
  moleFraction,
  strength,
} from "../substances/ethanol-water.ts";
import {
  ethanolSaturationPressure,
  ETHANOL_PRESSURE_SPREAD,
} from "../substances/vapour-pressure.ts";
import { saturationPressure } from "../substances/water.ts";
import { defineCalculation, type Result } from "./calculation.ts";
import {
  ascorbicAcidMass,
  solventMassFraction,
  spiritMass,
  waterMass,
} from "./quantities/batch.ts";
import { COUNT, DIFFUSIVITY, PRESSURE, SHARE, STRENGTH, TEMPERATURE } from "./quantities/kinds.ts";
import { airPressure, stageTemperature } from "./quantities/vapour.ts";
import { within } from "./within.ts";

const pressure: Omit<Result, "label" | "symbol"> = { ...PRESSURE, bounds: { min: 0 } };
const share: Omit<Result, "label" | "symbol"> = { ...SHARE, digits: 3, bounds: { min: 0, max: 1 } };
const coefficient: Omit<Result, "label" | "symbol"> = { ...COUNT, digits: 4, bounds: { min: 0 } };

/** kg/mol. Source: United States Pharmacopeia 32, Ascorbic Acid. seen */
const ACID_MOLAR_MASS = 0.17612;

/** Half-width of the vapour's composition, and of the boiling point in K, against measurements. */
const COMPOSITION_SPREAD = 0.03;
const BOILING_SPREAD = 0.7;

/** °C: as far as the drawing goes. */
const WARMEST_DRAWN = 60;

export const vapourPressure = defineCalculation({
  id: "vapour-pressure",
  title: "Vapour over the mixture",
  summary: "How hard alcohol and water each push out of the liquid, and what the air over it holds",
  inputs: {
    solventMassFraction,
    temperature: stageTemperature,
    pressure: airPressure,
    waterMass,
    spiritMass,
    ascorbicAcidMass,
  },
  links: {
    solventMassFraction: "recipe.solventMassFraction",
    waterMass: "recipe.waterMass",
    spiritMass: "recipe.spiritMass",
    ascorbicAcidMass: "recipe.ascorbicAcidMass",
  },
  decided: ["waterMass", "spiritMass", "ascorbicAcidMass"],
  results: {
    ethanolPressure: {
      ...pressure,
      label: "Vapour of ethanol",
      symbol: String.raw`p_\mathrm{E}`,
      hint: "Its part of the pressure, in balance with the liquid",
    },
    waterPressure: {
      ...pressure,
      label: "Vapour of water",
      symbol: String.raw`p_\mathrm{W}`,
    },
    totalPressure: { ...pressure, label: "Both vapours together", symbol: "p" },
    vapourMoleFraction: {
      ...share,
      label: "Ethanol among the vapour’s molecules",
      symbol: "y",
      hint: "Air left out",
    },
    saturatedConcentration: {
      ...share,
      label: "Ethanol in the air right over the liquid",
      symbol: String.raw`c_\mathrm{s}`,
      hint: "By volume, and in a closed headspace. Air burns from 3.3 to 19 %. “None”: it boils, and there is no air",
    },
    boilingPoint: {
      ...TEMPERATURE,
      label: "Boiling begins at",
      symbol: String.raw`T_\mathrm{b}`,
      hint: "“None”: above 100 °C, in dense air",
    },
    ethanolActivity: {
      ...coefficient,
      label: "Activity coefficient of ethanol",
      symbol: String.raw`\gamma_\mathrm{E}`,
    },
    waterActivity: {
      ...coefficient,
      label: "Activity coefficient of water",
      symbol: String.raw`\gamma_\mathrm{W}`,
    },
    dissolvedEffect: {
      ...share,
      digits: 2,
      label: "Dissolved acid lowers both by about",
      symbol: String.raw`\delta`,
      hint: "If it only takes up room; counted in the bands, not in the values. “None”: more acid than dissolves",
    },
    moleFraction: {
      ...share,
      label: "Ethanol among the liquid’s molecules",
      symbol: "x",
      minor: true,
    },
    relativeVolatility: {
      ...coefficient,
      label: "How many times richer the vapour is, ratio to ratio",
      symbol: String.raw`\alpha`,
      minor: true,
    },
    pureEthanolPressure: {
      ...pressure,
      label: "Vapour over pure ethanol",
      symbol: String.raw`P_\mathrm{E}`,
      minor: true,
    },
    pureWaterPressure: {
      ...pressure,
      label: "Vapour over pure water",
      symbol: String.raw`P_\mathrm{W}`,
      minor: true,
    },
    ethanolDiffusivity: {
      ...DIFFUSIVITY,
      label: "Diffusion coefficient of ethanol in air",
      symbol: "D",
      minor: true,
      bounds: { min: 0 },
    },
  },
  compute: (inputs) => {
    const { solventMassFraction: w, temperature: t, pressure: air } = inputs;
    const x = moleFraction(w);
    const activity = activityCoefficients(x, t);
    const pure = { ethanol: ethanolSaturationPressure(t), water: saturationPressure(t) };
    const ethanol = x * activity.ethanol * pure.ethanol;
    const water = (1 - x) * activity.water * pure.water;
    const total = ethanol + water;
    const dissolved = dissolvedEffect(inputs);
    const [above, aboveWater] = [ethanolSpread(x), mixtureSpread(x)];
    const below = above + overrated(w) + (dissolved ?? 0);
    const y = ethanol / total;
    const boils = boilsAt(x, air);
    return {
      ethanolPressure: within(ethanol, above, below),
      waterPressure: within(water, aboveWater, aboveWater + (dissolved ?? 0)),
      totalPressure: within(total, TOTAL_PRESSURE_SPREAD, TOTAL_PRESSURE_SPREAD + (dissolved ?? 0)),
      vapourMoleFraction: {
        value: y,
        low: y - COMPOSITION_SPREAD * Math.min(1, 10 * y),
        high: y + COMPOSITION_SPREAD * Math.min(1, 10 * y),
      },
      saturatedConcentration: total < air ? within(ethanol / air, above, below) : null,
      boilingPoint: boils === null ? null : within(boils, BOILING_SPREAD / boils),
      ethanolActivity: within(
        activity.ethanol,
        mixtureSpread(1 - x),
        mixtureSpread(1 - x) + overrated(w),
      ),
      waterActivity: within(activity.water, mixtureSpread(x)),
      dissolvedEffect: dissolved,
      moleFraction: x,
      relativeVolatility: (activity.ethanol * pure.ethanol) / (activity.water * pure.water),
      pureEthanolPressure: within(pure.ethanol, ETHANOL_PRESSURE_SPREAD),
      pureWaterPressure: pure.water,
      ethanolDiffusivity: within(diffusivity("ethanol", t, air), DIFFUSIVITY_SPREAD),
    };
  },
  steps: [
    {
      result: "moleFraction",
      tex: (slot) =>
        String.raw`\frac{${slot("solventMassFraction")}/46.07}{${slot("solventMassFraction")}/46.07 + (1 - ${slot("solventMassFraction")})/18.02}`,
    },
    {
      result: "ethanolPressure",
      tex: (slot) =>
        String.raw`${slot("moleFraction")}\by ${slot("ethanolActivity")}\by ${slot("pureEthanolPressure")}`,
    },
    {
      result: "waterPressure",
      tex: (slot) =>
        String.raw`(1 - ${slot("moleFraction")})\by ${slot("waterActivity")}\by ${slot("pureWaterPressure")}`,
    },
    {
      result: "totalPressure",
      tex: (slot) => String.raw`${slot("ethanolPressure")} + ${slot("waterPressure")}`,
    },
    {
      result: "vapourMoleFraction",
      tex: (slot) => String.raw`\frac{${slot("ethanolPressure")}}{${slot("totalPressure")}}`,
    },
    {
      result: "relativeVolatility",
      tex: (slot) =>
        String.raw`\frac{${slot("ethanolActivity")}\by ${slot("pureEthanolPressure")}}{${slot("waterActivity")}\by ${slot("pureWaterPressure")}}`,
    },
    {
      result: "saturatedConcentration",
      tex: (slot) => String.raw`\frac{${slot("ethanolPressure")}}{${slot("pressure")}}`,
    },
  ],
  figures: [
    {
      id: "partial-pressures",
      title: "Who pushes how hard",
      caption:
        "The pressure of each vapour over mixtures of every strength, at your temperature. The line of ethanol starts steep: weak mixtures push harder than their share.",
      data: ({ solventMassFraction: w, temperature: t }, run) => {
        const points = strengths().map(
          (s) => [s, run({ solventMassFraction: massFractionOf(s) })] as const,
        );
        const line = (name: string): [number, number][] =>
          points.flatMap(([s, values]) => {
            const y = values?.[name]?.value;
            return y === undefined ? [] : [[s, y]];
          });
        const here = run({})?.["ethanolPressure"]?.value;
        return {
          x: { label: "Strength", of: STRENGTH, domain: [0, 1] },
          y: {
            label: "Pressure",
            of: pressure,
            domain: [0, 1.1 * Math.max(...[0, 1].map((x) => totalPressure(x, t)))],
          },
          lines: [
            { label: "ethanol", points: line("ethanolPressure") },
            { label: "water", points: line("waterPressure") },
            { label: "both", points: line("totalPressure"), dashed: true },
          ],
          marks: here === undefined ? [] : [{ x: strength(w), y: here, label: "yours" }],
        };
      },
    },
    {
      id: "saturated-air",
      title: "The air right over the liquid, against its temperature",
      caption:
        "Ethanol in air that has come to balance with your mixture, with the band of the formulas. Between the two rules that air can burn; warmth takes a weak mixture there.",
      data: ({ temperature: t }, run) => {
        const top = Math.max(WARMEST_DRAWN, t);
        const points = Array.from({ length: 25 }, (_, i) => (top * i) / 24).flatMap((at) => {
          const c = run({ temperature: at })?.["saturatedConcentration"];
          return c ? [[at, c] as const] : [];
        });
        const here = run({})?.["saturatedConcentration"]?.value;
        return {
          x: { label: "Temperature of the liquid", of: stageTemperature },
          y: { label: "Ethanol in the air, by volume", of: SHARE },
          lines: [{ label: "your mixture", points: points.map(([at, { value }]) => [at, value]) }],
          bands: [{ points: points.map(([at, { low, high }]) => [at, low, high]) }],
          rules: [
            { y: EXPLOSIVE_LIMITS.lower, label: "lower limit" },
            { y: EXPLOSIVE_LIMITS.upper, label: "upper limit" },
          ],
          marks: here === undefined ? [] : [{ x: t, y: here, label: "yours" }],
        };
      },
    },
    {
      id: "richer-vapour",
      title: "The vapour is richer than the liquid",
      caption:
        "Ethanol among the molecules of the vapour against that of the liquid, at your temperature. Where the line lies above the dashed one, the vapour is the richer; where they meet, boiling does not change the strength.",
      data: ({ solventMassFraction: w }, run) => {
        const points = strengths().flatMap((s): [number, number][] => {
          const values = run({ solventMassFraction: massFractionOf(s) });
          const [x, y] = [values?.["moleFraction"]?.value, values?.["vapourMoleFraction"]?.value];
          return x === undefined || y === undefined ? [] : [[x, y]];
        });
        const here = run({})?.["vapourMoleFraction"]?.value;
        return {
          x: { label: "Ethanol in the liquid, by molecules", of: SHARE, domain: [0, 1] },
          y: { label: "Ethanol in the vapour, by molecules", of: SHARE, domain: [0, 1] },
          lines: [
            { label: "vapour", points },
            {
              label: "as in the liquid",
              points: [
                [0, 0],
                [1, 1],
              ],
              dashed: true,
            },
          ],
          marks: here === undefined ? [] : [{ x: moleFraction(w), y: here, label: "yours" }],
        };
      },
    },
  ],
  sources: [
    "poling-2001",
    "renon-prausnitz-1968",
    "wagner-pruss-1993",
    "fuller-1966",
    "sander-2015",
  ],
});

/** Strengths to draw at, closer together where a little of either liquid does most. */
function strengths(): readonly number[] {
  return Array.from({ length: 41 }, (_, i) => (1 - Math.cos((Math.PI * i) / 40)) / 2);
}

/** °C, null where even 100 °C does not make it boil. */
function boilsAt(x: number, pressure: number): number | null {
  const most = totalPressure(x, VAPOUR_LIMITS.temperature.max);
  return pressure > most ? null : boilingPoint(x, pressure);
}

/**
 * Relative half-width of an activity coefficient, by the share of the *other* molecules: sets of constants
 * and measured vapours differ by up to 5 %, and by nothing for a pure liquid.
 */
function mixtureSpread(other: number): number {
  return 0.04 * Math.min(1, 2 * other);
}

function ethanolSpread(x: number): number {
  return ETHANOL_PRESSURE_SPREAD + mixtureSpread(1 - x);
}

/** How much more the coefficient of very dilute ethanol may be too high: 28 % at the cold end. */
function overrated(massFraction: number): number {
  return 0.23 * Math.max(0, 1 - massFraction / 0.05);
}

/** Share by which dissolved acid lowers both vapours; null where it cannot be all dissolved. */
function dissolvedEffect(inputs: {
  readonly solventMassFraction: number;
  readonly waterMass: number;
  readonly spiritMass: number;
  readonly ascorbicAcidMass: number;
}): number | null {
  const moles = inputs.ascorbicAcidMass / ACID_MOLAR_MASS;
  const solvent = inputs.waterMass + inputs.spiritMass;
  if (moles > VAPOUR_LIMITS.molality.max * solvent) return null;
  return moles === 0 ? 0 : 1 - solventShare(inputs.solventMassFraction, moles / solvent);
}
