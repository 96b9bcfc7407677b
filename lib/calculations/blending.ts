import { timeConstant } from "../laws/lumped-cooling.ts";
import { temperatureWhileHeated, timeWhileHeated, type HeatedBody } from "../laws/blending.ts";
import { ETHANOL_WATER_LIMITS, heatCapacity } from "../substances/ethanol-water.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import { curveBand } from "./curve-band.ts";
import { solventMassFraction } from "./quantities/batch.ts";
import {
  blendLoss,
  blendStart,
  blendTime,
  guessedPowerDoubt,
  liquidInVessel,
  measuredPowerDoubt,
  powerKnown,
  pulseRest,
  pulses,
  shaftPower,
  vesselWithPowders,
} from "./quantities/blending.ts";
import { ceiling, mixtureHeatDoubt, roomTemperature } from "./quantities/heat.ts";
import { HEAT_CAPACITY, RISE, SPECIFIC_HEAT, TEMPERATURE, TIME } from "./quantities/kinds.ts";
import { flashesFrom, SCALDS_FROM } from "./thresholds.ts";

const reached: Omit<Result, "label" | "symbol"> = { ...TEMPERATURE, digits: 3 };
const lasting: Omit<Result, "label" | "symbol"> = { ...TIME, byFactor: true, bounds: { min: 0 } };

/** °C: the heat capacities end here, and so does what anybody should blend with alcohol in it. */
const HOTTEST = 60;
/** How far past the end of a single run it is drawn, as if the motor ran on. */
const DRAWN_ON = 1.6;
const POINTS = 60;

const inputs = {
  shaftPower,
  powerKnown,
  blendTime,
  startTemperature: blendStart,
  ceiling,
  pulses,
  pulseRest,
  liquidMass: liquidInVessel,
  solventMassFraction,
  vesselHeatCapacity: vesselWithPowders,
  roomTemperature,
  lossConductance: blendLoss,
  guessedPowerDoubt,
  measuredPowerDoubt,
  mixtureHeatDoubt,
} as const;

type Given = InputValues<typeof inputs>;

export const blending = defineCalculation({
  id: "blending",
  title: "Warming by the blender",
  summary: "How warm the liquid gets by blending, and how long until your ceiling",
  inputs,
  links: {
    liquidMass: "heat-capacity.solventMass",
    solventMassFraction: "recipe.solventMassFraction",
    vesselHeatCapacity: "heat-capacity.vesselHeatCapacity",
  },
  blame: { massFraction: "solventMassFraction", temperature: "startTemperature" },
  results: {
    endTemperature: {
      ...reached,
      label: "Liquid when you stop",
      symbol: String.raw`T_\mathrm{end}`,
      hint: "After the last pulse",
    },
    rise: { ...RISE, label: "Warmer by", symbol: String.raw`\Delta T` },
    timeToCeiling: {
      ...lasting,
      units: ["s", "min"],
      label: "Longest single run up to your ceiling",
      symbol: String.raw`t_\mathrm{c}`,
      none: "never",
      hint: "“Never”: it does not get there",
    },
    peakTemperature: {
      ...reached,
      label: "Highest on the way",
      symbol: String.raw`T_\mathrm{peak}`,
      minor: true,
    },
    specificHeat: {
      ...SPECIFIC_HEAT,
      label: "Specific heat of water and alcohol",
      symbol: "c_p",
      bounds: { min: 0 },
      minor: true,
    },
    wholeHeatCapacity: {
      ...HEAT_CAPACITY,
      label: "Liquid, powders and vessel together",
      symbol: "C",
      bounds: { min: 0 },
    },
    warmingRate: {
      dimension: "warmingRate",
      units: ["K/min", "K/h"],
      digits: 2,
      label: "Warming rate, nothing lost",
      symbol: "r",
      bounds: { min: 0 },
    },
    riseWithoutLoss: {
      ...RISE,
      label: "Rise, if nothing were lost",
      symbol: String.raw`\Delta T_0`,
      minor: true,
    },
    timeConstant: {
      ...lasting,
      label: "Time constant of the loss",
      symbol: String.raw`\tau`,
      minor: true,
    },
    steadyTemperature: {
      ...reached,
      label: "Where gain and loss would balance",
      symbol: String.raw`T_\infty`,
      minor: true,
    },
    runTemperature: {
      ...reached,
      label: "Liquid after one run without a rest",
      symbol: "T",
      minor: true,
    },
  },
  compute: (given) => {
    const { startTemperature: start, ceiling: top, blendTime: time } = given;
    const { liquid, running } = bodiesOf(given);
    const { power } = running;
    const course = courseOf(given);
    const ends = course.map(({ to }) => to);
    const end = ends.at(-1) ?? start;
    const loss = given.lossConductance;
    return {
      endTemperature: end,
      rise: end - start,
      timeToCeiling: start < top ? timeWhileHeated(running, start, top) : 0,
      peakTemperature: Math.max(start, ...ends),
      specificHeat: liquid,
      wholeHeatCapacity: running.heatCapacity,
      warmingRate: power / running.heatCapacity,
      riseWithoutLoss: (power * time) / running.heatCapacity,
      // A loss too small to matter in a week is none.
      timeConstant: loss < LEAST_LOSS ? null : timeConstant(running.heatCapacity, loss),
      steadyTemperature: loss < LEAST_LOSS ? null : given.roomTemperature + power / loss,
      runTemperature: temperatureWhileHeated(running, start, time),
    };
  },
  steps: [
    {
      result: "riseWithoutLoss",
      tex: (slot) =>
        String.raw`\frac{${slot("shaftPower")}\by ${slot("blendTime")}}{${slot("wholeHeatCapacity")}}`,
    },
    {
      result: "wholeHeatCapacity",
      tex: (slot) =>
        String.raw`${slot("liquidMass")}\by ${slot("specificHeat")} + ${slot("vesselHeatCapacity")}`,
    },
    {
      result: "warmingRate",
      tex: (slot) => String.raw`\frac{${slot("shaftPower")}}{${slot("wholeHeatCapacity")}}`,
    },
    {
      result: "timeConstant",
      tex: (slot) => String.raw`\frac{${slot("wholeHeatCapacity")}}{${slot("lossConductance")}}`,
    },
    {
      result: "steadyTemperature",
      tex: (slot) =>
        String.raw`${slot("roomTemperature")} + \frac{${slot("shaftPower")}}{${slot("lossConductance")}}`,
    },
    {
      result: "runTemperature",
      tex: (slot) =>
        String.raw`${slot("steadyTemperature")} + \left(${slot("startTemperature")} - ${slot("steadyTemperature")}\right)\by e^{-${slot("blendTime")}/${slot("timeConstant")}}`,
    },
  ],
  figures: [
    {
      id: "warming",
      title: "Under the blender",
      caption:
        "Liquid against time, with its band (19 times in 20) and your ceiling. A single run is drawn on past the end that you set; drag the end to change it. With several pulses the rests are drawn too: in air they take next to nothing back.",
      data: (given, _, spread) => {
        const course = courseOf(given);
        const total = lengthOf(course);
        const single = course.length === 1;
        const shown = Math.max(single ? total * DRAWN_ON : total, 1);
        const joints = course.map(({ start, lasts }) => start + lasts);
        const even = Array.from({ length: POINTS + 1 }, (_, i) => (shown * i) / POINTS);
        const times = [...new Set([...even, ...joints])].sort((a, b) => a - b);
        const at = followed(given);
        return {
          x: { label: "Time", of: blendTime, domain: [0, shown] },
          y: { label: "Temperature", of: { ...TEMPERATURE } },
          lines: [{ label: "liquid", points: times.map((time) => [time, at(time)]) }],
          bands: [{ points: curveBand(times, tryFollowed, given, spread()) }],
          rules: [{ y: given.ceiling, label: "your ceiling" }],
          marks: [
            {
              x: total,
              y: at(total),
              label: "you stop",
              ...(single && { drag: { input: "blendTime", from: 0 } }),
            },
          ],
        };
      },
    },
    {
      id: "specific-heat",
      title: "A weak mixture costs more heat than water",
      caption:
        "Heat that warms one kilogram by one degree. The dashed line is the mean of the two liquids by mass: the mixture lies above it at every strength, and above water itself in its weak third.",
      data: ({ solventMassFraction: w, startTemperature: t }) => {
        const at = (fraction: number): number => heatCapacity(fraction, t);
        const { min, max } = ETHANOL_WATER_LIMITS.massFraction;
        const fractions = Array.from({ length: 51 }, (_, i) => min + ((max - min) * i) / 50);
        return {
          x: { label: "Alcohol by mass", of: solventMassFraction, domain: [min, max] },
          // Room above the hump for the mark's label.
          y: { label: "Specific heat", of: { ...SPECIFIC_HEAT, digits: 3 }, domain: [2000, 4800] },
          lines: [
            { label: "mixture", points: fractions.map((x) => [x, at(x)]) },
            {
              label: "mean of the two",
              dashed: true,
              points: [min, max].map((x) => [x, at(x)]),
            },
          ],
          marks: [{ x: w, y: at(w), label: "yours" }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "ceiling",
      when: ({ ceiling: top }, { peakTemperature: peak }) => (peak?.high ?? 0) > top,
      say: ({ ceiling: top }, { peakTemperature: peak, timeToCeiling: longest }) => {
        const [value, high] = [peak?.value ?? 0, peak?.high ?? 0];
        const safe = longest?.low ?? 0;
        const advice =
          safe > 0
            ? phrase` From where you start, one run of ${amount(safe, blendTime)} stays under it within what is uncertain.`
            : [" Cool it first."];
        return [
          ...(value > top
            ? phrase`The liquid goes to ${amount(value, ceiling)}, past your ceiling of ${amount(top, ceiling)}. Blend for a shorter time, or start colder.`
            : phrase`The liquid may pass your ceiling of ${amount(top, ceiling)}: up to ${amount(high, ceiling)} within what is uncertain. Measure the blender’s power, and read the probe.`),
          ...advice,
        ];
      },
    },
    {
      caution: "flammable",
      when: ({ solventMassFraction: w }, { peakTemperature: peak }) =>
        (peak?.high ?? 0) > flashesFrom(w),
      say: ({ solventMassFraction: w }, { peakTemperature: peak }) =>
        phrase`At up to ${amount(peak?.high ?? 0, ceiling)} this liquid may be above its flash point, which begins at ${amount(flashesFrom(w), ceiling)}: its vapour can catch fire from the sparks of the blender’s motor or switch. Do not blend it. Make it weaker or colder, or stir by hand.`,
    },
    {
      caution: "scald-and-burns",
      when: (_, { peakTemperature: peak }) => (peak?.high ?? 0) > SCALDS_FROM,
      say: (_, { peakTemperature: peak }) =>
        phrase`At up to ${amount(peak?.high ?? 0, ceiling)} the liquid can scald, and vapour may push the lid off a closed jug. Never blend it hot.`,
    },
  ],
  sources: [
    "joule-equivalent",
    "perry",
    "dupre-page-1868",
    "moritz-henriques-1947",
    "common-practice",
  ],
});

/** W/K */
const LEAST_LOSS = 1e-3;

/** Specific heat of the liquid, and the vessel with the motor on and off. */
function bodiesOf(given: Given): { liquid: number; running: HeatedBody; resting: HeatedBody } {
  const liquid =
    heatCapacity(given.solventMassFraction, given.startTemperature) * (1 + given.mixtureHeatDoubt);
  const resting = {
    power: 0,
    heatCapacity: given.liquidMass * liquid + given.vesselHeatCapacity,
    conductance: given.lossConductance,
    surroundings: given.roomTemperature,
  };
  const { powerKnown: known, guessedPowerDoubt: guessed, measuredPowerDoubt: measured } = given;
  const power = given.shaftPower * (1 + (known === "measured" ? measured : guessed));
  return { liquid, resting, running: { ...resting, power } };
}

/** One pulse or rest: s and °C. */
interface Piece {
  readonly body: HeatedBody;
  readonly start: number;
  readonly lasts: number;
  readonly from: number;
  readonly to: number;
}

/** Pulses and the rests between them, each exact and starting where the last one ended. */
function courseOf(given: Given): readonly Piece[] {
  const { startTemperature, pulses: count, blendTime: time } = given;
  const { running, resting } = bodiesOf(given);
  const course: Piece[] = [];
  const follow = (body: HeatedBody, lasts: number): void => {
    const last = course.at(-1);
    const start = last ? last.start + last.lasts : 0;
    const from = last?.to ?? startTemperature;
    const to = temperatureWhileHeated(body, from, lasts);
    if (to > HOTTEST)
      throw new RefusedError(
        "blendTime",
        phrase`The liquid would pass ${amount(HOTTEST, ceiling)}, where these figures end and where no liquid with alcohol should be blended. Blend for a shorter time.`,
      );
    course.push({ body, start, lasts, from, to });
  };
  for (let pulse = 0; pulse < count; pulse++) {
    if (pulse > 0) follow(resting, given.pulseRest);
    follow(running, time / count);
  }
  return course;
}

function lengthOf(course: readonly Piece[]): number {
  const last = course.at(-1);
  return last ? last.start + last.lasts : 0;
}

/** Temperature at any time; past the end as if the last pulse went on. */
function followed(given: Given): (time: number) => number {
  const course = courseOf(given);
  return (time) => {
    const piece = course.findLast(({ start }) => start <= time) as Piece;
    return temperatureWhileHeated(piece.body, piece.from, time - piece.start);
  };
}

/** Beside a refusal there is nothing to draw. */
function tryFollowed(given: Given): ((time: number) => number) | undefined {
  try {
    return followed(given);
  } catch (error) {
    if (error instanceof RefusedError) return undefined;
    throw error;
  }
}
