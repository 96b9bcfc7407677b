import {
  PLAN_CALCULATIONS,
  PLAN_CARE,
  stillInvented,
  type Addition,
  type Planned,
} from "../../lib/batch/plan.ts";
import type { Obstacle } from "../../lib/batch/obstacles.ts";
import { benchStillInvented, STAGE_CALCULATIONS } from "../../lib/batch/stages.ts";
import { entriesOf, wallClock } from "../../lib/batch/log.ts";
import type { Batch } from "../../lib/batch/record.ts";
import type { Input } from "../../lib/calculations/calculation.ts";
import { keyOf, type BatchValues, type Graph } from "../../lib/calculations/graph.ts";
import { say, type UnitChoice } from "../../lib/calculations/say.ts";
import { formatDecimals, withUnit } from "../../lib/units/format.ts";
import { fromSI } from "../../lib/units/units.ts";
import { headed } from "./headed.ts";

/** Whatever Batch and Sheet speak of. */
export const SHOWN_CALCULATIONS = [...PLAN_CALCULATIONS, ...STAGE_CALCULATIONS] as const;

/** The cells of one line of the sheet, ready to print. */
export interface SheetLine {
  readonly ingredient: Addition["ingredient"];
  readonly portion: string;
  readonly reading: string;
  readonly tolerance: string;
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
    portion: at(portion),
    reading: at(reading),
    tolerance: `±\u00a0${at(Math.max(tolerance, readability))}`,
  }));
}

export interface PlanSentence {
  /** id of the caution that it belongs to */
  readonly caution: string | undefined;
  readonly text: string;
  /** Wants care whatever is done, and stands in nobody's way. */
  readonly care?: boolean;
}

/** What stands in the way, and what only wants care. */
export function byCare<T extends { readonly care?: boolean }>(
  all: readonly T[],
): { readonly hard: readonly T[]; readonly care: readonly T[] } {
  return { hard: all.filter(({ care }) => !care), care: all.filter(({ care }) => care) };
}

/** What stands in the way or wants care, as sentences. */
export function planSentences(planned: Planned, unitFor: UnitChoice): readonly PlanSentence[] {
  const refusals = planned.ok
    ? []
    : planned.refusals.map((refusal) => ({ caution: undefined, text: say(refusal.say, unitFor) }));
  const { cautions } = planned.ok ? planned.plan : planned;
  return [
    ...refusals,
    ...cautions.map((notice) => ({
      caution: notice.caution,
      text: say(notice.say, unitFor),
      care: PLAN_CARE.has(notice.caution),
    })),
  ];
}

/** An obstacle or a notice of a stage, under the title of the calculation that says so. */
export function obstacleText(
  graph: Graph,
  { calculation, say: phrase }: Pick<Obstacle, "calculation" | "say">,
  unitFor: UnitChoice,
): string {
  return headed(graph.get(calculation).title, say(phrase, unitFor));
}

/** What stands in the way of a stage or wants care there, as sentences. */
export function stageSentences(
  graph: Graph,
  notices: readonly Pick<Obstacle, "calculation" | "caution" | "say">[],
  unitFor: UnitChoice,
): readonly PlanSentence[] {
  return notices.map((notice) => ({
    caution: notice.caution,
    text: obstacleText(graph, notice, unitFor),
  }));
}

/** What was typed but could not be read, and what counts instead: neither sheet nor label may pass over it. */
export function misreadSentences(
  inputs: Iterable<readonly [key: string, input: Pick<Input, "label">]>,
  drafts: Readonly<Record<string, string>>,
): readonly string[] {
  return [...new Map(inputs)].flatMap(([key, { label }]) => {
    const text = drafts[key];
    if (text === undefined) return [];
    const found = text.trim() === "" ? "the field is empty" : `“${text}” is not read`;
    return [`${label}: ${found}, and the value before it still counts. Mend it first.`];
  });
}

/** The same for everything that Batch and Sheet show. */
export function draftSentences(
  graph: Graph,
  drafts: Readonly<Record<string, string>>,
): readonly PlanSentence[] {
  const inputs = SHOWN_CALCULATIONS.flatMap((id) => {
    const calculation = graph.get(id);
    return Object.entries(calculation.inputs).map(
      ([name, input]) => [keyOf(calculation, name), input] as const,
    );
  });
  return misreadSentences(inputs, drafts).map((text) => ({ caution: undefined, text }));
}

/** That its evening goes on, and what a change means then; empty before it has begun and once it has ended. */
export function eveningSentence({ planned, log = [] }: Batch): string {
  if (!planned || entriesOf(log, "end").length > 0) return "";
  const [first] = log;
  const since = first ? `has been at the bench since ${wallClock(first)}` : "is at the bench";
  return `This batch ${since}: what you change here changes what is still ahead; what was planned stays on record.`;
}

/** Which numbers are not the reader's own yet. */
export function inventedSentence(graph: Graph, batch: BatchValues): string {
  return sentenceOf("Still the invented demonstration’s", stillInvented(graph, batch));
}

/** Which numbers of the stages after weighing are not the reader's own yet. */
export function benchInventedSentence(graph: Graph, batch: BatchValues): string {
  return sentenceOf("Still invented after weighing", benchStillInvented(graph, batch));
}

/** Both of these as one text, empty where every number is the reader's own. */
export function allInventedText(graph: Graph, batch: BatchValues): string {
  return [inventedSentence(graph, batch), benchInventedSentence(graph, batch)]
    .filter((sentence) => sentence !== "")
    .join(" ");
}

function sentenceOf(head: string, labels: readonly string[]): string {
  return labels.length === 0
    ? ""
    : `${head}: ${labels.map((label) => label.toLowerCase()).join("; ")}.`;
}
