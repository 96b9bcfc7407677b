import { OutOfRangeError } from "../errors.ts";
import {
  AVOGADRO,
  DENSEST_PACKING,
  entrapment as entrap,
  vesicleContents,
  type Entrapment,
} from "../laws/vesicle.ts";
import { REPORTED_ENTRAPMENT, type Measured } from "../substances/lecithin.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import { ascorbicAcidConcentration, lecithinConcentration } from "./quantities/batch.ts";
import { CONCENTRATION, COUNT, SHARE } from "./quantities/kinds.ts";
import {
  areaPerLipid,
  bilayerThickness,
  layers,
  lipidMolarMass,
  outerDiameter,
  phospholipidShare,
} from "./quantities/vesicles.ts";
import { CAPTURED, layered, MEASURED, widestDrawn } from "./vesicle.ts";

const share: Omit<Result, "label" | "symbol"> = {
  ...SHARE,
  bounds: { min: 0, max: 1 },
  byFactor: true,
};

const inputs = {
  lecithinConcentration,
  phospholipidShare,
  ascorbicAcidConcentration,
  outerDiameter,
  layers,
  bilayerThickness,
  areaPerLipid,
  lipidMolarMass,
} as const;

type Given = InputValues<typeof inputs>;

/** How a figure is known, as words of a table. */
const HOW_KNOWN = ["seen", "memory"] as const;
const howKnown = ({ how }: Pick<Measured, "how">): number => (how === "seen" ? 0 : 1);

const REPORTED: readonly Measured[] = Object.values(REPORTED_ENTRAPMENT);

export const entrapment = defineCalculation({
  id: "entrapment",
  title: "How much can be inside",
  summary: "The most of your acid that vesicles of a size could enclose; the rest stays outside",
  inputs,
  results: {
    entrapmentBound: {
      ...share,
      label: "Inside, at the very most",
      symbol: "f",
      hint: "Share of the solution, and so of the acid; what is really inside may be far less",
    },
    entrappedConcentration: {
      ...CONCENTRATION,
      digits: 2,
      label: "Acid inside, at the very most",
      symbol: String.raw`c_\mathrm{in}`,
      hint: "Grams in each litre of finished liquid",
      bounds: { min: 0 },
      byFactor: true,
    },
    lamellarityHigh: {
      ...share,
      label: "The same, with the fewest layers",
      symbol: String.raw`f_1`,
      hint: "One, or as few as the liquid has room for",
    },
    lamellarityLow: {
      ...share,
      label: "The same, with the most layers that fit",
      symbol: String.raw`f_\mathrm{max}`,
      hint: "An onion to the middle",
    },
    outside: {
      ...SHARE,
      bounds: { min: 0, max: 1 },
      label: "Outside, at the very least",
      symbol: String.raw`1 - f`,
      // What doubt there is stands at what is inside.
      unbanded: true,
      minor: true,
    },
    lipidConcentration: {
      dimension: "molarConcentration",
      units: ["mmol/L", "mol/L"],
      digits: 3,
      label: "Phospholipid, moles in a litre",
      symbol: String.raw`c_\mathrm{p}`,
      bounds: { min: 0 },
      minor: true,
    },
    capturedVolume: {
      ...CAPTURED,
      label: "Captured volume of these vesicles",
      symbol: "v",
      bounds: { min: 0 },
      byFactor: true,
      minor: true,
    },
    enclosedVolume: {
      ...share,
      digits: 3,
      label: "Water inside, share of the liquid",
      symbol: String.raw`\Phi`,
      minor: true,
    },
    bilayerShare: {
      ...share,
      label: "Bilayer, share of the liquid",
      symbol: "b",
      minor: true,
    },
    fewestLayers: {
      ...COUNT,
      label: "Fewest layers that the liquid has room for",
      symbol: String.raw`n_1`,
      unbanded: true,
      minor: true,
    },
    mostLayers: {
      ...COUNT,
      label: "Most layers that the vesicle has room for",
      symbol: String.raw`n_\mathrm{max}`,
      unbanded: true,
      minor: true,
    },
  },
  compute: (given) => {
    const { lamellarity, ...bound } = bounded(given);
    const { capturedVolume, bilayerVolume } = perMole(given);
    const lipidConcentration = molesIn(given);
    return {
      ...bound,
      outside: 1 - bound.entrapmentBound,
      lamellarityLow: lamellarity.most.entrapmentBound,
      lamellarityHigh: lamellarity.fewest.entrapmentBound,
      fewestLayers: lamellarity.fewest.layers,
      mostLayers: lamellarity.most.layers,
      lipidConcentration,
      capturedVolume,
      bilayerShare: lipidConcentration * bilayerVolume,
    };
  },
  steps: [
    {
      result: "lipidConcentration",
      tex: (slot) =>
        String.raw`\frac{${slot("lecithinConcentration")}\by ${slot("phospholipidShare")}}{${slot("lipidMolarMass")}}`,
    },
    {
      result: "enclosedVolume",
      tex: (slot) => String.raw`${slot("capturedVolume")}\by ${slot("lipidConcentration")}`,
    },
    {
      result: "entrapmentBound",
      tex: (slot) => String.raw`\frac{${slot("enclosedVolume")}}{1 - ${slot("bilayerShare")}}`,
    },
    {
      result: "entrappedConcentration",
      tex: (slot) => String.raw`${slot("entrapmentBound")}\by ${slot("ascorbicAcidConcentration")}`,
    },
  ],
  figures: [
    {
      id: "bound-by-size",
      title: "The most that could be inside",
      caption:
        "The most of your acid that could be inside, against the outer diameter, for 1, 3 and 8 layers and with your lecithin. A line ends where the vesicles would need more room than the liquid has. Only large vesicles with few walls pass a half, and a blender and a bath do not make a batch of nothing but those.",
      data: (given, run) => {
        const here = run({})?.["entrapmentBound"]?.value;
        const widest = widestDrawn(given.outerDiameter);
        return {
          x: { label: "Outer diameter", of: outerDiameter, domain: [0, widest] },
          y: { label: "Inside, at most", of: SHARE, domain: [-0.06, 1] },
          lines: layered(run, widest, "entrapmentBound"),
          marks: here === undefined ? [] : [{ x: given.outerDiameter, y: here, label: "yours" }],
        };
      },
    },
  ],
  tables: [
    {
      id: "measured",
      title: "Captured volumes that were measured, and what they would enclose of your batch",
      columns: [
        {
          name: "method",
          label: "Vesicles",
          ...COUNT,
          words: MEASURED.map(({ conditions }) => conditions),
        },
        { name: "measuredLow", label: "Measured, from", ...CAPTURED, digits: 2 },
        { name: "measuredHigh", label: "to", ...CAPTURED, digits: 2 },
        { name: "geometryLow", label: "Geometry, from", ...CAPTURED, digits: 2 },
        { name: "geometryHigh", label: "to", ...CAPTURED, digits: 2 },
        { name: "insideLow", label: "Inside, from", ...SHARE },
        { name: "insideHigh", label: "to", ...SHARE },
        { name: "how", label: "Known", ...COUNT, words: HOW_KNOWN },
      ],
      rows: (given) =>
        MEASURED.map((measured, i) => [
          i,
          measured.low,
          measured.high,
          ...([0, 1] as const).map((end) =>
            measured.sizes
              ? vesicleContents({ ...given, layers: 1, outerDiameter: measured.sizes[end] })
                  .capturedVolume
              : null,
          ),
          shareInside(measured.low, given),
          shareInside(measured.high, given),
          howKnown(measured),
        ]),
    },
    {
      id: "reported",
      title: "Shares of vitamin C that were reported to be inside, beside your bound",
      columns: [
        {
          name: "conditions",
          label: "Reported for",
          ...COUNT,
          words: REPORTED.map(({ conditions }) => conditions),
        },
        { name: "reportedLow", label: "Inside, from", ...SHARE, digits: 3 },
        { name: "reportedHigh", label: "to", ...SHARE, digits: 3 },
        { name: "yours", label: "Your bound", ...SHARE },
        { name: "needed", label: "Phospholipid it would take", ...CONCENTRATION, digits: 2 },
        { name: "how", label: "Known", ...COUNT, words: HOW_KNOWN },
      ],
      rows: (given) => {
        const { entrapmentBound } = bounded(given);
        return REPORTED.map((reported, i) => [
          i,
          reported.low || null,
          reported.high < 1 ? reported.high : null,
          entrapmentBound,
          // “Up to” has no low end.
          phospholipidFor(reported.low || reported.high, given),
          howKnown(reported),
        ]);
      },
    },
  ],
  sources: [
    "szoka-1980",
    "hope-1985",
    "mayer-1986",
    "perkins-1988",
    "yang-2010",
    "vitamin-c-crossover-2020",
    "romano-2024",
    "szoka-1978",
    "szuhaj-2005",
    "bueschelberger-2015",
    "efsa-lecithins-2017",
    "sphere-packing",
  ],
});

function bounded(given: Given): Entrapment {
  try {
    return entrap(given, given);
  } catch (error) {
    if (error instanceof OutOfRangeError && error.quantity === "lecithinConcentration")
      throw new RefusedError(
        "lecithinConcentration",
        phrase`Vesicles of this size and so few layers would need more room than the liquid has. In truth they would be smaller or have more layers: type a smaller diameter or more layers, or not more than ${amount(error.limits.max, { ...lecithinConcentration, digits: 3 })} here.`,
      );
    throw error;
  }
}

/** Moles of phospholipid in each m³ of liquid. */
function molesIn(given: Given): number {
  return (given.lecithinConcentration * given.phospholipidShare) / given.lipidMolarMass;
}

/** What a captured volume encloses of the reader's solution; nothing where the liquid has no room for it. */
function shareInside(capturedVolume: number, given: Given): number | null {
  const enclosed = capturedVolume * molesIn(given);
  const bilayer = perMole({ ...given, layers: 1 }).bilayerVolume * molesIn(given);
  return enclosed + bilayer > DENSEST_PACKING ? null : enclosed / (1 - bilayer);
}

/** Liquid inside and bilayer, m³ for each mole of lipid. */
function perMole(given: Given): {
  readonly capturedVolume: number;
  readonly bilayerVolume: number;
} {
  const { capturedVolume, internalVolume, lipidsPerVesicle } = vesicleContents(given);
  const ball = (Math.PI / 6) * given.outerDiameter ** 3;
  return {
    capturedVolume,
    bilayerVolume: ((ball - internalVolume) * AVOGADRO) / lipidsPerVesicle,
  };
}

/**
 * Phospholipid that would enclose this share in the reader's vesicles, kg/m³; nothing where even vesicles
 * packed as close as balls can be would not.
 */
function phospholipidFor(entrapped: number, given: Given): number | null {
  const { capturedVolume, bilayerVolume } = perMole(given);
  const moles = entrapped / (capturedVolume + entrapped * bilayerVolume);
  const fits = moles * (capturedVolume + bilayerVolume) <= DENSEST_PACKING;
  return fits ? moles * given.lipidMolarMass : null;
}
