import type { FitError, FitReason } from "../numeric/least-squares.ts";
import { RefusedError, type Phrase, type Rows } from "./calculation.ts";

const WORDS: Readonly<Record<FitReason, string>> = {
  "too-few":
    "There are too few readings for what is asked of them: one more than the numbers sought is the least, ten or more is sound.",
  "not-finite": "A reading is not a number, or so large that the curve leaves all bounds.",
  singular:
    "These readings cannot tell the numbers apart: other values would fit as well. Take readings over a longer time, some with the bath off, and start with the beaker colder than the bath.",
  "at-limit":
    "The best fit lies at a value that cannot be, such as a power below nothing. Look for a slip in the readings, or in when the bath ran.",
  "no-convergence":
    "No curve of this model comes near these readings. Look for a slip in times, temperatures or units.",
};

/** Why a fit gave nothing, and what to do about the readings. */
export function fitRefusal({ reason }: FitError): Phrase {
  return [WORDS[reason]];
}

/** @throws RefusedError for the first row whose time is not later than the row before */
export function inOrder(input: string, rows: Rows): void {
  rows.forEach(([time], i) => {
    const before = rows[i - 1]?.[0];
    if (typeof before !== "number" || typeof time !== "number" || time > before) return;
    throw new RefusedError(input, [
      time === before
        ? `Rows ${i} and ${i + 1} have the same time. Leave one of them out.`
        : `Row ${i + 1} is earlier than the row before it. Put the readings in order of time.`,
    ]);
  });
}
