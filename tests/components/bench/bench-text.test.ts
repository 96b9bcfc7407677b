import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  acceptText,
  askTexts,
  entryText,
  kindOf,
  lastText,
  missedText,
  nameOf,
  STEP_TEXTS,
  weighText,
  wrongReadingText,
} from "../../../components/bench/bench-text.ts";
import { SHOWN_CALCULATIONS } from "../../../components/batch/sheet-text.ts";
import { derivationOf } from "../../../components/batch/derivations.ts";
import type { Entry, Log } from "../../../lib/batch/log.ts";
import { planBatch } from "../../../lib/batch/plan.ts";
import { SCHEDULE_CALCULATIONS, scheduleBatch } from "../../../lib/batch/schedule.ts";
import { weighingBounds, weighingIn } from "../../../lib/batch/weighing-in.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";

const graph = await loadGraph([...SHOWN_CALCULATIONS, ...SCHEDULE_CALCULATIONS]);
const scheduled = scheduleBatch(graph, {});
if (!scheduled.ok) throw new Error("refused");
const { steps } = scheduled;
const planned = planBatch(graph, {});
if (!planned.ok) throw new Error("refused");
const { plan } = planned;
const bounds = weighingBounds(graph, {});
const AT = "2026-11-25T20:00:00.000+01:00";
const [water] = plan.additions;
const plain = (text: string): string => text.replaceAll("\u00a0", " ");

function said(factor: number, own = bounds, accepted = false): string {
  const entry = { kind: "weighed", at: AT, vessel: 1, ingredient: "water" } as const;
  const reading = (water?.portion ?? 0) * factor;
  const log: Log = [
    { ...entry, reading },
    ...(accepted ? [{ ...entry, reading, accepted } as Entry] : []),
  ];
  return plain(lastText(weighingIn(plan, log, own), plan, own.readability, "g"));
}

describe("STEP_TEXTS", () => {
  const cautions = readdirSync("content/cautions").map((file) => file.replace(".mdx", ""));
  it.each(Object.entries(STEP_TEXTS))("speaks at “%s” of what there is", (kind, text) => {
    for (const caution of text.cautions) expect(cautions).toContain(caution);
    expect(derivationOf(kind)).toBeDefined();
    const { number } = text;
    if (!number) return;
    const calculation = graph.get(number.calculation);
    const names = number.input === undefined ? calculation.results : calculation.inputs;
    expect(Object.keys(names)).toContain(number.input ?? number.result);
  });
  it("has a text for every step of an evening", () => {
    for (const { id } of steps) expect(kindOf(id), id).toBeDefined();
  });
});

describe("nameOf(id, steps)", () => {
  it("knows the steps of the plan, and those that a change took out", () => {
    expect(nameOf("stint-2", steps)).toBe("Stint 2 of 3");
    expect(nameOf("stint-9", steps)).toBe("Stint");
    expect(nameOf("elsewhere", steps)).toBe("elsewhere");
  });
});

describe("entryText(entry, steps)", () => {
  it.each([
    [{ kind: "step", at: AT, step: "rest-1" }, "“Rest 1 of 2” begins"],
    [{ kind: "end", at: AT }, "the end"],
    [
      { kind: "weighed", at: AT, vessel: 1, ingredient: "spirit", reading: 1 },
      "the reading after spirit",
    ],
    [{ kind: "note", at: AT, text: "x" }, "the note"],
    [{ kind: "read", at: AT, liquid: 20 }, "the probe’s reading"],
    [{ kind: "amount", at: AT, of: "bottles", value: 4 }, "the amount"],
  ] as const)("says what an undo takes away: %o", (entry, text) => {
    expect(entryText(entry, steps)).toBe(text);
  });
});

describe("askTexts(plan, asks, readability, unit)", () => {
  it("shows as many decimals as the scale", () => {
    const { asks } = weighingIn(plan, [], bounds);
    const grams = askTexts(plan, asks, 1e-4, "g")[0]?.reading ?? "";
    expect(plain(grams)).toMatch(/^\d+\.\d g$/);
    expect(plain(askTexts(plan, asks, 1e-3, "g")[0]?.reading ?? "")).toMatch(/^\d+ g$/);
  });
});

describe("lastText(stand, plan, readability, unit)", () => {
  it("says within, short, over and as it is", () => {
    expect(said(1.001)).toBe("Water is within its give or take.");
    expect(said(0.9)).toMatch(/^Water is 32\.0 g short: add more\.$/);
    expect(said(1.1)).toMatch(/32\.0 g over\. To keep the recipe.* grows by 10 %/);
    expect(said(1.1, bounds, true)).toBe("Water: it stays as it is.");
  });
  it.each([
    [
      "beaker",
      { fullest: 0.55 },
      /at most 550 g may stay in it, which is 5 % above two thirds full/,
    ],
    ["scale", { capacity: bounds.vesselMass + 0.55 }, /the scale carries \d+ g/],
    ["spirit", { spirit: 0.12 }, /there is 120 g/],
  ] as const)("says why nothing can be recomputed: %s", (_, own, words) => {
    expect(said(1.1, { ...bounds, ...own })).toMatch(words);
    expect(said(1.1, { ...bounds, ...own })).toMatch(/go on as it is\.$/);
  });
  it("says when even the rest as planned is too much", () => {
    const full = said(1.1, { ...bounds, fullest: 0.54 });
    expect(full).toMatch(/with the rest as planned it comes to 544 g: take some out/);
    expect(full).not.toMatch(/as it is/);
  });
  it("says so of a share that makes it another batch", () => {
    expect(said(1.5, { ...bounds, fullest: 9, capacity: 9 })).toMatch(
      /grow by 50 %.*another batch/,
    );
  });
  it("is silent before the first reading", () => {
    expect(lastText(weighingIn(plan, [], bounds), plan, 1e-4, "g")).toBe("");
  });
});

describe("wrongReadingText(stand, reading, unit)", () => {
  const weighed = (ingredient: "water" | "spirit", reading: number): Entry => ({
    kind: "weighed",
    at: AT,
    vessel: 1,
    ingredient,
    reading,
  });
  const wrong = (log: Log, grams: number): string =>
    plain(wrongReadingText(weighingIn(plan, log, bounds), grams / 1000, "g"));
  it("takes anything a scale shows before the first reading, and more than before after it", () => {
    expect(wrong([], 0)).toBe("");
    expect(wrong([], 50_001)).toMatch(/at most 50.000 g/);
    expect(wrong([weighed("water", 0.3204)], 320.4)).toBe("");
    expect(wrong([weighed("water", 0.3204)], 431)).toBe("");
  });
  it("takes less for a second tare, after what was near enough or short", () => {
    expect(wrong([weighed("water", 0.3204)], 100)).toMatch(
      /showed 320\.4 g before.* type the two together: 420\.4 g\./,
    );
    expect(wrong([weighed("water", 0.3)], 20)).toMatch(/together: 320 g\./);
  });
  it("takes a minus for what is off the scale, not for a second tare", () => {
    for (const log of [[], [weighed("water", 0.3204)], [weighed("water", 0.5)]])
      expect(wrong(log, -5)).toMatch(/^Below nought.*Put it back/);
    expect(wrong([weighed("water", 0.3204)], -210)).toMatch(/must show 320\.4 g then/);
  });
  it("lets no more be taken out than what went over", () => {
    const over = [weighed("water", 0.3204), weighed("spirit", 0.5)];
    expect(wrong(over, 432)).toBe("");
    expect(wrong(over, 320.4)).toBe("");
    expect(wrong(over, 320)).toMatch(/showed 320\.4 g before this went in/);
    expect(wrong([...over, { ...weighed("spirit", 0.5), accepted: true } as Entry], 432)).toMatch(
      /If you tared again/,
    );
  });
});

describe("weighText(ask)", () => {
  it("asks for a clear liquid before the lecithin, and before nothing else", () => {
    const stirs = plan.additions.filter((ask) => /stir/.test(weighText({ ...ask, more: false })));
    expect(stirs.map(({ ingredient }) => ingredient)).toEqual(["lecithin"]);
  });
  it("asks for it once: with some lecithin in, nothing can be seen", () => {
    expect(weighText({ ingredient: "lecithin", more: true })).not.toMatch(/stir/);
  });
});

describe("missedText(asks, vessels)", () => {
  const entry = { kind: "weighed", at: AT, vessel: 1, ingredient: "water" } as const;
  const { asks } = weighingIn(plan, [{ ...entry, reading: (water?.portion ?? 0) / 2 }], bounds);
  it("names what is not in, and what is in only in part", () => {
    expect(missedText(asks.slice(2), 1)).toBe(
      "Not weighed in: ascorbic acid, lecithin. Go back to weigh them, or the batch is what it is.",
    );
    expect(missedText(asks.slice(0, 1), 1)).toMatch(/: some of the water\. Go back to weigh it,/);
    expect(missedText([], 1)).toBe("");
  });
  it("says in which beaker, where there are several", () => {
    const two = weighingIn({ ...plan, vessels: 2 }, [], bounds).asks;
    expect(missedText(two.slice(3), 2)).toMatch(
      /^Not weighed in, beaker 1: lecithin; beaker 2: water, spirit, ascorbic acid, lecithin\./,
    );
  });
});

describe("acceptText(stand)", () => {
  const entry = { kind: "weighed", at: AT, vessel: 1, ingredient: "water" } as const;
  const at = (factor: number, own = bounds) =>
    acceptText(weighingIn(plan, [{ ...entry, reading: (water?.portion ?? 0) * factor }], own));
  it("names what is given up", () => {
    expect(at(0.9)).toMatch(/^Leave it short/);
    expect(at(1.1)).toMatch(/^Keep the plan/);
    expect(at(1.1, { ...bounds, fullest: 0.1 })).toBe("Go on as it is");
  });
});
