import { inRange } from "../errors.ts";
import { GAS_CONSTANT } from "./stefan-tube.ts";

const DAY = 86_400;

/** Where the law is used. The form reads the same object, so page and function cannot disagree. */
export const STORAGE_LIMITS = {
  // Below is less than any reaction needs, and a misprint in circulation (0.57 kJ/mol, lemon juice).
  activationEnergy: { min: 10e3, max: 200e3, unit: "J/mol" },
  rate: { min: 1e-12, max: 1e-2, unit: "1/s" },
  temperature: { min: 0, max: 60, unit: "°C" },
  time: { min: 0, max: 3653 * DAY, unit: "s" },
  share: { min: 1e-6, max: 1, unit: "1" },
} as const;

/** The two ends of what is published. */
export interface Ends {
  readonly low: number;
  readonly high: number;
}

/**
 * Activation energies of the loss of vitamin C as published, J/mol, each for its own liquid.
 *
 * No curve against alcohol is drawn through the first: it rises up to 30 % vol and is about halved at 40 %,
 * where the loss is also faster at every temperature (comment, J. Agric. Food Chem. 61 (2013) 2580. seen).
 *
 * - `ethanolWater`: 0 to 40 % vol, pH 3.2, in air; 10.35 to 23.10 kcal/mol. Hsu, Tsai, Fu & Wu, J. Agric. Food
 *   Chem. 60 (2012) 10696. seen
 * - `citrusConcentrate`: 28 to 45 °C; 12.77 to 25.39 kcal/mol. Burdurlu et al., J. Food Eng. 74 (2006) 211. seen
 * - `orangeJuice`: in air, 20 to 45 °C, 38.6: Manso et al., Int. J. Food Sci. Technol. 36 (2001) 303. seen; and
 *   39.0 from the rates of Zhang et al. below. computed
 * - `injection`: ascorbate, from the shares below, which are lower bounds. computed
 */
export const ACTIVATION_ENERGY = {
  ethanolWater: { low: 43.3e3, high: 96.65e3 },
  citrusConcentrate: { low: 53.43e3, high: 106.23e3 },
  orangeJuice: { low: 38.6e3, high: 39e3 },
  injection: { low: 56e3, high: 56e3 },
} as const satisfies Readonly<Record<string, Ends>>;

/** A loss that was measured: what was left after a time, or a rate. */
export interface StorageStudy {
  readonly liquid: string;
  /** °C */
  readonly temperature: number;
  /** first order, 1/s */
  readonly rate: number;
  readonly source: string;
  readonly how: "seen";
}

const WALKER = "Walker et al., Nutrients 11 (2019) 1994: 14 days, lower bounds of what was left";
const ZHANG = "Zhang, Han, Xia & Gao, Adv. J. Food Sci. Technol. 10 (2016) 555";
const BURDURLU = "Burdurlu et al., J. Food Eng. 74 (2006) 211: 56 days";
const INJECTION = "ascorbate injection, 37 to 92 g/L, sterile bags, dark";

/**
 * How fast vitamin C was lost elsewhere: at 37 °C alone the rates lie tenfold apart. Oxygen, metals, light and
 * acidity decide, and none of these is the liquid of this notebook. Rates from shares are computed here.
 */
export const STORAGE_STUDIES: readonly StorageStudy[] = [
  {
    liquid: INJECTION,
    temperature: 4,
    rate: firstOrderRate(0.9772, 14 * DAY),
    source: WALKER,
    how: "seen",
  },
  {
    liquid: INJECTION,
    temperature: 25,
    rate: firstOrderRate(0.8802, 14 * DAY),
    source: WALKER,
    how: "seen",
  },
  { liquid: "orange juice", temperature: 5, rate: 0.046 / DAY, source: ZHANG, how: "seen" },
  { liquid: "orange juice", temperature: 37, rate: 0.2617 / DAY, source: ZHANG, how: "seen" },
  {
    liquid: "citrus concentrate, best",
    temperature: 37,
    rate: firstOrderRate(0.27, 56 * DAY),
    source: BURDURLU,
    how: "seen",
  },
  {
    liquid: "citrus concentrate, worst",
    temperature: 37,
    rate: firstOrderRate(0.236, 56 * DAY),
    source: BURDURLU,
    how: "seen",
  },
];

/**
 * Rate of a first-order loss from what was left.
 *
 * k = −ln(share)/t
 *
 * @param share - left; 1e-6 to 1
 * @param time - s; 1 to 3653 days
 * @returns 1/s; 0 where nothing was lost
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks One rate does not describe a closed bottle: as its oxygen goes, the loss slows. Lemon juice lost 2.7 %
 * a day over three weeks and 1.1 % a day over twelve (Abbasi & Niakousari, Pak. J. Biol. Sci. 11 (2008) 1365.
 * computed from figures seen).
 * Source: definition of first order
 *
 * @example
 * firstOrderRate(0.8802, 14 * 86400); // 1.05e-7 per second
 */
export function firstOrderRate(share: number, time: number): number {
  inRange("share", share, STORAGE_LIMITS.share);
  inRange("time", time, { ...STORAGE_LIMITS.time, min: 1 });
  return Math.abs(Math.log(share)) / time;
}

/**
 * Time until a first-order loss leaves a share.
 *
 * @param share - left; 1e-6 to 1: 0.5 gives the half-life
 * @param rate - 1/s; 1e-12 to 0.01
 * @returns s
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: as {@link firstOrderRate}, its inverse
 */
export function timeToShare(share: number, rate: number): number {
  inRange("share", share, STORAGE_LIMITS.share);
  inRange("rate", rate, STORAGE_LIMITS.rate);
  return Math.abs(Math.log(share)) / rate;
}

/**
 * A rate at another temperature.
 *
 * k = k₀ exp[(E/R)(1/T₀ − 1/T)]
 *
 * @param rate - at the reference temperature, k₀, 1/s; 1e-12 to 0.01
 * @param referenceTemperature - °C; 0 to 60
 * @param activationEnergy - E, J/mol; 10 000 to 200 000
 * @param temperature - °C; 0 to 60
 * @returns 1/s
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Holds for one way of reacting. Loss with and without oxygen go side by side, each with its own E.
 * Source: Arrhenius (1889). memory; two ways side by side in a 10 % solution: Shi, Zhan et al., Chem. Pharm.
 * Bull. 55 (2007) 87. seen (abstract)
 *
 * @example
 * rateAt(1, 20, 83_144, 30); // 3.08: the rule of "twice for ten degrees" belongs to 50 kJ/mol
 */
export function rateAt(
  rate: number,
  referenceTemperature: number,
  activationEnergy: number,
  temperature: number,
): number {
  inRange("rate", rate, STORAGE_LIMITS.rate);
  inRange("referenceTemperature", referenceTemperature, STORAGE_LIMITS.temperature);
  inRange("activationEnergy", activationEnergy, STORAGE_LIMITS.activationEnergy);
  inRange("temperature", temperature, STORAGE_LIMITS.temperature);
  return (
    rate *
    Math.exp((activationEnergy / GAS_CONSTANT) * perKelvinFall(referenceTemperature, temperature))
  );
}

/**
 * Activation energy from the rates at two temperatures, the inverse of {@link rateAt}.
 *
 * @param cold - temperature °C, 0 to 59; rate 1/s, 1e-12 to 0.01
 * @param warm - the same, at least a kelvin above, to 60 °C
 * @returns J/mol; may lie below what {@link rateAt} takes, where the supply of oxygen and not the reaction was
 * measured
 * @throws OutOfRangeError outside those ranges, NaN included
 */
export function activationEnergy(
  cold: Pick<StorageStudy, "temperature" | "rate">,
  warm: Pick<StorageStudy, "temperature" | "rate">,
): number {
  const { temperature } = STORAGE_LIMITS;
  inRange("temperature", cold.temperature, { ...temperature, max: temperature.max - 1 });
  inRange("temperature", warm.temperature, { ...temperature, min: cold.temperature + 1 });
  inRange("rate", cold.rate, STORAGE_LIMITS.rate);
  inRange("rate", warm.rate, STORAGE_LIMITS.rate);
  return (
    (GAS_CONSTANT * Math.log(warm.rate / cold.rate)) /
    perKelvinFall(cold.temperature, warm.temperature)
  );
}

function perKelvinFall(from: number, to: number): number {
  return 1 / (from + 273.15) - 1 / (to + 273.15);
}

/** What is published about a loss: the ends of its rate, where that was measured, and of how warmth drives it. */
export interface Loss {
  /** 1/s */
  readonly rate: Ends;
  /** °C */
  readonly referenceTemperature: number;
  /** J/mol */
  readonly activationEnergy: Ends;
}

/** What is left: a range, and no best guess in it. */
export interface Storage {
  /** 1/s */
  readonly rate: Ends;
  /** share of the acid at the start */
  readonly remaining: Ends;
  /** s until the limit is reached */
  readonly timeToLimit: Ends;
}

/**
 * What a time in store leaves, between the ends of what is published.
 *
 * share = exp(−k t), with k carried from its temperature to the store's by both activation energies, and the
 * slowest and the fastest of the four kept.
 *
 * @param loss - rates 1e-12 to 0.01 1/s; reference 0 to 60 °C; activation energies 10 000 to 200 000 J/mol; each
 * `high` no less than its `low`
 * @param temperature - of the store, °C; 0 to 60: for one that changes, its mean kinetic temperature
 * @param time - s; 0 to 3653 days
 * @param limit - share that must be left; 1e-6 to 1
 * @returns ends of the rate, the share left and the time: act on the low ones
 * @throws OutOfRangeError outside those ranges, NaN included (quantities "rateHigh" and "activationEnergyHigh" for
 * ends the wrong way round)
 * @remarks Says nothing of microbes, nor of taste and colour, which may go sooner. More spirit does not keep the
 * vitamin: in air it was lost faster with more (Hsu et al. (2012). seen).
 * Source: as {@link rateAt} and {@link firstOrderRate}
 *
 * @example
 * const loss = {
 *   rate: { low: 1e-8, high: 1e-7 }, referenceTemperature: 25, activationEnergy: ACTIVATION_ENERGY.ethanolWater,
 * };
 * storageLoss(loss, 5, 30 * 86400, 0.9).remaining; // { low: 0.929, high: 0.998 }
 */
export function storageLoss(loss: Loss, temperature: number, time: number, limit: number): Storage {
  const { rate: rates, activationEnergy: energies, referenceTemperature } = loss;
  inRange("rateLow", rates.low, STORAGE_LIMITS.rate);
  inRange("rateHigh", rates.high, { ...STORAGE_LIMITS.rate, min: rates.low });
  inRange("activationEnergyLow", energies.low, STORAGE_LIMITS.activationEnergy);
  inRange("activationEnergyHigh", energies.high, {
    ...STORAGE_LIMITS.activationEnergy,
    min: energies.low,
  });
  inRange("time", time, STORAGE_LIMITS.time);
  inRange("limit", limit, STORAGE_LIMITS.share);
  const carried = (rate: number): readonly [number, number] => [
    rateAt(rate, referenceTemperature, energies.low, temperature),
    rateAt(rate, referenceTemperature, energies.high, temperature),
  ];
  const rate = { low: Math.min(...carried(rates.low)), high: Math.max(...carried(rates.high)) };
  const needed = Math.abs(Math.log(limit));
  return {
    rate,
    remaining: { low: Math.exp(-rate.high * time), high: Math.exp(-rate.low * time) },
    timeToLimit: { low: needed / rate.high, high: needed / rate.low },
  };
}
