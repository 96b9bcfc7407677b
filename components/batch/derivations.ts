import { stepKind } from "../../lib/batch/schedule.ts";

/** A step of a derivation: where it stands, from the root, and what a link to it says. */
export interface Derivation {
  readonly href: string;
  readonly text: string;
}

const at = (chapter: string, step: string, text: string): Derivation => ({
  href: `/chapters/${chapter}/#${step}`,
  text,
});

/**
 * By stage, by the kind of a step where that has a derivation of its own, by calculation, and by
 * "calculation.result" where one number has its very step.
 */
const DERIVATIONS: Readonly<Record<string, Derivation>> = {
  // Stages and steps of an evening.
  weigh: at("weighing", "four-portions-one-tare", "Four portions, one tare"),
  dissolve: at("dissolving", "from-masses-to-a-share", "Will it dissolve?"),
  cool: at("cooling", "time-to-a-target", "Time to a target"),
  blend: at("blending", "with-nothing-lost", "Warming by the blender"),
  pause: at("blending", "do-pauses-help", "Do pauses help?"),
  bath: at("sonication", "two-balances", "Two balances of heat"),
  "set-up": at("bath", "how-much-to-pour-in", "How much water to pour in"),
  stint: at(
    "sonication",
    "the-ceiling-and-what-comes-after-the-switch",
    "How long a stint may last",
  ),
  rest: at("sonication", "with-the-room", "How a rest cools"),
  "lift-out": at("bath", "the-stand-and-why-it-falls", "What hangs once it is out of the water"),
  degas: at("bubbles", "when-the-liquid-no-longer-creeps", "How fast bubbles rise"),
  skim: at("bubbles", "foam-and-what-it-takes-along", "Foam, and what it takes along"),
  bottle: at("label", "how-many-bottles", "How many bottles"),
  chill: at("cooling", "time-to-a-target", "Time to a target, in the fridge"),
  // Calculations.
  strength: at("strength", "from-volume-to-mass", "From volume to mass"),
  recipe: at("recipe", "what-you-ask-for", "From what you ask for to masses"),
  composition: at("recipe", "the-way-back", "From masses back to the recipe"),
  weighing: at("weighing", "four-portions-one-tare", "Four portions, one tare"),
  dissolving: at("dissolving", "from-masses-to-a-share", "Will it dissolve?"),
  "heat-capacity": at("sonication", "prices-add-up", "What a degree costs"),
  "bath-heat": at("sonication", "how-many-watts-to-begin-with", "How many watts"),
  blending: at("blending", "with-nothing-lost", "Warming by the blender"),
  sonication: at("sonication", "two-balances", "Two balances of heat"),
  surroundings: at("cooling", "air-water-ice", "Air, water, ice"),
  cooling: at("cooling", "time-to-a-target", "Time to a target"),
  "bath-level": at("bath", "where-the-water-goes", "Where the water goes"),
  hang: at("bath", "does-it-hang-or-does-it-float", "Does it hang, or does it float?"),
  "stand-balance": at("bath", "the-stand-and-why-it-falls", "The stand, and why it falls"),
  "thermal-stress": at("thermal-stress", "from-shrinking-to-stress", "From shrinking to stress"),
  evaporation: at("evaporation", "through-air-that-stands-still", "What leaves, and how fast"),
  "flash-point": at(
    "vapour",
    "a-flash-point-is-a-vapour-pressure-in-disguise",
    "When it can flash",
  ),
  "room-vapour": at("vapour", "in-the-room", "Vapour in the room"),
  "bubble-rise": at("bubbles", "when-the-liquid-no-longer-creeps", "How fast bubbles rise"),
  skimming: at("bubbles", "foam-and-what-it-takes-along", "Foam, and what it takes along"),
  bottling: at("label", "how-many-bottles", "How many bottles"),
  serving: at("label", "one-serving", "One serving"),
  keeping: at("storage", "the-date", "The date"),
  evening: { href: "/plan/#how-the-times-add-up", text: "How the times add up" },
  // Single numbers.
  "recipe.waterMass": at(
    "recipe",
    "spirit-first-water-is-the-rest",
    "Spirit first, water is the rest",
  ),
  "recipe.spiritMass": at("recipe", "spirit-first-water-is-the-rest", "Spirit first"),
  "recipe.strongestAlcohol": at(
    "recipe",
    "the-strongest-that-a-spirit-can-make",
    "The strongest that a spirit can make",
  ),
  "recipe.beakers": at("recipe", "where-it-ends", "How many beakers"),
  "recipe.solventMassFraction": at("recipe", "what-fills-it", "What fills the volume"),
  "weighing.smallestPortion": at("weighing", "a-portion-is-a-difference", "The smallest portion"),
  "weighing.uncertaintyWater": at(
    "weighing",
    "a-portion-is-a-difference",
    "A portion is a difference",
  ),
  "weighing.ascorbicAcidShareUncertainty": at(
    "weighing",
    "what-it-does-to-the-share-of-the-acid",
    "What it does to the share of the acid",
  ),
  "weighing.fullLoad": at("weighing", "the-scale-has-an-end", "The scale has an end"),
  "sonication.longestStint": at(
    "sonication",
    "the-ceiling-and-what-comes-after-the-switch",
    "How long a stint may last",
  ),
  "sonication.peakLiquidTemperature": at(
    "sonication",
    "the-ceiling-and-what-comes-after-the-switch",
    "The ceiling, and what comes after the switch",
  ),
  "sonication.restNeeded": at(
    "sonication",
    "the-ceiling-and-what-comes-after-the-switch",
    "How long a rest takes",
  ),
  "sonication.lag": at("sonication", "first-without-the-room", "Why the display lags"),
  "blending.peakTemperature": at("blending", "with-the-room", "How warm it gets"),
  "blending.timeToCeiling": at("blending", "with-the-room", "How long until the ceiling"),
  "bath-level.waterToFill": at("bath", "how-much-to-pour-in", "How much to pour in"),
  "bath-level.fits": at("bath", "how-many-at-a-time", "How many at a time"),
  "bath-level.wallClearance": at("bath", "how-many-at-a-time", "How many at a time"),
  "hang.immersionToFloat": at("bath", "does-it-hang-or-does-it-float", "Where it lifts off"),
  "hang.metacentricHeight": at(
    "bath",
    "and-if-it-floats-does-it-stand",
    "Whether it stands up afloat",
  ),
  "thermal-stress.largestStep": at(
    "thermal-stress",
    "the-largest-step-and-why-nobody-agrees-on-it",
    "The largest step",
  ),
  "evaporation.ethanolLossLow": at("evaporation", "what-a-cover-does", "What a cover does"),
  "bubble-rise.time": at("bubbles", "when-the-liquid-no-longer-creeps", "How long bubbles take"),
  "skimming.lostVolume": at("bubbles", "foam-and-what-it-takes-along", "What the foam takes along"),
  "bottling.bottles": at("label", "how-many-bottles", "How many bottles"),
};

/** Every name that has a derivation. */
export const DERIVED: readonly string[] = Object.keys(DERIVATIONS);

/**
 * The step of a chapter that gives a number or decides a stage.
 *
 * @param name - a stage ("blend"), a step's id ("stint-2"), a calculation ("hang"), or one of its results
 * ("recipe.waterMass"), which falls back on its calculation
 * @returns `undefined` for a name that nothing derives
 */
export function derivationOf(name: string): Derivation | undefined {
  const [calculation = name] = name.split(".");
  return DERIVATIONS[name] ?? DERIVATIONS[stepKind(name)] ?? DERIVATIONS[calculation];
}
