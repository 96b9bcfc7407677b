import { fromSI, unitOf, type Dimension } from "./units.ts";

/** Thin no-break space: groups thousands. No-break space: parts a number from its unit. */
const GROUP = "\u202f";
const GAP = "\u00a0";

/**
 * A number to so many significant digits, in plain decimal notation, grouped in threes from 10 000 on.
 * @param value - finite
 * @param digits - significant digits, 1 to 15
 */
export function formatNumber(value: number, digits: number): string {
  // Smaller than any unit here can mean: the rest of a rounding.
  if (Math.abs(value) < 1e-12) return "0";
  const rounded = Number(value.toPrecision(digits));
  const magnitude = Math.floor(Math.log10(Math.abs(rounded)));
  const decimals = Math.min(Math.max(digits - 1 - magnitude, 0), 20);
  return group(rounded.toFixed(decimals));
}

/** A number to at most so many significant digits, without trailing zeros: what somebody would type. */
export function formatTrimmed(value: number, digits: number): string {
  const text = formatNumber(value, digits);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** A number to so many decimals, grouped alike. A negative zero loses its sign. */
export function formatDecimals(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return group(/^-0(\.0*)?$/.test(text) ? text.slice(1) : text);
}

/** How many decimals a number text has. */
export function decimalsOf(number: string): number {
  return number.split(".")[1]?.length ?? 0;
}

function group(text: string): string {
  const [whole = "", fraction] = text.replace("-", "\u2212").split(".");
  const grouped =
    whole.replace("\u2212", "").length > 4 ? whole.replaceAll(/\B(?=(\d{3})+$)/g, GROUP) : whole;
  return fraction === undefined ? grouped : `${grouped}.${fraction}`;
}

/** The shortest text that a field reads back as the same value to 10 digits: what a unit change types. */
export function formatField(value: number, dimension: Dimension, unit: string): string {
  return String(Number(fromSI(value, dimension, unit).toPrecision(10)));
}

/**
 * A value with its unit as somebody would type it: "250 mL", "14.8 % vol", "10 °C".
 * @param value - SI
 * @param digits - significant digits at most
 */
export function formatAmount(
  value: number,
  dimension: Dimension,
  unit: string,
  digits: number,
): string {
  return withUnit(formatTrimmed(fromSI(value, dimension, unit), digits), dimension, unit);
}

/** A number text followed by the unit's symbol, kept on one line. */
export function withUnit(number: string, dimension: Dimension, unit: string): string {
  const { symbol } = unitOf(dimension, unit);
  return `${number}${gapBefore(symbol)}${symbol.replaceAll(" ", GAP)}`;
}

/** What parts a number from a unit's symbol: nothing where there is none, and before a degree by itself. */
export function gapBefore(symbol: string): string {
  return symbol === "" || symbol === "°" ? "" : GAP;
}

/**
 * A half-width and how many decimals its value deserves: two significant digits of the half-width if
 * its leading digit is 1 or 2, else one (the rule of GUM 7.2.6 for not printing digits that mean nothing).
 * @param halfWidth - in the unit that is shown, > 0
 */
export function decimalsFor(halfWidth: number): number {
  const magnitude = Math.floor(Math.log10(halfWidth));
  const leading = halfWidth / 10 ** magnitude;
  return Math.min(Math.max((leading < 2.95 ? 1 : 0) - magnitude, 0), 12);
}
