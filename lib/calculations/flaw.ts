import {
  criticalDepth,
  criticalStress,
  FATIGUE_EXPONENT,
  fatigueFactor,
  FLAW_LIMITS,
  REFERENCE_LOAD_TIME,
  stressIntensity,
} from "../laws/flaw.ts";
import { PERMISSIBLE_TENSION } from "../substances/glass.ts";
import {
  amount,
  asResult,
  defineCalculation,
  phrase,
  type Banded,
  type Result,
} from "./calculation.ts";
import {
  FLAW_DEPTH,
  flawDepth,
  geometryFactor,
  INTENSITY,
  loadTime,
  tension,
  toughness,
} from "./quantities/glass.ts";
import { COUNT, SHARE, STRESS } from "./quantities/kinds.ts";

/** The most that is recalled for borosilicate, which tires least. */
const LEAST_TIRED = 40;
const DURATIONS = [
  ["3 seconds", 3],
  ["1 minute", 60],
  ["1 hour", 3600],
  ["1 day", 86_400],
  ["30 days", 30 * 86_400],
  ["1 year", 365 * 86_400],
] as const;

const breaking: Omit<Result, "label" | "symbol"> = {
  ...STRESS,
  byFactor: true,
  bounds: { min: 0 },
};

export const flaw = defineCalculation({
  id: "flaw",
  title: "A flaw under tension",
  summary: "How hard a tension pulls at the tip of a scratch or chip, and what would make it run",
  inputs: { stress: tension, flawDepth, geometryFactor, toughness, loadTime },
  links: { stress: "thermal-stress.largestTension" },
  results: {
    margin: {
      ...COUNT,
      digits: 2,
      label: "Tension that breaks, over yours",
      symbol: "S",
      hint: "1 is the edge; below it the flaw runs. A figure of order: the band is wide",
      byFactor: true,
      bounds: { min: 0 },
    },
    lastingStress: {
      ...breaking,
      label: "Tension that breaks in that time",
      symbol: String.raw`\sigma_t`,
    },
    criticalStress: {
      ...breaking,
      label: "Tension that breaks in a short test",
      symbol: String.raw`\sigma_\mathrm{c}`,
    },
    criticalDepth: {
      ...FLAW_DEPTH,
      label: "Flaw that runs at your tension",
      symbol: String.raw`a_\mathrm{c}`,
      hint: "“None”: it would be deeper than any wall. Deeper than your wall: the tension alone breaks nothing",
      byFactor: true,
      bounds: { min: 0 },
    },
    stressIntensity: {
      ...INTENSITY,
      label: "Pull at the tip",
      symbol: "K",
      byFactor: true,
      bounds: { min: 0 },
    },
    fatigueFactor: {
      ...COUNT,
      digits: 2,
      label: "What is left of the strength in that time",
      symbol: String.raw`f_t`,
      hint: "1 for the 3 s of a test; longer loads break at less",
      bounds: { min: 0 },
    },
    referenceTime: asResult(loadTime, {
      label: "Length of a strength test",
      symbol: String.raw`t_0`,
      minor: true,
    }),
    fatigueExponent: {
      ...COUNT,
      label: "Exponent of tiring",
      symbol: "n",
      minor: true,
    },
  },
  compute: ({ stress, flawDepth: depth, geometryFactor: shape, toughness: limit, loadTime: t }) => {
    const left = fatigueFactor(t);
    const least = fatigueFactor(t, REFERENCE_LOAD_TIME, LEAST_TIRED);
    const [low, high] = [Math.min(left, least), Math.max(left, least)];
    const breaks = criticalStress(limit, depth, shape);
    const tired = (scale: number): Banded => ({
      value: left * scale,
      low: low * scale,
      high: high * scale,
    });
    // The depth that runs goes with the square of the strength: K_c f/(Y σ) is one length, squared.
    const still = criticalDepth(limit, stress, shape);
    const deepest = left ** 2 * still;
    return {
      margin: tired(breaks / stress),
      lastingStress: tired(breaks),
      criticalStress: breaks,
      criticalDepth:
        deepest > FLAW_LIMITS.depth.max
          ? null
          : { value: deepest, low: low ** 2 * still, high: high ** 2 * still },
      stressIntensity: stressIntensity(stress, depth, shape),
      fatigueFactor: { value: left, low, high },
      referenceTime: REFERENCE_LOAD_TIME,
      fatigueExponent: FATIGUE_EXPONENT,
    };
  },
  steps: [
    {
      result: "stressIntensity",
      tex: (slot) =>
        String.raw`${slot("geometryFactor")}\by ${slot("stress")}\by\sqrt{\pi\by ${slot("flawDepth")}}`,
    },
    {
      result: "criticalStress",
      tex: (slot) =>
        String.raw`\frac{${slot("toughness")}}{${slot("geometryFactor")}\by\sqrt{\pi\by ${slot("flawDepth")}}}`,
    },
    {
      result: "fatigueFactor",
      tex: (slot) =>
        String.raw`\left(\frac{${slot("referenceTime")}}{${slot("loadTime")}}\right)^{1/${slot("fatigueExponent")}}`,
    },
    {
      result: "lastingStress",
      tex: (slot) => String.raw`${slot("fatigueFactor")}\by ${slot("criticalStress")}`,
    },
    {
      result: "criticalDepth",
      tex: (slot) =>
        String.raw`\frac{1}{\pi}\left(\frac{${slot("fatigueFactor")}\by ${slot("toughness")}}{${slot("geometryFactor")}\by ${slot("stress")}}\right)^2`,
    },
    {
      result: "margin",
      tex: (slot) => String.raw`\frac{${slot("lastingStress")}}{${slot("stress")}}`,
    },
  ],
  figures: [
    {
      id: "energy",
      title: "What a crack costs and what it pays",
      caption:
        "Energy of a crack as it grows: new surface costs in step with its length, let-go strain pays with the square. From the top of the sum on, each step pays for itself and the crack runs.",
      data: () => {
        const lengths = Array.from({ length: 31 }, (_, i) => (2.2 * i) / 30);
        return {
          x: { label: "Length over the critical length", of: COUNT },
          y: { label: "Energy over that at the top", of: COUNT },
          lines: [
            { label: "surface", points: lengths.map((x) => [x, 2 * x]), dashed: true },
            { label: "strain let go", points: lengths.map((x) => [x, -(x ** 2)]), dashed: true },
            { label: "sum", points: lengths.map((x) => [x, 2 * x - x ** 2]) },
          ],
          marks: [{ x: 1, y: 1, label: "runs from here" }],
        };
      },
    },
    {
      id: "strength-by-depth",
      title: "Depth decides",
      caption:
        "Tension that breaks in your time, against the depth of the flaw. A thin invisible scratch leaves plenty; a chip of a millimetre leaves little more than the design figure.",
      data: ({ flawDepth: depth, stress, ...same }, run) => {
        const most = Math.min(Math.max(2e-3, 1.5 * depth), FLAW_LIMITS.depth.max);
        // Below some share of the drawn width the curve goes through the roof.
        const points = Array.from({ length: 50 }, (_, i) => most * ((i + 4) / 53) ** 2).flatMap(
          (x) => {
            const y = run({ ...same, stress, flawDepth: x })?.["lastingStress"];
            return y ? [[x, y.value, y.low, y.high] as const] : [];
          },
        );
        const here = run({})?.["lastingStress"]?.value;
        const seen = depth >= (points[0]?.[0] ?? 0);
        return {
          x: { label: "Depth of the flaw", of: flawDepth },
          y: { label: "Tension that breaks", of: STRESS },
          lines: [{ label: "breaks", points: points.map(([x, y]) => [x, y]) }],
          marks: here !== undefined && seen ? [{ x: depth, y: here, label: "yours" }] : [],
          rules: [{ y: PERMISSIBLE_TENSION, label: "design figure" }],
        };
      },
    },
  ],
  tables: [
    {
      id: "durations",
      title: "What is left of the strength, by how long the tension lasts",
      columns: [
        {
          name: "duration",
          label: "Tension lasts",
          ...COUNT,
          words: DURATIONS.map(([words]) => words),
        },
        { name: "left", label: "Strength left, at least", ...SHARE },
        { name: "most", label: "Borosilicate, perhaps", ...SHARE },
        { name: "stress", label: "Your flaw breaks at", ...STRESS, digits: 2 },
      ],
      rows: ({ flawDepth: depth, geometryFactor: shape, toughness: limit }) =>
        DURATIONS.map(([, t], i) => [
          i,
          fatigueFactor(t),
          fatigueFactor(t, REFERENCE_LOAD_TIME, LEAST_TIRED),
          fatigueFactor(t) * criticalStress(limit, depth, shape),
        ]),
    },
  ],
  cautions: [
    {
      caution: "glass",
      when: (_, { margin }) => (margin?.low ?? Infinity) < 1,
      say: ({ flawDepth: depth, stress }) =>
        phrase`A flaw of ${amount(depth, flawDepth)} may run at ${amount(stress, tension)}. Retire the glass: no chip is worth a batch or a hand.`,
    },
  ],
  sources: [
    "griffith-1921",
    "irwin-1957",
    "astm-e1300",
    "glass-toughness-1990",
    "kasunic-2015",
    "en-1595",
  ],
});
