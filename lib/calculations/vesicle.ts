import { mostLayers, vesicleContents } from "../laws/vesicle.ts";
import { MEASURED_CAPTURED_VOLUME } from "../substances/lecithin.ts";
import { defineCalculation, type FigureData, type Result, type Values } from "./calculation.ts";
import { COUNT } from "./quantities/kinds.ts";
import {
  areaPerLipid,
  bilayerThickness,
  layers,
  lipidMolarMass,
  outerDiameter,
} from "./quantities/vesicles.ts";

export const CAPTURED = {
  dimension: "molarVolume",
  units: ["L/mol", "µL/µmol"],
  digits: 3,
} as const;
const TINY_VOLUME = { dimension: "volume", units: ["aL", "fL"], digits: 3 } as const;
/** Of one vesicle of just this size: a count, whatever sizes there are in a batch. */
const ofOne: Pick<Result, "bounds" | "unbanded"> = { bounds: { min: 0 }, unbanded: true };

/** Layers whose curves are drawn, the lowest second: names go above and below by turns. */
const DRAWN_LAYERS = [1, 8, 3] as const;

/** Outer diameters that the measured volumes belong to, m; none was stated for the shaken ones. memory */
const SIZES: Readonly<
  Record<keyof typeof MEASURED_CAPTURED_VOLUME, readonly [number, number] | undefined>
> = {
  sonicated: [25e-9, 50e-9],
  extruded: [60e-9, 100e-9],
  shaken: undefined,
  reversePhase: [400e-9, 400e-9],
};

/** Each measured range with its sizes. */
export const MEASURED = Object.entries(MEASURED_CAPTURED_VOLUME).map(([name, measured]) => ({
  ...measured,
  sizes: SIZES[name as keyof typeof SIZES],
}));

export const vesicle = defineCalculation({
  id: "vesicle",
  title: "Inside one vesicle",
  summary: "How many lipids make a vesicle of a size, and how much liquid it holds for each mole",
  inputs: { outerDiameter, bilayerThickness, areaPerLipid, lipidMolarMass, layers },
  results: {
    lipidsPerVesicle: {
      ...COUNT,
      ...ofOne,
      label: "Lipids in one vesicle",
      symbol: "N",
    },
    internalVolume: {
      ...TINY_VOLUME,
      ...ofOne,
      label: "Liquid inside one vesicle",
      symbol: "V",
      hint: "An attolitre is a billionth of a billionth of a litre",
    },
    capturedVolume: {
      ...CAPTURED,
      bounds: { min: 0 },
      byFactor: true,
      label: "Captured volume",
      symbol: "v",
      hint: "Liquid inside for each mole of lipid, if every vesicle were round and alike: an upper bound",
    },
    vesiclesPerLipidMass: {
      dimension: "numberPerMass",
      units: ["ng⁻¹"],
      digits: 3,
      ...ofOne,
      label: "Vesicles from each nanogram of lipid",
      symbol: "Z",
    },
    mostLayers: {
      ...COUNT,
      label: "Layers that would fit",
      symbol: String.raw`n_\mathrm{max}`,
      unbanded: true,
      minor: true,
    },
    leafArea: {
      dimension: "area",
      units: ["nm²"],
      digits: 3,
      ...ofOne,
      label: "Area of all leaves",
      symbol: "A",
      minor: true,
    },
    ballVolume: {
      ...TINY_VOLUME,
      ...ofOne,
      label: "The whole ball",
      symbol: String.raw`V_\circ`,
      minor: true,
    },
    bilayerVolume: {
      ...TINY_VOLUME,
      ...ofOne,
      label: "Bilayers in it",
      symbol: String.raw`V_\mathrm{b}`,
      minor: true,
    },
  },
  compute: (given) => {
    const contents = vesicleContents(given);
    const ballVolume = (Math.PI / 6) * given.outerDiameter ** 3;
    return {
      ...contents,
      mostLayers: mostLayers(given),
      leafArea: contents.lipidsPerVesicle * given.areaPerLipid,
      ballVolume,
      bilayerVolume: ballVolume - contents.internalVolume,
    };
  },
  steps: [
    {
      result: "lipidsPerVesicle",
      tex: (slot) => String.raw`\frac{${slot("leafArea")}}{${slot("areaPerLipid")}}`,
    },
    {
      result: "ballVolume",
      tex: (slot) => String.raw`\frac{\pi}{6}\by\wrap{${slot("outerDiameter")}}^3`,
    },
    {
      result: "internalVolume",
      tex: (slot) => String.raw`${slot("ballVolume")} - ${slot("bilayerVolume")}`,
    },
    {
      result: "capturedVolume",
      tex: (slot) =>
        String.raw`\frac{${slot("internalVolume")}}{${slot("lipidsPerVesicle")}}\by N_\mathrm{A}`,
    },
    {
      result: "vesiclesPerLipidMass",
      tex: (slot) =>
        String.raw`\frac{N_\mathrm{A}}{${slot("lipidsPerVesicle")}\by ${slot("lipidMolarMass")}}`,
    },
  ],
  figures: [
    {
      id: "captured-by-size",
      title: "Large and single-walled holds most",
      caption:
        "Liquid inside for each mole of lipid, against the outer diameter, for 1, 3 and 8 layers. Dots without a name are the ends of measured ranges, from memory. A batch from a blender and a bath lies somewhere between the curves, at many sizes at once.",
      data: (given, run) => {
        const here = run({})?.["capturedVolume"]?.value;
        const widest = widestDrawn(given.outerDiameter);
        const lines = layered(run, widest, "capturedVolume");
        const most = Math.max(...lines.flatMap(({ points }) => points.map(([, y]) => y)));
        return {
          x: { label: "Outer diameter", of: outerDiameter, domain: [0, widest] },
          y: { label: "Captured volume", of: CAPTURED, domain: [-0.08 * most, 1.05 * most] },
          lines,
          marks: [
            ...MEASURED.flatMap(({ sizes, low, high }) =>
              sizes
                ? [
                    { x: sizes[0], y: low, label: "" },
                    { x: sizes[1], y: high, label: "" },
                  ]
                : [],
            ),
            ...(here === undefined ? [] : [{ x: given.outerDiameter, y: here, label: "yours" }]),
          ],
        };
      },
    },
  ],
  sources: [
    "szoka-1980",
    "hope-1985",
    "mayer-1986",
    "perkins-1988",
    "szoka-1978",
    "nagle-2012",
    "nagle-2000",
    "si-brochure-2019",
  ],
});

/**
 * A result against the outer diameter, a line for each number of layers; nothing is drawn where it is refused.
 * The name of the lowest line has room only below nothing.
 */
export function layered(
  run: (moved: { outerDiameter: number; layers: number }) => Values | null,
  widest: number,
  result: string,
): FigureData["lines"] {
  const { min } = outerDiameter.limits;
  const sizes = Array.from({ length: 44 }, (_, i) => min + ((widest - min) * i) / 43);
  return DRAWN_LAYERS.map((layerCount) => ({
    label: layerCount === 1 ? "1 layer" : `${layerCount} layers`,
    points: sizes.flatMap((size) => {
      const y = run({ outerDiameter: size, layers: layerCount })?.[result]?.value;
      return y === undefined ? [] : [[size, y] as const];
    }),
    dashed: layerCount !== 1,
  }));
}

/** How wide a size a drawing goes to: past the reader's own, m. */
export function widestDrawn(own: number): number {
  return Math.max(450e-9, Math.min(2 * own, outerDiameter.limits.max));
}
