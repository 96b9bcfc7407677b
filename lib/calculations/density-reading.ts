import {
  density as densityOf,
  massFractionFromDensity,
  strength,
} from "../substances/ethanol-water.ts";
import { defineCalculation } from "./calculation.ts";
import {
  measuredDensity,
  referenceTemperature,
  sampleTemperature,
  spiritStrength,
} from "./quantities/spirit.ts";
import { DENSITY, MASS_FRACTION, STRENGTH } from "./quantities/kinds.ts";

export const densityReading = defineCalculation({
  id: "density-reading",
  title: "Strength from a weighed volume",
  summary: "The strength of an unlabelled spirit from its density at a measured temperature",
  inputs: { density: measuredDensity, temperature: sampleTemperature, referenceTemperature },
  results: {
    strength: {
      label: "Strength",
      symbol: String.raw`\varphi`,
      ...STRENGTH,
      digits: 3,
      bounds: { min: 0, max: 1 },
    },
    massFraction: {
      label: "Alcohol by mass",
      symbol: "w",
      ...MASS_FRACTION,
      digits: 3,
      bounds: { min: 0, max: 1 },
    },
    referenceDensity: {
      label: "Density at the label’s temperature",
      symbol: String.raw`\varrho(w,t_0)`,
      ...DENSITY,
      digits: 4,
      minor: true,
    },
    ethanolDensity: {
      label: "Density of pure alcohol at the label’s temperature",
      symbol: String.raw`\varrho_\mathrm{E}`,
      ...DENSITY,
      minor: true,
    },
  },
  blame: { density: "density", massFraction: "density", temperature: "temperature" },
  compute: ({ density, temperature, referenceTemperature }) => {
    const massFraction = massFractionFromDensity(density, temperature);
    return {
      massFraction,
      strength: strength(massFraction, referenceTemperature),
      referenceDensity: densityOf(massFraction, referenceTemperature),
      ethanolDensity: densityOf(1, referenceTemperature),
    };
  },
  steps: [
    {
      result: "strength",
      tex: (slot) =>
        String.raw`${slot("massFraction")}\by\frac{${slot("referenceDensity")}}{${slot("ethanolDensity")}}`,
    },
  ],
  figures: [
    {
      id: "strength-by-density",
      title: "Strength for one density, by temperature",
      caption:
        "The same density means a stronger spirit when the liquid is cold and a weaker one when it is warm. A reading whose temperature was not taken is worth little.",
      data: ({ temperature }, run) => {
        const points = Array.from({ length: 41 }, (_, t) => t).flatMap((t) => {
          const value = run({ temperature: t })?.["strength"]?.value;
          return value === undefined ? [] : [[t, value] as [number, number]];
        });
        const here = run({})?.["strength"]?.value;
        return {
          x: { label: "Temperature of the liquid", of: sampleTemperature },
          y: { label: "Strength", of: spiritStrength },
          lines: [{ label: "strength", points }],
          marks: here === undefined ? [] : [{ x: temperature, y: here, label: "yours" }],
        };
      },
    },
  ],
  cautions: [],
  sources: ["oiml-r22-1975", "nbs-1913"],
});
