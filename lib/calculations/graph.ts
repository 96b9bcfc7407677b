import { faultOf } from "./readings.ts";
import {
  amount,
  phrase,
  refusalOf,
  type AnyCalculation,
  type Banded,
  type CautionNotice,
  type Computed,
  type ComputedValue,
  type Input,
  type InputValue,
  type InputValues,
  type Inputs,
  type Moved,
  type Quantity,
  type Refusal,
  type Result,
  type Results,
  type Values,
} from "./calculation.ts";

/** The reader's values by batch key, SI; a key that is missing takes its default or its link. */
export type BatchValues = Readonly<Record<string, InputValue>>;

/** Where an input's value came from. */
export type Origin = "default" | "reader" | Link;

/** What one input's stated uncertainty does to each result: half of the change from −u to +u, SI. */
export interface Influence {
  readonly key: string;
  readonly quantity: Quantity;
  readonly standardUncertainty: number;
  readonly effects: Readonly<Record<string, number>>;
}

export type Outcome =
  | {
      readonly ok: true;
      readonly inputs: Readonly<Record<string, InputValue>>;
      readonly origins: Readonly<Record<string, Origin>>;
      readonly values: Values;
      readonly influences: readonly Influence[];
      readonly cautions: readonly CautionNotice[];
    }
  | {
      readonly ok: false;
      /** Inputs that could be found, so that a page can still show what a link gives. */
      readonly inputs: Readonly<Record<string, InputValue>>;
      readonly origins: Readonly<Record<string, Origin>>;
      readonly refusals: readonly Refusal[];
    };

interface Gathered {
  readonly inputs: Readonly<Record<string, InputValue>>;
  readonly origins: Readonly<Record<string, Origin>>;
  readonly refusals: readonly Refusal[];
}

interface Point extends Gathered {
  readonly computed: Computed<Results> | undefined;
}

interface Doubt {
  readonly key: string;
  readonly input: Quantity;
  readonly u: number;
  readonly at: number;
  readonly low: number;
  readonly high: number;
}

/** Coverage factor of every band: about 95 % for a normal spread (GUM 6.3.3). memory */
export const COVERAGE = 2;

/** A factor of 10¹⁰ says no more than a larger one would. */
const MOST_LOG = 23;

/** Far below anything that can be measured: taken for nothing, since dividing by it would overflow. */
const SMALLEST = 1e-100;

/** The batch key of an input: its quantity's name, or "calculation.input" where a link may be typed over. */
export function keyOf(calculation: AnyCalculation, input: string): string {
  if (calculation.links?.[input] !== undefined) return `${calculation.id}.${input}`;
  const declared = calculation.inputs[input];
  if (!declared) throw new TypeError(`${calculation.id} has no input "${input}"`);
  return declared.name;
}

/** A result of another calculation, which an input takes unless it is typed over. */
export interface Link {
  readonly calculation: string;
  readonly result: string;
}

/** The link of an input, parted. */
export function linkOf(calculation: AnyCalculation, input: string): Link | undefined {
  const [from, result] = calculation.links?.[input]?.split(".") ?? [];
  return from !== undefined && result !== undefined ? { calculation: from, result } : undefined;
}

/** Calculations that are loaded, linked, and ready to evaluate. */
export class Graph {
  readonly calculations: ReadonlyMap<string, AnyCalculation>;
  readonly #reach = new Map<string, ReadonlySet<string>>();

  /** @param calculations - closed under links: whatever one links to is there too */
  constructor(calculations: Iterable<AnyCalculation>) {
    this.calculations = new Map(Array.from(calculations, (c) => [c.id, c]));
  }

  /** @throws TypeError listing what is loaded, for a wrong id */
  get(id: string): AnyCalculation {
    const found = this.calculations.get(id);
    if (!found)
      throw new TypeError(
        `no calculation "${id}"; there are ${[...this.calculations.keys()].join(", ")}`,
      );
    return found;
  }

  /**
   * Every batch key that could decide this calculation's result: its inputs and those of all that it links to,
   * whether a link is typed over or not.
   */
  reach(id: string): ReadonlySet<string> {
    const known = this.#reach.get(id);
    if (known) return known;
    const calculation = this.get(id);
    const found = new Set<string>();
    for (const name of Object.keys(calculation.inputs)) {
      found.add(keyOf(calculation, name));
      const link = linkOf(calculation, name);
      for (const key of link ? this.reach(link.calculation) : []) found.add(key);
    }
    this.#reach.set(id, found);
    return found;
  }

  /** The inputs that decide this calculation's result, upstream ones included, by batch key. */
  basis(id: string, batch: BatchValues): ReadonlyMap<string, Input> {
    const found = new Map<string, Input>();
    this.#collectBasis(id, batch, found, new Set());
    return found;
  }

  #collectBasis(
    id: string,
    batch: BatchValues,
    found: Map<string, Input>,
    seen: Set<string>,
  ): void {
    if (seen.has(id)) return;
    seen.add(id);
    const calculation = this.get(id);
    for (const [name, input] of Object.entries(calculation.inputs)) {
      const key = keyOf(calculation, name);
      const link = linkOf(calculation, name);
      if (link && !Object.hasOwn(batch, key))
        this.#collectBasis(link.calculation, batch, found, seen);
      else found.set(key, input);
    }
  }

  /**
   * One calculation with the reader's batch: values with bands, or refusals that name the input.
   *
   * Bands: each uncertain input of the basis is moved by its standard uncertainty both ways, and the
   * half-changes are added in squares and doubled (GUM 5.1.2, first order, k = 2); what the model itself
   * brings is added in squares too. Upstream inputs are moved at their root, so linked results stay
   * correlated as they are.
   */
  evaluate(id: string, batch: BatchValues): Outcome {
    const memo = new Map<string, Point>();
    const point = this.#point(id, batch, memo);
    const { inputs, origins, computed } = point;
    if (!computed) return { ok: false, inputs, origins, refusals: point.refusals };
    const influences = this.#influences(id, this.decide(id, batch), computed);
    const calculation = this.get(id);
    const values: Record<string, Banded | null> = {};
    for (const [name, result] of Object.entries(calculation.results)) {
      const half = Math.hypot(...influences.map((i) => i.effects[name] ?? 0)) * COVERAGE;
      values[name] = withBand(computed[name] ?? null, result.unbanded ? 0 : half, result);
    }
    const cautions = (calculation.cautions ?? [])
      .filter((rule) => rule.when(inputs as never, values))
      .map((rule) => ({ caution: rule.caution, say: rule.say(inputs as never, values) }));
    return { ok: true, inputs, origins, values, influences, cautions };
  }

  /** The batch with every decided link on the way to this calculation pinned to what it gives now. */
  decide(id: string, batch: BatchValues): BatchValues {
    const memo = new Map<string, Point>();
    const pinned: Record<string, InputValue> = {};
    const visit = (from: string): void => {
      const calculation = this.get(from);
      for (const name of Object.keys(calculation.links ?? {})) {
        const key = keyOf(calculation, name);
        const link = linkOf(calculation, name);
        if (!link || Object.hasOwn(batch, key)) continue;
        const value = calculation.decided?.includes(name)
          ? this.#point(from, batch, memo).inputs[name]
          : undefined;
        if (value !== undefined) pinned[key] = value;
        else visit(link.calculation);
      }
    };
    visit(id);
    return Object.keys(pinned).length === 0 ? batch : { ...batch, ...pinned };
  }

  /** The stated standard uncertainty of an input at its present value, SI; 0 where none is stated. */
  standardUncertainty(key: string, input: Input, batch: BatchValues): number {
    const at = batch[key] ?? input.default;
    if (input.kind !== "number" || !input.uncertainty || typeof at !== "number") return 0;
    return "absolute" in input.uncertainty
      ? input.uncertainty.absolute
      : Math.abs(at) * input.uncertainty.relative;
  }

  /**
   * Computes again and again with as little around it as can be: for draws.
   *
   * @param batch - the values that stay, and which keys stand in place of a link
   * @param moving - keys of numbers that change from turn to turn
   * @param names - results asked for; a result that `compute` gives by a getter costs nothing unasked
   * @returns from the moving values, in their order, those results in theirs; `undefined` where refused
   */
  runner(
    id: string,
    batch: BatchValues,
    moving: readonly string[],
    names: readonly string[] = Object.keys(this.get(id).results),
  ): (moved: Float64Array) => readonly ComputedValue[] | undefined {
    const top = this.#chain(id, batch, moving, names);
    let turn = 0;
    return (moved) => top.run(moved, ++turn);
  }

  /** A calculation and all that it links to, ready to be run again and again. */
  #chain(
    id: string,
    batch: BatchValues,
    moving: readonly string[],
    names: readonly string[],
  ): Stage {
    const places = new Map(moving.map((key, place) => [key, place]));
    const given = (key: string): boolean => places.has(key) || Object.hasOwn(batch, key);
    const asked = this.#asked(id, given, names);
    const placeOf = ({ calculation, result }: Link): number =>
      [...(asked.get(calculation) ?? [])].indexOf(result);
    const stages = new Map<string, Stage>();
    const stageOf = (from: string): Stage => {
      const known = stages.get(from);
      if (known) return known;
      const calculation = this.get(from);
      const inputs: Record<string, InputValue> = {};
      const readers: Reader[] = [];
      let sound = true;
      for (const [name, input] of Object.entries(calculation.inputs)) {
        const key = keyOf(calculation, name);
        const link = given(key) ? undefined : linkOf(calculation, name);
        const place = places.get(key);
        if (link)
          readers.push({
            name,
            input: input as Quantity,
            place: placeOf(link),
            upstream: stageOf(link.calculation),
          });
        else if (place !== undefined)
          readers.push({ name, input: input as Quantity, place, upstream: undefined });
        else {
          const value = measurable(batch[key] ?? input.default);
          inputs[name] = value;
          sound &&= isInside(input, value);
        }
      }
      const wanted = [...(asked.get(from) ?? [])];
      const stage = new Stage(calculation, sound ? inputs : undefined, readers, wanted);
      stages.set(from, stage);
      return stage;
    };
    return stageOf(id);
  }

  /** Which results of each calculation on the way are read by what comes after it. */
  #asked(
    id: string,
    given: (key: string) => boolean,
    names: readonly string[],
  ): ReadonlyMap<string, ReadonlySet<string>> {
    const asked = new Map([[id, new Set(names)]]);
    const visit = (from: string): void => {
      const calculation = this.get(from);
      for (const name of Object.keys(calculation.links ?? {})) {
        const link = linkOf(calculation, name);
        if (!link || given(keyOf(calculation, name))) continue;
        const results = asked.get(link.calculation);
        asked.set(link.calculation, (results ?? new Set()).add(link.result));
        if (!results) visit(link.calculation);
      }
    };
    visit(id);
    return asked;
  }

  /** Values without bands, or `null` where refused: for figures and roots. */
  run(id: string, batch: BatchValues): Values | null {
    const { computed } = this.#point(id, batch, new Map());
    if (!computed) return null;
    return Object.fromEntries(
      Object.entries(computed).map(([name, value]) => [name, withBand(value, 0)]),
    );
  }

  /**
   * As {@link run}, at one place after another, such as along a curve: what does not change is worked out once.
   *
   * @returns from the values that differ from the batch, by key, to the values there without bands, or `null`
   *   where refused
   */
  sampler(id: string, batch: BatchValues): (moved: BatchValues) => Values | null {
    const names = Object.keys(this.get(id).results);
    let keys: readonly string[] = [];
    let chain: ReturnType<Graph["runner"]> | undefined;
    return (moved) => {
      const now = Object.keys(moved);
      const at = Object.values(moved);
      if (!at.every((value) => typeof value === "number"))
        return this.run(id, { ...batch, ...moved });
      if (now.length !== keys.length || now.some((key, i) => key !== keys[i])) chain = undefined;
      keys = now;
      chain ??= this.runner(id, batch, keys, names);
      const computed = chain(Float64Array.from(at));
      if (!computed) return null;
      const values: Record<string, Banded | null> = {};
      names.forEach((name, i) => (values[name] = withBand(computed[i] ?? null, 0)));
      return values;
    };
  }

  /** The inputs with each uncertain quantity behind them moved by its standard uncertainty, both ways. */
  spread(id: string, reader: BatchValues): readonly Moved<Inputs>[] {
    const batch = this.decide(id, reader);
    const doubts = this.#doubts(id, batch);
    const keys = doubts.map(({ key }) => key);
    const top = this.#chain(id, batch, keys, []);
    let turn = 0;
    return bothWays(
      doubts,
      (moved) => top.inputsAt(moved, ++turn) as InputValues<Inputs> | undefined,
    );
  }

  /** Every uncertain quantity of the basis, where it is and how far it may be moved inside its limits. */
  #doubts(id: string, batch: BatchValues): readonly Doubt[] {
    return [...this.basis(id, batch)].flatMap(([key, input]): Doubt[] => {
      const u = this.standardUncertainty(key, input, batch);
      const at = batch[key] ?? input.default;
      if (u === 0 || input.kind !== "number" || typeof at !== "number") return [];
      const { min, max } = input.limits;
      return [{ key, input, u, at, low: Math.max(at - u, min), high: Math.min(at + u, max) }];
    });
  }

  #point(id: string, batch: BatchValues, memo: Map<string, Point>): Point {
    const known = memo.get(id);
    if (known) return known;
    const calculation = this.get(id);
    const { inputs, origins, refusals } = this.#gather(id, batch, memo);
    let point: Point = { inputs, origins, computed: undefined, refusals };
    if (refusals.length === 0)
      try {
        // Read each result here, where a refusal is caught: some are worked out when they are asked for.
        const results = calculation.compute(inputs as never);
        const computed: Record<string, ComputedValue> = {};
        for (const name of Object.keys(calculation.results))
          computed[name] = results[name] as never;
        point = { ...point, computed };
      } catch (error) {
        point = { ...point, refusals: [refusalOf(calculation, error)] };
      }
    memo.set(id, point);
    return point;
  }

  /** Each input's value and where it came from, with refusals where one is missing or outside its limits. */
  #gather(id: string, batch: BatchValues, memo: Map<string, Point>): Gathered {
    const calculation = this.get(id);
    const inputs: Record<string, InputValue> = {};
    const origins: Record<string, Origin> = {};
    const own: Refusal[] = [];
    const waiting: Refusal[] = [];
    for (const [name, input] of Object.entries(calculation.inputs)) {
      const key = keyOf(calculation, name);
      const link = linkOf(calculation, name);
      let value: InputValue | undefined = batch[key];
      if (value !== undefined) origins[name] = "reader";
      else if (link) {
        origins[name] = link;
        const given = this.#linked(link, batch, memo);
        if (typeof given === "number") value = given;
        else {
          waiting.push({ input: name, say: given });
          continue;
        }
      } else {
        origins[name] = "default";
        value = input.default;
      }
      value = measurable(value);
      inputs[name] = value;
      const refusal = outside(name, input, value);
      if (refusal) own.push(refusal);
    }
    // What upstream lacks is often the same fault said again: it is named only where nothing here is.
    return { inputs, origins, refusals: own.length > 0 ? own : waiting };
  }

  #linked(link: Link, batch: BatchValues, memo: Map<string, Point>): number | Refusal["say"] {
    const upstream = this.#point(link.calculation, batch, memo);
    const title = this.get(link.calculation).title;
    if (!upstream.computed)
      return [
        `This comes from “${title}”, which has no answer yet: `,
        ...(upstream.refusals[0]?.say ?? []),
      ];
    const given = upstream.computed[link.result];
    if (given === undefined)
      throw new TypeError(`${link.calculation} has no result "${link.result}"`);
    if (given === null) return [`“${title}” gives no value here. Type one.`];
    return typeof given === "number" ? given : given.value;
  }

  #influences(id: string, batch: BatchValues, computed: Computed<Results>): readonly Influence[] {
    const calculation = this.get(id);
    const doubts = this.#doubts(id, batch);
    const names = Object.keys(computed);
    const middles = names.map((name) => centre(computed[name] ?? null));
    const run = this.runner(
      id,
      batch,
      doubts.map(({ key }) => key),
      names,
    );
    const ends = bothWays(doubts, run);
    return doubts.map(({ key, input, u, at, low, high }, i) => {
      const { above, below } = ends[i] as (typeof ends)[number];
      const effects: Record<string, number> = {};
      names.forEach((name, j) => {
        const middle = middles[j];
        if (middle === undefined) return;
        const up = above && centre(above[j] ?? null);
        const down = below && centre(below[j] ?? null);
        // The slope over what could be moved, times u: at a limit or beside a refusal one side is all there is.
        const [top, x1] = up === undefined ? [middle, at] : [up, high];
        const [bottom, x0] = down === undefined ? [middle, at] : [down, low];
        const byFactor = calculation.results[name]?.byFactor && top > 0 && bottom > 0 && middle > 0;
        const change = byFactor ? middle * Math.log(top / bottom) : top - bottom;
        effects[name] = x1 === x0 ? 0 : (change / (x1 - x0)) * u;
      });
      return { key, quantity: input, standardUncertainty: u, effects };
    });
  }
}

/**
 * What comes of each doubt alone being moved to either of its ends; `undefined` where an end is where it is.
 *
 * @param ask - of the values of all doubts, in their order; first where none is moved, for a chain to keep
 */
function bothWays<T>(
  doubts: readonly Doubt[],
  ask: (moved: Float64Array) => T | undefined,
): readonly { readonly above: T | undefined; readonly below: T | undefined }[] {
  const moved = Float64Array.from(doubts, ({ at }) => at);
  ask(moved);
  const askAt = (i: number, value: number): T | undefined => {
    const at = moved[i] as number;
    if (value === at) return undefined;
    moved[i] = value;
    const answer = ask(moved);
    moved[i] = at;
    return answer;
  };
  return doubts.map(({ low, high }, i) => ({ above: askAt(i, high), below: askAt(i, low) }));
}

/** An input whose number changes: its place among the moving values, or among the results of a stage before. */
interface Reader {
  readonly name: string;
  readonly input: Quantity;
  readonly place: number;
  readonly upstream: Stage | undefined;
}

/**
 * One calculation of a chain that is run again and again: a hundred thousand times where it is drawn. So what
 * each turn asks of an input lies in rows of numbers, not in the input's declaration.
 */
class Stage {
  readonly #calculation: AnyCalculation;
  readonly #inputs: Record<string, InputValue> | undefined;
  readonly #wanted: readonly string[];
  readonly #readers: readonly Reader[];
  readonly #least: Float64Array;
  readonly #most: Float64Array;
  readonly #read: Float64Array;
  /** what was read in the first turn that was not refused, and what came of it */
  readonly #firstRead: Float64Array;
  #first: readonly ComputedValue[] | undefined;
  #results: readonly ComputedValue[] | undefined;
  #turn = 0;

  /** @param inputs - those that stay, the others being put there in each turn; nothing where one is refused */
  constructor(
    calculation: AnyCalculation,
    inputs: Record<string, InputValue> | undefined,
    readers: readonly Reader[],
    wanted: readonly string[],
  ) {
    this.#calculation = calculation;
    this.#inputs = inputs;
    this.#wanted = wanted;
    this.#readers = readers;
    this.#least = Float64Array.from(readers, ({ input }) => input.limits.min);
    this.#most = Float64Array.from(readers, ({ input }) => input.limits.max);
    this.#read = new Float64Array(readers.length);
    this.#firstRead = new Float64Array(readers.length);
  }

  run(moved: Float64Array, turn: number): readonly ComputedValue[] | undefined {
    // What nothing moves is worked out once.
    if (this.#turn === turn || (this.#turn > 0 && this.#readers.length === 0)) return this.#results;
    this.#turn = turn;
    this.#results = undefined;
    const inputs = this.#inputs;
    if (!inputs || !this.#readAll(moved, turn)) return undefined;
    // Where one quantity is moved at a time, most of what lies upstream stays as it was at first.
    if (this.#first && this.#asAtFirst()) return (this.#results = this.#first);
    const readers = this.#readers;
    const read = this.#read;
    const wanted = this.#wanted;
    for (let i = 0; i < readers.length; i++)
      inputs[(readers[i] as Reader).name] = read[i] as number;
    try {
      const computed = this.#calculation.compute(inputs as never);
      const results: ComputedValue[] = [];
      for (let i = 0; i < wanted.length; i++) results.push(computed[wanted[i] as string] ?? null);
      this.#results = results;
    } catch (error) {
      refusalOf(this.#calculation, error);
      return undefined;
    }
    if (!this.#first) {
      this.#first = this.#results;
      this.#firstRead.set(this.#read);
    }
    return this.#results;
  }

  /** What this calculation is given in a turn; `undefined` where an input is refused. */
  inputsAt(moved: Float64Array, turn: number): Readonly<Record<string, InputValue>> | undefined {
    if (!this.#inputs || !this.#readAll(moved, turn)) return undefined;
    const read = this.#readers.map(({ name }, i) => [name, this.#read[i] as number] as const);
    return { ...this.#inputs, ...Object.fromEntries(read) };
  }

  /** @returns whether every input has a value, inside its limits */
  #readAll(moved: Float64Array, turn: number): boolean {
    const [readers, read, least, most] = [this.#readers, this.#read, this.#least, this.#most];
    for (let i = 0; i < readers.length; i++) {
      const { place, upstream, input } = readers[i] as Reader;
      let value = moved[place] as number;
      if (upstream) value = centre(upstream.run(moved, turn)?.[place] ?? null) ?? Number.NaN;
      if (value > 0 && value < SMALLEST) value = 0;
      if (!(value >= (least[i] as number) && value <= (most[i] as number))) return false;
      if (input.whole && !Number.isInteger(value)) return false;
      read[i] = value;
    }
    return true;
  }

  #asAtFirst(): boolean {
    const [read, first] = [this.#read, this.#firstRead];
    for (let i = 0; i < read.length; i++) if (read[i] !== first[i]) return false;
    return true;
  }
}

/** The value, or nothing where it is too small to be anything. */
function measurable<T extends InputValue | undefined>(value: T): T | 0 {
  return typeof value === "number" && value > 0 && value < SMALLEST ? 0 : value;
}

function centre(value: Computed<Results>[string]): number | undefined {
  return value === null ? undefined : typeof value === "number" ? value : value.value;
}

function withBand(
  computed: Computed<Results>[string],
  half: number,
  { bounds, byFactor }: Pick<Result, "bounds" | "byFactor"> = {},
): Banded | null {
  if (computed === null) return null;
  const own =
    typeof computed === "number" ? { value: computed, low: computed, high: computed } : computed;
  const { value } = own;
  const [down, up] =
    byFactor && value > 0
      ? [value * -Math.expm1(-half / value), value * Math.expm1(Math.min(half / value, MOST_LOG))]
      : [half, half];
  const low = value - Math.hypot(value - own.low, down);
  const high = value + Math.hypot(own.high - value, up);
  return {
    value,
    low: Math.min(value, Math.max(low, bounds?.min ?? -Infinity)),
    high: Math.max(value, Math.min(high, bounds?.max ?? Infinity)),
  };
}

function outside(name: string, input: Input, value: InputValue): Refusal | undefined {
  if (isInside(input, value)) return undefined;
  if (input.kind === "choice") {
    const offered = input.options.map((option) => option.value).join(", ");
    return { input: name, say: [`${input.label}: choose one of ${offered}.`] };
  }
  if (input.kind === "readings")
    return { input: name, say: faultOf(input, value) ?? [`${input.label}: give rows.`] };
  const { min, max } = input.limits;
  return {
    input: name,
    say: [
      `${input.label} must be ${input.whole ? "a whole number " : ""}`,
      ...phrase`from ${amount(min, input)} to ${amount(max, input)}.`,
    ],
  };
}

function isInside(input: Input, value: InputValue): boolean {
  if (input.kind === "choice") return input.options.some((option) => option.value === value);
  if (input.kind === "readings") return faultOf(input, value) === undefined;
  const { min, max } = input.limits;
  if (typeof value !== "number" || (input.whole && !Number.isInteger(value))) return false;
  return value >= min && value <= max;
}

/**
 * Every input that a graph asks for by its batch key, with the first calculation that asks and its name there.
 *
 * @param first - ids that come before the others, whatever order they were loaded in
 */
export function inputsByKey(
  graph: Graph,
  first: readonly string[] = [],
): ReadonlyMap<string, { readonly input: Input; readonly from: string; readonly name: string }> {
  const found = new Map<string, { input: Input; from: string; name: string }>();
  for (const id of new Set([...first, ...graph.calculations.keys()])) {
    const calculation = graph.calculations.get(id);
    for (const [name, input] of Object.entries(calculation?.inputs ?? {})) {
      const key = keyOf(calculation as AnyCalculation, name);
      if (!found.has(key)) found.set(key, { input, from: id, name });
    }
  }
  return found;
}
