import {
  INGREDIENTS,
  massValues,
  stepNow,
  weighedIn,
  type EntryOf,
  type Ingredient,
  type Log,
} from "../../lib/batch/log.ts";
import { planBatch, type Plan, type Planned } from "../../lib/batch/plan.ts";
import { scheduleBatch, type Scheduled, type ScheduledStep } from "../../lib/batch/schedule.ts";
import { weighingBounds, weighingIn, type WeighingIn } from "../../lib/batch/weighing-in.ts";
import { quantityText } from "../../lib/calculations/entry.ts";
import { LARGE_BATCH } from "../../lib/calculations/recipe.ts";
import { MASS } from "../../lib/calculations/quantities/kinds.ts";
import { say, showText } from "../../lib/calculations/say.ts";
import { planSentences, type PlanSentence } from "../batch/sheet-text.ts";
import { unitIn, type Scene } from "../calculation/live.ts";
import {
  askTexts,
  kindOf,
  missedText,
  STEP_TEXTS,
  type AskText,
  type Shown,
  type StepText,
} from "./bench-text.ts";

/** What stands on the bench now, worked out once a change. */
export interface Now {
  readonly scene: Scene;
  readonly log: Log;
  readonly steps: readonly ScheduledStep[];
  /** s until the bottles are in the fridge */
  readonly total: number;
  /** the step that goes on, and what is known of it */
  readonly entry: EntryOf<"step"> | undefined;
  readonly step: ScheduledStep | undefined;
  /** its place among the steps; of one that is no longer planned, that of the last one before it */
  readonly index: number;
  readonly text: StepText | undefined;
  readonly planned: Planned;
  readonly plan: Plan | undefined;
  readonly weighing: WeighingIn | undefined;
  readonly readability: number;
  readonly massUnit: string;
  readonly ask: AskText | undefined;
  /** What was left out, said at the step that weighing was left for; else empty. */
  readonly missed: string;
}

/** The steps to follow: a change at the bench that leaves no plan does not leave the maker without one. */
export function scheduleToFollow({ graph, batch, values }: Scene): Scheduled {
  const now = scheduleBatch(graph, values);
  return now.ok || !batch.planned ? now : scheduleBatch(graph, batch.planned);
}

/** Where the evening stands, from the batch alone. */
export function look(scene: Scene): Now {
  const { graph, values } = scene;
  const log = scene.batch.log ?? [];
  const scheduled = scheduleToFollow(scene);
  const steps = scheduled.ok ? scheduled.steps : [];
  const entry = stepNow(log);
  const begun = log.flatMap((each) => (each.kind === "step" ? [each.step] : []));
  const known = begun.findLast((id) => steps.some((step) => step.id === id));
  const planned = planBatch(graph, values);
  const basis = planned.ok ? values : (scene.batch.planned ?? values);
  const kept = planned.ok ? planned : planBatch(graph, basis);
  const plan = kept.ok ? kept.plan : undefined;
  const kind = kindOf(entry?.step ?? "");
  const bounds = weighingBounds(graph, basis);
  const weighing = plan && weighingIn(plan, log, bounds);
  const left = kind !== "weigh" && kindOf(begun.at(-2) ?? "") === "weigh";
  const massUnit = unitIn(scene.batch.units, "waterMass", MASS.units);
  const asks = plan && weighing ? askTexts(plan, weighing.asks, bounds.readability, massUnit) : [];
  return {
    scene,
    log,
    steps,
    total: scheduled.ok ? scheduled.total : 0,
    entry,
    step: steps.find(({ id }) => id === entry?.step),
    index: steps.findIndex(({ id }) => id === known),
    text: kind && STEP_TEXTS[kind],
    planned,
    plan,
    weighing,
    readability: bounds.readability,
    massUnit,
    ask: kind === "weigh" && !weighing?.refusal ? asks[0] : undefined,
    missed: entry && left && plan && weighing ? missedText(weighing.asks, plan.vessels) : "",
  };
}

/** While weighing in, what the batch will be once all is in; later, what went in and nothing else. */
export function compositionText({ scene, weighing, log, entry }: Now): string {
  if (!weighing) return "";
  const over = kindOf(entry?.step ?? "") !== "weigh";
  const masses = over ? onlyIn(log) : weighing.masses;
  if (!masses) return "No weighing is noted.";
  const { graph, values, unitFor } = scene;
  const outcome = graph.evaluate("composition", { ...values, ...massValues(masses) });
  if (!outcome.ok) return outcome.refusals.map((refusal) => say(refusal.say, unitFor)).join(" ");
  const { results } = graph.get("composition");
  const at = (name: string): string => {
    const result = results[name];
    return result ? showText(outcome.values[name] ?? null, result, unitFor(result), true) : "";
  };
  const head = !over && weighing.refusal ? "If you go on as it is" : "As it stands";
  return `${head}: ${at("batchVolume")} with ${at("alcoholStrength")} alcohol, ${at("ascorbicAcidConcentration")} ascorbic acid, ${at("lecithinConcentration")} lecithin.`;
}

/** What went in, kg: what was left out is none of it. Nothing where no weighing is noted at all. */
function onlyIn(log: Log): ReadonlyMap<Ingredient, number> | undefined {
  const weighed = weighedIn(log);
  if (weighed.size === 0) return undefined;
  return new Map(INGREDIENTS.map((ingredient) => [ingredient, weighed.get(ingredient) ?? 0]));
}

/** What the plan warns of at this step. That it takes several beakers is done by whoever fills one after another. */
export function planCautions({ scene, planned, plan, step }: Now): readonly PlanSentence[] {
  const { batchVolume } = scene.outcomeOf("recipe").inputs;
  const parted = (plan?.vessels ?? 1) > 1 && Number(batchVolume) <= LARGE_BATCH;
  return planSentences(planned, scene.unitFor).filter(({ caution }) =>
    caution === "undissolved"
      ? step?.stage === "dissolve"
      : step?.stage === "weigh" && !(caution === "glass" && parted),
  );
}

/** A number of a calculation in the reader's unit. */
export function shownText(scene: Scene, { calculation, result, input }: Shown): string | undefined {
  const declared = scene.graph.get(calculation);
  const outcome = scene.outcomeOf(calculation);
  if (input !== undefined) {
    const quantity = declared.inputs[input];
    const value = outcome.inputs[input];
    if (quantity?.kind !== "number" || typeof value !== "number") return undefined;
    return quantityText(quantity, value, scene.unitFor(quantity));
  }
  const asked = declared.results[result ?? ""];
  if (!asked || !outcome.ok) return undefined;
  return showText(outcome.values[result ?? ""] ?? null, asked, scene.unitFor(asked), true);
}

/** What counts with a number, such as the last bottle that is not full; empty where there is none. */
export function moreText(scene: Scene, { calculation, more }: Shown): string {
  const outcome = scene.outcomeOf(calculation);
  const value = more && outcome.ok ? (outcome.values[more.result]?.value ?? 0) : 0;
  if (!more || value <= 0) return "";
  return `${more.before} ${shownText(scene, { calculation, result: more.result, before: "" }) ?? ""}`;
}
