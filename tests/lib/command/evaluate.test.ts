import { execFileSync, spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { evaluate, list } from "../../../lib/command/evaluate.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";

const graph = await loadGraph();
const COMMAND = "lib/command/evaluate.ts";

function run(args: readonly string[], input = "") {
  const { status, stdout } = spawnSync("node_modules/.bin/node", [COMMAND, ...args], {
    encoding: "utf8",
    input,
  });
  return { status, lines: stdout.trim().split("\n") };
}

describe("evaluate(graph, id, given)", () => {
  it("reads strings as a form field would", () => {
    const typed = evaluate(graph, "strength", {
      spiritStrength: "80 US proof",
      temperature: "68 °F",
    });
    expect(typed).toMatchObject({ ok: true, inputs: { spiritStrength: 0.4 } });
    const { inputs } = typed as unknown as { inputs: { temperature: number } };
    expect(inputs.temperature).toBeCloseTo(20, 12);
  });

  it("takes a decimal comma", () => {
    expect(evaluate(graph, "weighing", { waterMass: "12,5 g" })).toMatchObject({
      ok: true,
      inputs: { waterMass: 0.0125 },
    });
  });

  it("names an input that does not exist, and those that do", () => {
    const answer = evaluate(graph, "spoon", { spooon: 1 }) as unknown as {
      refusals: { input: string; message: string }[];
    };
    expect(answer.refusals[0]?.input).toBe("spooon");
    expect(answer.refusals[0]?.message).toContain("bulkDensityLow");
  });

  it.each([null, true, [], {}])("refuses %j for a number", (value) => {
    expect(evaluate(graph, "strength", { spiritStrength: value })).toMatchObject({
      ok: false,
      refusals: [{ input: "spiritStrength" }],
    });
  });

  it("is not fooled by a name from every object's prototype", () => {
    expect(evaluate(graph, "constructor", {})).toMatchObject({ ok: false });
    expect(evaluate(graph, "strength", { toString: 1 })).toMatchObject({ ok: false });
  });
});

describe("list(graph)", () => {
  it("gives every input a range and a default inside it, or its options, or its columns", () => {
    interface Listed {
      readonly unit?: string;
      readonly min?: number;
      readonly max?: number;
      readonly default: unknown;
      readonly options?: readonly { readonly value: string }[];
      readonly columns?: readonly { readonly name: string; readonly min: number }[];
    }
    for (const { inputs } of list(graph) as { inputs: Record<string, Listed> }[])
      for (const input of Object.values(inputs)) {
        if (input.options) expect(input.options.map((o) => o.value)).toContain(input.default);
        else if (input.columns) {
          for (const { name, min } of input.columns) {
            expect(name).not.toBe("");
            expect(min).toBeTypeOf("number");
          }
          const rows = input.default as readonly (readonly unknown[])[];
          for (const row of rows) expect(row).toHaveLength(input.columns.length);
        } else {
          expect(input.unit).toBeTypeOf("string");
          expect(input.default).toBeGreaterThanOrEqual(input.min as number);
          expect(input.default).toBeLessThanOrEqual(input.max as number);
        }
      }
  });
});

describe("the evaluate command", () => {
  it("prints one JSON object and ends with 0 for a result", () => {
    const { status, lines } = run(["dilution", '{"spiritStrength":0.95,"targetStrength":0.7}']);
    expect(status).toBe(0);
    expect(JSON.parse(lines[0] ?? "")).toMatchObject({
      ok: true,
      values: { waterMass: { unit: "kg" } },
    });
  });

  it("ends with 2 for a refusal", () => {
    const { status, lines } = run(["dilution", '{"targetStrength":0.99}']);
    expect(status).toBe(2);
    expect(JSON.parse(lines[0] ?? "")).toMatchObject({
      ok: false,
      refusals: [{ input: "targetStrength" }],
    });
  });

  it("answers a line for each line of --stdin, damaged ones too", () => {
    const { status, lines } = run(
      ["--stdin"],
      '{"id":"spoon","inputs":{}}\nnonsense\n{"id":"spoon","inputs":{"volume":"5 mL"}}\n',
    );
    expect(status).toBe(2);
    expect(lines.map((line) => (JSON.parse(line) as { ok: boolean }).ok)).toEqual([
      true,
      false,
      true,
    ]);
  });

  it("solves for an input and gives the results there", () => {
    const text = execFileSync(
      "node_modules/.bin/node",
      [
        COMMAND,
        "dilution",
        '{"targetStrength":0.2}',
        "--solve",
        "waterMass=0.3",
        "--for",
        "finalVolume",
      ],
      { encoding: "utf8" },
    );
    const answer = JSON.parse(text) as { values: { waterMass: { value: number } } };
    expect(answer.values.waterMass.value).toBeCloseTo(0.3, 9);
  });

  it.each([
    ["recipe", "not json"],
    ["nothing", "{}"],
    ["recipe", "{}", "--solve", "waterMass=1"],
  ])("refuses %s %s in plain words", (...args) => {
    const { status, lines } = run(args);
    expect(status).toBe(2);
    expect(JSON.parse(lines[0] ?? "")).toMatchObject({ ok: false });
  });
});
