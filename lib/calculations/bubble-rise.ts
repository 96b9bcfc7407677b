import { OutOfRangeError } from "../errors.ts";
import {
  bubbleRise as rise,
  BUBBLE_LIMITS,
  stokesSpeed,
  type BubbleRise,
  type Surface,
} from "../laws/bubble.ts";
import { STANDARD_GRAVITY } from "../laws/gravity.ts";
import { AIR_DENSITY } from "../substances/air.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import {
  aeratedDensity,
  BUBBLE_WIDTH,
  bubbleDepth,
  bubbleDiameter,
  dispersionViscosity,
  surface,
} from "./quantities/bubbles.ts";
import { COUNT, DENSITY, TIME } from "./quantities/kinds.ts";
import { within } from "./within.ts";

/** Scatter of the measurements behind the drag laws; see the law. */
const SCATTER = 0.05;
/** Widths that the table walks through, m. */
const SIZES = [1e-5, 3e-5, 1e-4, 3e-4, 1e-3] as const;

const inputs = {
  bubbleDiameter,
  viscosity: dispersionViscosity,
  liquidDensity: aeratedDensity,
  depth: bubbleDepth,
  surface,
} as const;

type Given = InputValues<typeof inputs>;

/** Seconds for most bubbles, hours for haze. */
const WAIT = { ...TIME, units: ["s", "min", "h"], digits: 2 } as const;

const speed: Omit<Result, "label" | "symbol"> = {
  dimension: "speed",
  units: ["mm/s", "cm/s"],
  digits: 3,
  byFactor: true,
  bounds: { min: 0 },
};

export const bubbleRise = defineCalculation({
  id: "bubble-rise",
  title: "How long bubbles take to come up",
  summary: "Speed of a bubble and the time that it needs from its depth to the surface",
  inputs,
  links: { liquidDensity: "recipe.density" },
  results: {
    speed: { ...speed, label: "Speed of the bubble", symbol: "v" },
    time: {
      ...WAIT,
      label: "Time to come up",
      symbol: "t",
      hint: "In liquid that stands still, alone",
      byFactor: true,
      bounds: { min: 0 },
    },
    reynolds: {
      ...COUNT,
      digits: 2,
      label: "Reynolds number",
      symbol: String.raw`\mathrm{Re}`,
      hint: "Below 1 the liquid creeps round the bubble",
      byFactor: true,
      bounds: { min: 0 },
    },
    creepingSpeed: {
      ...speed,
      label: "Speed by Stokes’s law",
      symbol: String.raw`v_\mathrm{S}`,
      hint: "For a rigid surface; “none” where the liquid no longer creeps",
      minor: true,
    },
    dragCoefficient: {
      ...COUNT,
      label: "Drag coefficient",
      symbol: String.raw`C_\mathrm{d}`,
      byFactor: true,
      bounds: { min: 0 },
      minor: true,
    },
    airDensity: {
      ...DENSITY,
      digits: 3,
      label: "Density of the air in it",
      symbol: String.raw`\varrho_\mathrm{g}`,
      minor: true,
    },
  },
  compute: (given) => {
    const { bubbleDiameter: d, liquidDensity: density } = given;
    const { speed: v, time, reynolds } = risen(given);
    return {
      speed: within(v, SCATTER),
      time: within(time, SCATTER),
      reynolds: within(reynolds, SCATTER),
      creepingSpeed: creeping(given),
      dragCoefficient:
        (4 * STANDARD_GRAVITY * d * (density - AIR_DENSITY)) / (3 * density * v ** 2),
      airDensity: AIR_DENSITY,
    };
  },
  steps: [
    {
      result: "creepingSpeed",
      tex: (slot) =>
        String.raw`\frac{g\by\wrap{${slot("bubbleDiameter")}}^2\by(${slot("liquidDensity")} - ${slot("airDensity")})}{18\by ${slot("viscosity")}}`,
    },
    {
      result: "reynolds",
      tex: (slot) =>
        String.raw`\frac{${slot("liquidDensity")}\by ${slot("speed")}\by ${slot("bubbleDiameter")}}{${slot("viscosity")}}`,
    },
    {
      result: "speed",
      tex: (slot) =>
        String.raw`\sqrt{\frac{4\by g\by ${slot("bubbleDiameter")}\by(${slot("liquidDensity")} - ${slot("airDensity")})}{3\by ${slot("dragCoefficient")}\by ${slot("liquidDensity")}}}`,
    },
    {
      result: "time",
      tex: (slot) => String.raw`\frac{${slot("depth")}}{${slot("speed")}}`,
    },
  ],
  figures: [
    {
      id: "time-by-size",
      title: "Half the width, four times the wait",
      caption:
        "Time to come up from your depth against the width of the bubble. A surface that lecithin has made rigid makes it slower; but the width decides.",
      data: (given, run) => {
        const { bubbleDiameter: d } = given;
        const { min, max } = BUBBLE_LIMITS.bubbleDiameter;
        const widths = Array.from({ length: 41 }, (_, i) => 0.45 * d * (2.5 / 0.45) ** (i / 40));
        const line = (kind: Surface): readonly [number, number][] =>
          widths.flatMap((width): [number, number][] => {
            if (width < min || width > max) return [];
            const y = run({ bubbleDiameter: width, surface: kind })?.["time"]?.value;
            return y === undefined ? [] : [[width, y]];
          });
        const here = run({})?.["time"]?.value;
        return {
          x: { label: "Width of the bubble", of: bubbleDiameter },
          y: { label: "Time to come up", of: WAIT },
          lines: [
            { label: "rigid", points: line("rigid") },
            { label: "mobile", points: line("mobile"), dashed: true },
          ],
          marks: here === undefined ? [] : [{ x: d, y: here, label: "yours" }],
        };
      },
    },
  ],
  tables: [
    {
      id: "by-size",
      title: "Time to come up, by width",
      columns: [
        { ...BUBBLE_WIDTH, name: "width", label: "Width" },
        { name: "rigid", label: "Rigid surface", ...WAIT },
        { name: "mobile", label: "Mobile surface", ...WAIT },
      ],
      rows: (given) =>
        SIZES.map((width) => [
          width,
          ...(["rigid", "mobile"] as const).map((kind) => {
            const at = { ...given, bubbleDiameter: width, surface: kind };
            return beyond(() => risen(at).time);
          }),
        ]),
    },
  ],
  sources: [
    "stokes-1851",
    "hadamard-1911",
    "schiller-naumann-1933",
    "mei-1994",
    "lecithin-sols-1966",
  ],
});

function risen(given: Given): BubbleRise {
  const { bubbleDiameter: d, viscosity, liquidDensity, depth, surface: kind } = given;
  try {
    return rise(d, { viscosity, density: liquidDensity }, depth, kind);
  } catch (error) {
    if (error instanceof OutOfRangeError && error.quantity === "bubbleDiameter")
      throw new RefusedError(
        "bubbleDiameter",
        phrase`In so thin a liquid a bubble this wide wobbles and flattens, and no formula here holds: type ${amount(error.limits.max, { ...bubbleDiameter, digits: 2 })} or less. A wider one is up all the sooner.`,
      );
    throw error;
  }
}

/** m/s; `null` where the liquid no longer creeps. */
function creeping({ bubbleDiameter: diameter, viscosity, liquidDensity }: Given): number | null {
  return beyond(() =>
    stokesSpeed({ diameter, density: AIR_DENSITY }, { viscosity, density: liquidDensity }),
  );
}

/** What a law gives, `null` beyond it. */
function beyond(law: () => number): number | null {
  try {
    return law();
  } catch (error) {
    if (error instanceof OutOfRangeError || error instanceof RefusedError) return null;
    throw error;
  }
}
