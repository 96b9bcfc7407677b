import * as v from "valibot";
import type { InputValue, Rows } from "../calculations/calculation.ts";
import type { BatchValues } from "../calculations/graph.ts";
import type { Batch } from "./record.ts";
import { only, without } from "./only.ts";
import { id, shortText, units, values } from "./shapes.ts";
import { readText, writeText, type TextKind } from "./stored-text.ts";

/** What stands on a bench and stays the same from batch to batch. */
export const GEAR_KINDS = ["scale", "vessel", "blender", "bath", "fridge", "bottles"] as const;
export type GearKind = (typeof GEAR_KINDS)[number];

/**
 * The batch keys that belong to each kind, and to no other. Where a link may be typed over with a number that is
 * the thing's own, that key is its too: with other gear, the link speaks again.
 */
export const GEAR_KEYS: Readonly<Record<GearKind, readonly string[]>> = {
  scale: ["readability", "repeatability", "linearity", "scaleCapacity"],
  /** The beaker that is weighed, cooled and hung in the bath. */
  vessel: [
    "beakerVolume",
    "vesselMass",
    "vesselDiameter",
    "vesselHeight",
    "wallThickness",
    "baseThickness",
    "openArea",
    "cooledWall",
    "glass",
    "glassHeat",
    "permissibleStress",
    "elasticModulus",
    "poissonRatio",
    "expansion",
    "conductivity",
    "glassDensity",
    "glassSpecificHeat",
    "toughness",
  ],
  /** The blender with its jug. */
  blender: ["shaftPower", "powerKnown", "blendLoss", "blending.vesselHeatCapacity"],
  /** The bath as it is filled, with the stand beside it and the readings that its heat is known from. */
  bath: [
    "bathLength",
    "bathWidth",
    "bathHeight",
    "waterDepth",
    "leastDepth",
    "rimClearance",
    "bathWaterVolume",
    "tankHeatCapacity",
    "bathLossConductance",
    "liquidLossConductance",
    "soundFrequency",
    "heaterPower",
    "knownFrom",
    "ratedPower",
    "liquidShare",
    "bathShare",
    "exchangeGuess",
    "heatReadings",
    "readingRoom",
    "lossesFitted",
    "bath-heat.liquidHeatCapacity",
    "bath-heat.bathHeatCapacity",
    "heat-fit.liquidHeatCapacity",
    "heat-fit.bathHeatCapacity",
    "heat-fit.assumedBathPower",
    "sonication.powerToLiquid",
    "sonication.powerToBath",
    "sonication.exchangeConductance",
    "sonication.bathHeatCapacity",
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
  fridge: ["fridgeLog", "storage-loss.temperature", "keeping.temperature"],
  bottles: [
    "bottleVolume",
    "fillShare",
    "serving.bottleVolume",
    "bottle-acid.liquidVolume",
    "headspace-oxygen.liquidVolume",
    "headspace-oxygen.headspaceVolume",
  ],
};

/** Marks a stored text as a piece of gear. */
export const GEAR_FORMAT = "bilayer-bench-gear";
export const GEAR_VERSION = 1;

export const gearSchema = v.strictObject({
  id,
  kind: v.picklist(GEAR_KINDS),
  name: shortText,
  /** Its numbers by batch key, SI; what is missing is not known of it and stays at its default. */
  values,
  units,
});

/** One piece of gear as it is kept from batch to batch. */
export type Gear = Readonly<{
  id: string;
  kind: GearKind;
  name: string;
  values: BatchValues;
  units: Batch["units"];
}>;

export type ReadGear =
  { readonly ok: true; readonly gear: Gear } | { readonly ok: false; readonly message: string };

const TEXT: TextKind<Gear> = {
  format: GEAR_FORMAT,
  version: GEAR_VERSION,
  called: "gear record",
  key: "gear",
  schema: gearSchema,
  // Two tables of readings as long as the schema lets them be.
  longest: 262_144,
};

/** A piece of gear as the text that is stored. */
export function writeGear(gear: Gear): string {
  return writeText(TEXT, gear);
}

/** @returns the piece of gear, or a sentence that says what is wrong with the text; never throws */
export function readGear(text: string): ReadGear {
  const read = readText(TEXT, text);
  return read.ok ? { ok: true, gear: read.value } : read;
}

/** The batch's own numbers of one kind, as a piece of gear to keep. */
export function gearFrom(batch: Batch, kind: GearKind, name: string, newId: string): Gear {
  return {
    id: newId,
    kind,
    name,
    values: only(batch.values, valueOf(kind)),
    units: only(batch.units, unitOf(kind)),
  };
}

/**
 * The batch with this gear: its numbers take the place of all that the batch had of that kind, so that what is
 * not known of this gear is not taken from another. Nothing else of the batch moves.
 */
export function useGear(batch: Batch, { kind, name, ...gear }: Gear): Batch {
  const [value, unit] = [valueOf(kind), unitOf(kind)];
  return {
    ...batch,
    values: { ...without(batch.values, value), ...only(gear.values, value) },
    units: { ...without(batch.units, unit), ...only(gear.units, unit) },
    gear: { ...batch.gear, [kind]: name },
  };
}

/** The batch without a note of which gear of this kind it uses; its numbers stay. */
export function forgetGear(batch: Batch, kind: GearKind): Batch {
  const { [kind]: _, ...others } = batch.gear ?? {};
  const { gear: __, ...rest } = batch;
  return Object.keys(others).length === 0 ? rest : { ...rest, gear: others };
}

/** One number that is not the same in a batch and in its gear; `undefined` where it was never entered. */
export interface Difference {
  readonly key: string;
  readonly batch: InputValue | undefined;
  readonly gear: InputValue | undefined;
}

/** Where a batch's numbers are no longer those of the gear, in the order of {@link GEAR_KEYS}. */
export function differsFromGear(batch: Batch, gear: Gear): readonly Difference[] {
  return GEAR_KEYS[gear.kind]
    .map((key) => ({ key, batch: batch.values[key], gear: gear.values[key] }))
    .filter((pair) => JSON.stringify(pair.batch) !== JSON.stringify(pair.gear));
}

/** What else the powers of some readings rest on, as it was on their evening. */
export interface ReadingEvening {
  /** J/K: what the liquid took up for each degree */
  readonly liquid: number;
  /** J/K: what the bath took up */
  readonly bath: number;
  /** °C */
  readonly room: number;
}

/** What the readings of another evening, or a number typed in, say of the bath. */
const KNOWN_BEFORE = [
  "readingRoom",
  "bath-heat.liquidHeatCapacity",
  "bath-heat.bathHeatCapacity",
  "heat-fit.liquidHeatCapacity",
  "heat-fit.bathHeatCapacity",
  "sonication.powerToLiquid",
  "sonication.powerToBath",
  "sonication.exchangeConductance",
];

/**
 * An evening's values with its own readings in place of all that was known of the bath before it.
 *
 * @param rows - as the key heatReadings has them: s, °C, °C or `null`, 1 for running
 */
export function withReadings(evening: BatchValues, rows: Rows): BatchValues {
  const room = evening["roomTemperature"];
  return {
    ...without(evening, (name) => KNOWN_BEFORE.includes(name)),
    knownFrom: "readings",
    heatReadings: rows,
    ...(room !== undefined && { readingRoom: room }),
  };
}

/**
 * The bath as an evening's readings know it. That evening's room, and what its liquid and bath took up, go with
 * them: the readings give powers only together with these, and the next batch may be of another size or season.
 */
export function calibrated(gear: Gear, rows: Rows, { liquid, bath, room }: ReadingEvening): Gear {
  return {
    ...gear,
    values: {
      ...withReadings(gear.values, rows),
      readingRoom: room,
      "bath-heat.liquidHeatCapacity": liquid,
      "bath-heat.bathHeatCapacity": bath,
      "heat-fit.liquidHeatCapacity": liquid,
      "heat-fit.bathHeatCapacity": bath,
    },
  };
}

type Belongs = (name: string) => boolean;

function valueOf(kind: GearKind): Belongs {
  return (name) => GEAR_KEYS[kind].includes(name);
}

/** A unit stands under its quantity's name, that of a column of readings under "readings.column". */
function unitOf(kind: GearKind): Belongs {
  return (name) => GEAR_KEYS[kind].includes(name.split(".", 1)[0] ?? name);
}
