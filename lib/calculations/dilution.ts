import { mix, mixingRise, partOfVolume } from "../laws/mixing.ts";
import { density, strength as strengthOf } from "../substances/ethanol-water.ts";
import { amount, asResult, defineCalculation, phrase, RefusedError } from "./calculation.ts";
import { spiritMass, waterMass } from "./quantities/batch.ts";
import {
  FLAMMABLE_FROM,
  finalVolume,
  referenceTemperature,
  spiritStrength,
  targetStrength,
} from "./quantities/spirit.ts";
import { DENSITY, MASS, MASS_FRACTION, RISE, SHARE, VOLUME } from "./quantities/kinds.ts";

const waterPerHundred = {
  label: "Water for each volume of spirit",
  symbol: "r",
  ...SHARE,
  digits: 4,
  hint: "100 % is one volume of water for each volume of spirit",
} as const;

const shortfall = { ...SHARE, digits: 3, minor: true } as const;

export const dilution = defineCalculation({
  id: "dilution",
  title: "Watering down",
  summary:
    "How much spirit and water make a wanted volume of a wanted strength, contraction counted",
  inputs: { spiritStrength, targetStrength, finalVolume, referenceTemperature },
  links: { targetStrength: "recipe.solventStrength", finalVolume: "recipe.solventVolume" },
  results: {
    spiritMass: asResult(spiritMass, { bounds: { min: 0 } }),
    waterMass: asResult(waterMass, { bounds: { min: 0 } }),
    spiritVolume: {
      ...VOLUME,
      label: "Spirit by volume",
      symbol: String.raw`V_\mathrm{s}`,
      bounds: { min: 0 },
    },
    waterVolume: {
      ...VOLUME,
      label: "Water by volume",
      symbol: String.raw`V_\mathrm{w}`,
      bounds: { min: 0 },
    },
    contraction: {
      ...VOLUME,
      label: "Contraction",
      symbol: String.raw`\Delta V`,
      digits: 3,
      hint: "Volume that goes missing when the two mix; below zero the mixture swells",
    },
    naiveWaterVolume: {
      ...VOLUME,
      label: "Water, if volumes added up",
      symbol: String.raw`V_\mathrm{naive}`,
      hint: "What the shortcut formula gives",
      bounds: { min: 0 },
    },
    waterPerHundred,
    mixingRise: {
      label: "Warming on mixing",
      symbol: String.raw`\Delta T`,
      ...RISE,
      hint: "If no heat is lost",
    },
    alcoholVolume: {
      ...VOLUME,
      label: "Pure alcohol that comes with the spirit",
      symbol: String.raw`V_\mathrm{E}`,
      bounds: { min: 0 },
      minor: true,
    },
    spiritShortfall: {
      ...shortfall,
      label: "Contraction in the spirit for each volume of alcohol",
      symbol: String.raw`k_\mathrm{s}`,
    },
    targetShortfall: {
      ...shortfall,
      label: "Contraction in the mixture for each volume of alcohol",
      symbol: String.raw`k_\mathrm{t}`,
    },
    spiritMassFraction: {
      label: "Spirit, alcohol by mass",
      symbol: String.raw`w_\mathrm{s}`,
      ...MASS_FRACTION,
      minor: true,
    },
    targetMassFraction: {
      label: "Mixture, alcohol by mass",
      symbol: String.raw`w_\mathrm{t}`,
      ...MASS_FRACTION,
      minor: true,
    },
    finalMass: {
      label: "Mixture, mass",
      symbol: String.raw`m_\mathrm{t}`,
      ...MASS,
      minor: true,
    },
    targetDensity: {
      label: "Mixture, density",
      symbol: String.raw`\varrho_\mathrm{t}`,
      ...DENSITY,
      minor: true,
    },
    spiritDensity: {
      label: "Spirit, density",
      symbol: String.raw`\varrho_\mathrm{s}`,
      ...DENSITY,
      minor: true,
    },
    waterDensity: {
      label: "Water, density",
      symbol: String.raw`\varrho_\mathrm{w}`,
      ...DENSITY,
      minor: true,
    },
  },
  blame: { strength: "targetStrength", temperature: "referenceTemperature" },
  compute: ({
    spiritStrength: spirit,
    targetStrength: target,
    finalVolume,
    referenceTemperature: t0,
  }) => {
    if (spirit === 0)
      throw new RefusedError("spiritStrength", [
        "There is no alcohol in it: type the strength of the spirit you have.",
      ]);
    if (target >= spirit)
      throw new RefusedError(
        "targetStrength",
        phrase`Water only makes spirit weaker: type less than the spirit’s ${amount(spirit, spiritStrength)}, or buy a spirit stronger than ${amount(target, targetStrength)}.`,
      );
    const final = partOfVolume(finalVolume, target, t0);
    const { massFraction: spiritMassFraction } = partOfVolume(1, spirit, t0);
    // All the ethanol comes with the spirit; the rest is water.
    const spiritPart = final.mass * (final.massFraction / spiritMassFraction);
    // Where the two strengths are all but equal, rounding alone may leave a hair below nothing.
    const waterPart = Math.max(final.mass - spiritPart, 0);
    const spiritDensity = density(spiritMassFraction, t0);
    const waterDensity = density(0, t0);
    const spiritVolume = spiritPart / spiritDensity;
    const waterVolume = waterPart / waterDensity;
    const ethanolDensity = density(1, t0);
    /** Volume that went missing when pure alcohol and water became this mixture, over that of the alcohol. */
    const shortfallOf = (massFraction: number): number =>
      1 -
      ethanolDensity * (1 / density(massFraction, t0) / massFraction) +
      (ethanolDensity / waterDensity) * (1 / massFraction - 1);
    return {
      spiritMass: spiritPart,
      waterMass: waterPart,
      spiritVolume,
      waterVolume,
      contraction: spiritVolume + waterVolume - finalVolume,
      naiveWaterVolume: spiritVolume * (spirit / target - 1),
      waterPerHundred: waterVolume / spiritVolume,
      mixingRise: mixingRise(
        { mass: spiritPart, massFraction: spiritMassFraction },
        { mass: waterPart, massFraction: 0 },
      ),
      spiritMassFraction,
      targetMassFraction: final.massFraction,
      finalMass: final.mass,
      targetDensity: density(final.massFraction, t0),
      spiritDensity,
      waterDensity,
      alcoholVolume: finalVolume * target,
      spiritShortfall: shortfallOf(spiritMassFraction),
      targetShortfall: shortfallOf(final.massFraction),
    };
  },
  steps: [
    {
      result: "finalMass",
      tex: (slot) => String.raw`${slot("targetDensity")}\by ${slot("finalVolume")}`,
    },
    {
      result: "spiritMass",
      tex: (slot) =>
        String.raw`${slot("finalMass")}\by\frac{${slot("targetMassFraction")}}{${slot("spiritMassFraction")}}`,
    },
    {
      result: "waterMass",
      tex: (slot) => String.raw`${slot("finalMass")} - ${slot("spiritMass")}`,
    },
    {
      result: "spiritVolume",
      tex: (slot) => String.raw`\frac{${slot("spiritMass")}}{${slot("spiritDensity")}}`,
    },
    {
      result: "waterVolume",
      tex: (slot) => String.raw`\frac{${slot("waterMass")}}{${slot("waterDensity")}}`,
    },
    {
      result: "contraction",
      tex: (slot) =>
        String.raw`${slot("spiritVolume")} + ${slot("waterVolume")} - ${slot("finalVolume")}`,
    },
    {
      result: "waterPerHundred",
      tex: (slot) => String.raw`\frac{${slot("waterVolume")}}{${slot("spiritVolume")}}`,
    },
    {
      result: "alcoholVolume",
      tex: (slot) => String.raw`${slot("targetStrength")}\by ${slot("finalVolume")}`,
    },
    {
      result: "naiveWaterVolume",
      tex: (slot) =>
        String.raw`${slot("spiritVolume")}\by\left(\frac{${slot("spiritStrength")}}{${slot("targetStrength")}} - 1\right)`,
    },
  ],
  figures: [
    {
      id: "shortcut-error",
      title: "What the shortcut makes of it",
      caption:
        "How much stronger than wanted the mixture comes out when the water is taken from the shortcut. Strong spirit goes well wrong; weak spirit hardly, and below zero it comes out a little too weak.",
      data: ({ spiritStrength: spirit, targetStrength: target, referenceTemperature: t0 }) => {
        const error = (from: number, to: number): number => {
          const water = { mass: 1e-3 * (from / to - 1) * density(0, t0), massFraction: 0 };
          return strengthOf(mix(partOfVolume(1e-3, from, t0), water).massFraction, t0) - to;
        };
        // At a fiftieth of the spirit's strength the water is 49 times the spirit: past any use.
        const line = (from: number): [number, number][] =>
          Array.from({ length: 49 }, (_, i) => {
            const to = (from * (i + 2)) / 50;
            return [to, error(from, to)];
          });
        return {
          x: { label: "Strength wanted", of: targetStrength, domain: [0, 1] },
          y: { label: "Strength too high by", of: { ...targetStrength, digits: 2 } },
          lines: [
            { label: "your spirit", points: line(spirit) },
            ...(spirit < 0.9
              ? [{ label: "spirit of 96 % vol", points: line(0.96), dashed: true }]
              : []),
          ],
          marks: [{ x: target, y: error(spirit, target), label: "yours" }],
        };
      },
    },
    {
      id: "contraction-curve",
      title: "Volume that goes missing",
      caption:
        "Volume lost on mixing for each wanted strength, with your spirit and your volume. Where the line is below zero the mixture takes up more room than its parts did: weak spirit swells when it is watered down far.",
      data: ({ spiritStrength: spirit, targetStrength: target }, run) => {
        const points = Array.from(
          { length: 41 },
          (_, i) => 0.001 + ((spirit - 0.002) * i) / 40,
        ).flatMap((x) => {
          const y = run({ targetStrength: x })?.["contraction"]?.value;
          return y === undefined ? [] : [[x, y] as [number, number]];
        });
        const here = run({})?.["contraction"]?.value;
        return {
          x: { label: "Strength wanted", of: targetStrength },
          y: { label: "Contraction", of: { ...VOLUME, digits: 3 } },
          lines: [{ label: "missing volume", points }],
          marks: here === undefined ? [] : [{ x: target, y: here, label: "yours" }],
        };
      },
    },
    {
      id: "contraction-per-alcohol",
      title: "Contraction for each volume of pure alcohol",
      caption:
        "Volume missing from a mixture, counted from pure alcohol and pure water, as a share of the alcohol in it. Watering down moves along this curve from the right: uphill the mixture shrinks, past the top it swells.",
      data: (inputs, run) => {
        const { spiritStrength: spirit, targetStrength: target, finalVolume } = inputs;
        const { referenceTemperature: t0 } = inputs;
        const points = Array.from({ length: 50 }, (_, i) => (i + 1) / 50).flatMap((x) => {
          // Half of the strength is always within reach, and the spirit's own share is what is drawn. The
          // volume is held: a recipe may have none for so weak a spirit.
          const y = run({
            spiritStrength: x,
            targetStrength: x / 2,
            finalVolume,
            referenceTemperature: t0,
          });
          const share = y?.["spiritShortfall"]?.value;
          return share === undefined ? [] : [[x, share] as [number, number]];
        });
        const here = run({});
        const mark = (x: number, name: string, label: string) => {
          const y = here?.[name]?.value;
          return y === undefined ? [] : [{ x, y, label }];
        };
        return {
          x: { label: "Strength", of: spiritStrength, domain: [0, 1] },
          y: { label: "Contraction over alcohol", of: shortfall },
          lines: [{ label: "share of the alcohol", points }],
          marks: [
            ...mark(spirit, "spiritShortfall", "spirit"),
            ...mark(target, "targetShortfall", "mixture"),
          ],
        };
      },
    },
  ],
  cautions: [
    {
      caution: "flammable",
      when: ({ spiritStrength }) => spiritStrength > FLAMMABLE_FROM,
      say: ({ spiritStrength: value }) =>
        phrase`You are pouring spirit of ${amount(value, spiritStrength)}: keep flames, hot plates and sparking motors away, and mop up spills at once.`,
    },
  ],
  sources: ["oiml-r22-1975", "gauging-manual-table-6", "larkin-1975", "bp-1988"],
});
