import {
  bathLevel as levelOf,
  deepestImmersion,
  largestGrid,
  roomiestGrid,
  waterToFill as fillFor,
  type HungBeakers,
} from "../laws/bath-level.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Phrase,
  type Result,
} from "./calculation.ts";
import {
  bathHeight,
  bathLength,
  bathWidth,
  floorClearanceLeast,
  immersion,
  leastDepth,
  rimClearance,
  vesselDiameter,
  vesselHeight,
  wallClearanceLeast,
  waterDepth,
} from "./quantities/bath.ts";
import { beakersInBath } from "./quantities/heat.ts";
import { COUNT, LENGTH, VOLUME } from "./quantities/kinds.ts";

const length: Omit<Result, "label" | "symbol"> = { ...LENGTH, bounds: { min: 0 } };
const volume: Omit<Result, "label" | "symbol"> = {
  ...VOLUME,
  digits: 3,
  bounds: { min: 0 },
};
const litres = { ...volume, units: ["L", "mL", "fl oz"] } as const;
/** A whole number of beakers takes no band. */
const whole: Omit<Result, "label" | "symbol"> = { ...COUNT, digits: 2, unbanded: true };

/** A number of beakers as a sentence says it. */
const COUNTED = { dimension: "count", units: ["1"], digits: 2 } as const;

const inputs = {
  bathLength,
  bathWidth,
  bathHeight,
  waterDepth,
  leastDepth,
  rimClearance,
  vesselDiameter,
  vesselHeight,
  immersion,
  count: beakersInBath,
  wallClearanceLeast,
  floorClearanceLeast,
} as const;

type Given = InputValues<typeof inputs>;

export const bathLevel = defineCalculation({
  id: "bath-level",
  title: "Beakers and water in the tank",
  summary:
    "Where the water stands with beakers hung in it, what runs over, how many fit, and how much to pour in",
  inputs,
  results: {
    levelRise: {
      ...length,
      label: "The level rises by",
      symbol: String.raw`\Delta h`,
    },
    newDepth: {
      ...length,
      label: "Depth with the beakers in",
      symbol: "h_1",
    },
    overflow: {
      ...volume,
      label: "Runs over the rim",
      symbol: String.raw`V_\mathrm{over}`,
      hint: "0 where the rim is high enough",
    },
    floorClearance: {
      ...length,
      label: "Gap between beaker and floor",
      symbol: String.raw`g_\mathrm{f}`,
    },
    wallClearance: {
      ...length,
      label: "Gap to walls and neighbours",
      symbol: String.raw`g_\mathrm{w}`,
      hint: "The narrowest, with the beakers spread as evenly as rows and columns allow",
    },
    fits: {
      ...whole,
      label: "Beakers that fit with the least gap",
      symbol: String.raw`n_\mathrm{fit}`,
      hint: "In rows and columns, the least gap on every side and between",
    },
    waterToFill: {
      ...litres,
      label: "Water to pour into the empty tank",
      symbol: String.raw`V_\mathrm{fill}`,
      hint: "For the level you want below the rim, beakers in. “None”: so low they would stand on the floor",
    },
    depthToFill: {
      ...length,
      label: "Depth of that water before the beakers go in",
      symbol: String.raw`h_\mathrm{fill}`,
    },
    bathWater: {
      ...litres,
      label: "Water in the tank now",
      symbol: String.raw`V_\mathrm{b}`,
      hint: "What has run over is no longer counted",
    },
    lowering: {
      ...length,
      label: "The beaker itself goes down past the first level by",
      symbol: "z",
      minor: true,
    },
    bathArea: {
      dimension: "area",
      units: ["cm²", "m²"],
      digits: 4,
      label: "Floor of the tank",
      symbol: "A",
      bounds: { min: 0 },
      minor: true,
    },
    displaced: {
      ...volume,
      label: "Water pushed aside",
      symbol: String.raw`V_\mathrm{d}`,
      minor: true,
    },
    along: { ...whole, label: "Beakers along the tank", symbol: "n_L", minor: true },
    across: { ...whole, label: "Beakers across the tank", symbol: "n_W", minor: true },
  },
  compute: (given) => {
    refuseWhatCannotHang(given);
    const beakers = beakersOf(given);
    const area = given.bathLength * given.bathWidth;
    const { levelRise, newDepth, overflow, displaced } = levelOf(given, given.waterDepth, beakers);
    const grid = roomiestGrid(given, given.vesselDiameter, given.count);
    const most = largestGrid(given, given.vesselDiameter, given.wallClearanceLeast);
    const fill = fillOf(given);
    return {
      levelRise,
      newDepth,
      overflow,
      floorClearance: newDepth - given.immersion,
      wallClearance: grid.clearance,
      fits: most.along * most.across,
      waterToFill: fill,
      depthToFill: fill === null ? null : fill / area,
      bathWater: area * given.waterDepth - overflow,
      lowering: given.immersion - levelRise,
      bathArea: area,
      displaced,
      along: grid.along,
      across: grid.across,
    };
  },
  steps: [
    {
      result: "bathArea",
      tex: (slot) => String.raw`${slot("bathLength")}\by ${slot("bathWidth")}`,
    },
    {
      result: "displaced",
      tex: (slot) =>
        String.raw`${slot("count")}\by\frac{\pi}{4}\by \wrap{${slot("vesselDiameter")}}^2\by ${slot("immersion")}`,
    },
    {
      result: "levelRise",
      tex: (slot) =>
        String.raw`\min\left(\frac{${slot("displaced")}}{${slot("bathArea")}},\; ${slot("bathHeight")} - ${slot("waterDepth")}\right)`,
    },
    {
      result: "newDepth",
      tex: (slot) => String.raw`${slot("waterDepth")} + ${slot("levelRise")}`,
    },
    {
      result: "overflow",
      tex: (slot) => String.raw`${slot("displaced")} - ${slot("bathArea")}\by ${slot("levelRise")}`,
    },
    {
      result: "lowering",
      tex: (slot) => String.raw`${slot("immersion")} - ${slot("levelRise")}`,
    },
    {
      result: "floorClearance",
      tex: (slot) => String.raw`${slot("newDepth")} - ${slot("immersion")}`,
    },
    {
      result: "waterToFill",
      tex: (slot) =>
        String.raw`${slot("bathArea")}\by\left(${slot("bathHeight")} - ${slot("rimClearance")}\right) - ${slot("displaced")}`,
    },
    {
      result: "depthToFill",
      tex: (slot) => String.raw`\frac{${slot("waterToFill")}}{${slot("bathArea")}}`,
    },
    {
      result: "bathWater",
      tex: (slot) => String.raw`${slot("bathArea")}\by ${slot("waterDepth")} - ${slot("overflow")}`,
    },
    {
      result: "fits",
      tex: (slot) =>
        String.raw`\left\lfloor\frac{${slot("bathLength")} - ${slot("wallClearanceLeast")}}{${slot("vesselDiameter")} + ${slot("wallClearanceLeast")}}\right\rfloor\by\left\lfloor\frac{${slot("bathWidth")} - ${slot("wallClearanceLeast")}}{${slot("vesselDiameter")} + ${slot("wallClearanceLeast")}}\right\rfloor`,
    },
    {
      result: "wallClearance",
      tex: (slot) =>
        String.raw`\min\left(\frac{${slot("bathLength")} - ${slot("along")}\by ${slot("vesselDiameter")}}{${slot("along")} + 1},\; \frac{${slot("bathWidth")} - ${slot("across")}\by ${slot("vesselDiameter")}}{${slot("across")} + 1}\right)`,
    },
  ],
  figures: [
    {
      id: "level",
      title: "Water up, beaker down",
      caption:
        "As the beaker goes deeper the water rises to meet it. Keep the water under the rim and the beaker’s bottom above the least gap to the floor.",
      data: (given, run) => {
        const steps = Array.from({ length: 49 }, (_, i) => (given.vesselHeight * i) / 48);
        const at = steps.flatMap((d) => {
          const values = run({ immersion: d });
          const depth = values?.["newDepth"]?.value;
          return depth === undefined ? [] : [[d, depth] as const];
        });
        const here = run({})?.["newDepth"]?.value ?? given.waterDepth;
        return {
          x: { label: "Beaker below the water", of: immersion },
          y: {
            label: "Height above the floor",
            of: waterDepth,
            domain: [0, given.bathHeight * 1.1],
          },
          lines: [
            { label: "water", points: at },
            { label: "bottom", points: at.map(([d, depth]) => [d, depth - d]), dashed: true },
          ],
          rules: [
            { y: given.bathHeight, label: "rim" },
            { y: given.floorClearanceLeast, label: "least gap" },
          ],
          marks: [
            {
              x: given.immersion,
              y: here,
              label: "yours",
              drag: { input: "immersion", from: 0 },
            },
          ],
        };
      },
    },
  ],
  tables: [
    {
      id: "by-count",
      title: "One beaker more",
      columns: [
        { name: "count", label: "Beakers", ...COUNTED },
        { name: "clearance", label: "Gap to walls and neighbours", ...LENGTH },
        { name: "depth", label: "Depth with them in", ...LENGTH },
        { name: "overflow", label: "Runs over", ...VOLUME, digits: 3 },
        { name: "fill", label: "Water to pour in instead", ...litres },
      ],
      rows: (given) => {
        const { along, across } = largestGrid(given, given.vesselDiameter, 0);
        const most = Math.min(along * across, beakersInBath.limits.max);
        return Array.from({ length: most }, (_, i) => {
          const moved = { ...given, count: i + 1 };
          const { newDepth, overflow } = levelOf(moved, given.waterDepth, beakersOf(moved));
          const { clearance } = roomiestGrid(given, given.vesselDiameter, moved.count);
          return [moved.count, clearance, newDepth, overflow, fillOf(moved)];
        });
      },
    },
  ],
  offers: [
    {
      id: "fill",
      label: "Fill to the level I want",
      take: (given) => {
        const fill = fillOf(given);
        const depth = fill === null ? 0 : fill / (given.bathLength * given.bathWidth);
        return depth >= given.leastDepth
          ? { waterDepth: depth }
          : [
              "No: once the beakers are out again, the water would stand below the least depth. Let it end nearer to the rim, or hang the beakers less deep.",
            ];
      },
    },
  ],
  cautions: [
    {
      caution: "electricity",
      when: (_, { overflow }) => (overflow?.value ?? 0) > 0,
      say: (_, { overflow }) =>
        phrase`${amount(overflow?.value ?? 0, volume)} would run over the rim, towards plug and leads. Take out water before the beaker goes in, with the bath unplugged.`,
    },
    {
      caution: "water-level",
      when: ({ waterDepth: depth, leastDepth: least }) => depth < least,
      say: ({ waterDepth: depth, leastDepth: least }) =>
        phrase`With no beaker in it the water stands at ${amount(depth, waterDepth)}, and your bath needs ${amount(least, leastDepth)}. Do not switch it on: it would run too low as soon as you lift the beaker out.`,
    },
    {
      caution: "bath",
      when: (given, { floorClearance, fits }) =>
        tooLow(given, floorClearance?.value) || tooMany(given, fits?.value),
      say: (given, { floorClearance, fits }): Phrase => [
        ...(tooLow(given, floorClearance?.value)
          ? phrase`Between the beaker and the floor only ${amount(floorClearance?.value ?? 0, LENGTH)} are left: hang it higher, or pour in more water. `
          : []),
        ...(tooMany(given, fits?.value)
          ? phrase`With the gaps you want, ${amount(fits?.value ?? 0, COUNTED)} of these beakers fit. Hang fewer at a time.`
          : []),
      ],
    },
  ],
  sources: ["statics", "pharmacy-bath-procedure", "common-practice"],
});

function beakersOf({ vesselDiameter: diameter, immersion: d, count }: Given): HungBeakers {
  return { vesselDiameter: diameter, immersion: d, count };
}

/** m³; `null` where the beakers would touch the floor at the wanted level. */
function fillOf(given: Given): number | null {
  const wanted = given.bathHeight - given.rimClearance;
  return given.immersion > wanted ? null : fillFor(given, wanted, beakersOf(given));
}

function tooLow(given: Given, floorClearance = 0): boolean {
  return floorClearance < given.floorClearanceLeast;
}

function tooMany(given: Given, fits = 0): boolean {
  return given.count > fits;
}

function refuseWhatCannotHang(given: Given): void {
  const side = Math.min(given.bathLength, given.bathWidth);
  if (given.vesselDiameter > side)
    throw new RefusedError(
      "vesselDiameter",
      phrase`The beaker is wider than the bath, which has ${amount(side, bathWidth)}: take a narrower beaker.`,
    );
  const { along, across } = largestGrid(given, given.vesselDiameter, 0);
  if (given.count > along * across)
    throw new RefusedError(
      "count",
      phrase`Even touching one another, only ${amount(along * across, COUNTED)} fit in rows and columns: type fewer.`,
    );
  if (given.immersion > given.vesselHeight)
    throw new RefusedError(
      "immersion",
      phrase`The beaker is only ${amount(given.vesselHeight, vesselHeight)} high, and the bath would run in: type less.`,
    );
  if (given.waterDepth > given.bathHeight)
    throw new RefusedError(
      "waterDepth",
      phrase`The rim is at ${amount(given.bathHeight, bathHeight)}: type a depth below it.`,
    );
  const deepest = deepestImmersion(given, given.waterDepth, beakersOf(given));
  if (given.immersion > deepest)
    throw new RefusedError(
      "immersion",
      phrase`The beaker would stand on the floor: in this much water it can hang ${amount(deepest, immersion)} below the surface and no deeper. Type less, or pour in more water.`,
    );
}
