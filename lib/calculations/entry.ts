import { formatAmount, formatField, formatTrimmed, withUnit } from "../units/format.ts";
import { parse, type Parsed } from "../units/parse.ts";
import { fromSI } from "../units/units.ts";
import type { Quantity } from "./calculation.ts";

const WITHOUT_LIMIT = /^(∞|inf|infinite|infinity|endless|without limit|instant)$/i;

/**
 * Reads what was typed for a quantity: number, unit and range.
 *
 * @param unit - of a number without one
 * @returns SI value and unit, or a sentence that says what to type instead
 */
export function readEntry(input: Quantity, text: string, unit: string): Parsed {
  if (input.endless && WITHOUT_LIMIT.test(text.trim()))
    return { ok: true, value: input.limits.max, unit };
  const parsed = parse(text, input.dimension, input.units, unit);
  if (!parsed.ok) return parsed;
  const { min, max } = input.limits;
  const whole = !input.whole || Number.isInteger(parsed.value);
  // 140 °F is 60 °C and a rounding more.
  const value = Math.min(Math.max(parsed.value, min), max);
  const rounding = 1e-12 * Math.max(Math.abs(min), Math.abs(max));
  if (whole && Math.abs(parsed.value - value) <= rounding) return { ...parsed, value };
  return { ok: false, message: `${input.label} must be ${rangeText(input, unit)}.` };
}

/** The range of a quantity in words, rounded inwards where it takes many digits: "from 1 °C to 40 °C". */
export function rangeText(input: Quantity, unit: string): string {
  const at = (x: number, inwards: (x: number) => number): string => {
    const value = fromSI(x, input.dimension, unit);
    return withUnit(formatTrimmed(shortened(value, inwards), 4), input.dimension, unit);
  };
  const { min, max } = input.limits;
  if (input.endless) return `${at(min, Math.ceil)} or more`;
  return `${input.whole ? "a whole number " : ""}from ${at(min, Math.ceil)} to ${at(max, Math.floor)}`;
}

/** A number that four digits do not tell, to two. */
function shortened(value: number, round: (x: number) => number): number {
  if (Math.abs(Number(value.toPrecision(4)) - value) <= 1e-9 * Math.abs(value)) return value;
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 1);
  return round(value / step) * step;
}

/** Whether a value is the one that stands for "without limit". */
export function isEndless(input: Quantity, value: number): boolean {
  return input.endless === true && value >= input.limits.max;
}

/** What a field shows for a value: all its digits as typed, fewer for one that was worked out. */
export function entryText(input: Quantity, value: number, unit: string, worked: boolean): string {
  if (isEndless(input, value)) return "infinite";
  return worked
    ? formatTrimmed(fromSI(value, input.dimension, unit), input.digits)
    : formatField(value, input.dimension, unit);
}

/** A quantity's value with its unit, as an equation or a sentence shows it. */
export function quantityText(input: Quantity, value: number, unit: string): string {
  return isEndless(input, value)
    ? withUnit("∞", input.dimension, unit)
    : formatAmount(value, input.dimension, unit, input.digits);
}
