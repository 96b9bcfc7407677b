import {
  decimalsFor,
  decimalsOf,
  formatAmount,
  formatDecimals,
  formatNumber,
  formatTrimmed,
  withUnit,
} from "../units/format.ts";
import { fromSI, unitOf } from "../units/units.ts";
import type { Amount, Banded, Phrase, Result } from "./calculation.ts";

/** Which unit to show a kind of quantity in; the first offered where the reader chose none. */
export type UnitChoice = (of: Amount["of"]) => string;

export const firstUnit: UnitChoice = (of) => of.units[0] as string;

/** A phrase as a sentence in the reader's units. */
export function say(phrase: Phrase, unitFor: UnitChoice = firstUnit): string {
  return phrase
    .map((part) =>
      typeof part === "string"
        ? part
        : formatAmount(
            part.value,
            part.of.dimension,
            unitFor(part.of),
            Math.max(part.of.digits, 2),
          ),
    )
    .join("");
}

/** A result as it is shown: the number and its band in one unit, the band empty where there is none. */
export interface Shown {
  readonly number: string;
  readonly band: string;
}

/** Number and band as running text: "96 (29 to 323)", "250.3 ± 1.2". */
export function withBandText({ number, band }: Shown): string {
  if (band === "") return number;
  return band.startsWith("±") ? `${number} ${band}` : `${number} (${band})`;
}

/**
 * A value in running text: number, band and unit, or the word that stands for it.
 *
 * @param plain - without the band
 */
export function showText(
  value: Banded | null,
  result: Result,
  unit: string,
  plain = false,
): string {
  const shown = show(value, result, unit);
  if (value === null || result.words) return shown.number;
  return withUnit(plain ? shown.number : withBandText(shown), result.dimension, unit);
}

/**
 * A value with its band in a unit: as many decimals as the band deserves.
 *
 * @returns for example { number: "250.3", band: "± 1.2" }, or { number: "8.1", band: "7.2 to 9.4" } where
 * the two sides differ by more than a tenth; { number: "none", band: "" } for `null`
 */
export function show(value: Banded | null, result: Result, unit: string): Shown {
  if (value === null) return { number: result.none ?? "none", band: "" };
  const word = result.words?.[value.value];
  if (word !== undefined) return { number: word, band: "" };
  const at = (x: number): number => fromSI(x, result.dimension, unit);
  const [below, above] = [at(value.value) - at(value.low), at(value.high) - at(value.value)];
  const half = Math.max(below, above);
  const most = mostDecimals(result, unit);
  const least = Math.max(Math.abs(at(value.value)) * 10 ** -result.digits, 0.5 * 10 ** -most);
  // A band finer than the digits worth printing is left unsaid.
  if (half <= least) return { number: exact(at(value.value), result, unit), band: "" };
  const decimals = Math.min(decimalsFor(half), most);
  const number = formatDecimals(at(value.value), decimals);
  return Math.abs(above - below) <= 0.1 * half
    ? { number, band: `±\u00a0${formatDecimals(half, decimals)}` }
    : {
        number,
        band: `${formatDecimals(at(value.low), decimals)} to ${formatDecimals(at(value.high), decimals)}`,
      };
}

/** What is counted is whole and has no digits to spare; a ratio, and all that is measured, keeps those that mean something. */
function exact(shown: number, result: Result, unit: string): string {
  const { dimension, digits } = result;
  if (dimension === "count" && Number.isInteger(shown)) return formatTrimmed(shown, digits);
  const number = formatNumber(shown, digits);
  const most = mostDecimals(result, unit);
  return decimalsOf(number) > most ? formatDecimals(shown, most) : number;
}

/** How many decimals a result is worth at most in a unit, by the finest step that it is known to. */
function mostDecimals({ finest, dimension }: Result, unit: string): number {
  if (finest === undefined) return Infinity;
  const step = finest / unitOf(dimension, unit).factor;
  return Math.max(-Math.floor(Math.log10(step) + 1e-9), 0);
}

/** A value with its unit in plain text, for equations and sentences. */
export function showAmount(value: number, result: Result, unit: string): string {
  const shown = fromSI(value, result.dimension, unit);
  return withUnit(exact(shown, result, unit), result.dimension, unit);
}
