import {
  GEAR_KEYS,
  withReadings,
  type Difference,
  type GearKind,
  type ReadingEvening,
} from "../../lib/batch/gear.ts";
import { valuesOf, type Batch } from "../../lib/batch/record.ts";
import type { InputValue, Quantity, Rows } from "../../lib/calculations/calculation.ts";
import { quantityText } from "../../lib/calculations/entry.ts";
import { inputsByKey, linkOf, type BatchValues, type Graph } from "../../lib/calculations/graph.ts";
import { FITTED } from "../../lib/calculations/quantities/heat.ts";
import { say, showAmount, type UnitChoice } from "../../lib/calculations/say.ts";

/** Where a batch key is entered. */
type Place = NonNullable<ReturnType<ReturnType<typeof inputsByKey>["get"]>>;

/**
 * Whether a number is the reader’s own: entered, or worked out from something of the same gear that was. What
 * is not is the demonstration’s.
 */
export function isOwn(graph: Graph, values: BatchValues, kind: GearKind, key: string): boolean {
  if (Object.hasOwn(values, key)) return true;
  const place = inputsByKey(graph).get(key);
  const link = place && linkOf(graph.get(place.from), place.name);
  if (!link) return false;
  const roots = [...graph.basis(link.calculation, values).keys()];
  return roots.some((root) => GEAR_KEYS[kind].includes(root) && Object.hasOwn(values, root));
}

/** Each difference in words: “Readability of the scale: 0.5 g here, 0.1 g in “Flat””. */
export function differenceTexts(
  graph: Graph,
  differences: readonly Difference[],
  name: string,
  unitFor: UnitChoice,
): readonly string[] {
  const places = inputsByKey(graph);
  return differences.flatMap(({ key, batch, gear }) => {
    const place = places.get(key);
    if (!place) return [];
    const text = (value: InputValue | undefined): string => valueText(graph, place, value, unitFor);
    return [`${place.input.label}: ${text(batch)} here, ${text(gear)} in “${name}”`];
  });
}

function valueText(
  graph: Graph,
  { from, name, input }: Place,
  value: InputValue | undefined,
  unitFor: UnitChoice,
): string {
  if (value === undefined)
    return linkOf(graph.get(from), name) ? "worked out" : "the demonstration’s";
  if (input.kind === "choice")
    return input.options.find((option) => option.value === value)?.label ?? String(value);
  if (input.kind === "readings") return `readings (${(value as Rows).length})`;
  return quantityText(input, Number(value), unitFor(input));
}

/** What an evening’s readings say of the bath. */
export type ReadingsSay =
  | { readonly ok: true; readonly text: string; readonly evening: ReadingEvening }
  | { readonly ok: false; readonly text: string };

/**
 * Fits the readings of a batch’s evening by themselves.
 *
 * @param rows - of that evening, as the key heatReadings has them
 * @returns the numbers with their standard errors, and what else the fit rests on; or why there
 * are none
 */
export function readingsSay(
  graph: Graph,
  evening: Batch,
  rows: Rows,
  unitFor: UnitChoice,
): ReadingsSay {
  // Fitted as where the powers are used, and refused by the fit itself rather than by what uses it.
  const values: BatchValues = {
    ...withReadings(valuesOf(evening), rows),
    lossesFitted: "held",
    knownFrom: "rating",
  };
  const fit = graph.run("heat-fit", values);
  const heat = graph.run("heat-capacity", values);
  const { results, inputs } = graph.get("heat-fit");
  if (!fit || !heat) {
    const outcome = graph.evaluate("heat-fit", values);
    const [refusal] = outcome.ok ? [] : outcome.refusals;
    return { ok: false, text: say(refusal?.say ?? [], unitFor) };
  }
  const text = (name: string): string => {
    const [result, value] = [results[name], fit[name]];
    return result && value ? showAmount(value.value, result, unitFor(result)) : "not told";
  };
  const fitted = FITTED.map(({ of: { name }, error }) => {
    const known = fit[name] ? ` (standard error ${text(error)})` : "";
    return `${(results[name]?.label ?? name).toLowerCase()} ${text(name)}${known}`;
  });
  const room = inputs["readingRoom"] as Quantity;
  const warm = Number(values[room.name] ?? room.default);
  return {
    ok: true,
    text: `From ${rows.length} readings in a room of ${quantityText(room, warm, unitFor(room))}: ${fitted.join("; ")}. Scatter about the curves ${text("residualDeviation")}.`,
    evening: {
      room: warm,
      liquid: heat["liquidHeatCapacity"]?.value ?? 0,
      bath: heat["bathHeatCapacity"]?.value ?? 0,
    },
  };
}
