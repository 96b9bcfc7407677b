import { quantityText } from "../../lib/calculations/entry.ts";
import { show, showAmount } from "../../lib/calculations/say.ts";
import type { AnyCalculation } from "../../lib/calculations/calculation.ts";
import type { Outcome } from "../../lib/calculations/graph.ts";

/** The unit shown for a field or result of that name. */
export type UnitByName = (name: string, offered: readonly string[]) => string;

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
    if (input.kind !== "number" || typeof value !== "number") return String(value);
    return quantityText(input, value, unitOf(unitName(calculation, name), input.units));
  }
  const result = calculation.results[name];
  const value = outcome.values[name];
  if (!result || !value) return "none";
  return showAmount(value.value, result, unitOf(name, result.units));
}

/** A result with its band and unit in words: what an inline number says. */
export function resultText(
  calculation: AnyCalculation,
  outcome: Outcome & { readonly ok: true },
  unitOf: UnitByName,
  name: string,
): { readonly number: string; readonly band: string } {
  const result = calculation.results[name];
  if (!result) throw new TypeError(`${calculation.id} has no result "${name}"`);
  return show(outcome.values[name] ?? null, result, unitOf(name, result.units));
}
