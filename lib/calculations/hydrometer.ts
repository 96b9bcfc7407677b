import { GLASS_EXPANSION, trueStrength } from "../laws/hydrometer.ts";
import { density, massFraction } from "../substances/ethanol-water.ts";
import { amount, defineCalculation, phrase } from "./calculation.ts";
import {
  hydrometerReading,
  sampleTemperature,
  spiritStrength,
  stemTemperature,
} from "./quantities/spirit.ts";
import { DENSITY, STRENGTH } from "./quantities/kinds.ts";

export const hydrometer = defineCalculation({
  id: "hydrometer",
  title: "Hydrometer at another temperature",
  summary:
    "The true strength from a glass hydrometer read in liquid that is not at its temperature",
  inputs: {
    reading: hydrometerReading,
    temperature: sampleTemperature,
    referenceTemperature: stemTemperature,
  },
  results: {
    strength: {
      label: "True strength",
      symbol: String.raw`\varphi`,
      ...STRENGTH,
      digits: 3,
      bounds: { min: 0, max: 1 },
    },
    correction: {
      label: "Correction to the reading",
      symbol: String.raw`\Delta\varphi`,
      ...STRENGTH,
      digits: 2,
    },
    stemDensity: {
      label: "Density that the stem means",
      symbol: String.raw`\varrho_\mathrm{r}`,
      ...DENSITY,
      minor: true,
    },
    glassGrowth: {
      label: "How much larger the glass is than at its own temperature",
      symbol: String.raw`\Gamma`,
      dimension: "fraction",
      units: ["1"],
      digits: 6,
      minor: true,
    },
    liquidDensity: {
      label: "Density of the liquid as it is",
      symbol: String.raw`\varrho`,
      ...DENSITY,
      minor: true,
    },
  },
  blame: { reading: "reading", strength: "reading", massFraction: "reading", density: "reading" },
  compute: ({ reading, temperature, referenceTemperature }) => {
    const strength = trueStrength(reading, temperature, referenceTemperature);
    const stemDensity = density(massFraction(reading, referenceTemperature), referenceTemperature);
    const glassGrowth = 1 + GLASS_EXPANSION * (temperature - referenceTemperature);
    return {
      strength,
      // At its own temperature a hydrometer is right; the difference would be rounding.
      correction: temperature === referenceTemperature ? 0 : strength - reading,
      stemDensity,
      glassGrowth,
      liquidDensity: stemDensity / glassGrowth,
    };
  },
  steps: [
    {
      result: "liquidDensity",
      tex: (slot) => String.raw`\frac{${slot("stemDensity")}}{${slot("glassGrowth")}}`,
    },
    {
      result: "correction",
      tex: (slot) => String.raw`${slot("strength")} - ${slot("reading")}`,
    },
  ],
  figures: [
    {
      id: "hydrometer-correction",
      title: "True strength for one reading, by temperature",
      caption:
        "Warm liquid is less dense, the hydrometer sinks further and reads too strong; cold liquid makes it read too weak. They agree only at the hydrometer’s own temperature.",
      data: ({ temperature, reading, referenceTemperature }, run) => {
        const points = Array.from({ length: 41 }, (_, i) => i).flatMap((t) => {
          const value = run({ temperature: t })?.["strength"]?.value;
          return value === undefined ? [] : [[t, value] as [number, number]];
        });
        const here = run({})?.["strength"]?.value;
        return {
          x: { label: "Temperature of the liquid", of: sampleTemperature },
          y: { label: "True strength", of: spiritStrength },
          lines: [{ label: "true", points }],
          rules: [{ y: reading, label: "reading" }],
          marks: [
            { x: referenceTemperature, y: reading, label: "agree" },
            ...(here === undefined ? [] : [{ x: temperature, y: here, label: "yours" }]),
          ],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "solids-in-liquid",
      when: () => true,
      say: ({ temperature }) =>
        phrase`Read it in spirit and water only, at ${amount(temperature, sampleTemperature)}: once the acid or the lecithin is in, dissolved solids hold the hydrometer up and it reads too low, so the figure is worthless.`,
    },
  ],
  sources: ["oiml-r22-1975", "practical-receipts-hydrometer", "ecfr-27-30"],
});
