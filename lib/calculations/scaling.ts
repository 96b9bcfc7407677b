import { defineCalculation, phrase, RefusedError, type Result } from "./calculation.ts";
import {
  ascorbicAcidInStock,
  ascorbicAcidMass,
  batchVolume,
  lecithinInStock,
  lecithinMass,
  spiritInStock,
  spiritMass,
} from "./quantities/batch.ts";
import { COUNT, VOLUME } from "./quantities/kinds.ts";

const factor: Omit<Result, "label" | "symbol"> = {
  ...COUNT,
  bounds: { min: 0 },
};

export const scaling = defineCalculation({
  id: "scaling",
  title: "As much as you have",
  summary: "The largest batch of the same recipe that your stock allows, and what runs out first",
  inputs: {
    spiritInStock,
    ascorbicAcidInStock,
    lecithinInStock,
    batchVolume,
    spiritMass,
    ascorbicAcidMass,
    lecithinMass,
  },
  links: {
    spiritMass: "recipe.spiritMass",
    ascorbicAcidMass: "recipe.ascorbicAcidMass",
    lecithinMass: "recipe.lecithinMass",
  },
  decided: ["spiritMass", "ascorbicAcidMass", "lecithinMass"],
  results: {
    largestVolume: {
      label: "Largest batch from your stock",
      symbol: String.raw`V_\mathrm{max}`,
      ...VOLUME,
      digits: 3,
      bounds: { min: 0 },
    },
    factor: { ...factor, label: "Times the recipe", symbol: "f" },
    spiritFactor: {
      ...factor,
      label: "Spirit is enough for, times",
      symbol: String.raw`f_\mathrm{s}`,
    },
    ascorbicAcidFactor: {
      ...factor,
      label: "Ascorbic acid is enough for, times",
      symbol: String.raw`f_\mathrm{a}`,
    },
    lecithinFactor: {
      ...factor,
      label: "Lecithin is enough for, times",
      symbol: String.raw`f_\mathrm{l}`,
    },
  },
  compute: (inputs) => {
    const enough = (stock: number, needed: number): number | null =>
      needed > 0 ? stock / needed : null;
    const factors = {
      spiritFactor: enough(inputs.spiritInStock, inputs.spiritMass),
      ascorbicAcidFactor: enough(inputs.ascorbicAcidInStock, inputs.ascorbicAcidMass),
      lecithinFactor: enough(inputs.lecithinInStock, inputs.lecithinMass),
    };
    const least = Math.min(...Object.values(factors).map((value) => value ?? Infinity));
    if (!Number.isFinite(least))
      throw new RefusedError("spiritMass", [
        "This recipe needs nothing but water, so nothing can run out.",
      ]);
    return { largestVolume: least * inputs.batchVolume, factor: least, ...factors };
  },
  steps: [
    {
      result: "spiritFactor",
      tex: (slot) => String.raw`\frac{${slot("spiritInStock")}}{${slot("spiritMass")}}`,
    },
    {
      result: "ascorbicAcidFactor",
      tex: (slot) => String.raw`\frac{${slot("ascorbicAcidInStock")}}{${slot("ascorbicAcidMass")}}`,
    },
    {
      result: "lecithinFactor",
      tex: (slot) => String.raw`\frac{${slot("lecithinInStock")}}{${slot("lecithinMass")}}`,
    },
    {
      result: "factor",
      tex: (slot) =>
        String.raw`\min\left(${slot("spiritFactor")},\; ${slot("ascorbicAcidFactor")},\; ${slot("lecithinFactor")}\right)`,
    },
    {
      result: "largestVolume",
      tex: (slot) => String.raw`${slot("factor")}\by ${slot("batchVolume")}`,
    },
  ],
  figures: [
    {
      id: "runs-out-first",
      title: "What runs out first",
      caption: "How many times the recipe each ingredient is enough for. The shortest bar decides.",
      data: (_inputs, run) => {
        const values = run({});
        const bar = (label: string, name: string) => {
          const value = values?.[name]?.value;
          return value === undefined ? [] : [{ label, value }];
        };
        return {
          x: { label: "Times the recipe", of: { ...COUNT } },
          bars: [
            ...bar("Spirit", "spiritFactor"),
            ...bar("Ascorbic acid", "ascorbicAcidFactor"),
            ...bar("Lecithin", "lecithinFactor"),
          ],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "glass",
      when: (_inputs, { largestVolume }) => (largestVolume?.value ?? 0) > 2e-3,
      say: () =>
        phrase`More than two litres is more alcohol, more heat and more glass than these chapters were written for. Make several small batches.`,
    },
  ],
  sources: [],
});
