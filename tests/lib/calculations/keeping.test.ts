import { describe, expect, it } from "vitest";
import { cautionsOf, graph, valuesOf } from "../../helpers/calculations.ts";

const DAY = 86_400;
const kept = (lossDays: number, temperature: number) => ({
  "keeping.lossTime": lossDays * DAY,
  "keeping.temperature": temperature,
  fridgeCap: 14 * DAY,
});

describe("keeping", () => {
  it.each([
    // Whichever is sooner; the caps are common practice, no source.
    ["the acid", 9, 4, 9],
    ["what may grow", 40, 4, 14],
    ["a fridge at its limit", 40, 5, 14],
    ["a fridge that is too warm", 40, 5.01, 7],
    ["the end of that", 40, 8, 7],
    ["no fridge", 40, 8.01, 1],
    ["no fridge, and little acid", 0.5, 20, 0.5],
  ])("lets %s decide", (_, lossDays, temperature, days) => {
    const values = valuesOf("keeping", kept(lossDays, temperature));
    expect(values["discardTime"]! / DAY).toBeCloseTo(days, 12);
    expect(values["discardTime"]).toBe(Math.min(values["acidTime"]!, values["microbeTime"]!));
  });

  it("never lasts longer for being kept warm, whatever the cap", () => {
    const short = { ...kept(40, 20), fridgeCap: 3600 };
    expect(valuesOf("keeping", short)["microbeTime"]).toBe(3600);
  });

  it("says in its table which of them decides", () => {
    const rows = graph.get("keeping").tables![0]!.rows({
      lossTime: 9 * DAY,
      temperature: 4,
      fridgeCap: 14 * DAY,
    });
    expect(rows).toEqual([
      [0, 9 * DAY, 1],
      [1, 14 * DAY, 0],
    ]);
  });

  it("moves with a pasted log of the fridge", () => {
    const at = (temperature: number): number =>
      valuesOf("keeping", {
        fridgeLog: [
          [0, temperature],
          [3600, temperature],
        ],
      })["discardTime"]!;
    expect(at(4) / DAY).toBe(14);
    expect(at(6) / DAY).toBe(7);
    expect(at(12) / DAY).toBe(1);
  });

  it("speaks up above 5 °C, and within a degree of it, where a thermometer could hide it", () => {
    expect(cautionsOf("keeping", kept(40, 4))).toEqual([]);
    expect(cautionsOf("keeping", kept(40, 4.01))).toEqual(["spoilage"]);
    expect(cautionsOf("keeping", kept(40, 5))).toEqual(["spoilage"]);
    expect(cautionsOf("keeping", kept(40, 5.01))).toEqual(["spoilage"]);
  });
});
