import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { figureData } from "../../../components/figure/data.ts";
import type {
  AnyCalculation,
  Input,
  InputValue,
  Quantity,
  Readings,
  Result,
  Rows,
} from "../../../lib/calculations/calculation.ts";
import { keyOf, linkOf, type BatchValues, type Outcome } from "../../../lib/calculations/graph.ts";
import { CALCULATION_IDS, loadGraph } from "../../../lib/calculations/registry.ts";
import { say, show, showAmount } from "../../../lib/calculations/say.ts";
import { solveFor } from "../../../lib/calculations/solve.ts";
import { UNITS } from "../../../lib/units/units.ts";

// Thousands of evaluations a test: a busy machine may need longer than usual, and nothing waits on a clock.
vi.setConfig({ testTimeout: 120_000 });

const graph = await loadGraph();
const calculations = CALCULATION_IDS.map((id) => graph.get(id));
const SEED = 20_250_101;

/** Anywhere in the range: evenly, by decades where it has several, and often at its ends. */
function within({ limits: { min, max }, whole }: Quantity): fc.Arbitrary<number> {
  if (whole) return fc.integer({ min, max });
  const even = fc.double({ min, max, noNaN: true });
  const floor = min > 0 ? min : max * 1e-6;
  const decades = fc
    .double({ min: 0, max: 1, noNaN: true })
    .map((x) => Math.min(Math.max(floor * (max / floor) ** x, min), max));
  return fc.oneof(
    { weight: 4, arbitrary: even },
    { weight: max > 0 && max / floor > 100 ? 4 : 0, arbitrary: decades },
    { weight: 1, arbitrary: fc.constantFrom(min, max) },
  );
}

function anyOf(input: Input): fc.Arbitrary<InputValue> {
  if (input.kind === "number") return within(input);
  if (input.kind === "choice") return fc.constantFrom(...input.options.map(({ value }) => value));
  const rows = fc.array(anyRow(input), { minLength: input.count.min, maxLength: 20 });
  return fc.oneof(fc.constant(input.default), rows);
}

function anyRow({ columns }: Readings): fc.Arbitrary<Rows[number]> {
  return fc.tuple(
    ...columns.map(({ limits: { min, max }, words, optional }) => {
      const cell = words ? fc.integer({ min, max }) : fc.double({ min, max, noNaN: true });
      return optional ? fc.option(cell) : cell;
    }),
  );
}

/** Inside the range and off its ends: where an answer has neighbours on both sides. */
function inside({ limits: { min, max }, whole }: Quantity): fc.Arbitrary<number> {
  if (whole) return fc.integer({ min, max });
  return fc.integer({ min: 10, max: 990 }).map((x) => min + ((max - min) * x) / 1000);
}

/** Every input of the calculation typed over, links too. */
function typed(
  calculation: AnyCalculation,
  numberIn: (input: Quantity) => fc.Arbitrary<number> = within,
  rowsIn: (input: Readings) => fc.Arbitrary<InputValue> = anyOf,
): fc.Arbitrary<BatchValues> {
  return fc.record(
    Object.fromEntries(
      Object.entries(calculation.inputs).map(([name, input]) => [
        keyOf(calculation, name),
        input.kind === "number"
          ? numberIn(input)
          : input.kind === "readings"
            ? rowsIn(input)
            : anyOf(input),
      ]),
    ),
  );
}

/** Links left in place: what they start from is random. */
function linked(calculation: AnyCalculation): fc.Arbitrary<BatchValues> {
  return fc.record(
    Object.fromEntries([...graph.basis(calculation.id, {})].map(([key, i]) => [key, anyOf(i)])),
  );
}

/** Every input at its default, links too: one fault at a time can then be seen. */
function atDefaults(calculation: AnyCalculation): BatchValues {
  return Object.fromEntries(
    Object.entries(calculation.inputs).map(([name, input]) => [
      keyOf(calculation, name),
      input.default,
    ]),
  );
}

function numbers(calculation: AnyCalculation): readonly (readonly [string, Quantity])[] {
  return Object.entries(calculation.inputs).filter(
    (entry): entry is [string, Quantity] => entry[1].kind === "number",
  );
}

/** Whether the result goes up on both sides of this input, or down on both, within one step of the search. */
function turnsAt(
  calculation: AnyCalculation,
  batch: BatchValues,
  input: string,
  result: string,
): boolean {
  const { limits } = calculation.inputs[input] as Quantity;
  const key = keyOf(calculation, input);
  const step = (limits.max - limits.min) / 240;
  const [below, here, above] = [-step, 0, step].map(
    (by) =>
      graph.run(calculation.id, { ...batch, [key]: Number(batch[key]) + by })?.[result]?.value,
  );
  return below !== undefined && above !== undefined && (below - here!) * (above - here!) >= 0;
}

const NOT_A_SENTENCE = /undefined|NaN|Infinity|null|\[object/;

function expectSound(calculation: AnyCalculation, outcome: Outcome): void {
  if (!outcome.ok) {
    expect(outcome.refusals.length).toBeGreaterThan(0);
    for (const refusal of outcome.refusals) {
      expect(Object.keys(calculation.inputs)).toContain(refusal.input);
      expect(say(refusal.say)).not.toMatch(NOT_A_SENTENCE);
      expect(say(refusal.say)).toMatch(/\.$/);
    }
    return;
  }
  expect(Object.keys(outcome.values)).toEqual(Object.keys(calculation.results));
  for (const [name, value] of Object.entries(outcome.values)) {
    if (value === null) continue;
    for (const x of [value.low, value.value, value.high])
      expect(Number.isFinite(x), `${name} is ${x}`).toBe(true);
    expect(value.low, name).toBeLessThanOrEqual(value.value);
    expect(value.value, name).toBeLessThanOrEqual(value.high);
    const result = calculation.results[name]!;
    // Rounding may pass a bound by a hair.
    const hair = 1e-9 * (1 + Math.abs(value.value));
    expect(value.value).toBeGreaterThanOrEqual((result.bounds?.min ?? -Infinity) - hair);
    expect(value.value).toBeLessThanOrEqual((result.bounds?.max ?? Infinity) + hair);
    for (const unit of result.units) {
      const { number, band } = show(value, result, unit);
      expect(`${number} ${band} ${showAmount(value.value, result, unit)}`).not.toMatch(
        NOT_A_SENTENCE,
      );
    }
  }
  for (const notice of outcome.cautions) expect(say(notice.say)).not.toMatch(NOT_A_SENTENCE);
}

describe.each(calculations.map((calculation) => [calculation.id, calculation] as const))(
  "%s",
  (id, calculation) => {
    // A fit is a search, and a band asks for a dozen of them: fewer random benches do.
    const fitted = Object.values(calculation.inputs).some(({ kind }) => kind === "readings");
    const runs = (most: number): { seed: number; numRuns: number } => ({
      seed: SEED,
      numRuns: fitted ? Math.ceil(most / 20) : most,
    });

    it("gives finite values inside their bands, or says which input is at fault", () => {
      fc.assert(
        fc.property(fc.oneof(typed(calculation), linked(calculation)), (batch) => {
          expectSound(calculation, graph.evaluate(id, batch));
        }),
        runs(120),
      );
    });

    it.each(numbers(calculation))("takes the ends of %s, or refuses by name", (name, input) => {
      for (const end of [input.limits.min, input.limits.max]) {
        const batch = { ...atDefaults(calculation), [keyOf(calculation, name)]: end };
        expectSound(calculation, graph.evaluate(id, batch));
      }
    });

    it.each(numbers(calculation))("refuses %s outside its range by name", (name, input) => {
      const { min, max } = input.limits;
      const hair = (edge: number): number => Math.max(Math.abs(edge) * 1e-9, 1e-15);
      for (const wrong of [
        min - hair(min),
        max + hair(max),
        Number.NaN,
        Infinity,
        -Infinity,
        "12" as const,
      ]) {
        const batch = { ...atDefaults(calculation), [keyOf(calculation, name)]: wrong };
        const outcome = graph.evaluate(id, batch);
        expect(outcome.ok, `${wrong}`).toBe(false);
        expect(outcome.ok ? [] : outcome.refusals.map((r) => r.input)).toEqual([name]);
        expectSound(calculation, outcome);
        expect(graph.run(id, batch)).toBeNull();
      }
    });

    it.skipIf(calculation.onlyForward)("finds the input again that gave a result", () => {
      const movable = numbers(calculation).filter(([, { whole }]) => !whole);
      const moving = fc.constantFrom(...movable.map(([name]) => name));
      const wanted = fc.constantFrom(...Object.keys(calculation.results));
      // Readings at random carry no fit; the search asks for hundreds of fits a run.
      const batches = typed(calculation, inside, (input) => fc.constant(input.default));
      fc.assert(
        fc.property(batches, batches, moving, wanted, (there, here, input, result) => {
          const key = keyOf(calculation, input);
          const from = { ...there, [key]: here[key]! };
          const value = graph.run(id, there)?.[result]?.value;
          const before = graph.run(id, from)?.[result]?.value ?? Number.NaN;
          // Only where the result exists and this input moves it by more than rounding does.
          fc.pre(value !== undefined && Math.abs(value) > 1e-12);
          fc.pre(!(Math.abs(value! - before) <= 1e-6 * Math.abs(value!)));
          const solved = solveFor(graph, id, from, { result, value: value! }, input);
          if (!solved.ok) {
            expect(say(solved.say)).not.toMatch(NOT_A_SENTENCE);
            // The value was reached a moment ago, so only "which one?" is a fair answer; or that it is out
            // of reach by less than the search can tell, at a turning point.
            if (!turnsAt(calculation, there, input, result))
              expect(say(solved.say)).toMatch(/^(Several values|Any value)/);
            return;
          }
          const again = graph.run(id, { ...there, [key]: solved.value })?.[result]?.value;
          expect(again).toBeDefined();
          expect(Math.abs(again! - value!)).toBeLessThanOrEqual(1e-6 * Math.abs(value!) + 1e-15);
        }),
        runs(40),
      );
    });

    for (const figure of calculation.figures ?? [])
      it(`draws ${figure.id} from finite numbers`, () => {
        fc.assert(
          fc.property(typed(calculation), (batch) => {
            const outcome = graph.evaluate(id, batch);
            if (!outcome.ok) return;
            const data = figureData(graph, calculation, figure.id, outcome, batch);
            const drawn =
              "bars" in data
                ? data.bars.map(({ value }) => value)
                : "rows" in data
                  ? data.rows.flatMap(({ spans }) => spans.flatMap(({ from, to }) => [from, to]))
                  : [
                      ...data.lines.flatMap(({ points }) => points.flat()),
                      ...(data.bands ?? []).flatMap(({ points }) => points.flat()),
                      ...(data.marks ?? []).flatMap(({ x, y }) => [x, y]),
                      ...(data.rules ?? []).map(({ y }) => y),
                      ...(data.x.domain ?? []),
                      ...(data.y.domain ?? []),
                    ];
            expect(drawn.filter((number) => !Number.isFinite(number))).toEqual([]);
            const axes = "lines" in data ? [data.x, data.y] : [data.x];
            for (const { of } of axes)
              for (const unit of of.units) expect(Object.keys(UNITS[of.dimension])).toContain(unit);
          }),
          runs(30),
        );
      });

    it("names only units that its dimensions have", () => {
      const all = [
        ...Object.values(calculation.results),
        ...numbers(calculation).map(([, i]) => i),
      ];
      for (const { label, dimension, units } of all) {
        expect(units.length, label).toBeGreaterThan(0);
        for (const unit of units) expect(Object.keys(UNITS[dimension]), label).toContain(unit);
      }
    });

    it("starts from values inside their limits, presets too", () => {
      for (const [name, { limits, default: start, presets = [] }] of numbers(calculation)) {
        expect(limits.min, name).toBeLessThan(limits.max);
        for (const value of [start, ...presets.map((preset) => preset.value)]) {
          expect(value, name).toBeGreaterThanOrEqual(limits.min);
          expect(value, name).toBeLessThanOrEqual(limits.max);
        }
      }
      for (const input of Object.values(calculation.inputs))
        if (input.kind === "choice")
          expect(input.options.map(({ value }) => value)).toContain(input.default);
      expectSound(calculation, graph.evaluate(id, {}));
      expect(graph.evaluate(id, {}).ok).toBe(true);
    });

    it("writes its steps with names it has, each result once", () => {
      const known = [...Object.keys(calculation.inputs), ...Object.keys(calculation.results)];
      const shown = calculation.steps.map(({ result, tex }) => {
        expect(Object.keys(calculation.results)).toContain(result);
        tex((name) => {
          expect(known).toContain(name);
          return name;
        });
        return result;
      });
      expect(shown).toEqual([...new Set(shown)]);
    });

    it("gives each quantity of its equations a symbol of its own", () => {
      const symbols = new Map<string, string>();
      const named = (name: string): string => {
        const { symbol } = (calculation.results[name] ?? calculation.inputs[name]) as Result;
        expect(symbols.get(symbol) ?? name, symbol).toBe(name);
        symbols.set(symbol, name);
        return name;
      };
      for (const { result, tex } of calculation.steps) {
        named(result);
        tex(named);
      }
    });

    it("does not call an input and a result by one name", () => {
      const both = Object.keys(calculation.inputs).filter((name) =>
        Object.hasOwn(calculation.results, name),
      );
      expect(both).toEqual([]);
    });

    it("blames and decides only inputs that it has, and decides only linked ones", () => {
      for (const input of Object.values(calculation.blame ?? {}))
        expect(Object.keys(calculation.inputs)).toContain(input);
      for (const input of calculation.decided ?? [])
        expect(calculation.links?.[input], input).toBeTypeOf("string");
    });

    it("links to results that exist and are of the same kind", () => {
      for (const [name, input] of Object.entries(calculation.inputs)) {
        const link = linkOf(calculation, name);
        if (!link) continue;
        const result = graph.get(link.calculation).results[link.result];
        expect(result, `${name} from ${link.calculation}.${link.result}`).toBeDefined();
        expect(input.kind === "number" && input.dimension).toBe(result?.dimension);
      }
      for (const name of Object.keys(calculation.links ?? {}))
        expect(Object.keys(calculation.inputs)).toContain(name);
    });
  },
);

describe("the calculations together", () => {
  it("have the ids they are registered under", () => {
    expect(calculations.map(({ id }) => id)).toEqual([...CALCULATION_IDS]);
  });

  it("link in no circle", () => {
    const visit = (id: string, path: readonly string[]): void => {
      expect(path, `circle at ${id}`).not.toContain(id);
      for (const name of Object.keys(graph.get(id).inputs)) {
        const link = linkOf(graph.get(id), name);
        if (link) visit(link.calculation, [...path, id]);
      }
    };
    for (const { id } of calculations) visit(id, []);
  });

  it("declare each quantity once", () => {
    const seen = new Map<string, Input>();
    for (const calculation of calculations)
      for (const input of Object.values(calculation.inputs)) {
        const known = seen.get(input.name) ?? input;
        seen.set(input.name, input);
        expect(input === known, `${input.name} has two declarations`).toBe(true);
      }
  });

  it("say by one label one quantity", () => {
    const names = new Map<string, string>();
    for (const calculation of calculations)
      for (const { name, label } of Object.values(calculation.inputs)) {
        expect(names.get(label) ?? name, label).toBe(name);
        names.set(label, name);
      }
  });
});
