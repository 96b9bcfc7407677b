import { describe, expect, it } from "vitest";
import { readings } from "../../../lib/calculations/calculation.ts";
import { faultOf, readRows, writeRows } from "../../../lib/calculations/readings.ts";
import { say } from "../../../lib/calculations/say.ts";

const TEMPERATURE = { dimension: "temperature", units: ["°C", "°F"], digits: 3 } as const;
const WITHIN = { min: -20, max: 100, unit: "°C" };

const log = readings("log", {
  label: "Log",
  hint: "",
  columns: [
    {
      name: "time",
      label: "Time",
      dimension: "time",
      units: ["min", "s"],
      digits: 4,
      limits: { min: 0, max: 864_000, unit: "s" },
    },
    { name: "liquid", label: "Liquid", ...TEMPERATURE, limits: WITHIN },
    { name: "bath", label: "Bath", ...TEMPERATURE, limits: WITHIN, optional: true },
    {
      name: "running",
      label: "Bath ran",
      dimension: "count",
      units: ["1"],
      digits: 1,
      limits: { min: 0, max: 1, unit: "1" },
      words: ["off", "on"],
      spellings: [
        ["no", "0"],
        ["yes", "1"],
      ],
    },
  ],
  count: { min: 1, max: 5 },
  default: [[0, 20, 20, 0]],
});

const rowsOf = (text: string): unknown => {
  const read = readRows(log, text);
  return read.ok ? read.rows : read.message;
};

describe("readRows(readings, text)", () => {
  it.each([
    ["tabs and decimal commas", "10,5\t24,1\t23,0\ton"],
    ["semicolons", "10.5; 24.1; 23; on"],
    ["bars", "10.5 | 24.1 | 23 | on"],
    ["spaces", "10.5 24.1   23.0 on"],
    ["commas and spaces", "10.5, 24.1, 23, on"],
    ["commas alone", "10.5,24.1,23,on"],
    ["units in the cells", "630 s; 75.38 °F; 23 °C; on"],
    ["units after spaces", "10.5 min 24.1 °C 23 °C on"],
    ["another word for it", "10.5; 24.1; 23; Yes"],
    [
      "a heading, blank lines and Windows ends",
      "time; liquid; bath; ran\r\n\r\n10.5;24.1;23;1\r\n",
    ],
  ])("reads %s", (_, text) => {
    expect(rowsOf(text)).toEqual([
      [expect.closeTo(630, 9), expect.closeTo(24.1, 9), expect.closeTo(23, 9), 1],
    ]);
  });

  it("takes an empty cell of a column that may be left out", () => {
    for (const empty of ["", "-", "–"])
      expect(rowsOf(`0; 24; ${empty}; off`)).toEqual([[0, 24, null, 0]]);
  });

  it("counts times of day from the first, over midnight too", () => {
    const read = rowsOf("23:50; 24; 24; on\n23:50:30; 24; 24; on\n0:10; 25; 24; off");
    expect(read).toEqual([
      [0, 24, 24, 1],
      [30, 24, 24, 1],
      [1200, 25, 24, 0],
    ]);
  });

  it.each([
    ["year first", "2026-11-25 23:50; 24; 24; on\n2026-11-27 00:00:30; 25; 24; off"],
    ["day first, parted by tabs", "25.11.2026 23:50\t24\t24\ton\n27.11.2026 00:00:30\t25\t24\toff"],
    ["parted by spaces alone", "2026-11-25 23:50 24 24 on\n2026-11-27 00:00:30 25 24 off"],
    ["with a T", "2026-11-25T23:50; 24; 24; on\n2026-11-27T00:00:30; 25; 24; off"],
  ])("counts dates with times from the first: %s", (_, text) => {
    expect(rowsOf(text)).toEqual([
      [0, 24, 24, 1],
      [87_030, 25, 24, 0],
    ]);
  });

  it.each([
    ["a decimal comma that could part two cells", "10,5,24,1,23,0,on", /^Line 1: one value found/],
    [
      "too few cells",
      "10; 24",
      /^Line 1: 2 values found, but a row has time, liquid, bath, bath ran/,
    ],
    ["too many cells", "1;2;3;on;5", /^Line 1: 5 values found/],
    [
      "a word that is no number",
      "0; 24; 23; on\n5; warm; 24; on",
      /^Line 2: the liquid: “warm” is not a number/,
    ],
    ["a unit of another kind", "0; 24 g; 23; on", /^Line 1: the liquid: “g” is not a unit/],
    ["a word that is neither", "0; 24; 23; maybe", /^Line 1: “maybe” is not off or on/],
    ["a missing cell that is needed", "0; -; 23; on", /^Line 1: the liquid is missing/],
    [
      "a value out of range",
      "0; 24; 23; on\n1; 240; 23; on",
      /^Row 2: the liquid must be from −20\u00a0°C to 100\u00a0°C/,
    ],
    ["nothing", "", /^Log: give 1 to 5 rows; there are 0/],
    ["words alone", "hello", /^There is no line of numbers here\. A row has time, liquid/],
    ["too many rows", "0;1;1;on\n".repeat(6), /give 1 to 5 rows; there are 6/],
  ])("refuses %s and names the line", (_, text, message) => {
    expect(rowsOf(text)).toMatch(message);
  });

  it("reads back what it wrote, in any unit", () => {
    const rows = [
      [0, 20.25, null, 0],
      [90, 33.1, 32.9, 1],
    ];
    for (const unitOf of [() => "s", () => "°F"]) {
      const inUnit = (column: { dimension: string; units: readonly string[] }): string =>
        column.units.includes(unitOf()) ? unitOf() : (column.units[0] as string);
      const read = readRows(log, writeRows(log, rows, inUnit), inUnit);
      expect(read).toEqual({
        ok: true,
        rows: rows.map((row) => row.map((x) => (x === null ? null : expect.closeTo(x, 8)))),
      });
    }
  });
});

describe("faultOf(readings, rows)", () => {
  it.each([
    ["no rows at all", "text"],
    ["a row of another length", [[0, 20, 20]]],
    ["NaN", [[0, Number.NaN, 20, 1]]],
    ["infinity", [[0, Infinity, 20, 1]]],
    ["a fraction for a word", [[0, 20, 20, 0.5]]],
    ["text in a cell", [[0, "20", 20, 1]]],
    ["something that is no row", [3]],
  ])("names %s", (_, rows) => {
    const fault = faultOf(log, rows as never);
    expect(fault && say(fault)).toMatch(/\.$/);
  });

  it("has nothing to say of sound rows", () => {
    expect(faultOf(log, [[0, 20, null, 1]])).toBeUndefined();
  });
});
