import { NOTED, type Noted } from "../../lib/batch/log.ts";
import { MASS, VOLUME } from "../../lib/calculations/quantities/kinds.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { parse } from "../../lib/units/parse.ts";

const AMOUNTS = {
  skimmedVolume: { dimension: "volume", units: VOLUME.units, unit: "mL" },
  skimmedMass: { dimension: "mass", units: MASS.units, unit: "g" },
  bottles: { dimension: "count", units: ["1"], unit: "1" },
  lastVolume: { dimension: "volume", units: VOLUME.units, unit: "mL" },
} as const;

/** An amount as it was noted, with its unit. */
export function amountText(of: Noted, value: number): string {
  const { dimension, unit } = AMOUNTS[of];
  return formatAmount(value, dimension, unit, 4);
}

/** The whole batch, SI, as far as it is known. */
export interface Whole {
  readonly mass?: number | undefined;
  readonly volume?: number | undefined;
}

/**
 * SI value of an amount, or what to type instead.
 *
 * @param whole - what no part is more than
 */
export function readAmount(of: Noted, text: string, whole: Whole = {}): number | string {
  const { dimension, units, unit } = AMOUNTS[of];
  const read = parse(text, dimension, units, unit);
  if (!read.ok) return read.message;
  const { min, max } = NOTED[of];
  if (of === "bottles" && !Number.isInteger(read.value))
    return "Type a whole number; what is left over goes into the next line.";
  const all = dimension === "count" ? undefined : whole[dimension];
  if (all !== undefined && read.value > all && read.value <= max)
    return `That is more than the whole batch, ${amountText(of, all)}. Is the unit right?`;
  if (read.value >= min && read.value <= max) return read.value;
  return `Type from ${amountText(of, min)} to ${amountText(of, max)}.`;
}
