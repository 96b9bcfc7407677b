import { apparentDensity } from "../laws/buoyancy.ts";
import {
  massFractionFromUkProof,
  massFractionFromUsProof,
  PROOF_SPIRIT,
  ukProof,
  US_PROOF_TEMPERATURE,
  usProof,
} from "../laws/proof.ts";
import { density, massFraction, strength as strengthOf } from "../substances/ethanol-water.ts";
import { amount, defineCalculation, phrase, type Axis } from "./calculation.ts";
import {
  FLAMMABLE_FROM,
  referenceTemperature,
  sampleTemperature,
  spiritStrength,
} from "./quantities/spirit.ts";
import { DENSITY, MASS_FRACTION, STRENGTH } from "./quantities/kinds.ts";

const densityResult = {
  label: "Density at the liquid’s temperature",
  symbol: String.raw`\varrho(w,t)`,
  ...DENSITY,
} as const;

const massFractionResult = {
  label: "Alcohol by mass",
  symbol: "w",
  ...MASS_FRACTION,
  bounds: { min: 0, max: 1 },
} as const;

/** Where the old British scale counted volumes, °C. */
const FIFTY_FAHRENHEIT = (50 - 32) / 1.8;

const minorStrength = {
  ...STRENGTH,
  bounds: { min: 0, max: 1 },
  minor: true,
} as const;
const minorDensity = {
  ...DENSITY,
  minor: true,
} as const;

const strengthAxis: Axis = { label: "Strength", of: spiritStrength, domain: [0, 1] };

export const strength = defineCalculation({
  id: "strength",
  title: "What the label says",
  summary: "From a label’s strength to mass fraction, density, proof and grams of alcohol",
  inputs: { spiritStrength, referenceTemperature, temperature: sampleTemperature },
  results: {
    massFraction: massFractionResult,
    density: densityResult,
    strength20: {
      label: "Strength at 20 °C",
      symbol: String.raw`\varphi_{20}`,
      ...STRENGTH,
      bounds: { min: 0, max: 1 },
    },
    ethanolConcentration: {
      label: "Alcohol in each volume of spirit",
      symbol: String.raw`\beta`,
      dimension: "concentration",
      units: ["g/L", "g/100 mL"],
      digits: 4,
      bounds: { min: 0 },
    },
    usProof: {
      label: "US proof",
      symbol: String.raw`P_\mathrm{US}`,
      dimension: "proof",
      units: ["1"],
      digits: 4,
      bounds: { min: 0, max: 200 },
    },
    ukProof: {
      label: "Old British proof",
      symbol: String.raw`P_\mathrm{UK}`,
      dimension: "proof",
      units: ["1"],
      digits: 4,
      bounds: { min: 0 },
    },
    apparentDensity: {
      label: "Density as weighed in air",
      symbol: String.raw`\varrho_\mathrm{air}`,
      ...DENSITY,
    },
    referenceDensity: {
      ...minorDensity,
      label: "Density at the label’s temperature",
      symbol: String.raw`\varrho(w,t_0)`,
    },
    ethanolDensity: {
      ...minorDensity,
      label: "Density of pure alcohol at the label’s temperature",
      symbol: String.raw`\varrho_\mathrm{E}`,
    },
    density20: {
      ...minorDensity,
      label: "Density at 20 °C",
      symbol: String.raw`\varrho_{20}`,
    },
    ethanolDensity20: {
      ...minorDensity,
      label: "Density of pure alcohol at 20 °C",
      symbol: String.raw`\varrho_{\mathrm{E},20}`,
    },
    strength60F: {
      ...minorStrength,
      label: "Strength at 60 °F",
      symbol: String.raw`\varphi_{60\,{}^\circ\mathrm{F}}`,
    },
    strength50F: {
      ...minorStrength,
      label: "Strength at 50 °F",
      symbol: String.raw`\varphi_{50\,{}^\circ\mathrm{F}}`,
    },
    proofSpiritStrength: {
      ...minorStrength,
      label: "Strength of proof spirit at 50 °F",
      symbol: String.raw`\varphi_\mathrm{P}`,
    },
  },
  blame: { strength: "spiritStrength", massFraction: "spiritStrength" },
  compute: ({ spiritStrength, referenceTemperature, temperature }) => {
    const fraction = massFraction(spiritStrength, referenceTemperature);
    const here = density(fraction, temperature);
    const ethanolDensity = density(1, referenceTemperature);
    return {
      massFraction: fraction,
      density: here,
      strength20: strengthOf(fraction),
      ethanolConcentration: spiritStrength * ethanolDensity,
      usProof: usProof(fraction),
      ukProof: ukProof(fraction),
      apparentDensity: apparentDensity(here),
      referenceDensity: density(fraction, referenceTemperature),
      ethanolDensity,
      density20: density(fraction, 20),
      ethanolDensity20: density(1, 20),
      strength60F: strengthOf(fraction, US_PROOF_TEMPERATURE),
      strength50F: strengthOf(fraction, FIFTY_FAHRENHEIT),
      proofSpiritStrength: strengthOf(PROOF_SPIRIT, FIFTY_FAHRENHEIT),
    };
  },
  steps: [
    {
      result: "ethanolConcentration",
      tex: (slot) => String.raw`${slot("spiritStrength")}\by ${slot("ethanolDensity")}`,
    },
    {
      result: "massFraction",
      tex: (slot) =>
        String.raw`\frac{${slot("ethanolConcentration")}}{${slot("referenceDensity")}}`,
    },
    {
      result: "strength20",
      tex: (slot) =>
        String.raw`\frac{${slot("massFraction")}\by ${slot("density20")}}{${slot("ethanolDensity20")}}`,
    },
    {
      result: "usProof",
      tex: (slot) =>
        String.raw`200^\circ \times \frac{${slot("strength60F")}}{100\,\%\,\mathrm{vol}}`,
    },
    {
      result: "ukProof",
      tex: (slot) =>
        String.raw`100^\circ \times \frac{${slot("strength50F")}}{${slot("proofSpiritStrength")}}`,
    },
  ],
  figures: [
    {
      id: "density-curve",
      title: "Density against strength",
      caption:
        "Density falls as strength rises, but not in a straight line: between the ends the mixture is denser than a plain average, because the two liquids pack together.",
      data: ({ spiritStrength, temperature }, run) => {
        const points = (t: number): [number, number][] =>
          Array.from({ length: 51 }, (_, i) => i / 50).flatMap((x) => {
            const value = run({ spiritStrength: x, temperature: t })?.["density"]?.value;
            return value === undefined ? [] : [[x, value] as [number, number]];
          });
        const curve = points(temperature);
        const here = run({})?.["density"]?.value;
        const water = density(0, Math.max(temperature, 0));
        const alcohol = density(1, temperature);
        return {
          x: strengthAxis,
          y: { label: "Density", of: densityResult },
          lines: [
            { label: "mixture", points: curve },
            {
              label: "plain average",
              points: [
                [0, water],
                [1, alcohol],
              ],
              dashed: true,
            },
          ],
          marks: here === undefined ? [] : [{ x: spiritStrength, y: here, label: "yours" }],
        };
      },
    },
    {
      id: "mass-curve",
      title: "By mass against by volume",
      caption:
        "The same spirit has a smaller figure by mass than by volume, because alcohol is lighter than water. The gap is widest near 60 % vol.",
      data: ({ spiritStrength }, run) => {
        const points = Array.from({ length: 51 }, (_, i) => i / 50).flatMap((x) => {
          const value = run({ spiritStrength: x })?.["massFraction"]?.value;
          return value === undefined ? [] : [[x, value] as [number, number]];
        });
        const here = run({})?.["massFraction"]?.value;
        return {
          x: strengthAxis,
          y: { label: "Alcohol by mass", of: massFractionResult, domain: [0, 1] },
          lines: [
            { label: "by mass", points },
            {
              label: "if they were equal",
              points: [
                [0, 0],
                [1, 1],
              ],
              dashed: true,
            },
          ],
          marks: here === undefined ? [] : [{ x: spiritStrength, y: here, label: "yours" }],
        };
      },
    },
    {
      id: "label-readings",
      title: "One figure, three scales",
      caption:
        "What your figure would mean on each scale. As per cent by volume it is strongest; the same figure in degrees of US proof means half of that, counted at 60 °F, and in degrees of old British proof a little more than half.",
      data: ({ spiritStrength, referenceTemperature: t0 }) => {
        const figure = 100 * spiritStrength;
        return {
          x: strengthAxis,
          bars: [
            { label: "% vol", value: spiritStrength },
            {
              label: "old British proof",
              value: strengthOf(massFractionFromUkProof(figure), t0),
            },
            { label: "US proof", value: strengthOf(massFractionFromUsProof(figure), t0) },
          ],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "flammable",
      when: ({ spiritStrength }) => spiritStrength > FLAMMABLE_FROM,
      say: ({ spiritStrength: value }) =>
        phrase`Spirit of ${amount(value, spiritStrength)} gives off vapour that can ignite at or near room temperature. No flame, no hot surface, no sparking motor near it.`,
    },
    {
      caution: "drinking-spirit",
      when: ({ spiritStrength }) => spiritStrength > 0.961,
      say: () => [
        "Spirit above 96 % vol is seldom sold for drinking. Absolute alcohol may have been dried with poisonous additives: use only spirit sold as a drink.",
      ],
    },
  ],
  sources: ["oiml-r22-1975", "usp-alcoholometric", "ecfr-27-5", "uk-alda-1979"],
});
