import { quantityText } from "../../lib/calculations/entry.ts";
import { show, showAmount, showText } from "../../lib/calculations/say.ts";
import type { AnyCalculation } from "../../lib/calculations/calculation.ts";
import type { Outcome } from "../../lib/calculations/graph.ts";

/** The unit shown for a field or result of that name. */
export type UnitByName = (name: string, offered: readonly string[]) => string;

/** An end of a band. */
export type Edge = "low" | "high";

/** The name that a unit is chosen under: the quantity's own, so that one choice serves every chapter. */
export function unitName(calculation: AnyCalculation, name: string): string {
  const input = calculation.inputs[name];
  return input?.kind === "number" ? input.name : name;
}

/** The text in the place of an input or result of an equation: a number with its unit. */
export function slotText(
  calculation: AnyCalculation,
  outcome: Outcome & { readonly ok: true },
  unitOf: UnitByName,
  name: string,
): string {
  const input = calculation.inputs[name];
  if (input) {
    const value = outcome.inputs[name];
    if (input.kind === "choice")
      return input.options.find((option) => option.value === value)?.label ?? String(value);
    if (input.kind !== "number" || typeof value !== "number") return String(value);
    return quantityText(input, value, unitOf(unitName(calculation, name), input.units));
  }
  const result = calculation.results[name];
  const value = outcome.values[name];
  if (!result) return "none";
  if (!value || result.words) return show(value ?? null, result, "").number;
  return showAmount(value.value, result, unitOf(name, result.units));
}

/** A result in running text: what an inline number says. */
export function resultText(
  calculation: AnyCalculation,
  outcome: Outcome & { readonly ok: true },
  unitOf: UnitByName,
  name: string,
  { plain, edge }: { readonly plain: boolean; readonly edge?: Edge | undefined },
): string {
  const result = calculation.results[name];
  if (!result) throw new TypeError(`${calculation.id} has no result "${name}"`);
  const value = outcome.values[name] ?? null;
  const unit = unitOf(name, result.units);
  return edge && value
    ? showAmount(value[edge], result, unit)
    : showText(value, result, unit, plain);
}
