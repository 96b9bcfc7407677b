import { formatAmount, formatTrimmed } from "../units/format.ts";
import { parse } from "../units/parse.ts";
import { fromSI } from "../units/units.ts";
import {
  amount,
  phrase,
  type Column,
  type InputValue,
  type Phrase,
  type ReadingColumn,
  type Readings,
  type Rows,
} from "./calculation.ts";

/** What a pasted table means, or the first thing in it that means nothing. */
export type ReadRows =
  { readonly ok: true; readonly rows: Rows } | { readonly ok: false; readonly message: string };

/** The unit a column is typed in where a cell names none. */
export type UnitOfColumn = (column: Column) => string;

export const firstUnitOf: UnitOfColumn = (column) => column.units[0] as string;

const EMPTY_CELL = /^[-–—.]?$/;
const CLOCK = /^(\d{1,2}):([0-5]\d)(?::([0-5]\d))?$/;
/** A date and a time of day, as loggers write them: year first, or day first with points. */
const STAMP =
  /^(?:(\d{4})-(\d\d?)-(\d\d?)|(\d\d?)\.(\d\d?)\.(\d{4}))[T ,]+(\d{1,2}):([0-5]\d)(?::([0-5]\d))?$/;
const DATE = /^(?:\d{4}-\d\d?-\d\d?|\d\d?\.\d\d?\.\d{4})$/;
const DAY = 86_400;

/** Why these rows cannot be used, as far as each cell by itself goes; `undefined` where they can. */
export function faultOf({ label, columns, count }: Readings, rows: InputValue): Phrase | undefined {
  if (!Array.isArray(rows)) return [`${label}: give rows of ${namesOf(columns)}.`];
  const given = rows as Rows;
  if (given.length < count.min || given.length > count.max)
    return [`${label}: give ${count.min} to ${count.max} rows; there are ${given.length}.`];
  for (const [i, row] of given.entries()) {
    if (!Array.isArray(row) || row.length !== columns.length)
      return [`Row ${i + 1} must have ${columns.length} columns: ${namesOf(columns)}.`];
    for (const [j, column] of columns.entries()) {
      const fault = cellFault(column, row[j] as number | null);
      if (fault) return [`Row ${i + 1}: `, ...fault];
    }
  }
  return undefined;
}

function cellFault(column: ReadingColumn, cell: number | null): Phrase | undefined {
  const { label, optional, limits, words } = column;
  const name = label.toLowerCase();
  if (cell === null) return optional ? undefined : [`the ${name} is missing.`];
  const inside = typeof cell === "number" && cell >= limits.min && cell <= limits.max;
  if (words)
    return inside && Number.isInteger(cell)
      ? undefined
      : [`the ${name} must be ${words.join(" or ")}.`];
  if (inside) return undefined;
  return phrase`the ${name} must be from ${amount(limits.min, column)} to ${amount(limits.max, column)}.`;
}

function namesOf(columns: readonly Column[]): string {
  return columns.map(({ label }) => label.toLowerCase()).join(", ");
}

/**
 * Reads a typed or pasted table: one row a line, cells parted by tabs, semicolons, bars, spaces or commas.
 *
 * A cell is read as a field would read it, with decimal comma or point and maybe a unit; a time of day such
 * as 14:05 counts from the first one, and over midnight; so does a date with a time of day. A first line without a digit is a heading.
 *
 * @param unitOf - the unit of a cell that names none
 * @returns SI rows, or a sentence that names the line at fault; never throws
 */
export function readRows(
  readings: Readings,
  text: string,
  unitOf: UnitOfColumn = firstUnitOf,
): ReadRows {
  const { columns } = readings;
  const rows: (number | null)[][] = [];
  const clock = new Map<ReadingColumn, { first: number; last: number }>();
  for (const [i, line] of text.split(/\r\n|\r|\n/).entries()) {
    if (line.trim() === "" || (rows.length === 0 && !/\d/.test(line))) continue;
    const refuse = (message: string): ReadRows => ({
      ok: false,
      message: `Line ${i + 1}: ${message}`,
    });
    const cells = cellsOf(line, columns);
    const needed = columns.filter(({ optional }) => !optional).length;
    if (cells.length > columns.length || cells.length < needed)
      return refuse(
        `${cells.length === 1 ? "one value" : `${cells.length} values`} found, but a row has ${namesOf(columns)}. Part the values by a tab or a semicolon.`,
      );
    const row: (number | null)[] = [];
    for (const [j, column] of columns.entries()) {
      const read = readCell(column, cells[j] ?? "", unitOf(column), clock);
      if (typeof read === "string") return refuse(read);
      row.push(read);
    }
    rows.push(row);
  }
  if (rows.length === 0 && text.trim() !== "")
    return {
      ok: false,
      message: `There is no line of numbers here. A row has ${namesOf(columns)}.`,
    };
  const fault = faultOf(readings, rows);
  return fault ? { ok: false, message: sentence(fault, unitOf) } : { ok: true, rows };
}

/** A phrase about columns, in the units they are typed in. */
function sentence(fault: Phrase, unitOf: UnitOfColumn): string {
  return fault
    .map((part) => {
      if (typeof part === "string") return part;
      const column = part.of as Column;
      return formatAmount(part.value, column.dimension, unitOf(column), 4);
    })
    .join("");
}

function readCell(
  column: ReadingColumn,
  cell: string,
  unit: string,
  clock: Map<ReadingColumn, { first: number; last: number }>,
): number | null | string {
  const name = column.label.toLowerCase();
  if (EMPTY_CELL.test(cell)) return column.optional ? null : `the ${name} is missing.`;
  if (column.words) {
    const wanted = cell.toLowerCase();
    const found = column.words.findIndex(
      (word, i) => word.toLowerCase() === wanted || column.spellings?.[i]?.includes(wanted),
    );
    return found >= 0 ? found : `“${cell}” is not ${column.words.join(" or ")}.`;
  }
  if (column.dimension === "time") {
    const stamp = STAMP.exec(cell);
    if (stamp) return sinceFirst(column, secondsOf(stamp), clock);
    const time = CLOCK.exec(cell);
    if (time) return sinceFirst(column, ofDay(time), clock, DAY);
  }
  const parsed = parse(cell, column.dimension, column.units, unit);
  return parsed.ok ? parsed.value : `the ${name}: ${parsed.message}`;
}

function ofDay([, hours, minutes, seconds = "0"]: RegExpExecArray): number {
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
}

/** Seconds of a date and time of day, all days alike: no clock is put forward or back between two readings. */
function secondsOf(stamp: RegExpExecArray): number {
  const [, year, month, day, dayFirst, monthNext, yearLast, hours, minutes, seconds = "0"] = stamp;
  const midnight = Date.UTC(
    Number(year ?? yearLast),
    Number(month ?? monthNext) - 1,
    Number(day ?? dayFirst),
  );
  return midnight / 1000 + Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
}

/** Seconds since the first time of the column; with a turn, a time before the last one is a turn later. */
function sinceFirst(
  column: ReadingColumn,
  time: number,
  clock: Map<ReadingColumn, { first: number; last: number }>,
  turn?: number,
): number {
  const known = clock.get(column);
  let at = time;
  if (known && turn !== undefined) while (at < known.last) at += turn;
  clock.set(column, { first: known?.first ?? at, last: at });
  return at - (known?.first ?? at);
}

function cellsOf(line: string, columns: readonly ReadingColumn[]): readonly string[] {
  const trimmed = line.trim().replace(/;$/, "");
  // A tab in front of cells that tabs part, or of one alone, is an empty cell; else it only sets the line in.
  const before = /^[^\S\t]*(\t\s*)/.exec(line)?.[1] ?? "";
  const whole = trimmed.includes("\t") || !/[\s;|]/.test(trimmed) ? before + trimmed : trimmed;
  if (/[\t;|]/.test(whole)) {
    const cells = whole.split(/[\t;|]/).map((cell) => cell.trim());
    // With a cell too many, the whole table was set in.
    return cells.length > columns.length && cells[0] === "" ? cells.slice(1) : cells;
  }
  const spaced = trimmed.split(/\s+/).map((cell) => cell.replace(/,$/, ""));
  if (spaced.length > 1) return withUnits(spaced, columns);
  const parted = trimmed.split(",");
  // "10,5,24,1" can be read two ways: then the line is one cell, and its reader is asked to part it.
  return parted.length <= columns.length ? parted : [trimmed];
}

/** A unit or a half of the day written after a space belongs to the number before it. */
function withUnits(cells: readonly string[], columns: readonly ReadingColumn[]): readonly string[] {
  const words = new Set(
    columns.flatMap(({ words: own = [], spellings = [] }) => [...own, ...spellings.flat()]),
  );
  return cells.reduce<string[]>((found, cell) => {
    const loose = !/\d/.test(cell) && !EMPTY_CELL.test(cell) && !words.has(cell.toLowerCase());
    const dated = CLOCK.test(cell) && DATE.test(found.at(-1) ?? "");
    if ((loose || dated) && found.length > 0) found.push(`${found.pop()} ${cell}`);
    else found.push(cell);
    return found;
  }, []);
}

/** Rows as a text that {@link readRows} reads back as the same: what a field shows. */
export function writeRows(
  { columns }: Readings,
  rows: Rows,
  unitOf: UnitOfColumn = firstUnitOf,
): string {
  return rows
    .map((row) => row.map((cell, i) => cellText(columns[i] as Column, cell, unitOf, 10)).join("; "))
    .join("\n");
}

/** One cell as a table shows it. */
export function cellText(
  column: Column,
  cell: number | null,
  unitOf: UnitOfColumn = firstUnitOf,
  digits: number = column.digits,
): string {
  if (cell === null) return "–";
  if (column.words) return column.words[cell] ?? "–";
  const shown = fromSI(cell, column.dimension, unitOf(column));
  return digits >= 10 ? String(Number(shown.toPrecision(digits))) : formatTrimmed(shown, digits);
}
