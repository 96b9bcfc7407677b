import { OutOfRangeError, type Limits } from "../errors.ts";
import type { Banded } from "../numeric/banded.ts";
import type { Dimension } from "../units/units.ts";

export type { Banded } from "../numeric/banded.ts";

/** How far off a reader's value may be: one standard deviation, in SI units or as a share of the value. */
export type Uncertainty =
  | { readonly absolute: number; readonly because: string }
  | { readonly relative: number; readonly because: string };

/** What a calculation gives: how to name, show and bound one number. */
export interface Result {
  readonly label: string;
  /** TeX, as it stands in an equation. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Units a reader can choose, the first shown first. */
  readonly units: readonly string[];
  /** Significant digits where no band says better. */
  readonly digits: number;
  /** SI: nothing finer than this means anything, whatever its digits and its band would bear. */
  readonly finest?: number;
  readonly hint?: string;
  /** Shown as words instead of a number: 0 is the first, 1 the second, and so on. */
  readonly words?: readonly string[];
  /** What stands where there is no answer: "never" rather than "none". */
  readonly none?: string;
  /** A step on the way: shown in equations and tables, not among the results. */
  readonly minor?: boolean;
  /** The band is a factor either way rather than a difference: for times that uncertainty multiplies. */
  readonly byFactor?: true;
  /** A statistic of the readings as they stand, which takes no band. */
  readonly unbanded?: true;
  /** Physical bounds that a band never crosses, SI. */
  readonly bounds?: { readonly min?: number; readonly max?: number };
}

/** A named physical quantity that a reader can enter. Declared once; `name` is its key in the batch. */
export interface Quantity extends Result {
  readonly kind: "number";
  readonly name: string;
  readonly limits: Limits;
  /** SI. The defaults together are the invented demonstration batch. */
  readonly default: number;
  readonly hint: string;
  readonly uncertainty?: Uncertainty;
  /** Values offered by name beside the free number, SI. */
  readonly presets?: readonly { readonly value: number; readonly label: string }[];
  /** The top of the range stands for "without limit", and fields take that word. */
  readonly endless?: true;
  /** Whole numbers only: things that are counted. */
  readonly whole?: true;
  /** Only doubt: it moves results by its uncertainty, and no form shows it. */
  readonly hidden?: true;
}

/** A choice between named kinds, such as a glass or a cover. */
export interface Choice<T extends string = string> {
  readonly kind: "choice";
  readonly name: string;
  readonly label: string;
  readonly hint: string;
  readonly options: readonly { readonly value: T; readonly label: string }[];
  readonly default: T;
}

/** One column of readings or of a computed table. */
export interface Column extends Pick<Result, "dimension" | "units" | "digits"> {
  readonly name: string;
  readonly label: string;
  /** Shown as words instead of a number: 0 is the first, 1 the second, and so on. */
  readonly words?: readonly string[];
}

/** A column that a reader fills. */
export interface ReadingColumn extends Column {
  readonly limits: Limits;
  /** May be left empty in any row. */
  readonly optional?: true;
  /** For a column of words: other spellings, by the value that they mean. */
  readonly spellings?: readonly (readonly string[])[];
}

/** Rows of numbers in SI, by column; `null` where there is none. */
export type Rows = readonly (readonly (number | null)[])[];

/** A table of readings that a reader types or pastes, such as a log of temperatures. */
export interface Readings {
  readonly kind: "readings";
  readonly name: string;
  readonly label: string;
  readonly hint: string;
  readonly columns: readonly ReadingColumn[];
  /** How many rows there may be. */
  readonly count: { readonly min: number; readonly max: number };
  readonly default: Rows;
}

export type Input = Quantity | Choice | Readings;
/** What an input can hold. */
export type InputValue = number | string | Rows;
export type Inputs = Readonly<Record<string, Input>>;
export type Results = Readonly<Record<string, Result>>;

export type InputValues<I extends Inputs> = {
  readonly [K in keyof I]: I[K] extends Choice<infer T> ? T : I[K] extends Readings ? Rows : number;
};

/** `null` where the question has no answer in this case (such as a time that never comes). */
export type ComputedValue = number | Banded | null;
export type Computed<R extends Results> = { readonly [K in keyof R]: ComputedValue };
export type Values = Readonly<Record<string, Banded | null>>;

/** A number inside a sentence, turned into the reader's unit where the sentence is shown. */
export interface Amount {
  readonly value: number;
  readonly of: Pick<Result, "dimension" | "units" | "digits">;
}
/** A sentence as text and amounts, so that one wording serves every unit. */
export type Phrase = readonly (string | Amount)[];

/** Tags a template as a {@link Phrase}. */
export function phrase(
  texts: TemplateStringsArray,
  ...amounts: readonly (Amount | string)[]
): Phrase {
  return texts.flatMap((text, i) => {
    const next = amounts[i];
    return next === undefined ? [text] : [text, next];
  });
}

/** An amount of one quantity, for {@link phrase}. */
export function amount(value: number, of: Amount["of"]): Amount {
  return { value, of };
}

/** No answer, whose input is at fault, and what to do about it. */
export interface Refusal {
  readonly input: string;
  readonly say: Phrase;
}

/** Thrown inside `compute` where the inputs fit one by one but not together. */
export class RefusedError extends Error {
  override name = "RefusedError";
  readonly input: string;
  readonly say: Phrase;
  constructor(input: string, say: Phrase) {
    super(`refused because of ${input}`);
    this.input = input;
    this.say = say;
  }
}

/** A caution whose condition is checked against the numbers. `caution` names a text in content/cautions. */
export interface CautionRule<I extends Inputs, R extends Results> {
  readonly caution: string;
  when(inputs: InputValues<I>, values: { readonly [K in keyof R]: Banded | null }): boolean;
  say(inputs: InputValues<I>, values: { readonly [K in keyof R]: Banded | null }): Phrase;
}

export interface CautionNotice {
  readonly caution: string;
  readonly say: Phrase;
}

/**
 * One displayed step: `result = tex`. The same template gives the line in symbols and the line with the
 * reader's numbers; `slot("waterMass")` stands for an input or a result.
 */
export interface Step {
  readonly result: string;
  readonly tex: (slot: (name: string) => string) => string;
}

/** An axis is a quantity: its label, its units. SI inside. */
export interface Axis {
  readonly label: string;
  readonly of: Pick<Result, "dimension" | "units" | "digits">;
  readonly domain?: readonly [number, number];
}

export interface Mark {
  readonly x: number;
  readonly y: number;
  readonly label: string;
  /** Can be dragged along x: the input that follows, and the x at which that input would be 0. */
  readonly drag?: { readonly input: string; readonly from: number };
}

export interface FigureData {
  readonly x: Axis;
  readonly y: Axis;
  readonly lines: readonly {
    readonly label: string;
    readonly points: readonly (readonly [number, number])[];
    readonly dashed?: boolean;
  }[];
  /** Low and high edge against x. */
  readonly bands?: readonly {
    readonly points: readonly (readonly [x: number, low: number, high: number])[];
  }[];
  readonly marks?: readonly Mark[];
  readonly rules?: readonly { readonly y: number; readonly label: string }[];
}

/** Bars with names, for shares and comparisons. */
export interface BarData {
  readonly x: Axis;
  readonly bars: readonly { readonly label: string; readonly value: number }[];
}

/** How a span is drawn: filled, tinted, or as an outline. */
export type SpanLook = "solid" | "tinted" | "open";

/** What lasts from when to when, in rows from top to bottom: a timeline. */
export interface SpanData {
  readonly x: Axis;
  /** What each look means, in a word or two. */
  readonly looks: Readonly<Record<SpanLook, string>>;
  readonly rows: readonly {
    readonly label: string;
    readonly spans: readonly {
      readonly from: number;
      readonly to: number;
      readonly look: SpanLook;
    }[];
  }[];
}

/** What a figure is drawn from. */
export type Drawing = FigureData | BarData | SpanData;

export interface Figure<I extends Inputs> {
  readonly id: string;
  readonly title: string;
  /** One sentence on what to see, for everyone and for who cannot see the drawing. */
  readonly caption: string;
  /**
   * Draws from the reader's inputs; `run` evaluates the calculation with some inputs moved and gives
   * `null` where that is refused. `spread` gives the inputs with each uncertain quantity behind them moved
   * by its standard uncertainty, up and down: for the band of a curve.
   */
  data(
    inputs: InputValues<I>,
    run: (moved: Partial<InputValues<I>>) => Values | null,
    spread: () => readonly Moved<I>[],
  ): Drawing;
}

/** All inputs with one uncertain quantity moved up or down; `undefined` where it cannot move that way. */
export interface Moved<I extends Inputs> {
  readonly above: InputValues<I> | undefined;
  readonly below: InputValues<I> | undefined;
}

/** Rows worked out from the inputs: a timeline, a plan in steps. */
export interface Table<I extends Inputs> {
  readonly id: string;
  readonly title: string;
  readonly columns: readonly Column[];
  /** SI; called only with inputs that gave a result. */
  rows(inputs: InputValues<I>): Rows;
}

/** One press that sets some inputs to what they should be. */
export interface Offer<I extends Inputs> {
  readonly id: string;
  readonly label: string;
  /** @returns the inputs to set, or a sentence that says why there is nothing to set */
  take(inputs: InputValues<I>): Partial<InputValues<I>> | Phrase;
}

/** A pure function from quantities to quantities, declared as data. */
export interface Calculation<I extends Inputs = Inputs, R extends Results = Results> {
  readonly id: string;
  readonly title: string;
  /** What it answers, in one line, for lists and search. */
  readonly summary: string;
  readonly inputs: I;
  readonly results: R;
  /** Inputs that start from another calculation's result, "calculation.result". */
  readonly links?: { readonly [K in keyof I]?: string };
  /**
   * Linked inputs that are a decision once made, such as a mass to weigh: what upstream was unsure of does
   * not widen the band here.
   */
  readonly decided?: readonly (keyof I & string)[];
  /** Each answer is itself a search over readings: no input is sought back from a result. */
  readonly onlyForward?: true;
  /** Which input a library error speaks of, by the error's quantity name. */
  readonly blame?: Readonly<Record<string, keyof I & string>>;
  /** Where one result costs far more than the others, a getter gives it only when it is asked for. */
  compute(inputs: InputValues<I>): Computed<R>;
  readonly steps: readonly Step[];
  readonly figures?: readonly Figure<I>[];
  readonly tables?: readonly Table<I>[];
  readonly offers?: readonly Offer<I>[];
  readonly cautions?: readonly CautionRule<I, R>[];
  /** Ids in content/sources. */
  readonly sources: readonly string[];
}

// The machinery reads any calculation by name; method syntax above keeps this assignable.
export type AnyCalculation = Calculation<Inputs, Results>;

/** Declares a calculation; checks at load that steps and links speak of what exists. */
export function defineCalculation<const I extends Inputs, const R extends Results>(
  calculation: Calculation<I, R>,
): AnyCalculation {
  const { id, inputs, results, links = {}, decided = [], blame = {}, steps } = calculation;
  const need = (there: object, name: string, what: string): void => {
    if (!Object.hasOwn(there, name)) throw new TypeError(`${id} has no "${name}" for ${what}`);
  };
  for (const name of Object.keys(links)) need(inputs, name, "a link");
  for (const name of decided) need(links, name, "a decided link");
  for (const name of Object.values(blame)) need(inputs, name as string, "blame");
  const known = { ...inputs, ...results };
  for (const step of steps) {
    need(results, step.result, "an equation");
    step.tex((name) => {
      need(known, name, "an equation");
      return name;
    });
  }
  return calculation as unknown as AnyCalculation;
}

/** Declares a quantity that a reader can enter. */
export function quantity<const N extends string>(
  name: N,
  facts: Omit<Quantity, "kind" | "name">,
): Quantity & { readonly name: N } {
  return { ...facts, kind: "number", name };
}

/** Declares a choice between kinds. */
export function choice<const N extends string, const T extends string>(
  name: N,
  facts: Omit<Choice<T>, "kind" | "name">,
): Choice<T> & { readonly name: N } {
  return { ...facts, kind: "choice", name };
}

/** Declares readings that a reader types or pastes. */
export function readings<const N extends string>(
  name: N,
  facts: Omit<Readings, "kind" | "name">,
): Readings & { readonly name: N } {
  return { ...facts, kind: "readings", name };
}

/** A quantity as a result: the same name, symbol and units, nothing to enter. */
export function asResult(from: Quantity, changes: Partial<Result> = {}): Result {
  const { label, symbol, dimension, units, digits } = from;
  return { label, symbol, dimension, units, digits, ...changes };
}

/** Turns what `compute` threw into a refusal; anything that is not a refusal is a fault and goes on. */
export function refusalOf(calculation: AnyCalculation, error: unknown): Refusal {
  if (error instanceof RefusedError) return { input: error.input, say: error.say };
  if (error instanceof OutOfRangeError) {
    const { quantity: name, limits } = error;
    const input = calculation.blame?.[name] ?? (name in calculation.inputs ? name : undefined);
    const declared = input === undefined ? undefined : calculation.inputs[input];
    if (input !== undefined && declared?.kind === "number") {
      const ownRange = input === name && limits.unit === declared.limits.unit;
      return {
        input,
        say: ownRange
          ? phrase`With the other values as they are, this must be from ${amount(limits.min, declared)} to ${amount(limits.max, declared)}.`
          : [
              "Together these values lie outside what the formula was checked for. Change this one.",
            ],
      };
    }
  }
  throw error;
}
