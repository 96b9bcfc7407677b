import { describe, expect, it } from "vitest";
import {
  compositionText,
  look,
  moreText,
  planCautions,
  shownText,
} from "../../../components/bench/bench-now.ts";
import { STEP_TEXTS, type Shown } from "../../../components/bench/bench-text.ts";
import { SHOWN_CALCULATIONS } from "../../../components/batch/sheet-text.ts";
import type { Scene } from "../../../components/calculation/live.ts";
import type { Entry } from "../../../lib/batch/log.ts";
import { EMPTY_BATCH, valuesOf, type Batch } from "../../../lib/batch/record.ts";
import { SCHEDULE_CALCULATIONS } from "../../../lib/batch/schedule.ts";
import { LARGE_BATCH } from "../../../lib/calculations/recipe.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";

const graph = await loadGraph([
  ...SHOWN_CALCULATIONS,
  ...SCHEDULE_CALCULATIONS,
  "composition",
  "bottling",
]);
const AT = "2026-11-25T20:00:00.000+01:00";
const step = (name: string): Entry => ({ kind: "step", at: AT, step: name });

function sceneOf(own: Partial<Batch>): Scene {
  const batch = { ...EMPTY_BATCH, ...own };
  const values = valuesOf(batch);
  const outcomeOf = (id: string) => graph.evaluate(id, values);
  return {
    graph,
    batch,
    values,
    outcomeOf,
    shownOf: (id) => {
      const outcome = outcomeOf(id);
      return outcome.ok ? outcome : undefined;
    },
    unitFor: (of) => of.units[0] as string,
  };
}

describe("look(scene)", () => {
  it("knows nothing of a step before the first", () => {
    const now = look(sceneOf({}));
    expect(now).toMatchObject({ index: -1, entry: undefined, step: undefined });
    expect(now.ask).toBeUndefined();
    expect(now.total).toBeGreaterThan(3600);
  });
  it("asks for a reading only while weighing in", () => {
    expect(look(sceneOf({ log: [step("weigh")] })).ask?.reading).toMatch(/g$/);
    expect(look(sceneOf({ log: [step("weigh"), step("dissolve")] })).ask).toBeUndefined();
  });
  it("stays at its place when a change of the plan takes the step out", () => {
    const log = [step("weigh"), step("stint-2"), step("stint-3")];
    const now = look(sceneOf({ log, values: { stints: 2 } }));
    expect(now.step).toBeUndefined();
    expect(now.steps[now.index]?.id).toBe("stint-2");
    expect(now.entry?.step).toBe("stint-3");
  });
  it("says what was left out at the step that weighing was left for, and there alone", () => {
    const left = [step("weigh"), step("dissolve")];
    expect(look(sceneOf({ log: left })).missed).toMatch(/^Not weighed in: water, spirit/);
    expect(look(sceneOf({ log: [step("weigh")] })).missed).toBe("");
    expect(look(sceneOf({ log: [...left, step("weigh")] })).missed).toBe("");
    expect(look(sceneOf({ log: [...left, step("cool")] })).missed).toBe("");
  });
  it("falls back on what was planned where a change leaves no plan", () => {
    const log = [step("weigh")];
    const now = look(sceneOf({ log, planned: {}, values: { alcoholStrength: 0.9 } }));
    expect(now.step?.id).toBe("weigh");
    expect(now.ask).toBeDefined();
  });
});

describe("compositionText(now)", () => {
  it("counts what is in and what is still to come", () => {
    const planned = compositionText(look(sceneOf({ log: [step("weigh")] })));
    expect(planned.replaceAll("\u00a0", " ")).toMatch(
      /^As it stands: 500\.\d mL with 12\.\d+ % vol/,
    );
    const weighed: Entry = {
      kind: "weighed",
      at: AT,
      vessel: 1,
      ingredient: "water",
      reading: 0.4,
      accepted: true,
    };
    const thin = compositionText(look(sceneOf({ log: [step("weigh"), weighed] })));
    // 60 mL of alcohol in 80 mL more than before.
    expect(thin).toMatch(/^As it stands/);
    const far: Entry = { kind: "weighed", at: AT, vessel: 1, ingredient: "water", reading: 0.6 };
    const refused = compositionText(look(sceneOf({ log: [step("weigh"), far] })));
    expect(refused).toMatch(/^If you go on as it is: /);
    expect(thin.replaceAll("\u00a0", " ")).toMatch(/579\.\d mL with 10\.3\d % vol/);
  });
  it("counts only what went in once weighing was left", () => {
    const shown = [
      ["water", 0.32],
      ["spirit", 0.43],
    ] as const;
    const weighed = shown.map(([ingredient, reading]): Entry => ({
      kind: "weighed",
      at: AT,
      vessel: 1,
      ingredient,
      reading,
    }));
    const log = [step("weigh"), ...weighed];
    expect(compositionText(look(sceneOf({ log })))).toMatch(/100\.1.g\/L ascorbic acid/);
    const left = [...log, step("dissolve"), { kind: "end", at: AT } as const];
    expect(compositionText(look(sceneOf({ log: left }))).replaceAll("\u00a0", " ")).toMatch(
      /^As it stands: 4\d\d\.\d mL with 1\d\.\d+ % vol alcohol, 0\.0 g\/L ascorbic acid, 0\.0 g\/L lecithin/,
    );
    const none = [step("weigh"), step("dissolve")];
    expect(compositionText(look(sceneOf({ log: none })))).toBe("No weighing is noted.");
  });
});

describe("planCautions(now)", () => {
  const said = (values: Batch["values"]): readonly (string | undefined)[] =>
    planCautions(look(sceneOf({ log: [step("weigh")], values }))).map(({ caution }) => caution);
  it("leaves out that several beakers are filled where they are, but not that all is too much", () => {
    expect(said({})).not.toContain("glass");
    expect(said({ beakerVolume: 0.4e-3, readability: 0.01 })).toContain("coarse-scale");
    expect(said({ beakerVolume: 0.4e-3 })).not.toContain("glass");
    expect(said({ batchVolume: LARGE_BATCH + 0.1e-3 })).toContain("glass");
  });
});

describe("shownText(scene, shown)", () => {
  it("shows an input or a result in the reader's unit", () => {
    const scene = sceneOf({});
    const ceiling = shownText(scene, { calculation: "sonication", input: "ceiling", before: "" });
    expect(ceiling).toMatch(/°C$/);
    const water = { calculation: "bath-level", result: "waterToFill", before: "" };
    expect(shownText(scene, water)).toMatch(/\d/);
    const none = { calculation: "bath-level", result: "nothing", before: "" };
    expect(shownText(scene, none)).toBeUndefined();
  });
});

describe("moreText(scene, shown)", () => {
  const shown = STEP_TEXTS.bottle.number as Shown;
  it("says what is in a last bottle that is not full, where there is one", () => {
    const outcome = graph.evaluate("bottling", {});
    const fill = (outcome.ok && outcome.values["fillVolume"]?.value) || NaN;
    const inAll = (count: number): Scene =>
      sceneOf({
        values: { "bottling.batchVolume": count * fill, skimmedVolume: 0, spilledVolume: 0 },
      });
    const plain = (text: string | undefined): string => (text ?? "").replaceAll("\u00a0", " ");
    expect(plain(shownText(inAll(7.5), shown))).toBe("7");
    expect(plain(moreText(inAll(7.5), shown))).toMatch(/^full, and one with \d+(\.\d+)? mL$/);
    expect(moreText(inAll(7), shown)).toBe("");
  });
});
