import { acidity as acidityOf } from "../laws/acidity.ts";
import { ACID_CONSTANTS, ASCORBIC_ACID_MOLAR_MASS } from "../substances/ascorbic-acid.ts";
import { defineCalculation, phrase, type Result } from "./calculation.ts";
import { ascorbicAcidConcentration } from "./quantities/batch.ts";
import { COUNT, SHARE } from "./quantities/kinds.ts";

const MOLAR: Omit<Result, "label" | "symbol"> = {
  dimension: "molarConcentration",
  units: ["mol/L", "mmol/L"],
  digits: 3,
  bounds: { min: 0 },
};

/** mol/m³ in a mol/L. */
const LITRES = 1000;

/** Below this a drink attacks tooth enamel and many metals (common practice, no source). */
const HARSH = 4.5;

export const acidity = defineCalculation({
  id: "acidity",
  title: "How acid it is",
  summary: "The pH of ascorbic acid in water, from a balance of charges",
  inputs: { ascorbicAcidConcentration },
  results: {
    pH: {
      ...COUNT,
      label: "pH",
      symbol: String.raw`\mathrm{pH}`,
      hint: "At 25 °C in water alone; alcohol, lecithin and hard water raise it a little",
    },
    dissociated: {
      ...SHARE,
      label: "Acid that has given up a proton",
      symbol: String.raw`\alpha`,
      bounds: { min: 0, max: 1 },
    },
    ionicStrength: {
      ...MOLAR,
      units: ["mmol/L", "mol/L"],
      digits: 2,
      label: "Ionic strength",
      symbol: "I",
      hint: "Small: the ions hardly disturb one another",
    },
    molarConcentration: { ...MOLAR, label: "Acid, moles in a litre", symbol: "c", minor: true },
    molarMass: {
      dimension: "molarMass",
      units: ["g/mol"],
      digits: 5,
      label: "Molar mass of ascorbic acid",
      symbol: String.raw`M_\mathrm{a}`,
      minor: true,
    },
    firstConstant: {
      ...COUNT,
      label: "First acid constant, as a logarithm",
      symbol: String.raw`\mathrm{p}K_1`,
      minor: true,
    },
    shortcut: {
      ...COUNT,
      label: "pH by the shortcut",
      symbol: String.raw`\mathrm{pH}_\mathrm{s}`,
      hint: "“None”: without acid it has no answer",
      minor: true,
    },
    proton: {
      ...MOLAR,
      units: ["mmol/L", "mol/L"],
      label: "Protons",
      symbol: String.raw`[\mathrm{H^+}]`,
      minor: true,
    },
  },
  compute: ({ ascorbicAcidConcentration: mass }) => {
    const { pH, dissociated, ionicStrength } = acidityOf(mass);
    const concentration = mass / ASCORBIC_ACID_MOLAR_MASS;
    const { first } = ACID_CONSTANTS;
    return {
      pH,
      dissociated,
      ionicStrength,
      molarConcentration: concentration,
      molarMass: ASCORBIC_ACID_MOLAR_MASS,
      firstConstant: first,
      shortcut: concentration > 0 ? (first.value - Math.log10(concentration / LITRES)) / 2 : null,
      proton: LITRES * 10 ** -pH.value,
    };
  },
  steps: [
    {
      result: "molarConcentration",
      tex: (slot) => String.raw`\frac{${slot("ascorbicAcidConcentration")}}{${slot("molarMass")}}`,
    },
    {
      result: "shortcut",
      tex: (slot) =>
        String.raw`\frac{${slot("firstConstant")} - \log_{10}\wrap{${slot("molarConcentration")}}}{2}`,
    },
    {
      result: "proton",
      tex: (slot) => String.raw`10^{-${slot("pH")}}\ \mathrm{mol/L}`,
    },
    {
      result: "dissociated",
      tex: (slot) => String.raw`\frac{${slot("proton")}}{${slot("molarConcentration")}}`,
    },
  ],
  figures: [
    {
      id: "ph-by-concentration",
      title: "More acid, hardly more sour",
      caption:
        "pH against the acid in a litre. Ten times the acid lowers the pH by only half a unit, so the curve soon lies nearly flat. The two dots without a name are the ends that pharmacopoeias allow at 50 g/L.",
      data: ({ ascorbicAcidConcentration: at }) => {
        const points = Array.from({ length: 41 }, (_, i) => 0.5 + (399.5 * i ** 2) / 1600).map(
          (x) => ({ x, ...acidityOf(x).pH }),
        );
        return {
          x: { label: "Ascorbic acid", of: ascorbicAcidConcentration, domain: [0, 400] },
          y: { label: "pH", of: COUNT, domain: [1.5, 4] },
          lines: [{ label: "pH", points: points.map(({ x, value }) => [x, value]) }],
          bands: [{ points: points.map(({ x, low, high }) => [x, low, high]) }],
          marks: [
            { x: 50, y: 2.1, label: "" },
            { x: 50, y: 2.6, label: "" },
            // Weaker than this the curve leaves the drawing.
            ...(at >= 0.5 ? [{ x: at, y: acidityOf(at).pH.value, label: "yours" }] : []),
          ],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "metals-and-acid",
      when: (_, { pH }) => pH !== null && pH.value < HARSH,
      say: () =>
        phrase`About as acid as lemon juice: mix and keep it in glass or food-grade plastic, never in aluminium, copper, iron or lead crystal; do not hold it in the mouth, and rinse with water after it.`,
    },
  ],
  sources: ["hpe-ascorbic-acid", "usp-ascorbic-acid", "iupac-weights"],
});
