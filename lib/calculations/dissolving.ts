import { dissolving as dissolve, type Dissolves } from "../laws/dissolving.ts";
import { ascorbicAcidSolubility } from "../substances/ascorbic-acid.ts";
import { amount, defineCalculation, phrase, type Result } from "./calculation.ts";
import { ascorbicAcidMass, solventMassFraction } from "./quantities/batch.ts";
import { dissolvingTemperature, solventMass } from "./quantities/dissolving.ts";
import { COUNT, MASS, MASS_FRACTION, SHARE, TEMPERATURE } from "./quantities/kinds.ts";

const RATIO = {
  dimension: "massRatio",
  units: ["g/100 g", "g/kg"],
  digits: 3,
  bounds: { min: 0 },
} as const;

const share: Omit<Result, "label" | "symbol"> = { ...SHARE, digits: 3, bounds: { min: 0 } };

/** For a result and for a column of words alike. `null`: the band holds what is asked for. */
const ANSWER: Readonly<Record<Dissolves, number | null>> = { no: 0, yes: 1, unsure: null };
const WORDS = ["no", "all of it", "too close to tell"] as const;
const WORD_OF: Readonly<Record<Dissolves, number>> = { no: 0, yes: 1, unsure: 2 };

/** Where a batch goes, °C: a fridge, a room, and a liquid warm from the bath. */
const PLACES = [4, 20, 40] as const;

/** Handbook figures, mass fraction of alcohol and kg/kg: 1 g in 3 mL, 30 mL and 50 mL. Source: see the evidence. */
const PUBLISHED = [
  [0, 1 / (3 * 0.998), ""],
  [0.9242, 1 / (30 * 0.8114), "95 % vol"],
  [1, 1 / (50 * 0.7893), ""],
] as const;

export const dissolving = defineCalculation({
  id: "dissolving",
  title: "Will it dissolve?",
  summary: "How much acid your water and alcohol can hold, roughly, and how much of that you use",
  inputs: {
    ascorbicAcidMass,
    solventMass,
    solventMassFraction,
    temperature: dissolvingTemperature,
  },
  links: {
    ascorbicAcidMass: "recipe.ascorbicAcidMass",
    solventMass: "recipe.solventMass",
    solventMassFraction: "recipe.solventMassFraction",
  },
  decided: ["ascorbicAcidMass", "solventMass"],
  results: {
    saturation: {
      ...RATIO,
      label: "The liquid can hold, acid to solvent",
      symbol: "S",
      hint: "An estimate between two handbook figures; trust the band, not the middle",
    },
    saturated: {
      ...share,
      label: "Share of that which you use",
      symbol: "u",
      hint: "Above 100 % some acid stays undissolved",
    },
    dissolves: {
      ...COUNT,
      digits: 1,
      label: "All of it dissolves",
      symbol: String.raw`\delta`,
      words: ["no", "yes"],
      none: "too close to tell",
      hint: "The published figures are rough, so there is a span with no answer",
      unbanded: true,
    },
    mostAcid: {
      ...MASS,
      label: "Acid that this much liquid can hold",
      symbol: String.raw`m_\mathrm{most}`,
      digits: 3,
      bounds: { min: 0 },
    },
    used: {
      ...RATIO,
      label: "Acid that you put in, to solvent",
      symbol: "X",
      minor: true,
    },
    inWater: {
      ...RATIO,
      label: "Water alone can hold",
      symbol: String.raw`S_\mathrm{w}`,
      minor: true,
    },
    inAlcohol: {
      ...RATIO,
      label: "Pure alcohol can hold",
      symbol: String.raw`S_\mathrm{E}`,
      minor: true,
    },
  },
  compute: (given) => {
    const { saturation, saturated, dissolves } = dissolve(given.ascorbicAcidMass, solventOf(given));
    return {
      saturation,
      saturated,
      dissolves: ANSWER[dissolves],
      mostAcid: {
        value: saturation.value * given.solventMass,
        low: saturation.low * given.solventMass,
        high: saturation.high * given.solventMass,
      },
      used: given.ascorbicAcidMass / given.solventMass,
      inWater: ascorbicAcidSolubility(0, given.temperature),
      inAlcohol: ascorbicAcidSolubility(1, given.temperature),
    };
  },
  steps: [
    {
      result: "saturation",
      tex: (slot) =>
        String.raw`${slot("inWater")}\by\left(\frac{${slot("inAlcohol")}}{${slot("inWater")}}\right)^{\!${slot("solventMassFraction")}}`,
    },
    {
      result: "used",
      tex: (slot) => String.raw`\frac{${slot("ascorbicAcidMass")}}{${slot("solventMass")}}`,
    },
    {
      result: "saturated",
      tex: (slot) => String.raw`\frac{${slot("used")}}{${slot("saturation")}}`,
    },
    {
      result: "mostAcid",
      tex: (slot) => String.raw`${slot("saturation")}\by ${slot("solventMass")}`,
    },
  ],
  figures: [
    {
      id: "saturation-by-alcohol",
      title: "What water and alcohol can hold",
      caption:
        "The estimate and its band at your temperature, between the only two ends that were published. Below the band the acid dissolves; inside it nobody can say; above it some stays on the bottom. The dots at both ends and at 95 % vol are the handbook’s figures; the last was not used for the estimate.",
      data: ({ solventMassFraction: at, temperature }, run) => {
        const edges = Array.from({ length: 51 }, (_, i) => i / 50).map((w) => ({
          w,
          ...ascorbicAcidSolubility(w, temperature),
        }));
        const used = run({})?.["used"]?.value;
        return {
          x: { label: "Alcohol in water and alcohol", of: MASS_FRACTION, domain: [0, 1] },
          y: { label: "Acid to solvent", of: RATIO },
          lines: [{ label: "estimate", points: edges.map(({ w, value }) => [w, value] as const) }],
          bands: [{ points: edges.map(({ w, low, high }) => [w, low, high] as const) }],
          marks: [
            ...PUBLISHED.map(([x, y, label]) => ({ x, y, label })),
            ...(used === undefined ? [] : [{ x: at, y: used, label: "yours" }]),
          ],
        };
      },
    },
  ],
  tables: [
    {
      id: "places",
      title: "Where the liquid goes",
      columns: [
        { name: "temperature", label: "Liquid at", ...TEMPERATURE },
        { name: "least", label: "Holds at least", ...RATIO, digits: 2 },
        { name: "most", label: "Holds at most", ...RATIO, digits: 2 },
        { name: "used", label: "You put in", ...RATIO },
        { name: "dissolves", label: "Dissolves", ...COUNT, words: WORDS },
      ],
      rows: (given) =>
        [...new Set([...PLACES, given.temperature])]
          .toSorted((a, b) => a - b)
          .map((temperature) => {
            const { saturation, dissolves } = dissolve(given.ascorbicAcidMass, {
              ...solventOf(given),
              temperature,
            });
            const used = given.ascorbicAcidMass / given.solventMass;
            return [temperature, saturation.low, saturation.high, used, WORD_OF[dissolves]];
          }),
    },
  ],
  cautions: [
    {
      caution: "undissolved",
      when: (_, { dissolves }) => dissolves?.value !== 1,
      say: ({ temperature: t }, { dissolves, mostAcid }) => {
        const most = amount(mostAcid?.high ?? 0, { ...ascorbicAcidMass, digits: 2 });
        const advice =
          "Undissolved acid is grit in the blender and the bath, and no two servings are alike: add water or use less acid, and go no further while grains lie on the bottom. Warmth helps while it lasts, but what only dissolved warm may come back as crystals in the fridge.";
        return dissolves
          ? phrase`Some of the acid will not dissolve: at ${amount(t, dissolvingTemperature)} this liquid holds ${most} at the very most. ${advice}`
          : phrase`The acid may not all dissolve at ${amount(t, dissolvingTemperature)}: you are inside the band of the estimate, which ends at ${most}. ${advice}`;
      },
    },
  ],
  sources: ["merck-ascorbic-acid", "dallos-1998", "nemdili-2022", "galvao-2018"],
});

function solventOf(given: {
  readonly solventMass: number;
  readonly solventMassFraction: number;
  readonly temperature: number;
}) {
  return {
    mass: given.solventMass,
    massFraction: given.solventMassFraction,
    temperature: given.temperature,
  };
}
