import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readings, type Readings, type Rows } from "../../../lib/calculations/calculation.ts";
import { cellText, faultOf, readRows, writeRows } from "../../../lib/calculations/readings.ts";
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

const rowsOf = (text: string, table: Readings = log): unknown => {
  const read = readRows(table, text);
  return read.ok ? read.rows : read.message;
};

const [TIME, LIQUID, BATH, RUNNING] = log.columns as [Column, Column, Column, Column];
type Column = (typeof log.columns)[number];
/** A table of those columns, in their order. */
const tableOf = (...columns: readonly Column[]) => readings("table", { ...log, columns });

describe("readRows(readings, text)", () => {
  it.each([
    ["tabs and decimal commas", "10,5\t24,1\t23,0\ton"],
    ["semicolons", "10.5; 24.1; 23; on"],
    ["bars", "10.5 | 24.1 | 23 | on"],
    ["spaces", "10.5 24.1   23.0 on"],
    ["spaces and decimal commas", "10,5 24,1 23,0 on"],
    ["blanks at both ends", "  10.5 24.1 23.0 on  "],
    ["a last semicolon, and blanks behind it", "10.5; 24.1; 23; on;  "],
    ["commas and spaces", "10.5, 24.1, 23, on"],
    ["commas alone", "10.5,24.1,23,on"],
    ["units in the cells", "630 s; 75.38 °F; 23 °C; on"],
    ["units after spaces", "10.5 min 24.1 °C 23 °C on"],
    ["another word for it", "10.5; 24.1; 23; Yes"],
    [
      "a heading, blank lines and Windows ends",
      "time; liquid; bath; ran\r\n  \r\n10.5;24.1;23;1\r\n  \r\n",
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

  it("lets a last column that may be left out be left out whole", () => {
    const table = tableOf(TIME, LIQUID, BATH);
    expect(rowsOf("0; 24; 23\n1; 25\n2 26", table)).toEqual([
      [0, 24, 23],
      [60, 25, null],
      [120, 26, null],
    ]);
    expect(rowsOf("0; 24\n1", table)).toMatch(/^Line 2: one value found/);
  });

  it("takes the words alone of a column that has no other spellings", () => {
    const { spellings: _, ...plainly } = RUNNING;
    const table = tableOf(TIME, plainly);
    expect(rowsOf("0 ON\n1 off", table)).toEqual([
      [0, 1],
      [60, 0],
    ]);
    expect(rowsOf("0; yes", table)).toBe("Line 1: “yes” is not off or on.");
  });

  it("reads what is written, however it is parted and whatever marks the decimals", () => {
    const cell = (min: number, max: number) =>
      fc.integer({ min: min * 1000, max: max * 1000 }).map((x) => x / 1000);
    const row = fc.tuple(
      fc.integer({ min: 0, max: 864_000 }),
      cell(-20, 100),
      fc.option(cell(-20, 100)),
      fc.constantFrom(0, 1),
    );
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 5 }),
        fc.constantFrom("; ", ";", "\t", " | ", " ", "  "),
        fc.constantFrom(".", ","),
        (rows, part, mark) => {
          const text = writeRows(log, rows).replaceAll("; ", part).replaceAll(".", mark);
          expect(rowsOf(text)).toEqual(
            rows.map((cells) =>
              cells.map((x) => (x === null ? null : (expect.closeTo(x, 3) as number))),
            ),
          );
        },
      ),
      { seed: 1, numRuns: 200 },
    );
  });

  it("takes a tab in front for an empty cell, and for nothing where it only sets the line in", () => {
    const optional = tableOf({ ...BATH, name: "first" }, LIQUID, RUNNING);
    expect(rowsOf("\t24\ton\n23\t24\toff", optional)).toEqual([
      [null, 24, 1],
      [23, 24, 0],
    ]);
    expect(rowsOf("\t24\ton")).toMatch(/^Line 1: the time is missing/);
    expect(rowsOf("0\t24\n\t25", tableOf(TIME, LIQUID))).toMatch(/^Line 2: the time is missing/);
    for (const text of [
      "\t0\t24\t23\ton",
      "\t0 24 23 on",
      "\t0; 24; 23; on",
      " \t 0 | 24 | 23 | on",
    ])
      expect(rowsOf(text), text).toEqual([[0, 24, 23, 1]]);
  });

  it("counts two readings in one minute as of one time, and each night as a day", () => {
    const table = tableOf(TIME, LIQUID);
    expect(rowsOf("22:00 5\n22:00 6\n1:00 7\n0:30 8", table)).toEqual([
      [0, 5],
      [0, 6],
      [3 * 3600, 7],
      [26.5 * 3600, 8],
    ]);
  });

  it("counts the days between two dates, over ends of months and leap days, in either order", () => {
    const table = readings("fridge", {
      ...log,
      columns: [{ ...TIME, limits: { min: 0, max: 3660 * 86_400, unit: "s" } }, LIQUID],
    });
    const at = fc
      .date({
        min: new Date("2024-01-01"),
        max: new Date("2030-01-01"),
        noInvalidDate: true,
      })
      .map((date) => new Date(Math.floor(date.getTime() / 1000) * 1000));
    const yearFirst = (date: Date) => date.toISOString().slice(0, 19);
    const dayFirst = (date: Date) =>
      `${date.getUTCDate()}.${date.getUTCMonth() + 1}.${date.getUTCFullYear()} ${date.toISOString().slice(11, 19)}`;
    fc.assert(
      fc.property(at, at, fc.constantFrom(yearFirst, dayFirst), (one, other, written) => {
        const [first, last] = one < other ? [one, other] : [other, one];
        expect(rowsOf(`${written(first)}; 5\n${written(last)}; 6`, table)).toEqual([
          [0, 5],
          [(last.getTime() - first.getTime()) / 1000, 6],
        ]);
      }),
      { seed: 2, numRuns: 200 },
    );
    expect(rowsOf("2026-2-28 9:05; 5\n2026-3-1 9:05; 6", table)).toEqual([
      [0, 5],
      [86_400, 6],
    ]);
  });

  it("refuses a date before the first", () => {
    expect(rowsOf("2026-11-25 23:50 24 24 on\n2026-11-24 23:50 24 24 on")).toMatch(
      /^Row 2: the time must be from 0/,
    );
  });

  it("reads a time of day behind a number, where time comes second", () => {
    expect(rowsOf("5 14:05\n6 14:06", tableOf(LIQUID, TIME))).toEqual([
      [5, 0],
      [6, 60],
    ]);
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
    [
      "a word at the beginning of a row",
      "0 24 23 on\nwarm 24 23 on",
      /^Line 2: the time: “warm” is not a number/,
    ],
    ["words between two rows", "0; 24; 23; on\npaused\n5; 24; 23; on", /^Line 2: one value found/],
    ["a time of day that is no time", "0; 14:05; 23; on", /^Line 1: the liquid: /],
    ["a unit of another kind", "0; 24 g; 23; on", /^Line 1: the liquid: “g” is not a unit/],
    ["a word that is neither", "0; 24; 23; maybe", /^Line 1: “maybe” is not off or on/],
    ["a missing cell that is needed", "0; -; 23; on", /^Line 1: the liquid is missing/],
    [
      "a value out of range",
      "0; 24; 23; on\n1; 240; 23; on",
      /^Row 2: the liquid must be from −20\u00a0°C to 100\u00a0°C/,
    ],
    ["nothing", "", /^Log: give 1 to 5 rows; there are 0/],
    ["blanks", " \n\t ", /^Log: give 1 to 5 rows; there are 0/],
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

describe("writeRows(readings, rows) and cellText(column, cell)", () => {
  it("write what a field shows: words, plain minus signs, all digits", () => {
    const rows: Rows = [
      [90, -5.25, null, 1],
      [100, 21.123456, 20, 0],
    ];
    expect(writeRows(log, rows)).toBe("1.5; -5.25; –; on\n1.666666667; 21.123456; 20; off");
  });

  it("show in a table no more digits than the column has", () => {
    expect(cellText(LIQUID, 21.123456)).toBe("21.1");
    expect(cellText(LIQUID, -5.25)).toBe("\u22125.25");
    expect(cellText(LIQUID, 21.123456, () => "°F")).toBe("70");
    expect(cellText(LIQUID, null)).toBe("–");
    expect(cellText(RUNNING, 1)).toBe("on");
    expect(cellText(RUNNING, 2)).toBe("–");
  });
});

describe("faultOf(readings, rows)", () => {
  const SOUND = [0, 20, 20, 1] as const;
  const COLUMNS = "4 columns: time, liquid, bath, bath ran.";
  it.each([
    ["no rows at all", "text", "Log: give rows of time, liquid, bath, bath ran."],
    ["too few rows", [], "Log: give 1 to 5 rows; there are 0."],
    ["too many rows", Array(6).fill(SOUND), "Log: give 1 to 5 rows; there are 6."],
    ["a row of another length", [SOUND, [0, 20, 20]], `Row 2 must have ${COLUMNS}`],
    ["a longer row", [[...SOUND, 1]], `Row 1 must have ${COLUMNS}`],
    ["something that is no row", [3], `Row 1 must have ${COLUMNS}`],
    ["a cell that is missing", [[0, null, 20, 1]], "Row 1: the liquid is missing."],
    [
      "a value below its range",
      [[0, -20.01, 20, 1]],
      "Row 1: the liquid must be from −20\u00a0°C to 100\u00a0°C.",
    ],
    [
      "a value above its range",
      [SOUND, [0, 20, 100.01, 1]],
      "Row 2: the bath must be from −20\u00a0°C to 100\u00a0°C.",
    ],
    ["a fraction for a word", [[0, 20, 20, 0.5]], "Row 1: the bath ran must be off or on."],
    ["a number without a word", [[0, 20, 20, 2]], "Row 1: the bath ran must be off or on."],
  ])("names %s", (_, rows, words) => {
    expect(say(faultOf(log, rows as never) ?? [])).toBe(words);
  });

  it.each([Number.NaN, Infinity, "20", undefined])("takes %s for no number", (cell) => {
    expect(say(faultOf(log, [[0, cell, 20, 1]] as never) ?? [])).toMatch(
      /^Row 1: the liquid must be from/,
    );
  });

  it("has nothing to say of sound rows, up to the ends of their ranges", () => {
    expect(faultOf(log, [[0, 20, null, 1]])).toBeUndefined();
    expect(faultOf(log, [[864_000, -20, 100, 0]])).toBeUndefined();
    expect(faultOf(log, Array(5).fill(SOUND))).toBeUndefined();
  });
});
