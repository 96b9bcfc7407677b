import { ETHANOL_DENSITY, solventMixture, solventVolume } from "../laws/recipe.ts";
import { ascorbicAcidSolubility } from "../substances/ascorbic-acid.ts";
import {
  density,
  massFraction as massFractionOf,
  strength as strengthOf,
} from "../substances/ethanol-water.ts";
import { amount, asResult, defineCalculation, phrase, RefusedError } from "./calculation.ts";
import {
  alcoholStrength,
  ascorbicAcidConcentration,
  ascorbicAcidMass,
  ascorbicAcidSpecificVolume,
  batchVolume,
  beakerVolume,
  lecithinConcentration,
  lecithinMass,
  lecithinSpecificVolume,
  spiritMass,
  waterMass,
} from "./quantities/batch.ts";
import { FLAMMABLE_FROM, referenceTemperature, spiritStrength } from "./quantities/spirit.ts";
import {
  COUNT,
  DENSITY,
  MASS,
  MASS_FRACTION,
  SHARE,
  SMALL_MASS,
  STRENGTH,
  VOLUME,
} from "./quantities/kinds.ts";

const density5 = { ...DENSITY, digits: 4 } as const;
const strengthShown = {
  ...STRENGTH,
  bounds: { min: 0, max: 1 },
} as const;
const fraction = {
  ...MASS_FRACTION,
  bounds: { min: 0, max: 1 },
} as const;

const shareShown = { ...SHARE, digits: 3 } as const;

/** How full a beaker may be: room for foam, for the blender's swirl and for carrying. */
export const BEAKER_SHARE = 2 / 3;

/** More than this at once is no home batch. */
export const LARGE_BATCH = 2e-3;

/** A serving's yardstick: two teaspoons. */
const TEN_ML = 10e-6;

/** With less water and alcohol than this the powders make a paste (common practice, no source). */
const LEAST_SOLVENT = 0.5;

export const recipe = defineCalculation({
  id: "recipe",
  title: "One recipe, any spirit, any size",
  summary: "What to weigh of water, spirit, ascorbic acid and lecithin for the batch you want",
  inputs: {
    batchVolume,
    spiritStrength,
    alcoholStrength,
    ascorbicAcidConcentration,
    lecithinConcentration,
    referenceTemperature,
    beakerVolume,
    ascorbicAcidSpecificVolume,
    lecithinSpecificVolume,
  },
  results: {
    waterMass: asResult(waterMass, { bounds: { min: 0 } }),
    spiritMass: asResult(spiritMass, { bounds: { min: 0 } }),
    ascorbicAcidMass: asResult(ascorbicAcidMass, { bounds: { min: 0 } }),
    lecithinMass: asResult(lecithinMass, { bounds: { min: 0 } }),
    totalMass: { ...MASS, label: "All together", symbol: "m", bounds: { min: 0 } },
    density: { ...density5, label: "Density of the finished liquid", symbol: String.raw`\varrho` },
    beakers: {
      label: "Beakers, filled two thirds at most",
      symbol: "n",
      ...COUNT,
    },
    strongestAlcohol: {
      ...strengthShown,
      label: "Strongest this spirit can make it",
      symbol: String.raw`\varphi_\mathrm{max}`,
      hint: "With no water added at all",
    },
    solventMassFraction: {
      ...fraction,
      label: "Alcohol in water and alcohol, by mass",
      symbol: String.raw`w_\mathrm{m}`,
    },
    solventStrength: {
      ...strengthShown,
      label: "Strength of water and alcohol alone",
      symbol: String.raw`\varphi_\mathrm{m}`,
      hint: "At the temperature the label counts at, before the powders go in",
    },
    solventVolume: {
      ...VOLUME,
      label: "Volume of water and alcohol alone",
      symbol: String.raw`V_\mathrm{m}`,
      hint: "At the temperature the label counts at, before the powders go in",
      bounds: { min: 0 },
    },
    ethanolMass: {
      ...MASS,
      label: "Pure alcohol in the batch",
      symbol: String.raw`m_\mathrm{E}`,
      bounds: { min: 0 },
    },
    ascorbicAcidIn10mL: {
      ...SMALL_MASS,
      units: ["mg", "g"],
      digits: 4,
      label: "Ascorbic acid in 10 mL",
      symbol: String.raw`m_\mathrm{a,10}`,
      hint: "An upper intake counts all of it, from every source",
      bounds: { min: 0 },
    },
    ethanolIn10mL: {
      ...SMALL_MASS,
      units: ["g", "mg"],
      digits: 2,
      label: "Pure alcohol in 10 mL",
      symbol: String.raw`m_\mathrm{E,10}`,
      bounds: { min: 0 },
    },
    spiritMassFraction: {
      ...fraction,
      label: "Spirit, alcohol by mass",
      symbol: String.raw`w_\mathrm{s}`,
      minor: true,
    },
    spiritStrength20: {
      ...strengthShown,
      label: "Strength of the spirit at 20 °C",
      symbol: String.raw`\varphi_{\mathrm{s},20}`,
      minor: true,
    },
    soluteVolume: {
      ...VOLUME,
      label: "Volume that the powders add",
      symbol: String.raw`V_\mathrm{p}`,
      minor: true,
    },
    solventRoom: {
      ...VOLUME,
      label: "Room left for water and alcohol at 20 °C",
      symbol: String.raw`V_\mathrm{r}`,
      minor: true,
    },
    roomStrength: {
      ...strengthShown,
      label: "Strength in that room at 20 °C",
      symbol: String.raw`\varphi_\mathrm{r}`,
      minor: true,
    },
    solventDensity: {
      ...density5,
      digits: 5,
      label: "Density of water and alcohol at 20 °C",
      symbol: String.raw`\varrho_\mathrm{r}`,
      minor: true,
    },
    solventMass: {
      ...MASS,
      label: "Water and alcohol together",
      symbol: String.raw`m_\mathrm{r}`,
      minor: true,
    },
    ethanolDensity: {
      ...density5,
      digits: 5,
      label: "Density of pure alcohol at 20 °C",
      symbol: String.raw`\varrho_\mathrm{E}`,
      minor: true,
    },
  },
  blame: { strength: "alcoholStrength", temperature: "referenceTemperature" },
  compute: (inputs) => {
    const { batchVolume: whole, alcoholStrength: wanted, referenceTemperature: t0 } = inputs;
    const acid = inputs.ascorbicAcidConcentration * whole;
    const lecithin = inputs.lecithinConcentration * whole;
    const room = solventVolume(whole, [
      { mass: acid, specificVolume: inputs.ascorbicAcidSpecificVolume },
      { mass: lecithin, specificVolume: inputs.lecithinSpecificVolume },
    ]);
    if (room < LEAST_SOLVENT * whole)
      throw new RefusedError(
        acid >= lecithin ? "ascorbicAcidConcentration" : "lecithinConcentration",
        phrase`The powders alone would take up ${amount(whole - room, batchVolume)} of ${amount(whole, batchVolume)}: that is a paste, not a liquid. Ask for less of this one.`,
      );
    const ethanolMass = wanted * whole * ETHANOL_DENSITY;
    const spirit = massFractionOf(inputs.spiritStrength, t0);
    const spiritStrength20 = strengthOf(spirit);
    const strongestAlcohol = (spiritStrength20 * room) / whole;
    const tooStrong = (): never => {
      throw new RefusedError(
        "alcoholStrength",
        inputs.spiritStrength === 0
          ? ["There is no alcohol in the spirit: type its strength, or ask for 0 % vol here."]
          : phrase`Your spirit of ${amount(inputs.spiritStrength, spiritStrength)} with no water at all gives at most ${amount(strongestAlcohol, alcoholStrength)} in the finished liquid. Type less here, use a stronger spirit, or less powder.`,
      );
    };
    if (wanted > strongestAlcohol) tooStrong();
    const mixture = solventMixture(room, ethanolMass);
    const spiritPart = ethanolMass === 0 ? 0 : ethanolMass / spirit;
    const waterPart = mixture.mass - spiritPart;
    // Rounding alone may leave a hair below nothing at the limit itself.
    if (waterPart < -1e-9 * mixture.mass) tooStrong();
    const soluble = ascorbicAcidSolubility(mixture.massFraction);
    if (acid > soluble.high * mixture.mass)
      throw new RefusedError(
        "ascorbicAcidConcentration",
        phrase`More acid than the batch can hold: this much water and alcohol dissolves at most about ${amount(soluble.high * mixture.mass, { ...ascorbicAcidMass, digits: 2 })}, and you ask for ${amount(acid, ascorbicAcidMass)}. Ask for less acid, or less alcohol.`,
      );
    const total = mixture.mass + acid + lecithin;
    return {
      waterMass: Math.max(waterPart, 0),
      spiritMass: spiritPart,
      ascorbicAcidMass: acid,
      lecithinMass: lecithin,
      totalMass: total,
      density: total / whole,
      beakers: Math.ceil(whole / (BEAKER_SHARE * inputs.beakerVolume) - 1e-9),
      strongestAlcohol,
      solventMassFraction: mixture.massFraction,
      solventStrength: strengthOf(mixture.massFraction, t0),
      solventVolume: mixture.mass / density(mixture.massFraction, t0),
      ethanolMass,
      ascorbicAcidIn10mL: inputs.ascorbicAcidConcentration * TEN_ML,
      ethanolIn10mL: wanted * ETHANOL_DENSITY * TEN_ML,
      spiritMassFraction: spirit,
      spiritStrength20,
      soluteVolume: whole - room,
      solventRoom: room,
      roomStrength: mixture.strength,
      solventDensity: density(mixture.massFraction, 20),
      solventMass: mixture.mass,
      ethanolDensity: ETHANOL_DENSITY,
    };
  },
  steps: [
    {
      result: "ascorbicAcidMass",
      tex: (slot) => String.raw`${slot("ascorbicAcidConcentration")}\by ${slot("batchVolume")}`,
    },
    {
      result: "lecithinMass",
      tex: (slot) => String.raw`${slot("lecithinConcentration")}\by ${slot("batchVolume")}`,
    },
    {
      result: "ethanolMass",
      tex: (slot) =>
        String.raw`${slot("alcoholStrength")}\by ${slot("batchVolume")}\by ${slot("ethanolDensity")}`,
    },
    {
      result: "soluteVolume",
      tex: (slot) =>
        String.raw`${slot("ascorbicAcidMass")}\by ${slot("ascorbicAcidSpecificVolume")} + ${slot("lecithinMass")}\by ${slot("lecithinSpecificVolume")}`,
    },
    {
      result: "solventRoom",
      tex: (slot) => String.raw`${slot("batchVolume")} - ${slot("soluteVolume")}`,
    },
    {
      result: "roomStrength",
      tex: (slot) =>
        String.raw`${slot("alcoholStrength")}\by\frac{${slot("batchVolume")}}{${slot("solventRoom")}}`,
    },
    {
      result: "solventMassFraction",
      tex: (slot) =>
        String.raw`${slot("roomStrength")}\by\frac{${slot("ethanolDensity")}}{${slot("solventDensity")}}`,
    },
    {
      result: "solventMass",
      tex: (slot) => String.raw`${slot("solventDensity")}\by ${slot("solventRoom")}`,
    },
    {
      result: "spiritMass",
      tex: (slot) => String.raw`\frac{${slot("ethanolMass")}}{${slot("spiritMassFraction")}}`,
    },
    {
      result: "waterMass",
      tex: (slot) => String.raw`${slot("solventMass")} - ${slot("spiritMass")}`,
    },
    {
      result: "strongestAlcohol",
      tex: (slot) =>
        String.raw`${slot("spiritStrength20")}\by\frac{${slot("solventRoom")}}{${slot("batchVolume")}}`,
    },
    {
      result: "totalMass",
      tex: (slot) =>
        String.raw`${slot("waterMass")} + ${slot("spiritMass")} + ${slot("ascorbicAcidMass")} + ${slot("lecithinMass")}`,
    },
    {
      result: "density",
      tex: (slot) => String.raw`\frac{${slot("totalMass")}}{${slot("batchVolume")}}`,
    },
    {
      result: "beakers",
      tex: (slot) =>
        String.raw`\left\lceil \frac{${slot("batchVolume")}}{\tfrac{2}{3}\by ${slot("beakerVolume")}} \right\rceil`,
    },
  ],
  figures: [
    {
      id: "what-fills-it",
      title: "What fills the volume",
      caption:
        "The finished liquid by volume. What the powders take up is not there for water and alcohol.",
      data: ({ ascorbicAcidSpecificVolume, lecithinSpecificVolume }, run) => {
        const values = run({});
        const of = (name: string) => values?.[name]?.value ?? 0;
        return {
          x: { label: "Volume at 20 °C", of: batchVolume },
          bars: [
            { label: "Water, alcohol", value: of("solventRoom") },
            { label: "Ascorbic acid", value: of("ascorbicAcidMass") * ascorbicAcidSpecificVolume },
            { label: "Lecithin", value: of("lecithinMass") * lecithinSpecificVolume },
          ],
        };
      },
    },
    {
      id: "acid-limit",
      title: "How much acid the mixture may hold",
      caption:
        "An estimate between published figures for water and for pure alcohol, with a wide band. Your batch should lie below the band.",
      data: ({ ascorbicAcidConcentration, batchVolume }, run) => {
        const values = run({});
        const fractions = Array.from({ length: 51 }, (_, i) => i / 50);
        const edges = fractions.map((w) => ({ w, ...ascorbicAcidSolubility(w) }));
        const at = values?.["solventMassFraction"]?.value;
        const solvent = values?.["solventMass"]?.value;
        return {
          x: { label: "Alcohol in water and alcohol", of: fraction },
          y: { label: "Acid to water and alcohol", of: shareShown },
          lines: [{ label: "estimate", points: edges.map(({ w, value }) => [w, value] as const) }],
          bands: [{ points: edges.map(({ w, low, high }) => [w, low, high] as const) }],
          marks:
            at === undefined || !solvent
              ? []
              : [
                  {
                    x: at,
                    y: (ascorbicAcidConcentration * batchVolume) / solvent,
                    label: "yours",
                  },
                ],
        };
      },
    },
    {
      id: "spirit-at-hand",
      title: "The same batch from other spirits",
      caption:
        "Water and spirit to weigh for your batch, whatever strength you could buy. To the left of the lines no amount of spirit is enough.",
      data: (inputs, run) => {
        const runs = Array.from({ length: 61 }, (_, i) => 0.1 + (0.86 * i) / 60).map(
          (x) => [x, run({ spiritStrength: x })] as const,
        );
        const line = (name: string) =>
          runs.flatMap(([x, values]) => {
            const y = values?.[name]?.value;
            return y === undefined ? [] : [[x, y] as [number, number]];
          });
        const here = run({});
        const mark = (name: string, label: string) => {
          const y = here?.[name]?.value;
          return y === undefined ? [] : [{ x: inputs.spiritStrength, y, label }];
        };
        return {
          x: { label: "Strength of the spirit", of: spiritStrength },
          y: { label: "To weigh", of: waterMass },
          lines: [
            { label: "water", points: line("waterMass") },
            { label: "spirit", points: line("spiritMass") },
          ],
          marks: [...mark("waterMass", ""), ...mark("spiritMass", "yours")],
        };
      },
    },
    {
      id: "portions",
      title: "What the batch is made of",
      caption: "The four portions by mass, in the order they are weighed in.",
      data: (_inputs, run) => {
        const values = run({});
        return {
          x: { label: "Mass", of: waterMass },
          bars: [waterMass, spiritMass, ascorbicAcidMass, lecithinMass].map((portion) => ({
            label: portion.label,
            value: values?.[portion.name]?.value ?? 0,
          })),
        };
      },
    },
  ],
  cautions: [
    {
      caution: "undissolved",
      when: (inputs, { solventMassFraction, solventMass }) => {
        if (!solventMassFraction || !solventMass) return false;
        const acid = inputs.ascorbicAcidConcentration * inputs.batchVolume;
        return acid > ascorbicAcidSolubility(solventMassFraction.value).low * solventMass.value;
      },
      say: () => [
        "The acid may not all dissolve: this is close to what the mixture can hold, and the published figures are rough. If grains stay after patient stirring at room temperature, the batch is too strong in acid or in alcohol.",
      ],
    },
    {
      caution: "glass",
      when: ({ batchVolume }, { beakers }) =>
        batchVolume > LARGE_BATCH || (beakers?.value ?? 0) > 1,
      say: ({ batchVolume: whole, beakerVolume: size }, { beakers }) =>
        whole > LARGE_BATCH
          ? phrase`${amount(whole, batchVolume)} is more alcohol, more heat and more glass than these chapters were written for. Make several small batches.`
          : phrase`This does not fit one beaker of ${amount(size, beakerVolume)} filled two thirds: use ${String(beakers?.value ?? 0)} (sheet and bench give the readings for one), or make less. A full beaker foams over and is hard to carry.`,
    },
    {
      caution: "flammable",
      when: ({ spiritStrength, alcoholStrength }) =>
        spiritStrength > FLAMMABLE_FROM && alcoholStrength > 0,
      say: ({ spiritStrength: value }) =>
        phrase`The spirit is ${amount(value, spiritStrength)}: no flame, hot plate or sparking motor near it; open it only to pour, and cap it again at once.`,
    },
  ],
  sources: ["oiml-r22-1975", "hpe-ascorbic-acid", "merck-ascorbic-acid"],
});
