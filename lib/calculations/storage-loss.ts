import { storageLoss as lossIn, type Storage } from "../laws/storage-loss.ts";
import {
  amount,
  asResult,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import { COUNT, SHARE } from "./quantities/kinds.ts";
import {
  activationEnergyHigh,
  activationEnergyLow,
  DAYS,
  LOSS_RATE,
  MOLAR_ENERGY,
  rateAtReferenceHigh,
  rateAtReferenceLow,
  shareThatMustRemain,
  storeTemperature,
  storeTime,
  studyTemperature,
} from "./quantities/storage.ts";

const inputs = {
  temperature: storeTemperature,
  time: storeTime,
  limit: shareThatMustRemain,
  rateAtReferenceLow,
  rateAtReferenceHigh,
  referenceTemperature: studyTemperature,
  activationEnergyLow,
  activationEnergyHigh,
} as const;

type Given = InputValues<typeof inputs>;

const left: Omit<Result, "label" | "symbol"> = { ...SHARE, bounds: { min: 0, max: 1 } };
const wait: Omit<Result, "label" | "symbol"> = { ...DAYS, byFactor: true, bounds: { min: 0 } };
const rate: Omit<Result, "label" | "symbol"> = {
  ...LOSS_RATE,
  digits: 3,
  byFactor: true,
  bounds: { min: 0 },
  minor: true,
};
const kelvin: Omit<Result, "label" | "symbol"> = {
  dimension: "temperatureDifference",
  units: ["K"],
  digits: 4,
  minor: true,
};
const warmth: Omit<Result, "label" | "symbol"> = {
  ...COUNT,
  byFactor: true,
  bounds: { min: 0 },
  minor: true,
};
const energy: Omit<Result, "label" | "symbol"> = { ...MOLAR_ENERGY, minor: true, unbanded: true };

export const storageLoss = defineCalculation({
  id: "storage-loss",
  title: "What is left after a time",
  summary: "The range of ascorbic acid left after a time in store, from published rates of loss",
  inputs,
  links: { temperature: "kinetic-temperature.meanKineticTemperature" },
  results: {
    remainingLow: { ...left, label: "Acid left, at least", symbol: "s^-" },
    remainingHigh: { ...left, label: "Acid left, at most", symbol: "s^+" },
    timeToLimit: {
      ...wait,
      label: "Down to your limit, at the earliest",
      symbol: "t^-",
      hint: "Act on this end",
    },
    timeToLimitHigh: { ...wait, label: "Down to your limit, at the latest", symbol: "t^+" },
    rateLow: { ...rate, label: "Rate in your store, slowest", symbol: "k^-" },
    rateHigh: { ...rate, label: "Rate in your store, fastest", symbol: "k^+" },
    warmthSlow: {
      ...warmth,
      label: "Your store’s warmth, as a factor of the slow end",
      symbol: "a^-",
    },
    warmthFast: {
      ...warmth,
      label: "Your store’s warmth, as a factor of the fast end",
      symbol: "a^+",
    },
    energySlow: {
      ...energy,
      label: "Activation energy of the slow end here",
      symbol: String.raw`E_\mathrm{slow}`,
    },
    energyFast: {
      ...energy,
      label: "Activation energy of the fast end here",
      symbol: String.raw`E_\mathrm{fast}`,
    },
    storeKelvin: { ...kelvin, label: "Store, above absolute zero", symbol: "T" },
    studyKelvin: { ...kelvin, label: "Measurement, above absolute zero", symbol: "T_0" },
    keptAt: asResult(storeTemperature, { minor: true, symbol: String.raw`T_\mathrm{s}` }),
  },
  compute: (given) => {
    const { rate: rates, remaining, timeToLimit } = lossOf(given);
    // Warmer than where it was measured the higher energy makes more loss; colder, less.
    const warmer = given.temperature > given.referenceTemperature;
    const { activationEnergyLow: lower, activationEnergyHigh: higher } = given;
    return {
      remainingLow: remaining.low,
      remainingHigh: remaining.high,
      timeToLimit: timeToLimit.low,
      timeToLimitHigh: timeToLimit.high,
      rateLow: rates.low,
      rateHigh: rates.high,
      warmthSlow: rates.low / given.rateAtReferenceLow,
      warmthFast: rates.high / given.rateAtReferenceHigh,
      energySlow: warmer ? lower : higher,
      energyFast: warmer ? higher : lower,
      storeKelvin: given.temperature + 273.15,
      studyKelvin: given.referenceTemperature + 273.15,
      keptAt: given.temperature,
    };
  },
  steps: [
    {
      result: "warmthFast",
      tex: (slot) => carried(slot, "energyFast"),
    },
    {
      result: "warmthSlow",
      tex: (slot) => carried(slot, "energySlow"),
    },
    {
      result: "rateHigh",
      tex: (slot) => String.raw`${slot("warmthFast")}\by ${slot("rateAtReferenceHigh")}`,
    },
    {
      result: "rateLow",
      tex: (slot) => String.raw`${slot("warmthSlow")}\by ${slot("rateAtReferenceLow")}`,
    },
    {
      result: "remainingLow",
      tex: (slot) => String.raw`\exp\left(-${slot("rateHigh")}\by ${slot("time")}\right)`,
    },
    {
      result: "remainingHigh",
      tex: (slot) => String.raw`\exp\left(-${slot("rateLow")}\by ${slot("time")}\right)`,
    },
    {
      result: "timeToLimit",
      tex: (slot) => String.raw`\frac{\ln(1/${slot("limit")})}{${slot("rateHigh")}}`,
    },
  ],
  figures: [
    {
      id: "remaining",
      title: "What is left, as time goes by",
      caption:
        "Share of the acid left, from the fastest published loss to the slowest, carried to the temperature of your store. Nobody knows where in the band your bottle lies; the mark is where its lower edge meets your limit.",
      data: (given) => {
        const { rate: rates, timeToLimit } = lossOf(given);
        const span = Math.max(
          Math.min(2.2 * timeToLimit.low, storeTime.limits.max),
          given.time,
          86_400,
        );
        const times = Array.from({ length: 41 }, (_, i) => (span * i) / 40);
        const line = (k: number): readonly [number, number][] =>
          times.map((t) => [t, Math.exp(-k * t)]);
        return {
          x: { label: "Time in store", of: DAYS },
          y: { label: "Acid left", of: SHARE, domain: [0, 1] },
          lines: [
            { label: "slowest", points: line(rates.low) },
            { label: "fastest", points: line(rates.high) },
          ],
          bands: [
            {
              points: times.map((t) => [t, Math.exp(-rates.high * t), Math.exp(-rates.low * t)]),
            },
          ],
          marks:
            timeToLimit.low > span
              ? []
              : [{ x: timeToLimit.low, y: given.limit, label: "earliest" }],
          rules: [{ y: given.limit, label: "your limit" }],
        };
      },
    },
  ],
  sources: [
    "hsu-2012",
    "hsu-comment-2013",
    "walker-2019",
    "zhang-2016",
    "burdurlu-2006",
    "manso-2001",
  ],
});

function carried(slot: (name: string) => string, energy: string): string {
  return String.raw`\exp\left[\frac{${slot(energy)}}{R}\by\left(\frac{1}{${slot("studyKelvin")}} - \frac{1}{${slot("storeKelvin")}}\right)\right]`;
}

function lossOf(given: Given): Storage {
  const {
    rateAtReferenceLow: slow,
    rateAtReferenceHigh: fast,
    activationEnergyLow: lower,
    activationEnergyHigh: higher,
  } = given;
  if (slow > fast)
    throw new RefusedError(
      "rateAtReferenceHigh",
      phrase`The fastest rate cannot be below the slowest: type ${amount(slow, rateAtReferenceLow)} or more, or lower the other one.`,
    );
  if (lower > higher)
    throw new RefusedError(
      "activationEnergyHigh",
      phrase`The highest energy cannot be below the lowest: type ${amount(lower, activationEnergyLow)} or more, or lower the other one.`,
    );
  return lossIn(
    {
      rate: { low: slow, high: fast },
      referenceTemperature: given.referenceTemperature,
      activationEnergy: { low: lower, high: higher },
    },
    given.temperature,
    given.time,
    given.limit,
  );
}
