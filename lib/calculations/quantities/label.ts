import { BOTTLING_LIMITS } from "../../laws/bottling.ts";
import { SERVING_LIMITS } from "../../laws/serving.ts";
import { quantity } from "../calculation.ts";
import { SHARE, VOLUME } from "./kinds.ts";

export const servingVolume = quantity("servingVolume", {
  label: "One serving",
  symbol: "V_1",
  dimension: "volume",
  units: ["mL", "tsp", "tbsp", "fl oz"],
  digits: 3,
  limits: SERVING_LIMITS.servingVolume,
  default: 5e-6,
  hint: "Measured with a marked cup or a syringe",
  uncertainty: {
    relative: 0.05,
    because:
      "a marked medicine cup or a syringe read by eye (common practice, no source); a spoon from the drawer is far worse",
  },
});

export const liquidInBottle = quantity("liquidInBottle", {
  label: "Liquid in the bottle",
  symbol: String.raw`V_\mathrm{F}`,
  ...VOLUME,
  limits: SERVING_LIMITS.bottleVolume,
  default: 0.1e-3,
  hint: "What a full bottle holds, not what it could hold",
  uncertainty: {
    relative: 0.02,
    because: "filled by eye (common practice, no source)",
  },
});

export const entrapment = quantity("entrapment", {
  label: "Acid inside vesicles, at most",
  symbol: String.raw`\varepsilon`,
  ...SHARE,
  limits: SERVING_LIMITS.entrapment,
  default: 0.1,
  hint: "A guess from geometry: nothing in a kitchen measures it, and no label may state it",
  uncertainty: {
    relative: 0.5,
    because: "typed in: nobody has measured it in your bottle (estimate, no source)",
  },
});

export const foamLiquid = quantity("foamLiquid", {
  label: "Liquid skimmed off with the foam",
  symbol: "V^-",
  ...VOLUME,
  digits: 2,
  limits: BOTTLING_LIMITS.lossVolume,
  default: 12e-6,
  hint: "The gas in it not counted",
  uncertainty: {
    relative: 0.3,
    because: "typed in: weighed as what the beaker lost (common practice, no source)",
  },
});

export const spilledVolume = quantity("spilledVolume", {
  label: "Spilled and left behind",
  symbol: String.raw`V_\mathrm{x}`,
  ...VOLUME,
  digits: 2,
  limits: BOTTLING_LIMITS.lossVolume,
  default: 3e-6,
  hint: "Drops, and the film on beaker, funnel and spoon",
  uncertainty: {
    relative: 0.5,
    because:
      "a guess until you have weighed what was left behind once (common practice, no source)",
  },
});

export const bottleVolume = quantity("bottleVolume", {
  label: "One bottle, brimful",
  symbol: String.raw`V_\mathrm{B}`,
  ...VOLUME,
  limits: BOTTLING_LIMITS.bottleVolume,
  default: 0.11e-3,
  hint: "Weigh it empty and full of water: 1 g is 1 mL. It is more than the size it is sold as",
  uncertainty: {
    relative: 0.01,
    because:
      "filled with water and weighed; bottles of one kind differ by about 1 % (common practice, no source)",
  },
});

export const fillShare = quantity("fillShare", {
  label: "Filled to this share of the brim",
  symbol: String.raw`\beta`,
  ...SHARE,
  digits: 3,
  limits: BOTTLING_LIMITS.fillShare,
  default: 0.92,
  hint: "Up to the shoulder is about nine tenths",
  uncertainty: {
    absolute: 0.01,
    because: "a line on the shoulder, met by eye (common practice, no source)",
  },
});
