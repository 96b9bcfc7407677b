import { conventionalMass, WEIGHT_DENSITY } from "../laws/buoyancy.ts";
import { portionCovariance, portionUncertainty, shareUncertainty } from "../laws/weighing.ts";
import { AIR_DENSITY } from "../substances/air.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type Phrase,
  type Result,
} from "./calculation.ts";
import {
  ascorbicAcidMass,
  lecithinMass,
  scaleCapacity,
  spiritMass,
  vesselMass,
  waterMass,
} from "./quantities/batch.ts";
import { COVERAGE } from "./graph.ts";
import { linearity, readability, repeatability } from "./quantities/scale.ts";
import { COUNT, MASS, SHARE, SMALL_MASS } from "./quantities/kinds.ts";

const PORTIONS = [waterMass, spiritMass, ascorbicAcidMass, lecithinMass] as const;
const WANTED = 0.01;
/** Anything near water's density reads this share light in air; see the buoyancy law. */
const LIQUID_DENSITY = 1000;

const reading: Omit<Result, "label" | "symbol"> = {
  ...MASS,
  bounds: { min: 0 },
};
const small: Omit<Result, "label" | "symbol"> = {
  ...SMALL_MASS,
  bounds: { min: 0 },
};

export const weighing = defineCalculation({
  id: "weighing",
  title: "Weighing it all in",
  summary:
    "The scale’s reading after each addition, how sure each portion is, and the least it can weigh",
  inputs: {
    waterMass,
    spiritMass,
    ascorbicAcidMass,
    lecithinMass,
    readability,
    repeatability,
    linearity,
    scaleCapacity,
    vesselMass,
  },
  links: {
    waterMass: "recipe.waterMass",
    spiritMass: "recipe.spiritMass",
    ascorbicAcidMass: "recipe.ascorbicAcidMass",
    lecithinMass: "recipe.lecithinMass",
  },
  decided: ["waterMass", "spiritMass", "ascorbicAcidMass", "lecithinMass"],
  results: {
    afterWater: { ...reading, label: "Reading after the water", symbol: "R_1" },
    afterSpirit: { ...reading, label: "Reading after the spirit", symbol: "R_2" },
    afterAscorbicAcid: { ...reading, label: "Reading after the acid", symbol: "R_3" },
    afterLecithin: { ...reading, label: "Reading after the lecithin", symbol: "R_4" },
    readingUncertainty: {
      ...small,
      label: "Standard uncertainty of one reading",
      symbol: "u_R",
      minor: true,
    },
    uncertaintyWater: {
      ...small,
      label: "Water, standard uncertainty",
      symbol: String.raw`u_\mathrm{w}`,
    },
    uncertaintySpirit: {
      ...small,
      label: "Spirit, standard uncertainty",
      symbol: String.raw`u_\mathrm{s}`,
    },
    uncertaintyAscorbicAcid: {
      ...small,
      label: "Ascorbic acid, standard uncertainty",
      symbol: String.raw`u_\mathrm{a}`,
    },
    uncertaintyLecithin: {
      ...small,
      label: "Lecithin, standard uncertainty",
      symbol: String.raw`u_\mathrm{l}`,
    },
    smallestPortion: {
      ...small,
      label: "Smallest portion good to 1 %",
      symbol: String.raw`m_\mathrm{min}`,
      hint: "Where one standard uncertainty is 1 % of the portion; take twice as much to be sure 19 times in 20",
    },
    ascorbicAcidShareUncertainty: {
      label: "Acid’s share of the batch, relative uncertainty",
      symbol: "u_r",
      ...SHARE,
      bounds: { min: 0 },
      hint: "One standard uncertainty; the portions share readings, and that is counted",
    },
    sharedReadings: {
      label: "Readings that the acid and the whole have in common",
      symbol: "k",
      ...COUNT,
      digits: 1,
      minor: true,
    },
    buoyancyError: {
      ...small,
      label: "Reading falls short in air by",
      symbol: String.raw`\Delta R`,
      hint: "The final reading is this much below the true mass; left out, because it is nearly the same share of every portion",
    },
    fullLoad: { ...reading, label: "Vessel and all", symbol: String.raw`R_\mathrm{full}` },
  },
  compute: (inputs) => {
    const portions = PORTIONS.map(({ name }) => inputs[name]);
    const scale = {
      readability: inputs.readability,
      repeatability: inputs.repeatability,
      linearity: inputs.linearity,
    };
    const total = portions.reduce((sum, portion) => sum + portion, 0);
    if (total === 0)
      throw new RefusedError("waterMass", ["Nothing to weigh: type at least one portion."]);
    const u = portionUncertainty(scale);
    const half = (COVERAGE * u) / Math.SQRT2;
    const shown = (value: number) => ({
      value,
      low: Math.max(value - half, 0),
      high: value + half,
    });
    const weighed = portions.filter((portion) => portion > 0);
    const before = portions.slice(0, 2).filter((portion) => portion > 0).length;
    const after = inputs.lecithinMass > 0;
    return {
      afterWater: shown(inputs.waterMass),
      afterSpirit: shown(inputs.waterMass + inputs.spiritMass),
      afterAscorbicAcid: shown(inputs.waterMass + inputs.spiritMass + inputs.ascorbicAcidMass),
      afterLecithin: shown(total),
      readingUncertainty: u / Math.SQRT2,
      uncertaintyWater: u,
      uncertaintySpirit: u,
      uncertaintyAscorbicAcid: u,
      uncertaintyLecithin: u,
      smallestPortion: u / WANTED,
      ascorbicAcidShareUncertainty:
        inputs.ascorbicAcidMass === 0
          ? null
          : shareUncertainty(weighed, portionCovariance(scale, weighed.length), before),
      sharedReadings: inputs.ascorbicAcidMass === 0 ? null : (before > 0 ? 0 : 1) + (after ? 0 : 1),
      buoyancyError: total - conventionalMass(total, LIQUID_DENSITY),
      fullLoad: total + inputs.vesselMass,
    };
  },
  steps: [
    {
      result: "afterSpirit",
      tex: (slot) => String.raw`${slot("waterMass")} + ${slot("spiritMass")}`,
    },
    {
      result: "afterAscorbicAcid",
      tex: (slot) => String.raw`${slot("afterSpirit")} + ${slot("ascorbicAcidMass")}`,
    },
    {
      result: "afterLecithin",
      tex: (slot) => String.raw`${slot("afterAscorbicAcid")} + ${slot("lecithinMass")}`,
    },
    {
      result: "readingUncertainty",
      tex: (slot) =>
        String.raw`\sqrt{\frac{\wrap{${slot("readability")}}^2}{12} + \wrap{${slot("repeatability")}}^2 + \frac{\wrap{${slot("linearity")}}^2}{3}}`,
    },
    {
      result: "uncertaintyWater",
      tex: (slot) => String.raw`\sqrt{2}\by ${slot("readingUncertainty")}`,
    },
    {
      result: "smallestPortion",
      tex: (slot) => String.raw`\frac{${slot("uncertaintyWater")}}{0.01}`,
    },
    {
      result: "ascorbicAcidShareUncertainty",
      tex: (slot) =>
        String.raw`${slot("readingUncertainty")}\by\sqrt{\frac{2}{\wrap{${slot("ascorbicAcidMass")}}^2} + \frac{2}{\wrap{${slot("afterLecithin")}}^2} - \frac{2\by ${slot("sharedReadings")}}{${slot("ascorbicAcidMass")}\by ${slot("afterLecithin")}}}`,
    },
    {
      result: "fullLoad",
      tex: (slot) => String.raw`${slot("afterLecithin")} + ${slot("vesselMass")}`,
    },
    {
      result: "buoyancyError",
      tex: (slot) =>
        String.raw`${slot("afterLecithin")}\by\left(1 - \frac{1 - ${AIR_DENSITY}/${LIQUID_DENSITY}}{1 - ${AIR_DENSITY}/${WEIGHT_DENSITY}}\right)`,
    },
  ],
  figures: [
    {
      id: "error-budget",
      title: "Where the doubt of one reading comes from",
      caption:
        "Standard uncertainties. The lowest bar is all of them together: added in squares, it is shorter than the others laid end to end. The longest of the others is the one worth improving.",
      data: ({ readability: d, repeatability: s, linearity: l }, run) => ({
        x: { label: "Standard uncertainty", of: small },
        bars: [
          { label: "Display step", value: d / Math.sqrt(12) },
          { label: "Repeatability", value: s },
          { label: "Linearity", value: l / Math.sqrt(3) },
          { label: "Together", value: run({})?.["readingUncertainty"]?.value ?? 0 },
        ],
      }),
    },
    {
      id: "relative-uncertainty",
      title: "How sure a portion is, by its size",
      caption:
        "The scale is off by about the same amount whatever lies on it, so a small portion is off by a large share. Below the marked size its standard uncertainty is more than 1 %.",
      data: ({ ascorbicAcidMass: acid }, run) => {
        const values = run({});
        const u = values?.["uncertaintyWater"]?.value ?? 0;
        const limit = values?.["smallestPortion"]?.value ?? 0;
        const span = Math.max(limit * 4, acid * 1.2, 1e-6);
        const points = Array.from({ length: 60 }, (_, i) => (span * (i + 1)) / 60)
          .filter((m) => m >= limit / 5)
          .map((m) => [m, u / m] as [number, number]);
        return {
          x: { label: "Portion", of: waterMass, domain: [0, span] },
          y: { label: "Standard uncertainty of it", of: SHARE },
          lines: [{ label: "uncertainty", points }],
          rules: [{ y: WANTED, label: "1 %" }],
          marks: acid > limit / 5 ? [{ x: acid, y: u / acid, label: "your acid" }] : [],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "coarse-scale",
      when: (inputs, { smallestPortion }) =>
        PORTIONS.some(
          ({ name }) => inputs[name] > 0 && inputs[name] < (smallestPortion?.value ?? 0),
        ),
      say: (inputs, { smallestPortion }) => {
        const least = smallestPortion?.value ?? 0;
        const poor = PORTIONS.filter(({ name }) => inputs[name] > 0 && inputs[name] < least);
        return [
          "This scale cannot weigh ",
          ...poor.flatMap((portion, i): Phrase => [
            i === 0 ? "" : i === poor.length - 1 ? " and " : ", ",
            amount(inputs[portion.name], portion),
            ` of ${portion.label.toLowerCase()}`,
          ]),
          " to within 1 %: for that a portion must be ",
          amount(least, small),
          " or more. Use a finer scale, or make a larger batch.",
        ];
      },
    },
    {
      caution: "scale-capacity",
      when: ({ scaleCapacity }, { fullLoad }) => (fullLoad?.value ?? 0) > scaleCapacity,
      say: ({ scaleCapacity: limit }, { fullLoad }) =>
        phrase`Vessel and batch come to ${amount(fullLoad?.value ?? 0, scaleCapacity)}, and the scale stops at ${amount(limit, scaleCapacity)}. Use a lighter vessel, or weigh the liquids in two goes.`,
    },
  ],
  sources: ["gum-2008", "eurachem-quam", "oiml-d28"],
});
