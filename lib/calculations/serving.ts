import { ETHANOL_DENSITY } from "../laws/recipe.ts";
import { serving as servingOf, UPPER_INTAKE } from "../laws/serving.ts";
import { amount, defineCalculation, phrase, type InputValues, type Result } from "./calculation.ts";
import { curveBand } from "./curve-band.ts";
import {
  alcoholStrength,
  ascorbicAcidConcentration,
  lecithinConcentration,
} from "./quantities/batch.ts";
import { COUNT, DENSITY, SHARE, STRENGTH, VOLUME } from "./quantities/kinds.ts";
import { liquidInBottle, entrapment, servingVolume } from "./quantities/label.ts";

const small: Omit<Result, "label" | "symbol"> = {
  dimension: "mass",
  units: ["mg", "g"],
  digits: 3,
  bounds: { min: 0 },
};
const grams: Omit<Result, "label" | "symbol"> = { ...small, units: ["g", "mg"] };

const inputs = {
  servingVolume,
  ascorbicAcidConcentration,
  lecithinConcentration,
  alcoholStrength,
  bottleVolume: liquidInBottle,
  entrapment,
} as const;

/** m³: what a label gives contents for. */
const HUNDRED_ML = 0.1e-3;

const POINTS = 21;

/** The figure reaches this far past your serving, or past the one that holds a day's upper level. */
const ROOM = 1.25;

export const serving = defineCalculation({
  id: "serving",
  title: "What is in one serving",
  summary: "Ascorbic acid, alcohol and lecithin in what you drink at one time",
  inputs,
  links: {
    ascorbicAcidConcentration: "composition.ascorbicAcidConcentration",
    lecithinConcentration: "composition.lecithinConcentration",
    alcoholStrength: "composition.alcoholStrength",
    bottleVolume: "bottling.fillVolume",
    entrapment: "entrapment.entrapmentBound",
  },
  results: {
    ascorbicAcidMass: {
      ...small,
      label: "Ascorbic acid in a serving",
      symbol: String.raw`m_\mathrm{a,1}`,
      hint: "All of it, wherever it is",
    },
    ethanolMass: {
      ...grams,
      label: "Pure alcohol in a serving",
      symbol: String.raw`m_\mathrm{E,1}`,
    },
    shareOfUpperIntake: {
      ...SHARE,
      digits: 3,
      label: "Of the US upper level for a day, 2000 mg",
      symbol: "s",
      hint: "For adults, from all sources together (Institute of Medicine, 2000). A limit, not an aim",
      bounds: { min: 0 },
    },
    lecithinMass: {
      ...small,
      label: "Lecithin in a serving",
      symbol: String.raw`m_\mathrm{l,1}`,
    },
    servingsPerBottle: {
      ...COUNT,
      label: "Whole servings in a bottle",
      symbol: "k",
      hint: "As the numbers stand",
      unbanded: true,
    },
    enclosedMass: {
      ...small,
      byFactor: true,
      label: "Of the acid, inside vesicles, at most",
      symbol: String.raw`m_\mathrm{in,1}`,
      hint: "A bound and no measurement: keep it off the label",
    },
    strength: {
      ...STRENGTH,
      label: "Alcohol in the bottle",
      symbol: String.raw`\varphi`,
      hint: "A label gives it to one decimal",
      bounds: { min: 0, max: 1 },
    },
    ascorbicAcidIn100mL: {
      ...grams,
      label: "Ascorbic acid in 100 mL",
      symbol: String.raw`m_\mathrm{a,100}`,
    },
    lecithinIn100mL: {
      ...grams,
      label: "Lecithin in 100 mL",
      symbol: String.raw`m_\mathrm{l,100}`,
    },
    labelVolume: {
      ...VOLUME,
      digits: 3,
      label: "Volume that a label gives contents for",
      symbol: String.raw`V_{100}`,
      minor: true,
    },
    ethanolVolume: {
      ...VOLUME,
      digits: 3,
      label: "Pure alcohol in a serving, by volume",
      symbol: String.raw`V_\mathrm{E,1}`,
      bounds: { min: 0 },
      minor: true,
    },
    ethanolDensity: {
      ...DENSITY,
      label: "Density of pure alcohol at 20 °C",
      symbol: String.raw`\varrho_\mathrm{E}`,
      minor: true,
    },
    upperIntake: {
      ...small,
      digits: 4,
      label: "Upper level for a day",
      symbol: String.raw`m_\mathrm{UL}`,
      minor: true,
    },
  },
  compute: (given) => {
    const found = servingOf(given.servingVolume, given.bottleVolume, given);
    return {
      ...found,
      lecithinMass: given.lecithinConcentration * given.servingVolume,
      strength: given.alcoholStrength,
      labelVolume: HUNDRED_ML,
      ascorbicAcidIn100mL: given.ascorbicAcidConcentration * HUNDRED_ML,
      lecithinIn100mL: given.lecithinConcentration * HUNDRED_ML,
      ethanolVolume: given.alcoholStrength * given.servingVolume,
      ethanolDensity: ETHANOL_DENSITY,
      upperIntake: UPPER_INTAKE,
    };
  },
  steps: [
    {
      result: "ascorbicAcidIn100mL",
      tex: (slot) => String.raw`${slot("ascorbicAcidConcentration")}\by ${slot("labelVolume")}`,
    },
    {
      result: "lecithinIn100mL",
      tex: (slot) => String.raw`${slot("lecithinConcentration")}\by ${slot("labelVolume")}`,
    },
    {
      result: "ascorbicAcidMass",
      tex: (slot) => String.raw`${slot("ascorbicAcidConcentration")}\by ${slot("servingVolume")}`,
    },
    {
      result: "lecithinMass",
      tex: (slot) => String.raw`${slot("lecithinConcentration")}\by ${slot("servingVolume")}`,
    },
    {
      result: "ethanolVolume",
      tex: (slot) => String.raw`${slot("alcoholStrength")}\by ${slot("servingVolume")}`,
    },
    {
      result: "ethanolMass",
      tex: (slot) => String.raw`${slot("ethanolDensity")}\by ${slot("ethanolVolume")}`,
    },
    {
      result: "shareOfUpperIntake",
      tex: (slot) => String.raw`\frac{${slot("ascorbicAcidMass")}}{${slot("upperIntake")}}`,
    },
    {
      result: "servingsPerBottle",
      tex: (slot) =>
        String.raw`\left\lfloor \frac{${slot("bottleVolume")}}{${slot("servingVolume")}} \right\rfloor`,
    },
    {
      result: "enclosedMass",
      tex: (slot) => String.raw`${slot("entrapment")}\by ${slot("ascorbicAcidMass")}`,
    },
  ],
  figures: [
    {
      id: "acid-by-serving",
      title: "Acid by the size of the serving",
      caption:
        "Ascorbic acid in a serving of each size, with its band. The rule is the US upper level for a whole day, from all sources together.",
      data: (given, _run, spread) => {
        const { ascorbicAcidConcentration: c, servingVolume: own } = given;
        const { max } = servingVolume.limits;
        const whole = c > 0 ? UPPER_INTAKE / c : 0;
        const end = ROOM * Math.max(own, Math.min(whole, max));
        const volumes = Array.from({ length: POINTS }, (_, i) => (end * i) / (POINTS - 1));
        // What a measure is off by, it is off by at every size.
        const curve = (at: InputValues<typeof inputs>) => (x: number) =>
          at.ascorbicAcidConcentration * x * (at.servingVolume / own);
        return {
          x: { label: "One serving", of: servingVolume },
          y: { label: "Ascorbic acid", of: small },
          lines: [{ label: "acid", points: volumes.map((x) => [x, c * x] as const) }],
          bands: [{ points: curveBand(volumes, curve, given, spread()) }],
          rules: [{ y: UPPER_INTAKE, label: "upper level for a day" }],
          marks: [{ x: own, y: c * own, label: "yours" }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "upper-intake",
      when: (_, { shareOfUpperIntake }) => (shareOfUpperIntake?.value ?? 0) >= 1,
      say: (_, { ascorbicAcidMass }) =>
        phrase`One serving holds ${amount(ascorbicAcidMass?.value ?? 0, small)} of ascorbic acid, and the US upper level for an adult is ${amount(UPPER_INTAKE, small)} in a whole day, food and all else counted. Make the serving smaller.`,
    },
  ],
  sources: ["iom-2000", "efsa-2004", "efsa-2013", "oiml-r22-1975"],
});
