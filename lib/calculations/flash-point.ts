import {
  burnableSpan,
  FLASH_LIMITS,
  flashPoint as flashPointOf,
  hazardCategory,
  massFractionFlashingAt,
  PURE_FLASH_POINT,
  shareOfLowerLimit,
} from "../laws/flash-point.ts";
import { boilingPoint, partialPressures } from "../substances/ethanol-water-vapour.ts";
import { massFraction, moleFraction, strength } from "../substances/ethanol-water.ts";
import { ethanolSaturationPressure } from "../substances/vapour-pressure.ts";
import { amount, defineCalculation, phrase, type Banded, type Result } from "./calculation.ts";
import { solventMassFraction } from "./quantities/batch.ts";
import { COUNT, PRESSURE, RISE, SHARE, STRENGTH, TEMPERATURE } from "./quantities/kinds.ts";
import { airPressure, warmestTemperature } from "./quantities/vapour.ts";
import { within } from "./within.ts";

/** Of the vapour's pressure over a mixture, relative. */
const PRESSURE_SPREAD = 0.05;

/** Strength as a table prints it, taken by volume, and °C. Sources: see the evidence. */
const PUBLISHED = [
  [0.05, 62],
  [0.1, 49],
  [0.2, 36],
  [0.3, 29],
  [0.4, 26],
  [0.5, 24],
  [0.6, 22],
  [0.7, 21],
  [0.8, 20],
  [0.9, 17],
  [0.96, 17],
] as const;

const temperature: Omit<Result, "label" | "symbol"> = TEMPERATURE;

export const flashPoint = defineCalculation({
  id: "flash-point",
  title: "When a spark lights it",
  summary: "The flash point of the mixture, and how far your liquid stays below it",
  inputs: {
    solventMassFraction,
    liquidTemperature: warmestTemperature,
    pressure: airPressure,
  },
  links: {
    solventMassFraction: "recipe.solventMassFraction",
    liquidTemperature: "sonication.peakLiquidTemperature",
  },
  results: {
    flashPoint: {
      ...temperature,
      label: "Flash point",
      symbol: String.raw`T_\mathrm{f}`,
      hint: "From here on a small flame lights the vapour over the liquid. “None”: too little alcohol at any temperature",
    },
    margin: {
      ...RISE,
      label: "Flash point minus liquid",
      symbol: String.raw`\Delta T`,
      hint: "Below zero the liquid is past it. “None”: no flash point",
    },
    saturatedShare: {
      ...SHARE,
      digits: 3,
      label: "Vapour right over it, as a share of what burns",
      symbol: "s",
      hint: "100 % is the lower explosive limit. “None”: it boils",
      bounds: { min: 0 },
    },
    strengthFlashingAt: {
      ...STRENGTH,
      digits: 3,
      label: "Strength that flashes at this temperature",
      symbol: String.raw`\varphi_\mathrm{f}`,
      hint: "Anything stronger is past its flash point. “None”: even pure alcohol is not, so cold",
      bounds: { min: 0, max: 1 },
    },
    hazardCategory: {
      ...COUNT,
      digits: 1,
      label: "Hazard category of such a liquid",
      symbol: "k",
      hint: "2 is highly flammable, 3 flammable, 4 combustible, by its flash point alone. “None”: no flash point",
      unbanded: true,
    },
    strength: {
      ...STRENGTH,
      label: "Strength of water and alcohol alone",
      symbol: String.raw`\varphi`,
      hint: "At 20 °C",
      bounds: { min: 0, max: 1 },
    },
    burnableFrom: {
      ...temperature,
      label: "A closed vessel’s air can burn from",
      symbol: "T_1",
      hint: "“None”: too lean at any temperature below boiling",
    },
    burnableTo: {
      ...temperature,
      label: "A closed vessel’s air is too rich from",
      symbol: "T_2",
      hint: "Only while no fresh air comes in. “None”: never too rich",
    },
    warmest: {
      ...temperature,
      label: "Liquid at its warmest, with its doubt",
      symbol: String.raw`T_\ell`,
      minor: true,
    },
    moleFraction: {
      ...SHARE,
      digits: 3,
      label: "Alcohol among the molecules",
      symbol: "x",
      minor: true,
    },
    flashPressure: {
      ...PRESSURE,
      label: "Vapour of pure alcohol at its flash point",
      symbol: String.raw`P_\mathrm{f}`,
      minor: true,
    },
    purePressureAtFlash: {
      ...PRESSURE,
      label: "Vapour of pure alcohol at the mixture’s flash point",
      symbol: String.raw`P_\mathrm{E}(T_\mathrm{f})`,
      minor: true,
    },
    activityAtFlash: {
      ...COUNT,
      label: "Activity coefficient of ethanol at the flash point",
      symbol: String.raw`\gamma_\mathrm{E}`,
      minor: true,
    },
  },
  compute: ({ solventMassFraction: w, liquidTemperature: t, pressure }) => {
    const point = flashPointOf(w);
    const x = moleFraction(w);
    const span = burnableSpan(w, pressure);
    const [early, late] = [EARLY_SHARE, LATE_SHARE].map((share) =>
      burnableSpan(w, pressure, share),
    );
    const vapour = partialPressures(x, t);
    const purePressureAtFlash = point && ethanolSaturationPressure(point.value);
    const flashPressure = ethanolSaturationPressure(PURE_FLASH_POINT);
    return {
      flashPoint: point,
      margin: point && { value: point.value - t, low: point.low - t, high: point.high - t },
      saturatedShare:
        vapour.ethanol + vapour.water < pressure
          ? within(shareOfLowerLimit(vapour.ethanol / pressure), PRESSURE_SPREAD)
          : null,
      strengthFlashingAt: flashingAt(t),
      hazardCategory: point && category(w, point),
      strength: strength(w),
      burnableFrom: spread(early?.from, span.from, late?.from),
      burnableTo: spread(early?.to, span.to, late?.to),
      warmest: t,
      moleFraction: x,
      flashPressure,
      purePressureAtFlash,
      activityAtFlash: purePressureAtFlash && flashPressure / (x * purePressureAtFlash),
    };
  },
  steps: [
    {
      result: "flashPressure",
      tex: (slot) =>
        String.raw`${slot("moleFraction")}\by ${slot("activityAtFlash")}\by ${slot("purePressureAtFlash")}`,
    },
    {
      result: "margin",
      tex: (slot) => String.raw`${slot("flashPoint")} - ${slot("warmest")}`,
    },
  ],
  figures: [
    {
      id: "flash-points",
      title: "Flash point by strength",
      caption:
        "The model’s line, and the band that holds every published table that was not shown to be wrong. Dots without a name are one such table, read as volume. Where your liquid’s temperature lies above the line, a spark is enough.",
      data: ({ solventMassFraction: w, liquidTemperature: t }) => {
        const points = Array.from({ length: 50 }, (_, i) => WEAKEST + ((1 - WEAKEST) * i) / 49)
          // Steep at the weak end: more points there.
          .map((s) => s * s * (1 - WEAKEST) + WEAKEST * (1 - s * s))
          .flatMap((s) => {
            const point = flashPointOf(massFraction(s));
            return point ? [[s, point] as const] : [];
          });
        const here = flashPointOf(w);
        return {
          x: { label: "Strength", of: STRENGTH, domain: [0, 1] },
          y: { label: "Flash point", of: TEMPERATURE, domain: [0, 90] },
          lines: [{ label: "model", points: points.map(([s, { value }]) => [s, value]) }],
          bands: [{ points: points.map(([s, { low, high }]) => [s, low, high]) }],
          rules: [{ y: t, label: "your liquid" }],
          marks: [
            ...PUBLISHED.map(([x, y]) => ({ x, y, label: "" })),
            ...(here ? [{ x: strength(w), y: here.value, label: "yours" }] : []),
          ],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "flammable",
      when: (_, { warmest, flashPoint: point }) =>
        warmest !== null && point !== null && warmest.high > point.low,
      say: ({ liquidTemperature: t }, { warmest, flashPoint: point }) => {
        const [value, low] = [point?.value ?? 0, point?.low ?? 0];
        return t > value
          ? phrase`At ${amount(t, warmestTemperature)} your liquid is past its flash point of ${amount(value, warmestTemperature)}: a flame or spark sets its vapour alight. No flame, no gas pilot, no sparking motor or switch near it; cool it, cover it, open a window, and let it stay weaker or colder next time.`
          : phrase`At up to ${amount(warmest?.high ?? t, warmestTemperature)} your liquid may be past its flash point, which begins at ${amount(low, warmestTemperature)}: treat it as if it burned. No flame or spark in the room; keep it covered and colder.`;
      },
    },
  ],
  sources: [
    "liaw-2002",
    "nfpa-497",
    "niosh-ethanol",
    "iec-60079-20-1",
    "ethanol-water-flash-table",
    "un-ghs-flammable",
    "poling-2001",
  ],
});

/** Strength by volume below which nothing flashes: where the drawing begins. */
const WEAKEST = 0.025;

/** The strength whose flash point this is; its band is that of the flash point, carried over. */
function flashingAt(temperature: number): Banded | null {
  const { min, max } = FLASH_LIMITS.temperature;
  if (temperature < min) return null;
  const at = (t: number): number =>
    strength(massFractionFlashingAt(Math.min(Math.max(t, min), max)));
  const point = flashPointOf(massFractionFlashingAt(Math.min(temperature, max)));
  const value = at(temperature);
  if (point === null) return within(value, 0);
  // Where the true flash point is lower by so much, weaker mixtures reach it; where it is higher, stronger.
  return {
    value,
    low: at(temperature + (point.value - point.low)),
    high: at(temperature - (point.high - point.value)),
  };
}

function category(massFraction: number, point: Banded): Banded | null {
  const boils = boilingPoint(moleFraction(massFraction));
  const [value, low, high] = [point.value, point.low, point.high].map((t) =>
    hazardCategory(t, boils),
  );
  return value === undefined || value === null
    ? null
    : { value, low: low ?? value, high: high ?? value };
}

/** Vapour may be 5 % more than reckoned, and one list begins at 3.1 % instead of 3.3; or 5 % less. */
const EARLY_SHARE = (0.031 / 0.033) * 0.95;
const LATE_SHARE = 1.05;

/** A temperature with its band; an end that is not reached leaves the value where it is. */
function spread(
  low: number | null | undefined,
  value: number | null,
  high: number | null | undefined,
): Banded | null {
  return value === null ? null : { value, low: low ?? value, high: high ?? value };
}
