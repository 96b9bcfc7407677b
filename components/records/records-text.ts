import { AMOUNTS, type Fact, type FactGroup } from "../../lib/batch/facts.ts";
import type { MergeResult } from "../../lib/batch/records-file.ts";
import { timeOf, wallClock, type Entry } from "../../lib/batch/log.ts";
import type { Batch } from "../../lib/batch/record.ts";
import { steadyTimes } from "../../lib/batch/timeline.ts";
import type {
  FigureData,
  InputValue,
  Quantity,
  Result,
} from "../../lib/calculations/calculation.ts";
import { alcoholStrength, batchVolume } from "../../lib/calculations/quantities/batch.ts";
import { ceiling, liquidTemperature } from "../../lib/calculations/quantities/heat.ts";
import { MASS, TIME } from "../../lib/calculations/quantities/kinds.ts";
import { spiritStrength } from "../../lib/calculations/quantities/spirit.ts";
import { say, showText, type UnitChoice } from "../../lib/calculations/say.ts";
import { quantityText } from "../../lib/calculations/entry.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { lengthText } from "../bench/clock.ts";

/** What the browser does with the records. */
export const KEEPING = {
  promised:
    "Your records are kept in this browser only. It has promised not to throw them away by itself.",
  kept: "Your records are kept in this browser only. It may throw them away when its space gets short: save them as a file from time to time.",
  nearly:
    "Your records are kept in this browser only, and it has little room left: save them as a file now.",
  full: "This browser’s storage is full: the latest changes are not among the records. Save all of them as a file, and remove what you need no longer.",
  refused:
    "This browser refuses to keep records: only the open batch is here, and only for now. Save it as a file.",
} as const;

export const GROUP_TITLES: Readonly<Record<FactGroup, string>> = {
  recipe: "The recipe",
  planned: "Planned to weigh",
  weighed: "Weighed in",
  temperatures: "Temperatures",
  times: "How long it took",
  bottled: "Skimmed and bottled",
  gear: "Gear",
  other: "Other numbers",
  notes: "Dates and notes",
};

export type State = "planned" | "at the bench" | "finished";

/** How far a batch has come. */
export function stateOf({ planned, log = [] }: Batch): State {
  if (!planned) return "planned";
  const last = log.findLast(({ kind }) => kind === "step" || kind === "end");
  return last?.kind === "end" ? "finished" : "at the bench";
}

/** The day of a batch: as its label has it, else that of its first entry at the bench. */
export function dayOf({ made, log = [] }: Batch): string | undefined {
  return made ?? log[0]?.at.slice(0, 10);
}

/** Newest first: those that wait for their evening, and then by the day and the hour of it. */
export function newestFirst<T extends Batch>(batches: readonly T[]): readonly T[] {
  const place = (batch: Batch): number => {
    const [first] = batch.log ?? [];
    const day = dayOf(batch);
    if (first && first.at.startsWith(day ?? "")) return timeOf(first);
    return day === undefined ? Infinity : Date.parse(day);
  };
  return [...batches].sort((a, b) => {
    const [one, other] = [place(a), place(b)];
    return one === other ? a.name.localeCompare(b.name) : other - one;
  });
}

export const NO_DAY = "no day yet";

/** A batch in one line: "2026-03-14 · 500 mL · spirit 40 % vol · alcohol 12 % vol · finished". */
export function summaryOf(batch: Batch, unitFor: UnitChoice): string {
  const values = batch.planned ?? batch.values;
  const text = (of: Quantity): string => {
    const value = values[of.name];
    return quantityText(of, typeof value === "number" ? value : of.default, unitFor(of));
  };
  return [
    dayOf(batch) ?? NO_DAY,
    text(batchVolume),
    `spirit ${text(spiritStrength)}`,
    `alcohol ${text(alcoholStrength)}`,
    stateOf(batch),
  ].join(" · ");
}

export function titleIn({ name }: Batch): string {
  return name === "" ? "A batch without a name" : name;
}

/** What batches are called side by side: by name and day, and with all of their line where those are the same. */
export function sideTitles(batches: readonly Batch[], unitFor: UnitChoice): readonly string[] {
  const short = batches.map((batch) => `${titleIn(batch)}, ${dayOf(batch) ?? NO_DAY}`);
  if (new Set(short).size === short.length) return short;
  return batches.map((batch) => `${titleIn(batch)}, ${summaryOf(batch, unitFor)}`);
}

/** What a fact says; how far a number may be off is said too, where it is known. */
export function valueText(
  value: InputValue | undefined,
  { group, of, doubt = 0 }: Pick<Fact, "group" | "of"> & { readonly doubt?: number },
  unitFor: UnitChoice,
): string {
  if (value === undefined) return "–";
  if (typeof value === "object") return count(value.length, "row", "rows");
  if (typeof value === "string" || !of) return String(value);
  // That a press comes late is known without saying it each time.
  if (group === "times") return lengthText(value);
  const unit = unitFor(of);
  if (doubt === 0) return formatAmount(value, of.dimension, unit, of.digits);
  const result: Result = { label: "", symbol: "", ...of };
  return showText({ value, low: value - doubt, high: value + doubt }, result, unit);
}

/** "1 row", "2 rows" */
export function count(number: number, one: string, many: string): string {
  return `${number} ${number === 1 ? one : many}`;
}

/** One entry of a log: the clock on the wall, and what was noted. */
export function entryLine(
  entry: Entry,
  nameOf: (step: string) => string,
  unitFor: UnitChoice,
): string {
  const at = (degrees: number): string =>
    quantityText(liquidTemperature, degrees, unitFor(liquidTemperature));
  const text = (): string => {
    switch (entry.kind) {
      case "step":
        return `${nameOf(entry.step)} begins`;
      case "end":
        return "the last step ends";
      case "read":
        return `liquid ${at(entry.liquid)}${entry.bath === undefined ? "" : `, bath ${at(entry.bath)}`}`;
      case "weighed":
        if (entry.accepted) return `${entry.ingredient} in beaker ${entry.vessel} stays as it is`;
        return `${entry.ingredient} in beaker ${entry.vessel}: the scale shows ${formatAmount(entry.reading, "mass", unitFor(MASS), 6)}`;
      case "amount":
        return `${AMOUNTS[entry.of].label.toLowerCase()}: ${say([{ value: entry.value, of: AMOUNTS[entry.of].of }], unitFor)}`;
      case "note":
        return entry.text;
      case "clock":
        return `the clock jumped by ${formatAmount(entry.by, "time", "s", 4)}`;
    }
  };
  return `${wallClock(entry)} ${text()}`;
}

/** A record of a file in a sentence: by its name, if it has one. */
export function nameIn({ kind, name }: Pick<MergeResult, "kind" | "name">): string {
  if (name !== "") return `“${name}”`;
  return kind === "batch" ? "A batch without a name" : "Gear without a name";
}

/** What became of each record of an opened file. */
export function mergeText(result: MergeResult): string {
  const title = nameIn(result);
  switch (result.outcome) {
    case "added":
      return `${title}: added.`;
    case "here already":
      return `${title}: here already, the same.`;
    case "beside":
      return `${title}: another one is kept here under its id. Both are kept; this one has a new id.`;
  }
}

/** Liquid and bath against time since the first entry; nothing where no two readings are. */
export function temperatureFigure({ log = [], values }: Batch): FigureData | undefined {
  const times = steadyTimes(log);
  const read = log.flatMap((entry, i) =>
    entry.kind === "read" ? [{ ...entry, time: times[i] as number }] : [],
  );
  if (read.length < 2) return undefined;
  const liquid = read.map(({ time, liquid: at }) => [time, at] as const);
  const bath = read.flatMap(({ time, bath: at }) =>
    at === undefined ? [] : [[time, at] as const],
  );
  const top = values[ceiling.name];
  return {
    x: { label: "Since the first entry", of: TIME },
    y: { label: "Temperature", of: liquidTemperature },
    lines: [
      { label: "liquid", points: liquid },
      ...(bath.length > 1 ? [{ label: "bath", points: bath, dashed: true }] : []),
    ],
    marks: [...liquid, ...bath].map(([x, y]) => ({ x, y, label: "" })),
    rules: [{ y: typeof top === "number" ? top : ceiling.default, label: "ceiling" }],
  };
}
