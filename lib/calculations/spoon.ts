import { asResult, defineCalculation, phrase, RefusedError } from "./calculation.ts";
import { ascorbicAcidMass } from "./quantities/batch.ts";
import { bulkDensityHigh, bulkDensityLow, spoonVolume } from "./quantities/scale.ts";
import { SHARE } from "./quantities/kinds.ts";

export const spoon = defineCalculation({
  id: "spoon",
  title: "What a spoon holds",
  summary: "The range of masses that one levelled spoon of powder can be",
  inputs: { volume: spoonVolume, bulkDensityLow, bulkDensityHigh },
  results: {
    massLow: asResult(ascorbicAcidMass, {
      label: "At least",
      symbol: String.raw`m_\mathrm{low}`,
      digits: 2,
      hint: "Loose or fine powder",
    }),
    massHigh: asResult(ascorbicAcidMass, {
      label: "At most",
      symbol: String.raw`m_\mathrm{high}`,
      digits: 2,
      hint: "Settled or coarse powder",
    }),
    relativeError: {
      label: "Off by as much as, either way",
      symbol: "e",
      ...SHARE,
      hint: "Of the middle value",
      bounds: { min: 0 },
    },
  },
  compute: ({ volume, bulkDensityLow, bulkDensityHigh }) => {
    if (bulkDensityLow > bulkDensityHigh)
      throw new RefusedError(
        "bulkDensityLow",
        phrase`The loose powder cannot be denser than the settled one: swap the two.`,
      );
    return {
      massLow: volume * bulkDensityLow,
      massHigh: volume * bulkDensityHigh,
      relativeError: (bulkDensityHigh - bulkDensityLow) / (bulkDensityHigh + bulkDensityLow),
    };
  },
  steps: [
    {
      result: "massLow",
      tex: (slot) => String.raw`${slot("volume")}\by ${slot("bulkDensityLow")}`,
    },
    {
      result: "massHigh",
      tex: (slot) => String.raw`${slot("volume")}\by ${slot("bulkDensityHigh")}`,
    },
    {
      result: "relativeError",
      tex: (slot) =>
        String.raw`\frac{${slot("massHigh")} - ${slot("massLow")}}{${slot("massHigh")} + ${slot("massLow")}}`,
    },
  ],
  figures: [
    {
      id: "wedge",
      title: "Mass by the spoon",
      caption:
        "What ten such spoons of powder may weigh. The gap between loose and settled powder opens with every spoon, and no care in levelling closes it.",
      data: ({ volume, bulkDensityLow, bulkDensityHigh }) => {
        const at = Array.from({ length: 11 }, (_, i) => volume * i);
        const line = (density: number) => at.map((v) => [v, v * density] as [number, number]);
        return {
          x: { label: "Powder, levelled", of: spoonVolume },
          y: { label: "Its mass", of: ascorbicAcidMass },
          lines: [
            { label: "settled or coarse", points: line(bulkDensityHigh) },
            { label: "loose", points: line(bulkDensityLow) },
          ],
          bands: [{ points: at.map((v) => [v, v * bulkDensityLow, v * bulkDensityHigh] as const) }],
        };
      },
    },
  ],
  sources: ["hpe-ascorbic-acid"],
});
