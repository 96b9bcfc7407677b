import type { Phrase } from "../calculations/calculation.ts";
import type { BatchValues, Graph, Outcome } from "../calculations/graph.ts";
import { PLAN_CALCULATIONS, PLAN_CARE, planBatch } from "./plan.ts";
import { faultsOf, SCHEDULE_CALCULATIONS } from "./schedule.ts";
import { STAGE_CALCULATIONS, stageNotices } from "./stages.ts";

/** The calculations that obstacles and their remedies need loaded. */
export const OBSTACLE_CALCULATIONS = [
  ...PLAN_CALCULATIONS,
  ...STAGE_CALCULATIONS,
  ...SCHEDULE_CALCULATIONS,
] as const;

/** What cannot be done with the reader's gear, or is not safe as it is planned. */
export interface Obstacle {
  /** The same as long as it stands in the way, whatever its numbers: "sonication ceiling". */
  readonly id: string;
  readonly calculation: string;
  /** The caution that it belongs to; a refusal has none. */
  readonly caution?: string | undefined;
  /** The input that is at fault; a caution has none. */
  readonly input?: string;
  readonly say: Phrase;
  /** Wants care whatever is done, and stands in nobody's way: that spirit burns. */
  readonly care: boolean;
}

/** All that stands in the way or wants care, and what each calculation said. */
export interface Survey {
  readonly values: BatchValues;
  readonly obstacles: readonly Obstacle[];
  readonly outcomeOf: (id: string) => Outcome;
}

type Found = Omit<Obstacle, "id" | "care">;

/** Whose caution a notice of the plan is: the plan itself merges those of three calculations. */
const PLAN_OWNER: Readonly<Record<string, string>> = {
  "coarse-scale": "weighing",
  "scale-capacity": "weighing",
  "drinking-spirit": "strength",
};

/**
 * All that stands in the way of a batch, in the order of the evening: what the Batch page says of the plan and of
 * the stages, and what the evening itself adds.
 *
 * @param graph - with {@link OBSTACLE_CALCULATIONS} loaded
 * @param known - outcomes that are known already, by calculation
 */
export function survey(
  graph: Graph,
  values: BatchValues,
  known: (id: string) => Outcome | undefined = () => undefined,
): Survey {
  const outcomes = new Map<string, Outcome>();
  const outcomeOf = (id: string): Outcome => {
    const outcome = outcomes.get(id) ?? known(id) ?? graph.evaluate(id, values);
    outcomes.set(id, outcome);
    return outcome;
  };
  const planned = planBatch(graph, values);
  const evening = outcomeOf("evening");
  const all: readonly Found[] = [
    ...(planned.ok ? [] : planned.refusals),
    ...(planned.ok ? planned.plan : planned).cautions.map((notice) => ({
      ...notice,
      calculation: PLAN_OWNER[notice.caution] ?? "recipe",
    })),
    ...stageNotices(outcomeOf),
    ...(evening.ok
      ? evening.cautions.map((notice) => ({ ...notice, calculation: "evening" }))
      : faultsOf(graph, "evening", values)),
  ];
  const named = all.map((found) => {
    const id = idOf(found);
    const ofPlan = PLAN_CALCULATIONS.some((each) => each === found.calculation);
    return { ...found, id, care: ofPlan && PLAN_CARE.has(found.caution ?? "") };
  });
  return {
    values,
    obstacles: [...new Map(named.toReversed().map((one) => [one.id, one])).values()].toReversed(),
    outcomeOf,
  };
}

function idOf({ calculation, caution, input }: Found): string {
  return `${calculation} ${caution ?? `refuses ${input ?? ""}`}`;
}
