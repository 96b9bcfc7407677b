import {
  dayAfter,
  isDay,
  LABEL_SIZES,
  LECITHIN_SOURCES,
  STRENGTH_TOLERANCE,
  wholeDays,
  type LabelSize,
  type LecithinSource,
} from "../../lib/batch/label.ts";
import {
  entriesOf,
  INGREDIENTS,
  massValues,
  weighedIn,
  type Ingredient,
  type Log,
  type Noted,
} from "../../lib/batch/log.ts";
import { valuesOf, type Batch } from "../../lib/batch/record.ts";
import { amount, phrase, type Banded } from "../../lib/calculations/calculation.ts";
import type { BatchValues, Graph, Outcome } from "../../lib/calculations/graph.ts";
import { say, type UnitChoice } from "../../lib/calculations/say.ts";
import { formatAmount, formatDecimals, withUnit } from "../../lib/units/format.ts";
import { fromSI } from "../../lib/units/units.ts";
import { misreadSentences } from "./sheet-text.ts";

/** What a label is made from. */
export const LABEL_CALCULATIONS = ["serving", "bottling", "keeping", "evaporation"] as const;
/** As many are printed at once; more are printed again. */
export const MOST_LABELS = 60;
export const FIRST_SIZE: LabelSize = "medium";

/** The lines of a label by name, in their order on it; empty where there is nothing to say. */
export interface Label {
  readonly warning: string;
  readonly name: string;
  readonly volume: string;
  readonly alcohol: string;
  readonly allergens: string;
  readonly contents: string;
  readonly serving: string;
  readonly dates: string;
  readonly keep: string;
  readonly notes: string;
}

export interface Labels {
  /** One a bottle, {@link MOST_LABELS} at most; none where there is no answer. */
  readonly labels: readonly Label[];
  /** What the reader should know before printing. */
  readonly remarks: readonly string[];
}

/** Allergens that food law names; sunflower is on neither the EU's list nor the US one (memory). */
const ALLERGENS: Readonly<Record<LecithinSource, string>> = {
  soy: "Contains soy.",
  sunflower: "",
  rapeseed: "",
  egg: "Contains egg.",
  milk: "Contains milk.",
};

/** What a batch of one's own has to say before a label may speak for it, by batch key. */
const OWN: ReadonlySet<string> = new Set([
  "batchVolume",
  "spiritStrength",
  "alcoholStrength",
  "ascorbicAcidConcentration",
  "lecithinConcentration",
  "servingVolume",
  "bottleVolume",
  "fillShare",
]);

/** No label states what is inside vesicles, so no guess at it may stand in a label's way. */
const NOT_STATED: BatchValues = { "serving.entrapment": 0 };

/** To write on by hand. */
const BLANK = "__________";

const MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(" ");

/** Every label of a batch, ready to print. */
export function labelsOf(
  graph: Graph,
  batch: Batch,
  drafts: Readonly<Record<string, string>>,
  unitFor: UnitChoice,
): Labels {
  const values: BatchValues = { ...valuesOf(batch), ...NOT_STATED };
  const [serving, bottling, keeping, evaporation] = LABEL_CALCULATIONS.map((id) =>
    graph.evaluate(id, values),
  ) as [Outcome, Outcome, Outcome, Outcome];
  const refusals = [serving, bottling].flatMap((outcome) =>
    outcome.ok ? [] : outcome.refusals.map((refusal) => say(refusal.say, unitFor)),
  );
  const misread = misreadSentences(graph.basis("serving", values), drafts);
  if (!serving.ok || !bottling.ok)
    return { labels: [], remarks: [...misread, ...new Set(refusals)] };
  const invented = inventedOn(graph, values);
  const facts: Facts = {
    name: batch.name === "" ? (invented.all ? "Demonstration batch" : "My batch") : batch.name,
    warning:
      invented.labels.length === 0
        ? ""
        : invented.all
          ? "Demonstration: do not use"
          : "Part demonstration: do not use",
    source: batch.lecithinSource,
    made: batch.made,
    discard: batch.discard,
    keepsFor: keeping.ok ? keeping.values["discardTime"]?.value : undefined,
    servingVolume: Number(serving.inputs["servingVolume"]),
    of: (name) => serving.values[name] ?? { value: 0, low: 0, high: 0 },
  };
  const fill = bottling.values["fillVolume"]?.value ?? 0;
  const { bottles, last } = filledOf(batch, bottling.values);
  const whole = Array.from({ length: Math.min(bottles, MOST_LABELS) }, () =>
    labelText(facts, fill, false),
  );
  const labels = last > 0 ? [...whole, labelText(facts, last, true)] : whole;
  return {
    labels: labels.slice(0, MOST_LABELS),
    remarks: [
      ...misread,
      ...unweighedRemark(graph, values, batch.log ?? []),
      ...otherDayRemark(batch),
      ...remarksOn(facts, invented),
      ...leavingRemark(evaporation, unitFor),
      ...[serving, bottling, keeping].flatMap((outcome) =>
        outcome.ok ? outcome.cautions.map((notice) => say(notice.say, unitFor)) : [],
      ),
      ...(bottles > MOST_LABELS
        ? [`There are ${bottles} bottles and ${MOST_LABELS} labels here: print them again.`]
        : []),
      ...(labels.length === 0 ? ["Nothing is left to fill a bottle with."] : []),
    ],
  };
}

/** A label for what is half weighed and half planned says neither. */
function unweighedRemark(graph: Graph, values: BatchValues, log: Log): readonly string[] {
  const weighed = weighedIn(log);
  const { inputs } = graph.evaluate("composition", values);
  const planned = (ingredient: Ingredient): boolean =>
    Object.keys(massValues(new Map([[ingredient, 0]]))).some(
      (key) => Number(inputs[key.replace("composition.", "")]) > 0,
    );
  const missing = INGREDIENTS.filter((each) => !weighed.has(each) && planned(each));
  if (weighed.size === 0 || missing.length === 0) return [];
  return [
    `At the bench no weighing is noted of ${missing.join(" and ")}: there the labels go by the plan. Weigh all in before you print.`,
  ];
}

/** The throw-away date counts from the day it was made, and the bench knows better when that was. */
function otherDayRemark({ made, log = [] }: Batch): readonly string[] {
  const [first, last] = [log[0], log.at(-1)].map((entry) => entry?.at.slice(0, 10));
  if (made === undefined || first === undefined || last === undefined) return [];
  if (made >= first && made <= last) return [];
  return [
    `At the bench it was made on ${dayText(last)}, not on ${dayText(made)}: mend the day, or the throw-away date counts from a wrong one.`,
  ];
}

/** How many are full and what is in one that is not, m³: as noted at the bench, and until then as worked out. */
function filledOf(
  { log = [] }: Batch,
  worked: Readonly<Record<string, Banded | null>>,
): { readonly bottles: number; readonly last: number } {
  const noted = (of: Noted): number | undefined =>
    entriesOf(log, "amount").findLast((entry) => entry.of === of)?.value;
  const bottles = noted("bottles");
  // Who counts the full ones and says nothing of another has none.
  const rest = bottles === undefined ? (worked["lastVolume"]?.value ?? 0) : 0;
  return {
    bottles: bottles ?? worked["bottles"]?.value ?? 0,
    last: noted("lastVolume") ?? rest,
  };
}

interface Facts {
  readonly name: string;
  readonly warning: string;
  /** `undefined` until the reader has said what it is */
  readonly source: LecithinSource | undefined;
  readonly made: string | undefined;
  readonly discard: string | undefined;
  /** s; `undefined` where that has no answer */
  readonly keepsFor: number | undefined;
  /** m³ */
  readonly servingVolume: number;
  /** A result of the serving, SI. */
  readonly of: (result: string) => Banded;
}

function labelText(facts: Facts, volume: number, last: boolean): Label {
  const { name, warning, source, of } = facts;
  const strength = of("strength").value;
  const hasAlcohol = strength > 0;
  const lecithin = of("lecithinIn100mL").value;
  const mass = (kg: number, unit: "g" | "mg", digits: number): string =>
    formatAmount(kg, "mass", unit, digits);
  const parts = [
    [of("ascorbicAcidIn100mL").value, "ascorbic acid"],
    [lecithin, source === undefined ? `lecithin from ${BLANK}` : `${source} lecithin`],
  ] as const;
  const contents = parts
    .filter(([kg]) => kg > 0)
    .map(([kg, what]) => `${mass(kg, "g", 3)} ${what}`)
    .concat(hasAlcohol ? "the rest water and spirit" : "the rest water");
  const served = [
    `${mass(of("ascorbicAcidMass").value, "mg", 2)} ascorbic acid`,
    ...(hasAlcohol ? [`${mass(of("ethanolMass").value, "g", 2)} alcohol`] : []),
  ];
  return {
    warning,
    name,
    volume: last
      ? `${formatAmount(volume, "volume", "mL", 2)}, part-filled: drink first.`
      : `${formatAmount(volume, "volume", "mL", 3)}.`,
    alcohol: alcoholText(of("strength")),
    allergens: lecithin > 0 && source !== undefined ? ALLERGENS[source] : "",
    contents: `In 100\u00a0mL: ${contents.join(", ")}.`,
    serving: `Serving, ${formatAmount(facts.servingVolume, "volume", "mL", 3)}: ${served.join(", ")}.`,
    dates: datesText(facts),
    keep: "Keep cold, closed, dark. Turn before pouring.",
    notes: "Home-made. Not a medicine. Keep from children.",
  };
}

/**
 * Strength as labels give it: to one decimal. Where it is less sure than the law's tolerance a decimal would
 * promise too much, and it is rounded to whole per cents.
 *
 * @returns empty for a drink with no alcohol in it
 */
export function alcoholText(strength: Banded): string {
  if (strength.value <= 0) return "";
  const percent = fromSI(strength.value, "strength", "% vol");
  const at = (decimals: number): string =>
    withUnit(formatDecimals(percent, decimals), "strength", "% vol");
  if (percent < 0.05) return "Contains a trace of alcohol.";
  if (isSure(strength)) return `Contains alcohol, ${at(1)}.`;
  return percent < 1
    ? "Contains alcohol, below 1\u00a0%\u00a0vol."
    : `Contains alcohol, about ${at(0)}.`;
}

/** Whether a strength is known as well as EU law wants a stated one to be. */
function isSure({ value, low, high }: Banded): boolean {
  return Math.max(high - value, value - low) <= STRENGTH_TOLERANCE;
}

/** Both dates, a line to write on for one that is missing: the sooner of the reader's day and the worked-out one. */
export function datesText(dates: Pick<Facts, "made" | "discard" | "keepsFor">): string {
  const { made, discard, keepsFor } = dates;
  const first = `Made ${dayText(made)}.`;
  if (made !== undefined || discard !== undefined || keepsFor === undefined)
    return `${first} Throw away by ${dayText(discardDay(dates))}.`;
  const days = wholeDays(keepsFor);
  return days === 0
    ? `${first} Throw away the same day.`
    : `${first} Throw away ${days === 1 ? "a day" : `${days}\u00a0days`} later.`;
}

/** Past its date the label would promise what the calculation does not. */
function discardDay({
  made,
  discard,
  keepsFor,
}: Pick<Facts, "made" | "discard" | "keepsFor">): string | undefined {
  const latest =
    made === undefined || keepsFor === undefined ? undefined : dayAfter(made, keepsFor);
  if (discard === undefined || latest === undefined) return discard ?? latest;
  return discard < latest ? discard : latest;
}

/** A day that nobody reads the wrong way round: "14 Mar 2026". */
function dayText(day: string | undefined): string {
  if (day === undefined) return BLANK;
  const [year, month, date] = day.split("-").map(Number) as [number, number, number];
  return `${date}\u00a0${MONTHS[month - 1]}\u00a0${year}`;
}

interface Invented {
  /** Labels of what is still the demonstration's. */
  readonly labels: readonly string[];
  /** Nothing of it is the reader's. */
  readonly all: boolean;
}

/** What the label says that is still the demonstration's: only what it rests on counts. */
function inventedOn(graph: Graph, values: BatchValues): Invented {
  const basis = [...graph.basis("serving", values)].filter(([key]) => OWN.has(key));
  const missing = basis.filter(([key]) => values[key] === undefined);
  return {
    labels: missing.map(([, { label }]) => label),
    all: missing.length === OWN.size,
  };
}

function remarksOn(facts: Facts, invented: Invented): readonly string[] {
  const { made, discard, keepsFor, of } = facts;
  const strength = of("strength");
  const day = discardDay(facts);
  return [
    ...(invented.labels.length > 0
      ? [
          `Still the invented demonstration’s: ${invented.labels.map((label) => label.toLowerCase()).join("; ")}. Type your own, even where they are the same, and the warning goes from the label.`,
        ]
      : []),
    ...(made !== undefined && discard !== undefined && discard < made
      ? ["It would be thrown away before it was made: mend one of the two dates."]
      : []),
    ...(discard !== undefined && day !== undefined && day < discard
      ? [
          `It should not be kept past ${dayText(day)}, so the labels say that. “When to throw it away” says why.`,
        ]
      : []),
    ...(keepsFor === undefined && discard === undefined
      ? ["“When to throw it away” has no answer yet: type the day, or write it on by hand."]
      : []),
    ...(of("lecithinIn100mL").value > 0 && facts.source === undefined
      ? [
          "Say what your lecithin is made from: soy, egg and milk are allergens, and the label has a blank for it until then.",
        ]
      : []),
    ...(strength.value > 0 && !isSure(strength)
      ? [
          "The alcohol is not known to a third of a per cent, so the label says “about”. Type what you weighed into “From masses back to the recipe”.",
        ]
      : []),
  ];
}

/** Where so much alcohol may leave on the way that a label would round it otherwise. */
function leavingRemark(evaporation: Outcome, unitFor: UnitChoice): readonly string[] {
  if (!evaporation.ok) return [];
  const {
    strengthBefore: before,
    strengthAfterLow: after,
    ethanolLossHigh: loss,
  } = evaporation.values;
  if (!before || !after || !loss || before.value - after.value <= STRENGTH_TOLERANCE) return [];
  return [
    say(
      phrase`Up to ${amount(loss.value, LOSS)} of alcohol may leave a beaker on the way, as “Where the alcohol goes” reckons. The label states what was weighed in, which errs on the strong side.`,
      unitFor,
    ),
  ];
}

const LOSS = { dimension: "mass", units: ["g", "oz"], digits: 2 } as const;

/** How many labels there are, beside the one or two that a screen shows. */
export function countText(count: number): string {
  if (count === 0) return "";
  return count === 1
    ? "One label, for one bottle."
    : `${count} labels, one for each bottle; all are printed.`;
}

/** The batch with what one of the label's fields says; nothing is kept of a text that says nothing. */
export function withField(batch: Batch, name: string, value: string): Batch {
  switch (name) {
    case "name":
      return { ...batch, name: value.slice(0, 120) };
    case "made":
    case "discard": {
      const { [name]: _, ...others } = batch;
      return isDay(value) ? { ...others, [name]: value } : others;
    }
    case "lecithinSource": {
      const source = LECITHIN_SOURCES.find((known) => known === value);
      if (source) return { ...batch, lecithinSource: source };
      const { lecithinSource: _, ...others } = batch;
      return value === "" ? others : batch;
    }
    case "labelSize":
      return Object.hasOwn(LABEL_SIZES, value)
        ? { ...batch, labelSize: value as LabelSize }
        : batch;
    default:
      return batch;
  }
}

/** What the label's fields show of a batch, by field. */
export function fieldTexts(batch: Batch): Readonly<Record<string, string>> {
  return {
    name: batch.name,
    made: batch.made ?? "",
    discard: batch.discard ?? "",
    lecithinSource: batch.lecithinSource ?? "",
    labelSize: batch.labelSize ?? FIRST_SIZE,
  };
}
