import { OutOfRangeError } from "../errors.ts";
import {
  evaporate,
  surfaceAirRatio,
  topUp,
  type Cover,
  type Loss,
  type Room,
  type Vessel,
} from "../laws/evaporation.ts";
import { massFraction as massFractionOf, strength } from "../substances/ethanol-water.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type Banded,
  type InputValues,
  type Result,
  type Values,
} from "./calculation.ts";
import { solventMassFraction } from "./quantities/batch.ts";
import { roomTemperature } from "./quantities/heat.ts";
import { COUNT, MASS, SMALL_MASS, STRENGTH } from "./quantities/kinds.ts";
import { referenceTemperature, spiritStrength } from "./quantities/spirit.ts";
import {
  airPressure,
  airSpeed,
  cover,
  freeboard,
  holeDiameter,
  holes,
  liquidMass,
  openArea,
  relativeHumidity,
  stageTemperature,
  standingTime,
} from "./quantities/vapour.ts";
import { flashesFrom } from "./thresholds.ts";
import { within } from "./within.ts";

/** What diffusivities and pressures bring to each end, relative; see the law. */
const PROPERTIES = 0.1;
/** m, of kitchen film (common practice, no source); the width of a hole matters far more. */
const FILM = 12e-6;
/** Spirit weaker than this by mass tops nothing up. */
const WEAKEST_SPIRIT = 0.01;

const inputs = {
  liquidMass,
  solventMassFraction,
  liquidTemperature: stageTemperature,
  roomTemperature,
  openArea,
  freeboard,
  cover,
  holeDiameter,
  holes,
  time: standingTime,
  relativeHumidity,
  airSpeed,
  pressure: airPressure,
  spiritStrength,
  referenceTemperature,
} as const;

type Given = InputValues<typeof inputs>;

const gone: Omit<Result, "label" | "symbol"> = { ...SMALL_MASS, bounds: { min: 0 } };
const left: Omit<Result, "label" | "symbol"> = { ...STRENGTH, bounds: { min: 0, max: 1 } };

export const evaporation = defineCalculation({
  id: "evaporation",
  title: "Where the alcohol goes",
  summary: "What a beaker loses to the air, open, under film or closed, and what strength is left",
  inputs,
  links: {
    liquidMass: "heat-capacity.solventMass",
    solventMassFraction: "recipe.solventMassFraction",
    liquidTemperature: "sonication.peakLiquidTemperature",
    time: "sonication.programmeTime",
  },
  decided: ["liquidMass"],
  results: {
    ethanolLossLow: {
      ...gone,
      label: "Alcohol lost, if the air stands still",
      symbol: String.raw`\Delta m_\mathrm{E}^-`,
    },
    ethanolLossHigh: {
      ...gone,
      label: "Alcohol lost, if the air moves",
      symbol: String.raw`\Delta m_\mathrm{E}^+`,
      hint: "As if filled to the brim, with your draught",
    },
    waterLossLow: {
      ...SMALL_MASS,
      label: "Water lost, at least",
      symbol: String.raw`\Delta m_\mathrm{W}^-`,
      hint: "Below zero: a cold liquid takes up water from moist air",
    },
    waterLossHigh: {
      ...SMALL_MASS,
      label: "Water lost, at most",
      symbol: String.raw`\Delta m_\mathrm{W}^+`,
    },
    strengthAfterLow: {
      ...left,
      label: "Strength left, at least",
      symbol: String.raw`\varphi^-`,
      hint: "Of water and alcohol alone, at 20 °C. “None”: it may have dried up",
    },
    strengthAfterHigh: {
      ...left,
      label: "Strength left, at most",
      symbol: String.raw`\varphi^+`,
    },
    topUp: {
      ...MASS,
      digits: 2,
      label: "Spirit that brings the alcohol back",
      symbol: String.raw`m_\mathrm{s}`,
      hint: "The middle between least and most; the band reaches from one to the other. “None”: this spirit has no alcohol",
      bounds: { min: 0 },
    },
    strengthBefore: {
      ...left,
      label: "Strength before",
      symbol: String.raw`\varphi`,
      minor: true,
    },
    ethanolLossMiddle: {
      ...gone,
      label: "Alcohol lost, middle of the range",
      symbol: String.raw`\Delta m_\mathrm{E}`,
      minor: true,
    },
    spiritMassFraction: {
      dimension: "massFraction",
      units: ["% mass"],
      digits: 4,
      label: "Spirit, alcohol by mass",
      symbol: String.raw`w_\mathrm{s}`,
      minor: true,
    },
    surfaceAirRatio: {
      ...COUNT,
      label: "Air at the surface over the room’s, by density",
      symbol: "r",
      hint: "Below 1 it rises; above 1 it lies in the beaker and spills over the rim",
    },
  },
  compute: (given) => {
    const { low, high } = losses(given);
    const before = strength(given.solventMassFraction);
    const [least, most] = ordered(low.ethanol, high.ethanol);
    const [leastWater, mostWater] = ordered(low.water, high.water);
    const after = [low, high].filter(({ mass }) => mass > 0).map((l) => strength(l.massFraction));
    const spirit = massFractionOf(given.spiritStrength, given.referenceTemperature);
    const middle = { value: (least + most) / 2, low: least, high: most };
    return {
      ethanolLossLow: within(least, PROPERTIES),
      ethanolLossHigh: within(most, PROPERTIES),
      waterLossLow: within(leastWater, PROPERTIES),
      waterLossHigh: within(mostWater, PROPERTIES),
      strengthAfterLow: after.length < 2 ? null : changed(before, Math.min(...after)),
      strengthAfterHigh: after.length === 0 ? null : changed(before, Math.max(...after)),
      topUp:
        spirit < WEAKEST_SPIRIT
          ? null
          : {
              value: topUp(middle.value, spirit),
              low: topUp(least, spirit) * (1 - PROPERTIES),
              high: topUp(most, spirit) * (1 + PROPERTIES),
            },
      strengthBefore: before,
      ethanolLossMiddle: middle,
      spiritMassFraction: spirit,
      surfaceAirRatio: surfaceAirRatio(
        given.solventMassFraction,
        given.liquidTemperature,
        roomOf(given),
      ),
    };
  },
  steps: [
    {
      result: "topUp",
      tex: (slot) => String.raw`\frac{${slot("ethanolLossMiddle")}}{${slot("spiritMassFraction")}}`,
    },
  ],
  figures: [
    {
      id: "loss-over-time",
      title: "Open, or under film",
      caption:
        "Alcohol lost as time goes by. Open, the truth lies in the band between still and moving air. Under film with your holes even moving air takes next to nothing: its line hugs the axis.",
      data: ({ time }, run) => {
        const span = Math.max(time, 600);
        const times = Array.from({ length: 9 }, (_, i) => (span * i) / 8);
        const lost = (kind: Given["cover"]): readonly Range[] =>
          times.flatMap((t) => rangeOf(t, run({ cover: kind, time: t })));
        const open = lost("open");
        const film = lost("film");
        return {
          x: { label: "Time", of: standingTime },
          y: { label: "Alcohol lost", of: SMALL_MASS, domain: lostDomain(open) },
          lines: [
            { label: "open, air moving", points: open.map(([t, , high]) => [t, high]) },
            { label: "film", points: film.map(([t, , high]) => [t, high]), dashed: true },
            { label: "open, air still", points: open.map(([t, low]) => [t, low]) },
          ],
          bands: [{ points: open }],
        };
      },
    },
    {
      id: "loss-by-temperature",
      title: "Warmth costs most",
      caption:
        "Alcohol lost from the open beaker in your time, from still to moving air, against the temperature at which the liquid is held. The upper line bends where the air at the surface becomes light enough to rise by itself.",
      data: ({ liquidTemperature }, run) => {
        const top = Math.max(45, liquidTemperature);
        const points = Array.from({ length: 16 }, (_, i) => (top * i) / 15).flatMap((t) =>
          rangeOf(t, run({ cover: "open", liquidTemperature: t })),
        );
        return {
          x: { label: "Temperature of the liquid", of: stageTemperature },
          y: { label: "Alcohol lost", of: SMALL_MASS, domain: lostDomain(points) },
          lines: [
            { label: "open, air moving", points: points.map(([t, , high]) => [t, high]) },
            { label: "open, air still", points: points.map(([t, low]) => [t, low]) },
          ],
          bands: [{ points }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "flammable",
      when: (given) =>
        given.cover === "open" && given.liquidTemperature > flashesFrom(given.solventMassFraction),
      say: ({ liquidTemperature: t, solventMassFraction: w }) =>
        phrase`Open and at ${amount(t, stageTemperature)}, this liquid is past the ${amount(flashesFrom(w), stageTemperature)} from which a flame or spark may light the vapour over it. Cover it, cool it, and have no flame or sparking motor in the room.`,
    },
  ],
  sources: [
    "incropera-dewitt",
    "brown-escombe-1900",
    "monteith-unsworth",
    "fuller-1966",
    "poling-2001",
    "common-practice",
  ],
});

function losses(given: Given): { readonly low: Loss; readonly high: Loss } {
  const liquid = {
    mass: given.liquidMass,
    massFraction: given.solventMassFraction,
    temperature: given.liquidTemperature,
  };
  try {
    const room = { ...roomOf(given), airSpeed: given.airSpeed };
    return evaporate(liquid, vesselOf(given), room, given.time);
  } catch (error) {
    if (error instanceof OutOfRangeError && error.quantity === "temperature")
      throw new RefusedError(
        "liquidTemperature",
        phrase`This liquid boils not far above that, and then it is bubbling and not air that carries it off. With this strength type ${amount(error.limits.max, stageTemperature)} or less.`,
      );
    throw error;
  }
}

function vesselOf(given: Given): Vessel {
  const diameter = Math.sqrt((4 * given.openArea) / Math.PI);
  return { diameter, freeboard: given.freeboard, cover: coverOf(given, diameter) };
}

function coverOf(given: Given, vessel: number): Cover {
  if (given.cover !== "film") return { kind: given.cover };
  const widest = vessel / Math.sqrt(given.holes);
  if (given.holeDiameter > widest)
    throw new RefusedError(
      "holeDiameter",
      phrase`So many holes of this width are more than the film: type less than ${amount(widest, holeDiameter)}, or choose no cover.`,
    );
  return {
    kind: "holes",
    count: given.holes,
    diameter: given.holeDiameter,
    thickness: FILM,
  };
}

function roomOf(given: Given): Omit<Room, "airSpeed"> {
  return {
    temperature: given.roomTemperature,
    humidity: given.relativeHumidity,
    pressure: given.pressure,
  };
}

type Range = readonly [at: number, low: number, high: number];

/** What is lost at a point of a drawing, from still to moving air; nothing where that is refused. */
function rangeOf(at: number, values: Values | null): readonly Range[] {
  const [low, high] = [values?.["ethanolLossLow"], values?.["ethanolLossHigh"]];
  return low && high ? [[at, low.value, high.value]] : [];
}

function lostDomain(points: readonly Range[]): readonly [number, number] {
  return [0, Math.max(1e-9, ...points.map(([, , high]) => high))];
}

function ordered(a: number, b: number): readonly [number, number] {
  return a < b ? [a, b] : [b, a];
}

/** A strength with the band that the properties bring: they move the change, not the start. */
function changed(before: number, after: number): Banded {
  const half = PROPERTIES * Math.abs(before - after);
  return { value: after, low: after - half, high: after + half };
}
