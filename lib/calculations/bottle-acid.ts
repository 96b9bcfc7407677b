import { asResult, defineCalculation } from "./calculation.ts";
import { ascorbicAcidConcentration } from "./quantities/batch.ts";
import { bottleAscorbicAcid, bottledVolume } from "./quantities/storage.ts";

export const bottleAcid = defineCalculation({
  id: "bottle-acid",
  title: "The acid in one bottle",
  summary: "Ascorbic acid in a bottle, from the recipe’s concentration and the liquid in it",
  inputs: { ascorbicAcidConcentration, liquidVolume: bottledVolume },
  links: {
    ascorbicAcidConcentration: "composition.ascorbicAcidConcentration",
    liquidVolume: "bottling.fillVolume",
  },
  results: { acidMass: asResult(bottleAscorbicAcid, { bounds: { min: 0 } }) },
  compute: ({ ascorbicAcidConcentration: concentration, liquidVolume }) => ({
    acidMass: concentration * liquidVolume,
  }),
  steps: [
    {
      result: "acidMass",
      tex: (slot) => String.raw`${slot("ascorbicAcidConcentration")}\by ${slot("liquidVolume")}`,
    },
  ],
  sources: ["statics"],
});
