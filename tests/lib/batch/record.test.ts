import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LABEL_SIZES, LECITHIN_SOURCES, type LabelSize } from "../../../lib/batch/label.ts";
import {
  EMPTY_BATCH,
  MAX_TEXT,
  readRecord,
  writeRecord,
  type Batch,
} from "../../../lib/batch/record.ts";
import { fromFragment, toFragment } from "../../../lib/batch/share-link.ts";

const key = fc.stringMatching(/^[a-z][a-zA-Z0-9]{0,20}(\.[a-z][a-zA-Z0-9]{0,20})?$/);
const finite = fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => (x === 0 ? 0 : x));
const day = fc
  .date({
    min: new Date("0000-01-01T00:00:00Z"),
    max: new Date("9999-12-31T23:59:59Z"),
    noInvalidDate: true,
  })
  .map((date) => date.toISOString().slice(0, 10));
const rows = fc.array(fc.array(fc.option(finite), { maxLength: 8 }), { maxLength: 6 });
const batches = fc.record(
  {
    name: fc.string({ maxLength: 40 }),
    values: fc.dictionary(key, fc.oneof(finite, fc.string({ maxLength: 20 }), rows), {
      maxKeys: 20,
      noNullPrototype: true,
    }),
    units: fc.dictionary(key, fc.constantFrom("g", "mL", "% vol"), {
      maxKeys: 20,
      noNullPrototype: true,
    }),
    notes: fc.string({ maxLength: 200 }),
    made: day,
    discard: day,
    lecithinSource: fc.constantFrom(...LECITHIN_SOURCES),
    labelSize: fc.constantFrom(...(Object.keys(LABEL_SIZES) as LabelSize[])),
  },
  { requiredKeys: ["name", "values", "units", "notes"], noNullPrototype: true },
) satisfies fc.Arbitrary<Batch>;

describe("readRecord(text)", () => {
  it("reads back whatever was written, exactly", () => {
    fc.assert(
      fc.property(batches, (batch) => {
        expect(readRecord(writeRecord(batch))).toEqual({ ok: true, batch });
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("reads a record from before there were labels, and adds nothing to it", () => {
    const batch = { name: "Old", values: { batchVolume: 0.0005 }, units: {}, notes: "" };
    const text = JSON.stringify({ format: "bilayer-bench-batch", version: 1, batch });
    const read = readRecord(text);
    expect(read).toStrictEqual({ ok: true, batch });
  });

  it.each([
    ["nothing", ""],
    ["a picture", "\u0089PNG\r\n"],
    ["a list", "[1,2,3]"],
    ["null", "null"],
    ["another program's file", '{"format":"something","version":1}'],
    ["no version", '{"format":"bilayer-bench-batch"}'],
    ["a text too long", " ".repeat(MAX_TEXT + 1)],
  ])("refuses %s in plain words", (_, text) => {
    const read = readRecord(text);
    expect(read).toMatchObject({ ok: false });
    expect(read.ok ? "" : read.message).toMatch(/^It is .*\.$/);
  });

  it("names a newer version and does not guess at it", () => {
    const text = writeRecord(EMPTY_BATCH).replace('"version": 1', '"version": 2');
    expect(readRecord(text)).toMatchObject({
      ok: false,
      message: expect.stringContaining("newer"),
    });
  });

  it.each([
    ["a value that is no number", { values: { batchVolume: null } }],
    ["a key that is no name", { values: { "__proto__ x": 1 } }],
    ["something more", { surprise: true }],
    ["notes without end", { notes: "x".repeat(5000) }],
    ["a day that is none", { made: "2026-02-30" }],
    ["a day with a time", { discard: "2026-02-03T10:00" }],
    ["lecithin from nowhere", { lecithinSource: "moon" }],
    ["a label without end", { labelSize: "wall" }],
  ])("says where it is damaged: %s", (_, change) => {
    const record = JSON.parse(writeRecord(EMPTY_BATCH)) as { batch: object };
    const text = JSON.stringify({ ...record, batch: { ...record.batch, ...change } });
    const read = readRecord(text);
    expect(read).toMatchObject({ ok: false, message: expect.stringContaining("damaged at") });
  });
});

describe("fromFragment(fragment)", () => {
  it("opens whatever toFragment made, exactly", () => {
    fc.assert(
      fc.property(batches, (batch) => {
        const fragment = toFragment(batch);
        if (fragment !== undefined) expect(fromFragment(fragment)).toEqual({ ok: true, batch });
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it("carries a log of an evening, and refuses to make a link that messengers would cut", () => {
    const rows = (count: number): (number | null)[][] =>
      Array.from({ length: count }, (_, i) => [i * 60, 20 + i / 10, i % 5 === 0 ? null : 21.5, 1]);
    const withLog = (count: number): Batch => ({
      ...EMPTY_BATCH,
      values: { heatReadings: rows(count) },
    });
    expect(fromFragment(toFragment(withLog(60)) ?? "")).toEqual({ ok: true, batch: withLog(60) });
    expect(toFragment(withLog(900))).toBeUndefined();
  });

  it("is nothing for an address without a batch", () => {
    expect(fromFragment("#contraction")).toBeUndefined();
    expect(fromFragment("")).toBeUndefined();
  });

  it.each([
    ["cut short", (link: string) => link.slice(0, -7)],
    ["changed inside", (link: string) => `${link.slice(0, 20)}!${link.slice(21)}`],
    ["far too long", (link: string) => link + "A".repeat(9000)],
    ["another text", () => "#batch=aGVsbG8"],
  ])("refuses a link that is %s", (_, change) => {
    const link = toFragment({ ...EMPTY_BATCH, values: { batchVolume: 0.0005 } });
    expect(fromFragment(change(link ?? ""))).toMatchObject({ ok: false });
  });
});
