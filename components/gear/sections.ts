import type { GearKind } from "../../lib/batch/gear.ts";

/** Inputs of one calculation. */
export interface FieldGroup {
  readonly calculation: string;
  readonly inputs: readonly string[];
}

/** What is folded away at first. */
export interface MoreFields {
  readonly title: string;
  readonly groups: readonly FieldGroup[];
}

/** One kind of gear as the page asks for it. */
export interface GearSection {
  readonly kind: GearKind;
  readonly title: string;
  /** after “my” and “a” */
  readonly one: string;
  /** what it is, and why its numbers matter */
  readonly why: string;
  readonly chapters: readonly { readonly href: string; readonly text: string }[];
  /** What a plate, a ruler or the scale tells. */
  readonly first: readonly FieldGroup[];
  readonly more: readonly MoreFields[];
}

const OWN_GLASS = [
  "elasticModulus",
  "poissonRatio",
  "expansion",
  "conductivity",
  "glassDensity",
  "glassSpecificHeat",
];

/** Every kind, in the order in which the bench is met. */
export const GEAR_SECTIONS: readonly GearSection[] = [
  {
    kind: "scale",
    title: "Scale",
    one: "scale",
    why: "A portion is known no better than the scale shows it; what it can carry decides how many beakers a batch is weighed in.",
    chapters: [{ href: "/chapters/weighing/", text: "Why, in the chapter on weighing" }],
    first: [
      {
        calculation: "weighing",
        inputs: ["readability", "repeatability", "linearity", "scaleCapacity"],
      },
    ],
    more: [],
  },
  {
    kind: "vessel",
    title: "Beaker",
    one: "beaker",
    why: "Its size decides how much goes into it, its weight how much heat it takes along, its glass what sudden step of temperature it bears.",
    chapters: [
      { href: "/chapters/bath/", text: "Why, in the chapter on the bath" },
      { href: "/chapters/thermal-stress/", text: "and in the one on glass" },
    ],
    first: [
      { calculation: "recipe", inputs: ["beakerVolume"] },
      {
        calculation: "hang",
        inputs: ["vesselMass", "vesselDiameter", "vesselHeight", "wallThickness", "baseThickness"],
      },
      { calculation: "evaporation", inputs: ["openArea"] },
      { calculation: "thermal-stress", inputs: ["glass"] },
    ],
    more: [
      {
        title: "More of the beaker",
        groups: [
          { calculation: "surroundings", inputs: ["cooledWall"] },
          { calculation: "heat-capacity", inputs: ["glassHeat"] },
          { calculation: "thermal-stress", inputs: ["permissibleStress", ...OWN_GLASS] },
          { calculation: "flaw", inputs: ["toughness"] },
        ],
      },
    ],
  },
  {
    kind: "blender",
    title: "Blender",
    one: "blender",
    why: "What its blades put into the liquid ends as heat, and decides how long one run may last.",
    chapters: [{ href: "/chapters/blending/", text: "Why, in the chapter on blending" }],
    first: [{ calculation: "blending", inputs: ["shaftPower", "powerKnown"] }],
    more: [
      {
        title: "A jug of its own",
        groups: [{ calculation: "blending", inputs: ["vesselHeatCapacity", "lossConductance"] }],
      },
    ],
  },
  {
    kind: "bath",
    title: "Bath",
    one: "bath",
    why: "Where its watts go decides how long a stint may last; its measures, how high the water stands and whether the beaker has room.",
    chapters: [
      { href: "/chapters/sonication/", text: "Why, in the chapter on stints" },
      { href: "/chapters/bath/", text: "and in the one on the bath" },
    ],
    first: [
      { calculation: "bath-heat", inputs: ["ratedPower"] },
      { calculation: "heat-capacity", inputs: ["bathWaterVolume"] },
      {
        calculation: "bath-level",
        inputs: ["bathLength", "bathWidth", "bathHeight", "waterDepth", "leastDepth"],
      },
    ],
    more: [
      {
        title: "Its heat",
        groups: [
          { calculation: "heat-capacity", inputs: ["tankHeatCapacity"] },
          {
            calculation: "bath-heat",
            inputs: [
              "liquidShare",
              "bathShare",
              "exchangeGuess",
              "liquidLossConductance",
              "bathLossConductance",
            ],
          },
          { calculation: "sonication", inputs: ["heaterPower"] },
          { calculation: "bubble-resonance", inputs: ["frequency"] },
          { calculation: "bath-level", inputs: ["rimClearance"] },
        ],
      },
      {
        title: "Its heat as readings know it",
        groups: [
          { calculation: "bath-heat", inputs: ["knownFrom"] },
          { calculation: "heat-fit", inputs: ["readings", "readingRoom", "lossesFitted"] },
        ],
      },
      {
        title: "The stand beside it",
        groups: [
          {
            calculation: "stand-balance",
            inputs: [
              "baseAhead",
              "baseBehind",
              "baseMass",
              "rodMass",
              "clampMass",
              "clampArm",
              "armLength",
              "counterweightMass",
              "counterweightArm",
              "pushHeight",
            ],
          },
        ],
      },
    ],
  },
  {
    kind: "fridge",
    title: "Fridge",
    one: "fridge",
    why: "How cold it really is, day and night, decides how long a batch may be kept.",
    chapters: [{ href: "/chapters/storage/", text: "Why, in the chapter on storage" }],
    first: [{ calculation: "storage-loss", inputs: ["temperature"] }],
    more: [
      {
        title: "A log of it, from which that temperature follows",
        groups: [{ calculation: "kinetic-temperature", inputs: ["readings"] }],
      },
    ],
  },
  {
    kind: "bottles",
    title: "Bottles",
    one: "set of bottles",
    why: "Their size decides how many a batch fills, and how much air stays over the liquid.",
    chapters: [{ href: "/chapters/label/", text: "Why, in the chapter on bottles and label" }],
    first: [{ calculation: "bottling", inputs: ["bottleVolume", "fillShare"] }],
    more: [],
  },
];

/** @throws TypeError for a kind that the page does not ask for */
export function sectionOf(kind: string): GearSection {
  const section = GEAR_SECTIONS.find((one) => one.kind === kind);
  if (!section) throw new TypeError(`no gear "${kind}"`);
  return section;
}
