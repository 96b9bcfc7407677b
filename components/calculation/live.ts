import { batch, openStore } from "../batch/store.ts";
import { valuesOf, type Batch } from "../../lib/batch/record.ts";
import { isSame } from "../../lib/batch/same.ts";
import type { BatchValues, Graph, Outcome } from "../../lib/calculations/graph.ts";
import { loadGraph } from "../../lib/calculations/registry.ts";
import type { UnitChoice } from "../../lib/calculations/say.ts";

type Good = Outcome & { readonly ok: true };

/** What every live part of a page is repainted from. */
export interface Scene {
  readonly graph: Graph;
  /** Its units are the same object for as long as none of them is another. */
  readonly batch: Batch;
  /** What every calculation of the page starts from. */
  readonly values: BatchValues;
  /** The same object for as long as nothing that could decide it has changed. */
  readonly outcomeOf: (id: string) => Outcome;
  /** The outcome to show: this one, or while an input is at fault the newest that was a result. */
  readonly shownOf: (id: string) => Good | undefined;
  readonly unitFor: UnitChoice;
}

type Painter = (scene: Scene) => void;

const painters = new Set<Painter>();
const lastGood = new Map<string, Good>();
/** Outcomes that still hold. */
const outcomes = new Map<string, Outcome>();
let scene: Scene | undefined;
let starting: Promise<void> | undefined;

/** The unit the reader chose for a quantity or result of that name, else the first it offers. */
export function unitIn(
  units: Batch["units"],
  name: string | undefined,
  offered: readonly string[],
): string {
  const chosen = name === undefined ? undefined : units[name];
  return chosen !== undefined && offered.includes(chosen) ? chosen : (offered[0] as string);
}

function forgetWhatChanged(graph: Graph, before: BatchValues, values: BatchValues): void {
  // Lists of readings are read anew with each change, so what they hold is compared.
  const changed = Object.keys({ ...before, ...values }).filter(
    (key) => !isSame(before[key], values[key]),
  );
  for (const id of outcomes.keys()) {
    const reach = graph.reach(id);
    if (changed.some((key) => reach.has(key))) outcomes.delete(id);
  }
}

function makeScene(graph: Graph, newest: Batch, before: Scene | undefined): Scene {
  const current =
    before && isSame(before.batch.units, newest.units)
      ? { ...newest, units: before.batch.units }
      : newest;
  const values = valuesOf(current);
  if (before) forgetWhatChanged(graph, before.values, values);
  const outcomeOf = (id: string): Outcome => {
    let outcome = outcomes.get(id);
    if (!outcome) {
      outcome = graph.evaluate(id, values);
      outcomes.set(id, outcome);
      if (outcome.ok) lastGood.set(id, outcome);
    }
    return outcome;
  };
  return {
    graph,
    batch: current,
    values,
    outcomeOf,
    shownOf: (id) => {
      const outcome = outcomeOf(id);
      const known = outcome.ok ? outcome : lastGood.get(id);
      if (known) return known;
      // The defaults are the first results that worked: they stand until the reader's own do.
      const first = graph.evaluate(id, {});
      return first.ok ? first : undefined;
    },
    unitFor: (of) =>
      unitIn(
        current.units,
        "name" in of && typeof of.name === "string" ? of.name : undefined,
        of.units,
      ),
  };
}

async function start(): Promise<void> {
  openStore();
  const ids = new Set(
    Array.from(document.querySelectorAll<HTMLElement>("[data-calculation]"), (element) =>
      (element.dataset["calculation"] ?? "").split(" "),
    ).flat(),
  );
  const graph = await loadGraph([...ids]);
  batch.subscribe((current) => {
    scene = makeScene(graph, current, scene);
    // One number of the reader's own, and the page no longer speaks for the demonstration.
    const own = Object.keys(scene.values).length > 0;
    document.documentElement.toggleAttribute("data-own", own);
    for (const paint of painters) paint(scene);
  });
  document.documentElement.dataset["live"] = "";
}

/** Settles when the first scene is painted. */
export function whenLive(): Promise<void> {
  return (starting ??= start());
}

/**
 * Tells whether a part that shows one calculation in the reader's units would look the same as it did last time
 * it was asked: it need not be painted then.
 */
export function sameAsBefore(): (scene: Scene, id: string, ...also: readonly unknown[]) => boolean {
  let shown: readonly unknown[] = [];
  return (scene, id, ...also) => {
    const now = [scene.outcomeOf(id), scene.batch.units, ...also];
    const same = now.every((part, i) => part === shown[i]);
    shown = now;
    return same;
  };
}

/**
 * Repaints a part of the page whenever the batch changes, first as soon as the calculations are loaded.
 * All parts of one change are painted from the same outcomes, in the order of their registration.
 */
export function onScene(paint: Painter): void {
  painters.add(paint);
  if (scene) paint(scene);
  starting ??= start();
}
