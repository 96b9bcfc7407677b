import {
  defineCalculation,
  quantity,
  type AnyCalculation,
  type Calculation,
  type Inputs,
  type Quantity,
  type Result,
  type Results,
} from "../../lib/calculations/calculation.ts";

/** A number of no dimension from −1000 to 1000, starting at 1. */
export function plain<const N extends string>(
  name: N,
  facts: Partial<Omit<Quantity, "kind" | "name">> = {},
): Quantity & { readonly name: N } {
  return quantity(name, {
    label: name,
    symbol: "x",
    dimension: "fraction",
    units: ["1"],
    digits: 4,
    limits: { min: -1000, max: 1000, unit: "1" },
    default: 1,
    hint: "",
    ...facts,
  });
}

/** The same, unsure by that much. */
export function unsure<const N extends string>(
  name: N,
  start: number,
  absolute: number,
  facts: Partial<Omit<Quantity, "kind" | "name">> = {},
): Quantity & { readonly name: N } {
  return plain(name, {
    default: start,
    uncertainty: { absolute, because: `${name} is off by that much` },
    ...facts,
  });
}

/** A result of no dimension. */
export function answer(facts: Partial<Result> = {}): Result {
  return {
    label: "Answer",
    symbol: "y",
    dimension: "fraction",
    units: ["1"],
    digits: 4,
    ...facts,
  };
}

/** A calculation of the tests only, to see what the machinery does with one of known shape. */
export function declare<const I extends Inputs, const R extends Results>(
  id: string,
  facts: Pick<Calculation<I, R>, "inputs" | "results" | "compute"> & Partial<Calculation<I, R>>,
): AnyCalculation {
  return defineCalculation<I, R>({
    id,
    title: `The ${id}`,
    summary: "",
    steps: [],
    sources: [],
    ...facts,
  });
}
