import { createInterface } from "node:readline";
import { parseArgs } from "node:util";
import type {
  AnyCalculation,
  Input,
  Inputs,
  InputValue,
  Readings,
  Rows,
  Table,
} from "../calculations/calculation.ts";
import {
  keyOf,
  linkOf,
  type BatchValues,
  type Graph,
  type Outcome,
} from "../calculations/graph.ts";
import { readEntry } from "../calculations/entry.ts";
import { readRows } from "../calculations/readings.ts";
import { CALCULATION_IDS, isCalculationId, loadGraph } from "../calculations/registry.ts";
import { say } from "../calculations/say.ts";
import { solveFor } from "../calculations/solve.ts";
import { parse } from "../units/parse.ts";
import { siUnit } from "../units/units.ts";

const HELP = `usage: npm run -s evaluate -- <id> '<json>'      one calculation; missing inputs take their defaults
       … <id> '<json>' --solve waterMass=0.3 --for finalVolume
       … --list                              every calculation, its inputs and results
       … --stdin                             one {"id":…,"inputs":{…}} a line, answered a line each
Numbers are SI (°C, fractions); strings are read as a form field would: "12,5 g", "70 % vol".`;

/** One answer: what the command prints, and whether it is a result. */
export interface Answer {
  readonly ok: boolean;
  readonly [field: string]: unknown;
}

function refusal(input: string, message: string): Answer {
  return { ok: false, refusals: [{ input, message }] };
}

/** Reads inputs by name into batch values, each number as SI, each string as a field would. */
function readInputs(
  calculation: AnyCalculation,
  given: Readonly<Record<string, unknown>>,
): { readonly batch: BatchValues } | { readonly refusals: Answer } {
  const batch: Record<string, InputValue> = {};
  const refusals: { input: string; message: string }[] = [];
  for (const [name, raw] of Object.entries(given)) {
    const input = Object.hasOwn(calculation.inputs, name) ? calculation.inputs[name] : undefined;
    if (!input) {
      const known = Object.keys(calculation.inputs).join(", ");
      refusals.push({
        input: name,
        message: `${calculation.id} has no input "${name}". It has ${known}.`,
      });
      continue;
    }
    const read = readInput(input, raw);
    if ("message" in read) refusals.push({ input: name, message: read.message });
    else batch[keyOf(calculation, name)] = read.value;
  }
  return refusals.length > 0 ? { refusals: { ok: false, refusals } } : { batch };
}

function readInput(
  input: Input,
  raw: unknown,
): { readonly value: InputValue } | { readonly message: string } {
  if (input.kind === "choice")
    return typeof raw === "string" ? { value: raw } : { message: "Give a name as a string." };
  if (input.kind === "readings") return readReadings(input, raw);
  // JSON has no NaN or infinity; null stands where somebody's script had one.
  if (raw === null) return { value: Number.NaN };
  if (typeof raw === "number") return { value: raw };
  if (typeof raw !== "string")
    return { message: "Give a number in SI units, or a text with a unit." };
  const read = readEntry(input, raw, input.units[0] as string);
  return read.ok ? { value: read.value } : { message: read.message };
}

/** Rows as arrays in the order of the columns, as objects by column name, or a text as the form takes it. */
function readReadings(
  input: Readings,
  raw: unknown,
): { readonly value: Rows } | { readonly message: string } {
  if (typeof raw === "string") {
    const read = readRows(input, raw);
    return read.ok ? { value: read.rows } : { message: read.message };
  }
  if (!Array.isArray(raw))
    return { message: "Give rows: arrays, objects by column name, or a text." };
  const value = raw.map((row: unknown) =>
    Array.isArray(row) || typeof row !== "object" || row === null
      ? (row as Rows[number])
      : input.columns.map(({ name }) => (row as Record<string, number | null>)[name] ?? null),
  );
  // JSON writes "on" and "off" as true and false.
  const numbers = value.map((row) =>
    Array.isArray(row) ? row.map((cell) => (typeof cell === "boolean" ? Number(cell) : cell)) : row,
  );
  return { value: numbers as Rows };
}

function answerOf(calculation: AnyCalculation, outcome: Outcome): Answer {
  if (!outcome.ok)
    return {
      ok: false,
      refusals: outcome.refusals.map(({ input, say: text }) => ({ input, message: say(text) })),
    };
  const values = Object.fromEntries(
    Object.entries(outcome.values).map(([name, value]) => {
      const result = calculation.results[name];
      return [name, value && result && { ...value, unit: siUnit(result.dimension) }];
    }),
  );
  const tables = Object.fromEntries(
    (calculation.tables ?? []).map((table) => [table.id, tableObjects(table, outcome.inputs)]),
  );
  const cautions = outcome.cautions.map(({ caution, say: text }) => ({
    caution,
    message: say(text),
  }));
  return { ok: true, inputs: outcome.inputs, values: { ...values, ...tables }, cautions };
}

/** A computed table as objects by column name, words as words. */
function tableObjects(table: Table<Inputs>, inputs: (Outcome & { ok: true })["inputs"]): unknown {
  return table
    .rows(inputs as never)
    .map((row) =>
      Object.fromEntries(
        table.columns.map(({ name, words }, i) => [
          name,
          words && row[i] !== null ? words[row[i] as number] : row[i],
        ]),
      ),
    );
}

/**
 * Evaluates one calculation by id, as the command line does.
 *
 * @param given - inputs by name: numbers in SI, strings as a form field would read them
 * @returns the outcome in plain JSON; a wrong id is a refusal too
 */
export function evaluate(
  graph: Graph,
  id: string,
  given: Readonly<Record<string, unknown>>,
  solving?: { readonly wanted: string; readonly moving: string },
): Answer {
  if (!isCalculationId(id))
    return refusal(
      "id",
      `There is no calculation "${id}". There are ${CALCULATION_IDS.join(", ")}.`,
    );
  const calculation = graph.get(id);
  const read = readInputs(calculation, given);
  if ("refusals" in read) return read.refusals;
  if (!solving) return answerOf(calculation, graph.evaluate(id, read.batch));
  return solve(graph, calculation, read.batch, solving);
}

function solve(
  graph: Graph,
  calculation: AnyCalculation,
  batch: BatchValues,
  { wanted, moving }: { readonly wanted: string; readonly moving: string },
): Answer {
  const [name = "", text = ""] = wanted.split("=");
  const result = Object.hasOwn(calculation.results, name) ? calculation.results[name] : undefined;
  if (!result)
    return refusal(
      name,
      `${calculation.id} has no result "${name}". It has ${Object.keys(calculation.results).join(", ")}.`,
    );
  if (calculation.onlyForward)
    return refusal(moving, `${calculation.id} is itself a search and is worked forward only.`);
  if (calculation.inputs[moving]?.kind !== "number")
    return refusal(moving, `${calculation.id} has no number input "${moving}" to move.`);
  const target = parse(text, result.dimension, result.units, siUnit(result.dimension));
  if (!target.ok) return refusal(name, target.message);
  const solved = solveFor(
    graph,
    calculation.id,
    batch,
    { result: name, value: target.value },
    moving,
  );
  if (!solved.ok) return refusal(moving, say(solved.say));
  const answer = answerOf(
    calculation,
    graph.evaluate(calculation.id, { ...batch, [keyOf(calculation, moving)]: solved.value }),
  );
  return { ...answer, solved: { [moving]: solved.value } };
}

/** Every calculation with its inputs and results, for scripts. */
export function list(graph: Graph): unknown {
  return CALCULATION_IDS.map((id) => {
    const calculation = graph.get(id);
    return {
      id,
      title: calculation.title,
      summary: calculation.summary,
      inputs: Object.fromEntries(
        Object.entries(calculation.inputs).map(([name, input]) => {
          const link = linkOf(calculation, name);
          const linked = link && { from: `${link.calculation}.${link.result}` };
          return [
            name,
            input.kind === "choice"
              ? { label: input.label, default: input.default, options: input.options, ...linked }
              : input.kind === "readings"
                ? {
                    label: input.label,
                    columns: input.columns.map(({ name, label, limits, words, optional }) => ({
                      name,
                      label,
                      ...limits,
                      words,
                      optional,
                    })),
                    rows: input.count,
                    default: input.default,
                  }
                : {
                    label: input.label,
                    unit: input.limits.unit,
                    min: input.limits.min,
                    max: input.limits.max,
                    default: input.default,
                    units: input.units,
                    ...linked,
                  },
          ];
        }),
      ),
      results: Object.fromEntries(
        Object.entries(calculation.results).map(([name, { label, dimension }]) => [
          name,
          { label, unit: siUnit(dimension) },
        ]),
      ),
    };
  });
}

function readObject(text: string): Readonly<Record<string, unknown>> | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === "object" && value !== null && !Array.isArray(value)
      ? (value as Record<string, unknown>)
      : undefined;
  } catch {
    return undefined;
  }
}

async function answerLines(graph: Graph): Promise<boolean> {
  let allOk = true;
  for await (const line of createInterface({ input: process.stdin })) {
    if (line.trim() === "") continue;
    const request = readObject(line);
    const inputs = request?.["inputs"] ?? {};
    const answer =
      request && typeof inputs === "object" && inputs !== null && !Array.isArray(inputs)
        ? evaluate(graph, String(request["id"]), inputs as Record<string, unknown>)
        : refusal("json", 'Give one JSON object a line: {"id":"dilution","inputs":{}}.');
    allOk &&= answer.ok;
    console.log(JSON.stringify(answer));
  }
  return allOk;
}

async function main(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      list: { type: "boolean" },
      stdin: { type: "boolean" },
      help: { type: "boolean" },
      solve: { type: "string" },
      for: { type: "string" },
    },
  });
  const [id, json = "{}"] = positionals;
  if (values.help || (!values.list && !values.stdin && id === undefined)) {
    console.log(HELP);
    return values.help ? 0 : 2;
  }
  const graph = await loadGraph();
  if (values.list) {
    console.log(JSON.stringify(list(graph), null, 2));
    return 0;
  }
  if (values.stdin) return (await answerLines(graph)) ? 0 : 2;
  const given = readObject(json);
  const answer = !given
    ? refusal("json", "The inputs are not a JSON object.")
    : (values.solve === undefined) !== (values.for === undefined)
      ? refusal("solve", "Give both: --solve result=value and --for input.")
      : evaluate(
          graph,
          id as string,
          given,
          values.solve !== undefined && values.for !== undefined
            ? { wanted: values.solve, moving: values.for }
            : undefined,
        );
  console.log(JSON.stringify(answer));
  return answer.ok ? 0 : 2;
}

if (import.meta.main) process.exitCode = await main();
