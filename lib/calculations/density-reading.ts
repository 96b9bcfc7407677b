import { massFractionFromDensity, strength } from "../substances/ethanol-water.ts";
import { defineCalculation } from "./calculation.ts";
import {
  measuredDensity,
  referenceTemperature,
  sampleTemperature,
  spiritStrength,
} from "./quantities/spirit.ts";

export const densityReading = defineCalculation({
  id: "density-reading",
  title: "Strength from a weighed volume",
  summary: "The strength of an unlabelled spirit from its density at a measured temperature",
  inputs: { density: measuredDensity, temperature: sampleTemperature, referenceTemperature },
  results: {
    strength: {
      label: "Strength",
      symbol: String.raw`\varphi`,
      dimension: "strength",
      units: spiritStrength.units,
      digits: 3,
      bounds: { min: 0, max: 1 },
    },
    massFraction: {
      label: "Alcohol by mass",
      symbol: "w",
      dimension: "massFraction",
      units: ["% mass"],
      digits: 3,
      bounds: { min: 0, max: 1 },
    },
  },
  blame: { density: "density", massFraction: "density", temperature: "temperature" },
  compute: ({ density, temperature, referenceTemperature }) => {
    const massFraction = massFractionFromDensity(density, temperature);
    return { massFraction, strength: strength(massFraction, referenceTemperature) };
  },
  steps: [],
  cautions: [],
  sources: ["oiml-r22-1975", "nbs-1913"],
});
