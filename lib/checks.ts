import * as v from "valibot";
import type { Banded, InputValue } from "./calculations/calculation.ts";
import { keyOf, type Graph } from "./calculations/graph.ts";
import { say } from "./calculations/say.ts";
import * as buoyancy from "./laws/buoyancy.ts";
import * as convection from "./laws/convection.ts";
import * as evaporation from "./laws/evaporation.ts";
import * as flashPoint from "./laws/flash-point.ts";
import * as flaw from "./laws/flaw.ts";
import * as hydrometer from "./laws/hydrometer.ts";
import * as iceCooling from "./laws/ice-cooling.ts";
import * as lumpedCooling from "./laws/lumped-cooling.ts";
import * as oxygen from "./laws/oxygen.ts";
import * as proof from "./laws/proof.ts";
import * as thermalStress from "./laws/thermal-stress.ts";
import * as storageLoss from "./laws/storage-loss.ts";
import * as air from "./substances/air.ts";
import * as ascorbicAcid from "./substances/ascorbic-acid.ts";
import * as ethanolWater from "./substances/ethanol-water.ts";
import * as glass from "./substances/glass.ts";
import * as lecithin from "./substances/lecithin.ts";
import * as water from "./substances/water.ts";
import { parse } from "./units/parse.ts";
import { fromSI, unitOf, UNITS, type Dimension } from "./units/units.ts";

/** What a check compares: a number of ours, as data, so that a page can show how it was reached. */
export type Subject =
  | {
      readonly calculation: string;
      /** By the calculation's own names: SI numbers, or text as a field reads it ("60 °F"). */
      readonly inputs: Readonly<Record<string, InputValue>>;
      readonly result: string;
    }
  /** What a field starts from. */
  | { readonly calculation: string; readonly default: string }
  /** A function of lib, by path without ".ts"; arguments in SI. */
  | { readonly module: string; readonly function: string; readonly arguments: readonly Term[] }
  | { readonly module: string; readonly constant: string }
  /** The first over the second. */
  | { readonly ratio: readonly [Term, Term] };

export type Term = number | Subject;

/** How the published figure was consulted. */
export const HOW = ["seen", "memory", "computed", "common practice"] as const;

/** A published figure and the number of ours that it is held against. */
export interface Check {
  readonly id: string;
  /** The table it stands in: checks of one table follow one another. */
  readonly table: string;
  readonly title: string;
  readonly subject: Subject;
  /** As printed, in `unit`. */
  readonly value: number;
  readonly unit: string;
  /**
   * Says that `unit` is one of lib/units, for a subject that is not a result. Without it the unit is a
   * text, and ours is shown in SI or by `per`.
   */
  readonly dimension?: Dimension;
  /** One printed unit in SI, where lib/units has no such unit. */
  readonly per?: { readonly si: number; readonly because: string };
  /** Same unit. From the source's printed digits or what it says of its own error, never from ours. */
  readonly tolerance: number;
  /**
   * "band": ours is an estimate with a band of its own, and the figure has to meet the band. Otherwise it
   * is held against the value alone.
   */
  readonly against?: "band";
  readonly conditions: string;
  /** Id in content/sources.json. */
  readonly source: string;
  /** Table, row or page. */
  readonly where: string;
  readonly how: (typeof HOW)[number];
  readonly note?: string;
  /** The print is wrong, and why we think so: expected outside the tolerance, never tuned to. */
  readonly misprint?: string;
  /** Ours and theirs differ, and why: expected outside the tolerance, neither called wrong. */
  readonly differs?: string;
}

export interface Checked {
  /** In the check's unit. */
  readonly ours: number;
  /** Ours minus theirs. */
  readonly difference: number;
  readonly within: boolean;
}

/** Modules that a check may name. */
export const CHECK_MODULES: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  "laws/buoyancy": buoyancy,
  "laws/convection": convection,
  "laws/evaporation": evaporation,
  "laws/flash-point": flashPoint,
  "laws/flaw": flaw,
  "laws/hydrometer": hydrometer,
  "laws/ice-cooling": iceCooling,
  "laws/lumped-cooling": lumpedCooling,
  "laws/oxygen": oxygen,
  "laws/proof": proof,
  "laws/storage-loss": storageLoss,
  "laws/thermal-stress": thermalStress,
  "substances/air": air,
  "substances/ascorbic-acid": ascorbicAcid,
  "substances/ethanol-water": ethanolWater,
  "substances/glass": glass,
  "substances/lecithin": lecithin,
  "substances/water": water,
};

const text = v.pipe(v.string(), v.trim(), v.minLength(1));
const id = v.pipe(v.string(), v.regex(/^[a-z0-9]+(-[a-z0-9]+)*$/));
const finite = v.pipe(v.number(), v.finite());

const term: v.GenericSchema<Term> = v.union([finite, v.lazy(() => subject)]);
const subject: v.GenericSchema<Subject> = v.union([
  v.strictObject({
    calculation: id,
    inputs: v.record(v.string(), v.union([finite, text, v.array(v.array(v.nullable(finite)))])),
    result: text,
  }),
  v.strictObject({ calculation: id, default: text }),
  v.strictObject({ module: text, function: text, arguments: v.array(term) }),
  v.strictObject({ module: text, constant: text }),
  v.strictObject({ ratio: v.tuple([term, term]) }),
]);

const entries = {
  id,
  title: text,
  subject,
  value: finite,
  unit: text,
  dimension: v.optional(v.picklist(Object.keys(UNITS) as Dimension[])),
  per: v.optional(v.strictObject({ si: v.pipe(finite, v.gtValue(0)), because: text })),
  tolerance: v.pipe(finite, v.minValue(0)),
  against: v.optional(v.literal("band")),
  conditions: text,
  source: id,
  where: text,
  how: v.picklist(HOW),
  note: v.optional(text),
  misprint: v.optional(text),
  differs: v.optional(text),
};

const checkSchema = v.pipe(
  v.strictObject({ ...entries, table: text }),
  v.check(
    ({ misprint, differs }) => misprint === undefined || differs === undefined,
    "a figure is a misprint or a difference, not both",
  ),
  v.check(
    ({ dimension, per }) => dimension === undefined || per === undefined,
    "a unit comes from lib/units or from a note, not both",
  ),
);

const fileSchema = v.array(
  v.strictObject({
    table: text,
    /** What every check of the table has alike, said once; a check's own word goes first. */
    shared: v.partial(v.strictObject(entries)),
    checks: v.array(v.partial(v.strictObject(entries))),
  }),
);

/**
 * The checks of one file of content/checks, what a table shares filled in.
 *
 * @param data - the parsed JSON
 * @throws ValiError naming the first thing wrong with it
 */
export function readChecks(data: unknown): readonly Check[] {
  return v
    .parse(fileSchema, data)
    .flatMap(({ table, shared, checks }) =>
      checks.map((own) => v.parse(checkSchema, { ...shared, ...own, table }) as Check),
    );
}

/**
 * Computes our number for a check and compares.
 *
 * @param modules - by path without ".ts"
 * @throws TypeError for a name that does not exist, or a subject that gives no number
 */
export function runCheck(
  check: Check,
  graph: Graph,
  modules: typeof CHECK_MODULES = CHECK_MODULES,
): Checked {
  const { value, low, high } = inUnit(evaluate(check.subject, graph, modules), check, graph);
  const miss =
    check.against === "band"
      ? Math.max(low - check.value, check.value - high, 0)
      : Math.abs(value - check.value);
  return { ours: value, difference: value - check.value, within: miss <= farthestMiss(check) };
}

/**
 * How far from the printed figure ours may lie, in the check's unit: its tolerance, and the rounding that a
 * difference of decimal numbers carries. A millionth of the tolerance is beyond any print.
 */
export function farthestMiss({ tolerance, value }: Check): number {
  return tolerance * (1 + 1e-6) + 1e-12 * Math.abs(value);
}

/** Whether a check turned out as it says it does: inside the tolerance, or outside with a reason. */
export function asExpected(check: Check, { within }: Checked): boolean {
  return within === (check.misprint === undefined && check.differs === undefined);
}

/** The dimension of the check's unit; `undefined` where the unit is a text. */
export function dimensionOf({ subject, dimension }: Check, graph: Graph): Dimension | undefined {
  if (!("calculation" in subject)) return dimension;
  const calculation = graph.get(subject.calculation);
  if ("result" in subject) return calculation.results[subject.result]?.dimension;
  const input = calculation.inputs[subject.default];
  return input?.kind === "number" ? input.dimension : undefined;
}

/** The check's unit as a page writes it after a number; empty for a pure number. */
export function unitSymbol(check: Check, graph: Graph): string {
  const dimension = dimensionOf(check, graph);
  if (dimension && !check.per) return unitOf(dimension, check.unit).symbol;
  return check.unit === "1" ? "" : check.unit;
}

function inUnit(ours: Banded, check: Check, graph: Graph): Banded {
  const dimension = dimensionOf(check, graph);
  const shown = (x: number): number =>
    check.per ? x / check.per.si : dimension ? fromSI(x, dimension, check.unit) : x;
  return { value: shown(ours.value), low: shown(ours.low), high: shown(ours.high) };
}

function evaluate(term: Term, graph: Graph, modules: typeof CHECK_MODULES): Banded {
  if (typeof term === "number") return exactly(term);
  if ("ratio" in term) {
    const [over, under] = term.ratio.map((part) => evaluate(part, graph, modules)) as [
      Banded,
      Banded,
    ];
    // Both are positive in every physical ratio here.
    return {
      value: over.value / under.value,
      low: over.low / under.high,
      high: over.high / under.low,
    };
  }
  if ("calculation" in term)
    return "result" in term ? calculated(term, graph) : exactly(startOf(term, graph));
  if ("constant" in term) return number(member(modules, term.module, term.constant), term.constant);
  const call = member(modules, term.module, term.function);
  if (typeof call !== "function")
    throw new TypeError(`${term.module} has no function "${term.function}"`);
  const given = term.arguments.map((argument) => evaluate(argument, graph, modules).value);
  return number((call as (...given: number[]) => unknown)(...given), term.function);
}

function exactly(value: number): Banded {
  return { value, low: value, high: value };
}

function number(given: unknown, name: string): Banded {
  if (typeof given === "number") return exactly(given);
  if (typeof given === "object" && given !== null && "value" in given) return given as Banded;
  throw new TypeError(`"${name}" gives no number`);
}

/** A module's export, or with dots what is inside one. */
function member(modules: typeof CHECK_MODULES, path: string, name: string): unknown {
  let found: unknown = modules[path];
  if (!found)
    throw new TypeError(`no module "${path}"; there are ${Object.keys(modules).join(", ")}`);
  for (const part of name.split(".")) {
    if (typeof found !== "object" || found === null || !Object.hasOwn(found, part))
      throw new TypeError(`${path} has no "${name}"`);
    found = (found as Record<string, unknown>)[part];
  }
  return found;
}

function calculated(
  {
    calculation: id,
    inputs,
    result,
  }: { calculation: string; inputs: Readonly<Record<string, InputValue>>; result: string },
  graph: Graph,
): Banded {
  const batch = batchOf(id, inputs, graph);
  const values = graph.run(id, batch);
  if (!values) {
    const outcome = graph.evaluate(id, batch);
    const refusals = outcome.ok ? [] : outcome.refusals;
    throw new TypeError(`${id} refuses: ${refusals.map((refusal) => say(refusal.say)).join(" ")}`);
  }
  const value = values[result];
  if (!value) throw new TypeError(`${id} gives no "${result}" here`);
  return value;
}

/**
 * A check's inputs as a batch: text read as a field reads it.
 * @throws TypeError for an input that the calculation does not have, or a text that no field would take
 */
export function batchOf(
  id: string,
  inputs: Readonly<Record<string, InputValue>>,
  graph: Graph,
): Readonly<Record<string, InputValue>> {
  const calculation = graph.get(id);
  return Object.fromEntries(
    Object.entries(inputs).map(([name, given]) => {
      const key = keyOf(calculation, name);
      const input = calculation.inputs[name];
      if (typeof given !== "string" || input?.kind !== "number") return [key, given];
      const parsed = parse(given, input.dimension, input.units, input.units[0] as string);
      if (!parsed.ok) throw new TypeError(`${id}.${name}: ${parsed.message}`);
      return [key, parsed.value];
    }),
  );
}

function startOf(
  { calculation: id, default: name }: { calculation: string; default: string },
  graph: Graph,
): number {
  const input = graph.get(id).inputs[name];
  if (input?.kind !== "number") throw new TypeError(`${id} has no number input "${name}"`);
  return input.default;
}
