import { bottling as bottlingOf } from "../laws/bottling.ts";
import { amount, defineCalculation, phrase, RefusedError, type Result } from "./calculation.ts";
import { batchVolume } from "./quantities/batch.ts";
import { COUNT, VOLUME } from "./quantities/kinds.ts";
import { bottleVolume, fillShare, foamLiquid, spilledVolume } from "./quantities/label.ts";

const volume: Omit<Result, "label" | "symbol"> = { ...VOLUME, digits: 3, bounds: { min: 0 } };

/**
 * Share of a bottle that has to stay air. From 4 to 40 °C a liquid of 12 % vol grows by 1 %, one of 30 % vol by
 * 2 % (the density formula of OIML R 22. computed).
 */
export const LEAST_HEADSPACE = 0.02;

/** Sizes of bottle that the figure looks at. */
const SIZES = 240;
/** So many of them at which the batch comes out even, larger ones and smaller ones. */
const EVEN_SIZES = 3;

export const bottling = defineCalculation({
  id: "bottling",
  title: "Into bottles",
  summary: "How many bottles a batch fills, and how much air stays over the liquid",
  inputs: { batchVolume, foamLiquid, spilledVolume, bottleVolume, fillShare },
  links: { batchVolume: "composition.batchVolume", foamLiquid: "skimming.lostVolume" },
  results: {
    bottles: {
      ...COUNT,
      label: "Bottles filled",
      symbol: "n",
      hint: "Whole ones; where a whole number lies in the band of the fillings, it may be one more or less",
      unbanded: true,
    },
    fillings: {
      ...COUNT,
      label: "Fillings in the batch",
      symbol: "N",
      bounds: { min: 0 },
    },
    fillVolume: {
      ...volume,
      label: "Liquid in each",
      symbol: String.raw`V_\mathrm{F}`,
    },
    headspaceVolume: {
      ...volume,
      label: "Air over it",
      symbol: String.raw`V_\mathrm{H}`,
    },
    lastVolume: {
      ...volume,
      digits: 2,
      label: "Left for a last bottle",
      symbol: String.raw`V_\mathrm{z}`,
      hint: "As the numbers stand; all that the batch is unsure of ends up here",
      unbanded: true,
    },
    lastHeadspaceVolume: {
      ...volume,
      digits: 2,
      label: "Air over that",
      symbol: String.raw`V_\mathrm{H,z}`,
      hint: "In a bottle of the same size; a smaller one has less",
      unbanded: true,
    },
  },
  compute: (inputs) => {
    const { batchVolume: whole } = inputs;
    const lost = inputs.foamLiquid + inputs.spilledVolume;
    if (lost > whole)
      throw new RefusedError(
        "spilledVolume",
        phrase`With the ${amount(inputs.foamLiquid, foamLiquid)} skimmed off that is more than the ${amount(whole, batchVolume)} there are. Type less.`,
      );
    const found = bottlingOf(whole, lost, inputs.bottleVolume, inputs.fillShare);
    return { ...found, fillings: (whole - lost) / found.fillVolume };
  },
  steps: [
    {
      result: "fillVolume",
      tex: (slot) => String.raw`${slot("fillShare")}\by ${slot("bottleVolume")}`,
    },
    {
      result: "headspaceVolume",
      tex: (slot) => String.raw`${slot("bottleVolume")} - ${slot("fillVolume")}`,
    },
    {
      result: "fillings",
      tex: (slot) =>
        String.raw`\frac{${slot("batchVolume")} - ${slot("foamLiquid")} - ${slot("spilledVolume")}}{${slot("fillVolume")}}`,
    },
    {
      result: "bottles",
      tex: (slot) => String.raw`\left\lfloor ${slot("fillings")} \right\rfloor`,
    },
    {
      result: "lastVolume",
      tex: (slot) =>
        String.raw`${slot("batchVolume")} - ${slot("foamLiquid")} - ${slot("spilledVolume")} - ${slot("bottles")}\by ${slot("fillVolume")}`,
    },
    {
      result: "lastHeadspaceVolume",
      tex: (slot) => String.raw`${slot("bottleVolume")} - ${slot("lastVolume")}`,
    },
  ],
  figures: [
    {
      id: "air-by-size",
      title: "Air in the last bottle, by the size of the bottles",
      caption:
        "At each cliff the batch comes out even and there is no last bottle. Just to the right of it the last bottle is nearly full; just to the left a few drops stand in a bottle of air.",
      data: (
        {
          batchVolume: batch,
          foamLiquid: foam,
          spilledVolume: spilled,
          bottleVolume: size,
          fillShare: fill,
        },
        run,
      ) => {
        const { min, max } = bottleVolume.limits;
        // Sizes at which the batch comes out even lie a filling apart: a few of them either way.
        const full = (batch - foam - spilled) / fill;
        const fillings = full / size;
        const left = Math.max(full / (fillings + EVEN_SIZES), min);
        const fewest = Math.max(fillings - EVEN_SIZES, 0.6);
        const right = Math.min(Math.max(full / fewest, size * 1.2, min * 2), max);
        const points = Array.from(
          { length: SIZES + 1 },
          (_, i) => left + ((right - left) * i) / SIZES,
        ).flatMap((x) => {
          const y = run({ bottleVolume: x })?.["lastHeadspaceVolume"]?.value;
          return y === undefined ? [] : [[x, y] as [number, number]];
        });
        const here = run({})?.["lastHeadspaceVolume"]?.value;
        return {
          x: { label: "One bottle, brimful", of: bottleVolume },
          y: { label: "Air in the last one", of: VOLUME },
          lines: [{ label: "last bottle", points }],
          marks: here === undefined ? [] : [{ x: size, y: here, label: "yours" }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "storage",
      when: (inputs) => inputs.fillShare > 1 - LEAST_HEADSPACE,
      say: (_, { headspaceVolume }) =>
        phrase`Only ${amount(headspaceVolume?.value ?? 0, VOLUME)} of air stay over the liquid, less than ${amount(LEAST_HEADSPACE, fillShare)} of the bottle. A cold liquid grows as it warms, and a bottle with no room for it can break: fill it less.`,
    },
  ],
  sources: ["oiml-r22-1975"],
});
