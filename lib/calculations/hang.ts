import { STANDARD_GRAVITY } from "../laws/gravity.ts";
import {
  afloat as floating,
  buoyantForce,
  emptyCentre,
  insideLevel as insideLevelOf,
} from "../laws/hang.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import {
  bathDensity,
  baseThickness,
  contentsDensity,
  contentsMass,
  immersion,
  vesselDiameter,
  vesselHeight,
  wallThickness,
} from "./quantities/bath.ts";
import { beakers, vesselMass } from "./quantities/batch.ts";
import { COUNT, FORCE, LENGTH, MASS } from "./quantities/kinds.ts";

const force: Omit<Result, "label" | "symbol"> = { ...FORCE };
const length: Omit<Result, "label" | "symbol"> = { ...LENGTH };
const mass: Omit<Result, "label" | "symbol"> = { ...MASS, digits: 3, bounds: { min: 0 } };

/** A lighter vessel than this was not weighed, kg. */
const NO_VESSEL = 0.001;

const inputs = {
  vesselMass,
  contentsMass,
  beakers,
  contentsDensity,
  vesselDiameter,
  vesselHeight,
  wallThickness,
  baseThickness,
  immersion,
  bathDensity,
} as const;

type Given = InputValues<typeof inputs>;

export const hang = defineCalculation({
  id: "hang",
  title: "Does the beaker hang or float?",
  summary:
    "The water’s push against the beaker’s weight, where it lifts off, and whether it would then stand up",
  inputs,
  links: {
    contentsMass: "recipe.totalMass",
    contentsDensity: "recipe.density",
    beakers: "recipe.beakers",
  },
  decided: ["contentsMass", "beakers"],
  results: {
    weight: {
      ...force,
      label: "Weight of beaker and liquid",
      symbol: "G",
      bounds: { min: 0 },
    },
    buoyancy: {
      ...force,
      label: "Upward push of the water",
      symbol: "B",
      bounds: { min: 0 },
    },
    netForce: {
      ...force,
      label: "Left for clamp or ring to carry",
      symbol: "N",
      hint: "Weight less push; below zero the beaker lifts off",
    },
    floats: {
      ...COUNT,
      digits: 1,
      unbanded: true,
      bounds: { min: 0, max: 1 },
      label: "Does it float off its ring?",
      words: ["no, it hangs", "yes, it lifts off"],
      symbol: "f",
      hint: "At this depth, with what is in it now",
    },
    immersionToFloat: {
      ...length,
      label: "Lifts off when deeper than",
      symbol: String.raw`d_\mathrm{float}`,
      hint: "“None”: so heavy for its height that it would sink before",
      bounds: { min: 0 },
    },
    leastContents: {
      ...mass,
      label: "Liquid that one beaker needs to stay down",
      symbol: String.raw`m_\mathrm{least}`,
      hint: "With less in it at this depth it lifts off",
    },
    metacentricHeight: {
      ...length,
      label: "Uprightness when afloat (metacentric height)",
      symbol: String.raw`\overline{GM}`,
      hint: "Above zero a floating beaker rights itself, below zero it falls over. “None”: it would sink",
    },
    levelDifference: {
      ...length,
      label: "Liquid inside stands higher than the bath by",
      symbol: String.raw`\Delta`,
      hint: "About zero is what you want; below zero the liquid stands lower than the bath",
    },
    hungMass: {
      ...mass,
      label: "Hanging on the arm, in air",
      symbol: String.raw`m_\ell`,
      hint: "Beaker and liquid, as the stand feels them once lifted out",
    },
    filling: {
      ...mass,
      label: "Liquid in one beaker",
      symbol: String.raw`m_1`,
      minor: true,
    },
    insideLevel: {
      ...length,
      label: "Liquid above the beaker’s bottom",
      symbol: "e",
      bounds: { min: 0 },
      minor: true,
    },
    centre: {
      ...length,
      label: "Centre of mass above the bottom",
      symbol: String.raw`\overline{KG}`,
      bounds: { min: 0 },
      minor: true,
    },
    freeSurface: {
      ...length,
      label: "What the liquid’s free surface takes away",
      symbol: String.raw`F`,
      bounds: { min: 0 },
      minor: true,
    },
  },
  compute: (given) => {
    const filling = given.contentsMass / given.beakers;
    if (given.vesselMass < NO_VESSEL)
      throw new RefusedError("vesselMass", ["Weigh the empty beaker and type its mass."]);
    if (given.immersion > given.vesselHeight)
      throw new RefusedError(
        "immersion",
        phrase`The beaker is only ${amount(given.vesselHeight, vesselHeight)} high, and the bath would run in: type less.`,
      );
    const beaker = {
      ...given,
      contentsMass: filling,
      vesselCentre: emptyCentre(
        given.vesselDiameter,
        given.vesselHeight,
        given.wallThickness,
        given.baseThickness,
      ),
    };
    const insideLevel = insideLevelOf(beaker);
    if (insideLevel > given.vesselHeight)
      throw new RefusedError("contentsMass", [
        "So much liquid does not go into one such beaker: type less, or part it into more beakers.",
      ]);
    const hungMass = given.vesselMass + filling;
    const weight = STANDARD_GRAVITY * hungMass;
    const buoyancy = buoyantForce(given.bathDensity, given.vesselDiameter, given.immersion);
    const afloat = floating(beaker, given.bathDensity);
    const sinks = afloat.depth > given.vesselHeight;
    return {
      weight,
      buoyancy,
      netForce: weight - buoyancy,
      floats: buoyancy > weight ? 1 : 0,
      immersionToFloat: sinks ? null : afloat.depth,
      leastContents: Math.max(buoyancy / STANDARD_GRAVITY - given.vesselMass, 0),
      metacentricHeight: sinks ? null : afloat.metacentricHeight,
      levelDifference: insideLevel - given.immersion,
      hungMass,
      filling,
      insideLevel,
      centre: afloat.centre,
      freeSurface: afloat.freeSurface,
    };
  },
  steps: [
    {
      result: "filling",
      tex: (slot) => String.raw`\frac{${slot("contentsMass")}}{${slot("beakers")}}`,
    },
    {
      result: "weight",
      tex: (slot) => String.raw`g\left(${slot("vesselMass")} + ${slot("filling")}\right)`,
    },
    {
      result: "buoyancy",
      tex: (slot) =>
        String.raw`${slot("bathDensity")}\by g\by\frac{\pi}{4}\by \wrap{${slot("vesselDiameter")}}^2\by ${slot("immersion")}`,
    },
    {
      result: "netForce",
      tex: (slot) => String.raw`${slot("weight")} - ${slot("buoyancy")}`,
    },
    {
      result: "immersionToFloat",
      tex: (slot) =>
        String.raw`\frac{${slot("vesselMass")} + ${slot("filling")}}{${slot("bathDensity")}\by\frac{\pi}{4}\by \wrap{${slot("vesselDiameter")}}^2}`,
    },
    {
      result: "leastContents",
      tex: (slot) =>
        String.raw`\max\left(\frac{${slot("buoyancy")}}{g} - ${slot("vesselMass")},\; 0\right)`,
    },
    {
      result: "insideLevel",
      tex: (slot) =>
        String.raw`${slot("baseThickness")} + \frac{${slot("filling")}}{${slot("contentsDensity")}\by\frac{\pi}{4}\by\left(${slot("vesselDiameter")} - 2\by ${slot("wallThickness")}\right)^2}`,
    },
    {
      result: "levelDifference",
      tex: (slot) => String.raw`${slot("insideLevel")} - ${slot("immersion")}`,
    },
    {
      result: "freeSurface",
      tex: (slot) =>
        String.raw`\frac{${slot("contentsDensity")}}{${slot("vesselMass")} + ${slot("filling")}}\by\frac{\pi}{64}\by\left(${slot("vesselDiameter")} - 2\by ${slot("wallThickness")}\right)^4`,
    },
    {
      result: "metacentricHeight",
      tex: (slot) =>
        String.raw`\frac{${slot("immersionToFloat")}}{2} + \frac{\wrap{${slot("vesselDiameter")}}^2}{16\by ${slot("immersionToFloat")}} - ${slot("centre")} - ${slot("freeSurface")}`,
    },
  ],
  figures: [
    {
      id: "net-force",
      title: "What is left to carry, by depth",
      caption:
        "Every millimetre deeper takes the same share off clamp or ring. Where the line comes to zero, the beaker lifts off.",
      data: (given, run, spread) => {
        const depths = Array.from({ length: 41 }, (_, i) => (given.vesselHeight * i) / 40);
        const left = (at: Given, d: number): number =>
          STANDARD_GRAVITY * (at.vesselMass + at.contentsMass / at.beakers) -
          buoyantForce(at.bathDensity, at.vesselDiameter, d);
        // The depth is the axis here, so its own doubt does not widen the band.
        const moves = spread().filter(
          ({ above, below }) => (above ?? below)?.immersion === given.immersion,
        );
        const half = (d: number): number =>
          2 *
          Math.hypot(
            ...moves.map(({ above, below }) => {
              const top = above ? left(above, d) : left(given, d);
              const bottom = below ? left(below, d) : left(given, d);
              return (top - bottom) / (above && below ? 2 : 1);
            }),
          );
        const values = run({});
        const floatsAt = values?.["immersionToFloat"];
        return {
          x: { label: "Beaker below the water", of: immersion },
          y: { label: "Left to carry", of: FORCE },
          lines: [{ label: "left", points: depths.map((d) => [d, left(given, d)]) }],
          bands: [
            {
              points: depths.map((d) => [d, left(given, d) - half(d), left(given, d) + half(d)]),
            },
          ],
          rules: [{ y: 0, label: "lifts off below" }],
          marks: [
            {
              x: given.immersion,
              y: left(given, given.immersion),
              label: "yours",
              drag: { input: "immersion", from: 0 },
            },
            ...(floatsAt ? [{ x: floatsAt.value, y: 0, label: "afloat" }] : []),
          ],
        };
      },
    },
    {
      id: "upright",
      title: "Upright or over, when afloat",
      caption:
        "Metacentric height of the beaker set afloat, against what is in it. Below zero it falls over: a beaker with little in it cannot be left to float.",
      data: (given, run) => {
        const brim = given.vesselHeight - given.baseThickness;
        const inner = given.vesselDiameter - 2 * given.wallThickness;
        const most = given.contentsDensity * (Math.PI / 4) * inner ** 2 * brim;
        const of = (filling: number): number | undefined =>
          run({ contentsMass: filling * given.beakers })?.["metacentricHeight"]?.value;
        // A film on the floor is left out: it does not run as a free surface does.
        const points = Array.from({ length: 48 }, (_, i) => (most * (i + 1)) / 48).flatMap(
          (filling): [number, number][] => {
            const upright = of(filling);
            return upright === undefined ? [] : [[filling, upright]];
          },
        );
        const filling = given.contentsMass / given.beakers;
        const upright = of(filling);
        return {
          x: { label: "Liquid in the beaker", of: MASS },
          y: { label: "Metacentric height", of: LENGTH },
          lines: [{ label: "afloat", points }],
          rules: [{ y: 0, label: "falls over below" }],
          marks: upright === undefined ? [] : [{ x: filling, y: upright, label: "yours" }],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "bath",
      when: (_, { netForce }) => (netForce?.low ?? 0) < 0,
      say: (given, { netForce, immersionToFloat, metacentricHeight }) => [
        (netForce?.value ?? 0) < 0
          ? "At this depth the beaker lifts off"
          : "At this depth the beaker may lift off: it is too close to tell",
        ...((metacentricHeight?.low ?? 0) < 0 ? [", and afloat it may fall over"] : []),
        ...phrase`. Hang it less deep than ${amount(Math.min(immersionToFloat?.low ?? Infinity, given.immersion), immersion)}, or clamp it at the neck so that it can go neither down nor up.`,
      ],
    },
  ],
  sources: ["archimedes", "ship-statics", "common-practice"],
});
