import type { Amount, Input, InputValue } from "../calculations/calculation.ts";
import { capital } from "../calculations/capital.ts";
import { isEndless } from "../calculations/entry.ts";
import { COVERAGE, inputsByKey, type BatchValues, type Graph } from "../calculations/graph.ts";
import { skimmedVolume } from "../calculations/quantities/bubbles.ts";
import { bathTemperature, liquidTemperature } from "../calculations/quantities/heat.ts";
import { COUNT, MASS, TIME, VOLUME } from "../calculations/quantities/kinds.ts";
import { DEVIATION_CALCULATIONS } from "./deviations.ts";
import { GEAR_KINDS } from "./gear.ts";
import { entriesOf, EVENING_KEYS, wallClock, type Noted } from "./log.ts";
import { planBatch, PORTIONS } from "./plan.ts";
import { valuesOf, type Batch } from "./record.ts";
import { scheduleBatch } from "./schedule.ts";
import { steadyTimes, stretchesOf } from "./timeline.ts";

/** The calculations that facts need loaded; with more of them, more numbers have their proper labels. */
export const FACT_CALCULATIONS = DEVIATION_CALCULATIONS;

/** What is told of a batch, in this order. */
export const FACT_GROUPS = [
  "recipe",
  "planned",
  "weighed",
  "temperatures",
  "times",
  "bottled",
  "gear",
  "other",
  "notes",
] as const;
export type FactGroup = (typeof FACT_GROUPS)[number];

/** One thing that a record says, worked out anew each time it is asked. */
export interface Fact {
  readonly group: FactGroup;
  /** The same in every batch. */
  readonly id: string;
  readonly label: string;
  /** SI; a text as it was written; or the rows of a table */
  readonly value: InputValue;
  /** How a number is shown. */
  readonly of?: Amount["of"];
  /** How far a number may be off, 19 times in 20, SI; 0 for what is counted or written. */
  readonly doubt: number;
  /** What it comes from, as `derivationOf` takes it. */
  readonly from?: string;
}

const RECIPE_KEYS = [
  "spiritStrength",
  "referenceTemperature",
  "batchVolume",
  "alcoholStrength",
  "ascorbicAcidConcentration",
  "lecithinConcentration",
  "beakerVolume",
] as const;

/** s: a press comes some seconds after what it notes (common practice, no source). */
const PRESS = 10;

/** How each amount noted at the bench is called and shown. */
export const AMOUNTS: Readonly<Record<Noted, { label: string; of: Amount["of"]; from: string }>> = {
  skimmedVolume: { label: "Foam skimmed off", of: skimmedVolume, from: "skimming.lostVolume" },
  skimmedMass: { label: "Foam skimmed off, by mass", of: MASS, from: "skimming" },
  bottles: { label: "Bottles filled", of: COUNT, from: "bottling.bottles" },
  lastVolume: { label: "In the last bottle, not full", of: VOLUME, from: "bottling" },
};

/**
 * Everything that a record says, as rows: what was planned, what was weighed and read, how long it took, and with
 * what. What was not noted has no row.
 *
 * @param graph - with {@link FACT_CALCULATIONS} loaded
 */
export function factsOf(graph: Graph, batch: Batch): readonly Fact[] {
  const planned = batch.planned ?? batch.values;
  return [
    ...recipeFacts(graph, planned),
    ...plannedFacts(graph, planned),
    ...weighedFacts(graph, batch),
    ...temperatureFacts(graph, batch, labelsOf(graph, planned)),
    ...timeFacts(batch, labelsOf(graph, planned)),
    ...amountFacts(graph, batch),
    ...GEAR_KINDS.flatMap((kind) => textFact("gear", kind, capital(kind), batch.gear?.[kind])),
    ...otherFacts(graph, batch, planned),
    ...noteFacts(batch),
  ];
}

function recipeFacts(graph: Graph, planned: BatchValues): readonly Fact[] {
  return RECIPE_KEYS.flatMap((key) => {
    const input = graph.get("recipe").inputs[key];
    if (input?.kind !== "number") return [];
    const fact = inputFact(graph, "recipe", key, input, planned[key] ?? input.default, planned);
    return [{ ...fact, from: "recipe" }];
  });
}

function inputFact(
  graph: Graph,
  group: FactGroup,
  key: string,
  input: Input,
  value: InputValue,
  values: BatchValues,
): Fact {
  const fact = { group, id: key, label: input.label, value, doubt: 0 };
  if (input.kind === "choice")
    return { ...fact, value: input.options.find((one) => one.value === value)?.label ?? value };
  if (input.kind === "readings") return fact;
  if (isEndless(input, Number(value))) return { ...fact, value: "without limit" };
  const doubt = COVERAGE * graph.standardUncertainty(key, input, { ...values, [key]: value });
  return { ...fact, of: input, doubt };
}

/** How far a scale may be off with each portion of a batch in so many vessels, kg, 19 times in 20. */
function scaleDoubts(graph: Graph, values: BatchValues, vessels: number): readonly number[] {
  const known = graph.run("weighing", values);
  return PORTIONS.map(({ doubt }) => COVERAGE * (known?.[doubt]?.value ?? 0) * Math.sqrt(vessels));
}

function plannedFacts(graph: Graph, planned: BatchValues): readonly Fact[] {
  const made = planBatch(graph, planned);
  if (!made.ok) return [];
  const { additions, vessels } = made.plan;
  const doubts = scaleDoubts(graph, planned, vessels);
  const portions = PORTIONS.flatMap(({ ingredient, mass }, i): Fact[] => {
    const addition = additions.find((one) => one.ingredient === ingredient);
    return addition
      ? [
          {
            group: "planned",
            id: mass,
            label: addition.label,
            value: addition.portion * vessels,
            of: MASS,
            doubt: doubts[i] ?? 0,
            from: `recipe.${mass}`,
          },
        ]
      : [];
  });
  const beakers: Fact = {
    group: "planned",
    id: "beakers",
    label: "Beakers",
    value: vessels,
    of: COUNT,
    doubt: 0,
    from: "recipe.beakers",
  };
  return [...portions, beakers];
}

function weighedFacts(graph: Graph, batch: Batch): readonly Fact[] {
  const values = valuesOf(batch);
  const composition = graph.get("composition");
  const vessels = new Set(entriesOf(batch.log ?? [], "weighed").map(({ vessel }) => vessel)).size;
  const doubts = scaleDoubts(graph, values, Math.max(vessels, 1));
  const portions = PORTIONS.flatMap(({ mass }, i): Fact[] => {
    const value = values[`composition.${mass}`];
    const label = composition.inputs[mass]?.label ?? mass;
    return value === undefined
      ? []
      : [
          {
            group: "weighed",
            id: `composition.${mass}`,
            label,
            value,
            of: MASS,
            doubt: doubts[i] ?? 0,
            from: "weighing.uncertaintyWater",
          },
        ];
  });
  const planned = plannedFacts(graph, batch.planned ?? batch.values);
  // With one of them not weighed, a composition would be half plan.
  if (portions.length === 0 || portions.length < planned.length - 1) return portions;
  const outcome = graph.evaluate("composition", values);
  if (!outcome.ok) return portions;
  const names = [
    "batchVolume",
    "alcoholStrength",
    "ascorbicAcidConcentration",
    "lecithinConcentration",
  ];
  return [
    ...portions,
    ...names.flatMap((name): Fact[] => {
      const [banded, result] = [outcome.values[name], composition.results[name]];
      return banded && result
        ? [
            {
              group: "weighed",
              id: `composition.${name}`,
              label: `${result.label}, by what was weighed`,
              value: banded.value,
              of: result,
              doubt: (banded.high - banded.low) / 2,
              from: "composition",
            },
          ]
        : [];
    }),
  ];
}

/** What the schedule calls its steps, by id. */
function labelsOf(graph: Graph, planned: BatchValues): ReadonlyMap<string, string> {
  const schedule = scheduleBatch(graph, planned);
  return new Map(schedule.ok ? schedule.steps.map(({ id, label }) => [id, label]) : []);
}

function temperatureFacts(
  graph: Graph,
  { log = [], values }: Batch,
  labels: ReadonlyMap<string, string>,
): readonly Fact[] {
  const times = steadyTimes(log);
  const read = log.flatMap((entry, i) =>
    entry.kind === "read" ? [{ ...entry, time: times[i] as number }] : [],
  );
  const of = { liquid: liquidTemperature, bath: bathTemperature } as const;
  const fact = (id: string, label: string, node: keyof typeof of, value: number): Fact => ({
    group: "temperatures",
    id,
    label,
    value,
    of: of[node],
    doubt: COVERAGE * graph.standardUncertainty(of[node].name, of[node], values),
    from: "sonication",
  });
  const liquids = read.map(({ liquid }) => liquid);
  const baths = read.flatMap(({ bath }) => bath ?? []);
  return [
    ...(liquids.length > 0
      ? [fact("liquid.highest", "Liquid, highest reading", "liquid", Math.max(...liquids))]
      : []),
    ...(baths.length > 0
      ? [fact("bath.highest", "Bath, highest reading", "bath", Math.max(...baths))]
      : []),
    ...stretchesOf(log)
      .filter(({ step }) => step.startsWith("stint"))
      .flatMap(({ step, start, end }) => {
        const last = read.findLast(({ time }) => time >= start && time <= (end ?? Infinity));
        const label = `Liquid, last reading of ${(labels.get(step) ?? step).toLowerCase()}`;
        return last ? [fact(`liquid.${step}`, label, "liquid", last.liquid)] : [];
      }),
  ];
}

function timeFacts({ log = [] }: Batch, labels: ReadonlyMap<string, string>): readonly Fact[] {
  const lengths = new Map<string, number>();
  for (const { step, start, end } of stretchesOf(log))
    if (end !== null) lengths.set(step, (lengths.get(step) ?? 0) + end - start);
  const fact = (id: string, label: string, value: number, from: string): Fact => ({
    group: "times",
    id: `time.${id}`,
    label,
    value,
    of: TIME,
    doubt: PRESS,
    from,
  });
  const steps = [...lengths].map(([step, length]) =>
    fact(step, labels.get(step) ?? step, length, step),
  );
  const all = [...lengths.values()].reduce((sum, length) => sum + length, 0);
  return steps.length > 0 ? [...steps, fact("all", "All steps together", all, "evening")] : [];
}

function amountFacts(graph: Graph, { log = [], values }: Batch): readonly Fact[] {
  const [scale = 0] = scaleDoubts(graph, values, 1);
  return (Object.keys(AMOUNTS) as Noted[]).flatMap((noted): Fact[] => {
    const value = entriesOf(log, "amount").findLast(({ of }) => of === noted)?.value;
    if (value === undefined) return [];
    const byEye =
      COVERAGE *
      graph.standardUncertainty(skimmedVolume.name, skimmedVolume, { [skimmedVolume.name]: value });
    const doubt = noted === "bottles" ? 0 : noted === "skimmedMass" ? scale : byEye;
    return [{ group: "bottled", id: noted, value, doubt, ...AMOUNTS[noted] }];
  });
}

/** Whatever else was entered, and numbers of the recipe that were changed after the evening had begun. */
function otherFacts(graph: Graph, batch: Batch, planned: BatchValues): readonly Fact[] {
  const inputs = inputsByKey(graph);
  const recipe: readonly string[] = RECIPE_KEYS;
  return Object.entries(batch.values).flatMap(([key, value]): Fact[] => {
    const changed = recipe.includes(key) && value !== planned[key];
    if (EVENING_KEYS.includes(key) || (recipe.includes(key) && !changed)) return [];
    const known = inputs.get(key);
    // Entered in a version that knew it.
    if (!known) return [{ group: "other", id: key, label: key, value, doubt: 0 }];
    const { input, from } = known;
    const fact = { ...inputFact(graph, "other", key, input, value, batch.values), from };
    const since = { id: `${key}.changed`, label: `${fact.label}, changed since it began` };
    return [changed ? { ...fact, ...since } : fact];
  });
}

function noteFacts({ made, discard, lecithinSource, labelSize, notes, log = [] }: Batch) {
  const noted = entriesOf(log, "note").map((entry) => `${wallClock(entry)} ${entry.text}`);
  return [
    ...textFact("notes", "made", "Made on", made),
    ...textFact("notes", "discard", "Throw away on", discard),
    ...textFact("notes", "lecithinSource", "Lecithin from", lecithinSource),
    ...textFact("notes", "labelSize", "Size of its labels", labelSize),
    ...textFact("notes", "notes", "Notes", notes),
    ...textFact("notes", "log", "Noted at the bench", noted.join("\n")),
  ];
}

function textFact(group: FactGroup, id: string, label: string, text = ""): readonly Fact[] {
  return text === "" ? [] : [{ group, id: `${group}.${id}`, label, value: text, doubt: 0 }];
}
