import { toSI, UNITS, type Dimension, type Unit } from "./units.ts";

/** What a field's text means, or why it means nothing; `unit` is the one written or the one assumed. */
export type Parsed =
  | { readonly ok: true; readonly value: number; readonly unit: string }
  | { readonly ok: false; readonly message: string };

const NUMBER = /^([+-]?)(\d[\d.,' ]*|[.,]\d+)(e[+-]?\d{1,3})?/i;

function refuse(message: string): Parsed {
  return { ok: false, message };
}

function key(text: string): string {
  return text.toLowerCase().replaceAll(/\s/g, "");
}

function findUnit(
  text: string,
  dimension: Dimension,
  units: readonly string[],
): string | undefined {
  const all: Record<string, Unit> = UNITS[dimension];
  const wanted = key(text);
  // The units a field offers come first, so that "%" means the one it shows.
  return [...units, ...Object.keys(all)].find((id) => {
    const unit = all[id];
    return unit && (key(unit.symbol) === wanted || unit.aliases?.includes(wanted));
  });
}

/**
 * Reads a field: a number with decimal comma or point, then maybe a unit.
 *
 * @param text - what was typed: "12,5", "68 °F", "70 % vol", "80 US proof", "1 250,5 g"
 * @param dimension - what kind of quantity the field holds
 * @param units - the units that the field offers, by id
 * @param assumed - the unit of a number without one
 * @returns SI value and unit, or a sentence that says what to type instead; never throws, never NaN
 *
 * @example
 * parse("12,5 g", "mass", ["g"], "g");         // { ok: true, value: 0.0125, unit: "g" }
 * parse("1,234.5", "mass", ["g"], "g");        // { ok: false, message: "Two kinds of …" }
 */
export function parse(
  text: string,
  dimension: Dimension,
  units: readonly string[],
  assumed: string,
): Parsed {
  const example = `for example ${dimension === "strength" ? "40" : "12.5"}`;
  const trimmed = text
    .replaceAll(/[\u00a0\u2009\u202f\t\r\n]/g, " ")
    .replaceAll("\u2212", "-")
    .trim();
  if (trimmed === "") return refuse(`Type a number, ${example}.`);
  const match = NUMBER.exec(trimmed);
  if (!match) return refuse(`“${shorten(trimmed)}” is not a number. Type digits, ${example}.`);
  const [whole, sign = "", digits = "", exponent = ""] = match;
  const number = readDigits(digits.trim());
  if (typeof number !== "string") return refuse(number.message);
  const rest = trimmed.slice(whole.length).trim();

  if (dimension === "strength" && /proof/i.test(rest)) {
    const doubt = readProof(rest, `${sign}${number}`);
    if (doubt) return refuse(doubt);
  }
  const unit = rest === "" ? assumed : findUnit(rest, dimension, units);
  if (unit === undefined) {
    const offered = units.filter((id) => id !== "1").join(", ");
    return refuse(
      offered === ""
        ? `Type the number alone, without “${shorten(rest)}”.`
        : `“${shorten(rest)}” is not a unit for this. Use ${offered}.`,
    );
  }
  const shown = Number(`${sign}${number}${exponent}`);
  if (!Number.isFinite(shown)) return refuse("That number is too large to work with.");
  return { ok: true, value: toSI(shown, dimension, unit), unit };
}

/** Digits with one decimal mark at most, and thousands only where spaces or apostrophes part them. */
function readDigits(text: string): string | { message: string } {
  const plain = /^\d{1,3}([ ']\d{3})+(?=$|[.,])/.test(text) ? text.replaceAll(/[ ']/g, "") : text;
  const marks: readonly string[] = plain.match(/[.,]/g) ?? [];
  if (marks.includes(",") && marks.includes("."))
    return {
      message: `Two kinds of decimal mark in “${shorten(text)}”. Leave out the thousands mark: ${ungrouped(plain)}.`,
    };
  if (marks.length > 1)
    return { message: `“${shorten(text)}” has more than one decimal mark. Keep one.` };
  if (/[ ']/.test(plain))
    return { message: `“${shorten(text)}” reads as two numbers. Type one number.` };
  return plain.replace(",", ".");
}

function ungrouped(text: string): string {
  const last = Math.max(text.lastIndexOf(","), text.lastIndexOf("."));
  const whole = text.slice(0, last).replaceAll(/[.,]/g, "");
  return `${whole}.${text.slice(last + 1)}`;
}

/** "Proof" needs a country, and "% proof" mixes two scales: both readings are shown, neither is guessed. */
function readProof(rest: string, number: string): string | undefined {
  const us = /(^|[^a-z]|proof)(us|u\.s\.|american)([^a-z]|proof|$)/i.test(rest);
  const mixed = rest.includes("%");
  if (us && !mixed) return undefined;
  const half = Number(number) / 2;
  // Nothing on a label is sharp enough for more digits on that scale.
  const sikes = Math.round(Number(number) * 0.571);
  if (mixed)
    return `“% proof” mixes two scales. If the label means per cent by volume, type “${number} % vol”; if it means US proof, type “${number} US proof”, which is ${half} % vol (on the old British scale it would be about ${sikes} % vol). The label’s legal strength is the one followed by “% vol” or “alc/vol”.`;
  return `“Proof” alone is not one scale: ${number} US proof is ${half} % vol, ${number} old British proof about ${sikes} % vol. Type it as “% vol” or “US proof”.`;
}

function shorten(text: string): string {
  return text.length > 24 ? `${text.slice(0, 23)}…` : text;
}
