import { mix, mixingRise, partOfVolume } from "../laws/mixing.ts";
import { density, strength } from "../substances/ethanol-water.ts";
import { amount, defineCalculation, phrase } from "./calculation.ts";
import {
  FLAMMABLE_FROM,
  referenceTemperature,
  strengthA,
  strengthB,
  volumeA,
  volumeB,
} from "./quantities/spirit.ts";
import { DENSITY, MASS, MASS_FRACTION, RISE, SHARE, STRENGTH, VOLUME } from "./quantities/kinds.ts";

const mass = { ...MASS, minor: true } as const;
const fraction = {
  ...MASS_FRACTION,
  bounds: { min: 0, max: 1 },
} as const;

const shareShown = { ...SHARE, digits: 3 } as const;

export const mixing = defineCalculation({
  id: "mixing",
  title: "Two spirits together",
  summary: "Volume and strength of two spirits poured together, contraction counted",
  inputs: { volumeA, strengthA, volumeB, strengthB, referenceTemperature },
  results: {
    volume: { ...VOLUME, label: "Volume of the mixture", symbol: "V", bounds: { min: 0 } },
    strength: {
      label: "Strength of the mixture",
      symbol: String.raw`\varphi`,
      ...STRENGTH,
      bounds: { min: 0, max: 1 },
    },
    massFraction: { ...fraction, label: "Alcohol by mass", symbol: "w" },
    contraction: {
      ...VOLUME,
      label: "Contraction",
      symbol: String.raw`\Delta V`,
      digits: 3,
      hint: "Below zero the mixture swells, as weak spirit does when it is watered down far",
    },
    mixingRise: {
      label: "Warming on mixing",
      symbol: String.raw`\Delta T`,
      ...RISE,
      hint: "If no heat is lost; negative where the mixture cools",
    },
    massA: { ...mass, label: "First spirit by mass", symbol: String.raw`m_\mathrm{A}` },
    massB: { ...mass, label: "Second spirit by mass", symbol: String.raw`m_\mathrm{B}` },
    massFractionA: {
      ...fraction,
      label: "First spirit, alcohol by mass",
      symbol: String.raw`w_\mathrm{A}`,
      minor: true,
    },
    massFractionB: {
      ...fraction,
      label: "Second spirit, alcohol by mass",
      symbol: String.raw`w_\mathrm{B}`,
      minor: true,
    },
    density: {
      label: "Density of the mixture",
      symbol: String.raw`\varrho`,
      ...DENSITY,
      minor: true,
    },
  },
  blame: { strength: "strengthA", temperature: "referenceTemperature" },
  compute: ({ volumeA, strengthA, volumeB, strengthB, referenceTemperature: t0 }) => {
    const a = partOfVolume(volumeA, strengthA, t0);
    const b = partOfVolume(volumeB, strengthB, t0);
    const mixture = mix(a, b);
    const mixtureDensity = density(mixture.massFraction, t0);
    const total = mixture.mass / mixtureDensity;
    return {
      volume: total,
      strength: strength(mixture.massFraction, t0),
      massFraction: mixture.massFraction,
      contraction: volumeA + volumeB - total,
      mixingRise: mixingRise(a, b),
      massA: a.mass,
      massB: b.mass,
      massFractionA: a.massFraction,
      massFractionB: b.massFraction,
      density: mixtureDensity,
    };
  },
  steps: [
    {
      result: "massFraction",
      tex: (slot) =>
        String.raw`\frac{${slot("massA")}\by ${slot("massFractionA")} + ${slot("massB")}\by ${slot("massFractionB")}}{${slot("massA")} + ${slot("massB")}}`,
    },
    {
      result: "volume",
      tex: (slot) => String.raw`\frac{${slot("massA")} + ${slot("massB")}}{${slot("density")}}`,
    },
    {
      result: "contraction",
      tex: (slot) => String.raw`${slot("volumeA")} + ${slot("volumeB")} - ${slot("volume")}`,
    },
  ],
  figures: [
    {
      id: "contraction-by-share",
      title: "Contraction by how much of each",
      caption:
        "Volume lost when the same total is poured in other shares, from all of the second spirit on the left to all of the first on the right. Below zero the mixture takes up more room than its parts did.",
      data: ({ volumeA, volumeB }, run) => {
        const total = volumeA + volumeB;
        const points = Array.from({ length: 39 }, (_, i) => (i + 1) / 40).flatMap((share) => {
          const y = run({ volumeA: share * total, volumeB: (1 - share) * total })?.["contraction"];
          return y ? [[share, y.value] as [number, number]] : [];
        });
        const here = run({})?.["contraction"]?.value;
        return {
          x: { label: "First spirit in all that is poured", of: shareShown, domain: [0, 1] },
          y: { label: "Contraction", of: { ...VOLUME, digits: 3 } },
          lines: [{ label: "missing volume", points: [[0, 0], ...points, [1, 0]] }],
          marks: here === undefined ? [] : [{ x: volumeA / total, y: here, label: "yours" }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "flammable",
      when: ({ strengthA, strengthB }) => Math.max(strengthA, strengthB) > FLAMMABLE_FROM,
      say: ({ strengthA: a, strengthB: b }) =>
        phrase`You are pouring spirit of up to ${amount(Math.max(a, b), strengthA)}: no flame, hot plate or sparking motor near it, and mop up spills at once.`,
    },
  ],
  sources: ["oiml-r22-1975", "larkin-1975"],
});
