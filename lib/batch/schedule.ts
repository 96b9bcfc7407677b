import type { Refusal } from "../calculations/calculation.ts";
import { EVENING_STEPS } from "../calculations/evening.ts";
import { linkOf, type BatchValues, type Graph } from "../calculations/graph.ts";

/** The calculations that a schedule needs loaded. */
export const SCHEDULE_CALCULATIONS = ["evening"] as const;

/** The stages of an evening, in the order of the work. */
export const STAGES = [
  "weigh",
  "dissolve",
  "cool",
  "blend",
  "bath",
  "degas",
  "skim",
  "bottle",
  "chill",
] as const;
export type Stage = (typeof STAGES)[number];

/** One thing done or waited for, in the order of the evening. */
export interface ScheduledStep {
  /**
   * As the log names it. Once an evening: "weigh", "dissolve", "cool", "degas", "skim", "bottle", "chill".
   * Numbered from 1 through all beakers and all loads, also where there is one: "blend-1", "pause-1", "set-up-1",
   * "stint-1", "rest-1", "lift-out-1". What takes no time is not there.
   */
  readonly id: string;
  readonly stage: Stage;
  /** "Stint 2 of 3"; with several loads "Load 2, stint 2 of 3" */
  readonly label: string;
  /** The hands are at work; else one waits, within call. */
  readonly hands: boolean;
  /** The ultrasound is on. */
  readonly running: boolean;
  /** s since the evening began */
  readonly start: number;
  /** s */
  readonly length: number;
}

/** A refusal with the calculation that it comes from. */
export type StepRefusal = Refusal & { readonly calculation: string };

export type Scheduled =
  | {
      readonly ok: true;
      readonly steps: readonly ScheduledStep[];
      /** s of work by hand */
      readonly hands: number;
      /** s of waiting before the bottles are in the fridge */
      readonly waiting: number;
      /** s until the bottles are in the fridge: hands and waiting together. "chill" goes on after it. */
      readonly total: number;
    }
  | { readonly ok: false; readonly refusals: readonly StepRefusal[] };

/**
 * The steps of one evening with this batch, by the clock.
 *
 * @param graph - with {@link SCHEDULE_CALCULATIONS} loaded
 * @param values - what calculations start from, as `valuesOf(batch)` gives it
 * @returns the steps, or what stands in the way, each under the calculation that is at fault
 */
export function scheduleBatch(graph: Graph, values: BatchValues): Scheduled {
  const outcome = graph.evaluate("evening", values);
  if (!outcome.ok) return { ok: false, refusals: faultsOf(graph, "evening", values) };
  const table = graph.get("evening").tables?.find(({ id }) => id === "stages");
  const rows = table?.rows(outcome.inputs as never) ?? [];
  const counts = new Map<number, number>();
  for (const [kind] of rows) counts.set(Number(kind), (counts.get(Number(kind)) ?? 0) + 1);
  const of = (name: string): number => outcome.values[name]?.value ?? 0;
  const rounds = { beaker: Number(outcome.inputs["beakers"]), load: of("loads") };
  const seen = new Map<number, number>();
  const steps = rows.flatMap(([kind, , begins, lasts, hands, running]): ScheduledStep[] => {
    const step = EVENING_STEPS[Number(kind)];
    if (!step) return [];
    const number = (seen.get(Number(kind)) ?? 0) + 1;
    seen.set(Number(kind), number);
    const count = counts.get(Number(kind)) ?? 1;
    return [
      {
        id: REPEATED.has(step.id) ? `${step.id}-${number}` : step.id,
        stage: step.stage,
        label: labelOf(step, number, count, rounds),
        hands: hands === 1,
        running: running === 1,
        start: Number(begins),
        length: Number(lasts),
      },
    ];
  });
  return {
    ok: true,
    steps,
    hands: of("handsTime"),
    waiting: of("waitingTime"),
    total: of("eveningTime"),
  };
}

/** The kind of a step by its id: "stint" of "stint-2", "set-up" of "set-up-1". */
export function stepKind(id: string): string {
  return id.replace(/-\d+$/, "");
}

/** Kinds of steps that one evening may have many of, and what they come round with. */
const REPEATED: ReadonlyMap<string, "beaker" | "load"> = new Map([
  ["blend", "beaker"],
  ["pause", "beaker"],
  ["set-up", "load"],
  ["stint", "load"],
  ["rest", "load"],
  ["lift-out", "load"],
]);

/** The name of a step among `count` of its kind; with several beakers or loads it says which it is for. */
function labelOf(
  { id, label }: (typeof EVENING_STEPS)[number],
  number: number,
  count: number,
  rounds: Readonly<Record<"beaker" | "load", number>>,
): string {
  const round = REPEATED.get(id);
  const many = round ? rounds[round] : 1;
  const each = count / many;
  const within = each > 1 ? ` ${((number - 1) % each) + 1} of ${each}` : "";
  if (!round || many === 1) return `${label}${within}`;
  const which = `${round === "beaker" ? "Beaker" : "Load"} ${Math.ceil(number / each)}`;
  const all = each > 1 ? "" : ` of ${many}`;
  return `${which}${all}, ${label.charAt(0).toLowerCase()}${label.slice(1)}${within}`;
}

/**
 * What stands in the way of a calculation. A refusal that only waits for an earlier calculation is said by that
 * one, in its own words.
 */
export function faultsOf(graph: Graph, id: string, values: BatchValues): readonly StepRefusal[] {
  const outcome = graph.evaluate(id, values);
  if (outcome.ok) return [];
  const all = outcome.refusals.flatMap((refusal): readonly StepRefusal[] => {
    const link = linkOf(graph.get(id), refusal.input);
    const waits = link && outcome.inputs[refusal.input] === undefined;
    const earlier = waits ? faultsOf(graph, link.calculation, values) : [];
    return earlier.length > 0 ? earlier : [{ ...refusal, calculation: id }];
  });
  return [...new Map(all.map((fault) => [`${fault.calculation} ${fault.input}`, fault])).values()];
}
