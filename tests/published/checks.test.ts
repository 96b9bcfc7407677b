import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CALCULATION_IDS, loadGraph } from "../../lib/calculations/registry.ts";
import {
  asExpected,
  batchOf,
  CHECK_MODULES,
  dimensionOf,
  readChecks,
  runCheck,
  unitSymbol,
  type Check,
  type Term,
} from "../../lib/checks.ts";
import { UNITS } from "../../lib/units/units.ts";

const content = new URL("../../content/", import.meta.url);

function read(path: string): unknown {
  return JSON.parse(readFileSync(new URL(path, content), "utf8"));
}

const graph = await loadGraph();
const files = readdirSync(new URL("checks/", content)).map(
  (file) => [file.replace(/\.json$/, ""), readChecks(read(`checks/${file}`))] as const,
);
const all = files.flatMap(([, checks]) => checks);
const sources = new Set((read("sources.json") as readonly { id: string }[]).map(({ id }) => id));

function name({ id, title, source, how }: Check): string {
  return `${id}: ${title} (${source}, ${how})`;
}

/** Units that are SI as they stand and have no place in lib/units. */
const SI_TEXTS = ["1", "J/mol"];

/** Every term of a subject, the subject itself first. */
function termsOf(term: Term): readonly Term[] {
  if (typeof term === "number") return [term];
  const inside = "ratio" in term ? term.ratio : "arguments" in term ? term.arguments : [];
  return [term, ...inside.flatMap(termsOf)];
}

describe.each(files)("content/checks/%s.json", (file, checks) => {
  const named = checks.map((check) => [name(check), check] as const);

  it.each(named.filter(([, { misprint, differs }]) => !misprint && !differs))("%s", (_, check) => {
    const { ours, within } = runCheck(check, graph);
    expect(within, `ours ${ours}, theirs ${check.value} ± ${check.tolerance}`).toBe(true);
  });

  // Not tuned to: if one of these comes inside, either it is no misprint or the library has moved.
  const outside = named.filter(([, { misprint, differs }]) => misprint ?? differs);
  if (outside.length > 0)
    it.each(outside)("stays outside what is printed for %s", (_, check) => {
      const checked = runCheck(check, graph);
      expect(checked.within, `ours ${checked.ours}`).toBe(false);
      expect(asExpected(check, checked)).toBe(true);
    });

  it("is about the calculation or the module that it is named after", () => {
    const strangers = checks.filter(
      ({ subject }) =>
        !termsOf(subject).some(
          (term) =>
            typeof term === "object" &&
            (("calculation" in term && term.calculation === file) ||
              ("module" in term && term.module.endsWith(`/${file}`))),
        ),
    );
    expect(strangers.map(({ id }) => id)).toEqual([]);
  });
});

describe("the checks", () => {
  it("have an id each", () => {
    const ids = all.map(({ id }) => id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
  });

  it("name sources that exist", () => {
    expect(all.filter(({ source }) => !sources.has(source)).map(({ source }) => source)).toEqual(
      [],
    );
  });

  it("have a unit of their dimension, or say what a unit of their own is", () => {
    for (const check of all) {
      const dimension = dimensionOf(check, graph);
      if (dimension && !check.per)
        expect(Object.keys(UNITS[dimension]), check.id).toContain(check.unit);
      else if (!check.per) expect(SI_TEXTS, check.id).toContain(check.unit);
      expect(unitSymbol(check, graph), check.id).not.toContain("undefined");
    }
  });

  it("leave the dimension to the calculation where there is one", () => {
    const twice = all.filter(({ subject, dimension }) => "calculation" in subject && dimension);
    expect(twice.map(({ id }) => id)).toEqual([]);
  });

  it("say where in the source, but no address and nobody's index", () => {
    const wrong = all.filter(({ where, note = "" }) =>
      /https?:|www\.|\.(com|org|net|gov|html?)\b|\bid \d/.test(`${where} ${note}`),
    );
    expect(wrong.map(({ id }) => id)).toEqual([]);
  });

  it("have a tolerance of nothing only for a definition", () => {
    const exact = all.filter(({ tolerance }) => tolerance === 0);
    expect(exact.map(({ id }) => id).sort()).toEqual([
      "air-density",
      "serving-upper-level",
      "us-proof-100",
      "weight-density",
    ]);
  });

  it("state every input that their result depends on", () => {
    for (const { id, subject } of all)
      for (const term of termsOf(subject)) {
        if (typeof term === "number" || !("inputs" in term)) continue;
        const batch = batchOf(term.calculation, term.inputs, graph);
        const at = graph.run(term.calculation, batch)?.[term.result]?.value;
        for (const [key, input] of graph.basis(term.calculation, batch)) {
          if (input.kind !== "number" || Object.hasOwn(batch, key)) continue;
          const moved = { ...batch, [key]: (input.default + input.limits.max) / 2 };
          const there = graph.run(term.calculation, moved)?.[term.result]?.value;
          expect(there, `${id} leans on the default of ${key}`).toBe(at);
        }
      }
  });

  it("bear on every calculation but those that only add, divide or compare", () => {
    const checked = new Set(
      all.flatMap(({ subject }) =>
        termsOf(subject).flatMap((term) =>
          typeof term === "object" && "calculation" in term ? [term.calculation] : [],
        ),
      ),
    );
    const without = CALCULATION_IDS.filter((id) => !checked.has(id));
    expect(without).toEqual([
      "composition",
      "scaling",
      "bottling",
      "skimming",
      "bottle-acid",
      "keeping",
    ]);
  });
});

describe("readChecks(data)", () => {
  const whole = {
    id: "a-check",
    title: "A check",
    subject: { module: "substances/water", function: "density", arguments: [20] },
    value: 998.2,
    unit: "kg/m³",
    dimension: "density",
    tolerance: 0.05,
    conditions: "20 °C",
    source: "tanaka-2001",
    where: "table",
    how: "memory",
  };
  const file = (own: object, shared: object = {}) => [{ table: "T", shared, checks: [own] }];

  it("fills in what a table shares, and lets a check's own word go first", () => {
    const { note, where, ...own } = { ...whole, note: "" };
    expect(note).toBe("");
    expect(readChecks(file({ ...own, how: "seen" }, { where, how: "memory" }))).toEqual([
      { ...own, where, how: "seen", table: "T" },
    ]);
  });

  it.each([
    ["an unknown word", { ...whole, sigma: 1 }],
    ["a missing source", { ...whole, source: undefined }],
    ["a value that is no number", { ...whole, value: "998" }],
    ["a tolerance below nothing", { ...whole, tolerance: -1 }],
    ["a word for how that we do not use", { ...whole, how: "heard" }],
    ["both a dimension and a unit of its own", { ...whole, per: { si: 1, because: "so" } }],
    ["both a misprint and a difference", { ...whole, misprint: "a", differs: "b" }],
  ])("refuses %s", (_, own) => {
    expect(() => readChecks(file(own))).toThrow();
  });
});

describe("runCheck(check, graph)", () => {
  const check: Check = {
    id: "a-check",
    table: "T",
    title: "A check",
    subject: { module: "m", function: "twice", arguments: [{ ratio: [3, 2] }] },
    value: 3.1,
    unit: "1",
    tolerance: 0.1,
    conditions: "none",
    source: "s",
    where: "w",
    how: "seen",
  };
  const modules = {
    m: { twice: (x: number) => 2 * x, wide: { value: 3, low: 2, high: 5 }, word: "three" },
  };

  it("gives ours and the difference, and takes the edge of the tolerance as inside", () => {
    const { ours, difference, within } = runCheck(check, graph, modules);
    expect(ours).toBe(3);
    expect(difference).toBeCloseTo(-0.1, 12);
    expect(within).toBe(true);
    expect(runCheck({ ...check, value: 3.1001 }, graph, modules).within).toBe(false);
  });

  it("turns ours into the printed unit", () => {
    const per = { si: 1 / 13, because: "thirteenths" };
    expect(runCheck({ ...check, per, value: 39 }, graph, modules).ours).toBeCloseTo(39, 12);
    const inches = { ...check, dimension: "density", unit: "g/mL", value: 0.003 } as const;
    expect(runCheck(inches, graph, modules).ours).toBeCloseTo(0.003, 15);
  });

  it("holds a figure against the band only where it says so", () => {
    const wide: Check = { ...check, subject: { module: "m", constant: "wide" }, value: 4.9 };
    expect(runCheck(wide, graph, modules).within).toBe(false);
    expect(runCheck({ ...wide, against: "band" }, graph, modules).within).toBe(true);
    expect(runCheck({ ...wide, against: "band", value: 5.2 }, graph, modules).within).toBe(false);
  });

  it.each<[string, Check["subject"]]>([
    ["a module that is not there", { module: "n", constant: "twice" }],
    ["a function that is not there", { module: "m", function: "thrice", arguments: [] }],
    ["a constant that is no number", { module: "m", constant: "word" }],
    ["a name from every object's prototype", { module: "m", constant: "toString" }],
    ["a calculation that is not there", { calculation: "x", inputs: {}, result: "y" }],
    ["a result that is not there", { calculation: "spoon", inputs: {}, result: "y" }],
    ["an input that is not there", { calculation: "spoon", inputs: { y: 1 }, result: "massLow" }],
    [
      "inputs that the calculation refuses",
      { calculation: "spoon", inputs: { volume: "9 L" }, result: "massLow" },
    ],
    [
      "a text that no field takes",
      { calculation: "spoon", inputs: { volume: "a pinch" }, result: "massLow" },
    ],
  ])("names %s", (_, subject) => {
    expect(() => runCheck({ ...check, subject }, graph, modules)).toThrow(TypeError);
  });

  it("knows its own modules by path", () => {
    for (const path of Object.keys(CHECK_MODULES)) expect(path).toMatch(/^(laws|substances)\//);
  });
});
