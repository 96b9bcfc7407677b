import { describe, expect, it } from "vitest";
import { figureRows } from "../../../components/figure/figure-rows.ts";
import { BARS, LINES, SPANS, firstUnit } from "../../helpers/figures.ts";

describe("figureRows(data, unitFor)", () => {
  it("says the points of the first line, and the others beside them", () => {
    expect(figureRows(LINES, firstUnit)).toEqual({
      head: ["Water added (mL)", "Warmth (°C): mixture", "Warmth (°C): water"],
      rows: [
        ["0", "20", "10"],
        ["100", "26", "20"],
        ["200", "24", "30"],
        // The second line ends before.
        ["400", "21", "–"],
      ],
    });
  });

  it("says the spans one by one, each with what it is", () => {
    const { head, rows } = figureRows(SPANS, firstUnit);
    expect(head).toEqual(["Stage", "Since the start (min): from", "to", "What"]);
    expect(rows).toHaveLength(5);
    expect(rows[0]).toEqual(["Weigh in", "0", "10", "at work"]);
    expect(rows[3]).toEqual(["Bath", "35", "45", "waiting"]);
  });

  it("says them in the unit chosen", () => {
    const { head, rows } = figureRows(LINES, (axis) => axis.of.units[1]!);
    expect(head[0]).toBe("Water added (fl oz)");
    expect(rows[1]).toEqual(["3.381", "78.8", "68"]);
  });

  it("says a tenth of a long line, its first point first", () => {
    const points = Array.from({ length: 51 }, (_, i) => [i * 1e-5, i] as const);
    const { rows } = figureRows({ ...LINES, lines: [{ label: "long", points }] }, firstUnit);
    expect(rows).toHaveLength(11);
    expect(rows).toEqual(Array.from({ length: 11 }, (_, i) => [`${i * 50}`, `${i * 5}`]));
  });

  it("says a line of one point", () => {
    const one = { ...LINES, lines: [{ label: "dot", points: [[1e-4, 7] as const] }] };
    expect(figureRows(one, firstUnit).rows).toEqual([["100", "7"]]);
  });

  it("says nothing of a line without points", () => {
    expect(figureRows({ ...LINES, lines: [] }, firstUnit).rows).toEqual([]);
    expect(figureRows({ ...LINES, lines: [{ label: "", points: [] }] }, firstUnit).rows).toEqual(
      [],
    );
  });

  it("says each bar", () => {
    expect(figureRows(BARS, firstUnit)).toEqual({
      head: ["", "Water added (mL)"],
      rows: [
        ["Water", "250"],
        ["Spirit", "100"],
        ["Acid", "0"],
      ],
    });
  });
});
