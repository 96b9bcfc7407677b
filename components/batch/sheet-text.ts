import type { Addition, Planned } from "../../lib/batch/plan.ts";
import { say, type UnitChoice } from "../../lib/calculations/say.ts";
import { formatDecimals, withUnit } from "../../lib/units/format.ts";
import { fromSI } from "../../lib/units/units.ts";

/** The cells of one line of the sheet, ready to print. */
export interface SheetLine {
  readonly ingredient: Addition["ingredient"];
  readonly portion: string;
  readonly reading: string;
  readonly tolerance: string;
  readonly between: string;
}

/**
 * The weighing lines of a plan in the reader's unit, with as many decimals as the scale shows.
 *
 * @param readability - kg, the scale's display step
 * @param unit - of mass
 */
export function sheetLines(
  planned: Planned,
  readability: number,
  unit: string,
): readonly SheetLine[] {
  if (!planned.ok) return [];
  const step = fromSI(readability, "mass", unit);
  const decimals = Math.min(Math.max(-Math.floor(Math.log10(step) + 1e-9), 0), 6);
  const at = (kg: number): string =>
    withUnit(formatDecimals(fromSI(kg, "mass", unit), decimals), "mass", unit);
  return planned.plan.additions.map(({ ingredient, portion, reading, tolerance }) => ({
    ingredient,
    portion: at(portion.value),
    reading: at(reading),
    tolerance: `±\u00a0${at(Math.max(tolerance, readability))}`,
    between: `${at(reading - tolerance)} to ${at(reading + tolerance)}`,
  }));
}

/** What stands in the way or wants care, as sentences. */
export function planSentences(
  planned: Planned,
  unitFor: UnitChoice,
): readonly { readonly caution: string | undefined; readonly text: string }[] {
  return planned.ok
    ? planned.plan.cautions.map((notice) => ({
        caution: notice.caution,
        text: say(notice.say, unitFor),
      }))
    : planned.refusals.map((refusal) => ({ caution: undefined, text: say(refusal.say, unitFor) }));
}
