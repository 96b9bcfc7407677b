import { OutOfRangeError } from "../errors.ts";
import { skimming as skim } from "../laws/skimming.ts";
import { amount, defineCalculation, phrase, RefusedError, type Result } from "./calculation.ts";
import {
  ascorbicAcidMass,
  batchVolume,
  lecithinMass,
  spiritMass,
  waterMass,
} from "./quantities/batch.ts";
import { gasShare, skimmedVolume } from "./quantities/bubbles.ts";
import { MASS, SHARE, SMALL_MASS, VOLUME } from "./quantities/kinds.ts";

const lost: Omit<Result, "label" | "symbol"> = { ...SMALL_MASS, bounds: { min: 0 } };
const left: Omit<Result, "label" | "symbol"> = { ...MASS, bounds: { min: 0 } };
const part: Omit<Result, "label" | "symbol"> = { ...VOLUME, bounds: { min: 0 } };

export const skimming = defineCalculation({
  id: "skimming",
  title: "What goes with the foam",
  summary: "What skimmed foam takes of each ingredient, and what is left to bottle",
  inputs: {
    batchVolume,
    waterMass,
    spiritMass,
    ascorbicAcidMass,
    lecithinMass,
    skimmedVolume,
    gasShare,
  },
  links: {
    waterMass: "recipe.waterMass",
    spiritMass: "recipe.spiritMass",
    ascorbicAcidMass: "recipe.ascorbicAcidMass",
    lecithinMass: "recipe.lecithinMass",
  },
  decided: ["waterMass", "spiritMass", "ascorbicAcidMass", "lecithinMass"],
  results: {
    shareLost: {
      ...SHARE,
      label: "Share of the batch that is skimmed",
      symbol: "s",
      bounds: { min: 0, max: 1 },
    },
    lostVolume: { ...part, digits: 2, label: "Liquid in the foam", symbol: "V^-" },
    lostMass: {
      ...lost,
      label: "Foam by weight",
      symbol: "m^-",
      hint: "Weigh it: the scale is surer than the eye’s guess of its gas",
    },
    leftVolume: { ...part, label: "Liquid that is left", symbol: "V^+" },
    lostWater: { ...lost, label: "Water lost", symbol: String.raw`m_\mathrm{w}^-` },
    lostSpirit: { ...lost, label: "Spirit lost", symbol: String.raw`m_\mathrm{s}^-` },
    lostAscorbicAcid: { ...lost, label: "Ascorbic acid lost", symbol: String.raw`m_\mathrm{a}^-` },
    lostLecithin: {
      ...lost,
      label: "Lecithin lost, at least",
      symbol: String.raw`m_\mathrm{l}^-`,
      hint: "It gathers on bubbles, so foam takes more of it than its share",
    },
    leftWater: { ...left, label: "Water left", symbol: String.raw`m_\mathrm{w}^+`, minor: true },
    leftSpirit: { ...left, label: "Spirit left", symbol: String.raw`m_\mathrm{s}^+`, minor: true },
    leftAscorbicAcid: {
      ...left,
      label: "Ascorbic acid left",
      symbol: String.raw`m_\mathrm{a}^+`,
      minor: true,
    },
    leftLecithin: {
      ...left,
      label: "Lecithin left, at most",
      symbol: String.raw`m_\mathrm{l}^+`,
      minor: true,
    },
  },
  compute: (given) => {
    const { volumeLost, volumeLeft, shareLost, lost: off, left: stays } = skimmed(given);
    return {
      shareLost,
      lostVolume: volumeLost,
      lostMass: off.water + off.spirit + off.acid + off.lecithin,
      leftVolume: volumeLeft,
      lostWater: off.water,
      lostSpirit: off.spirit,
      lostAscorbicAcid: off.acid,
      lostLecithin: off.lecithin,
      leftWater: stays.water,
      leftSpirit: stays.spirit,
      leftAscorbicAcid: stays.acid,
      leftLecithin: stays.lecithin,
    };
  },
  steps: [
    {
      result: "lostVolume",
      tex: (slot) => String.raw`${slot("skimmedVolume")}\by(1 - ${slot("gasShare")})`,
    },
    {
      result: "shareLost",
      tex: (slot) => String.raw`\frac{${slot("lostVolume")}}{${slot("batchVolume")}}`,
    },
    {
      result: "lostAscorbicAcid",
      tex: (slot) => String.raw`${slot("shareLost")}\by ${slot("ascorbicAcidMass")}`,
    },
    {
      result: "leftVolume",
      tex: (slot) => String.raw`${slot("batchVolume")} - ${slot("lostVolume")}`,
    },
  ],
  figures: [
    {
      id: "what-goes",
      title: "What goes with the foam",
      caption:
        "What the skimmed foam takes along of each ingredient, with the foam’s own share of gas as you guessed it.",
      data: (_inputs, run) => {
        const values = run({});
        const of = (name: string): number => values?.[name]?.value ?? 0;
        return {
          x: { label: "Mass in the foam", of: SMALL_MASS },
          bars: [
            { label: waterMass.label, value: of("lostWater") },
            { label: spiritMass.label, value: of("lostSpirit") },
            { label: ascorbicAcidMass.label, value: of("lostAscorbicAcid") },
            { label: lecithinMass.label, value: of("lostLecithin") },
          ],
        };
      },
    },
  ],
  sources: ["statics", "common-practice"],
});

function skimmed(given: {
  readonly batchVolume: number;
  readonly waterMass: number;
  readonly spiritMass: number;
  readonly ascorbicAcidMass: number;
  readonly lecithinMass: number;
  readonly skimmedVolume: number;
  readonly gasShare: number;
}) {
  const masses = {
    water: given.waterMass,
    spirit: given.spiritMass,
    acid: given.ascorbicAcidMass,
    lecithin: given.lecithinMass,
  };
  try {
    return skim(given.batchVolume, masses, given.skimmedVolume, given.gasShare);
  } catch (error) {
    if (error instanceof OutOfRangeError && error.quantity === "skimmedVolume")
      throw new RefusedError(
        "skimmedVolume",
        phrase`That is more foam than the batch can make: with this much gas in it all the liquid would be ${amount(error.limits.max, skimmedVolume)} of foam. Type less, or more gas.`,
      );
    throw error;
  }
}
