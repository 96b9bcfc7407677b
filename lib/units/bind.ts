import { UNITS, type Unit } from "./units.ts";

/** "1 in 20" is more often a share than an inch. */
const WORDS = new Set(["in"]);

/** Longest first, so that "% vol" is not taken for "%". */
const SYMBOLS = [
  ...new Set(
    Object.values(UNITS).flatMap((units) =>
      Object.values(units as Record<string, Unit>).map(({ symbol }) => symbol),
    ),
  ),
]
  .filter((symbol) => symbol !== "" && symbol !== "°" && !WORDS.has(symbol))
  .sort((a, b) => b.length - a.length)
  .map((symbol) =>
    symbol.replaceAll(/[$()*+./?[\\\]^{|}]/g, String.raw`\$&`).replaceAll(" ", String.raw`\s+`),
  );
const AMOUNT = new RegExp(String.raw`(?<=\d)\s+(?:${SYMBOLS.join("|")})(?![\p{L}\d])`, "gu");

/**
 * Running text with each number bound to its unit by a no-break space, so that no line ends between them.
 *
 * @param text - with units as {@link UNITS} writes them; all else is left as it is
 */
export function bindUnits(text: string): string {
  return text.replaceAll(AMOUNT, (unit) => unit.replaceAll(/\s+/g, "\u00a0"));
}
