import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EVENING_KEYS, loggedValues, type Entry } from "../../../lib/batch/log.ts";
import {
  again,
  begin,
  EMPTY_BATCH,
  MAX_TEXT,
  planOf,
  readRecord,
  valuesOf,
  writeRecord,
  type Batch,
} from "../../../lib/batch/record.ts";
import { batches } from "../../helpers/records.ts";

const PLAN = { batchVolume: 0.0005, "weighing.waterMass": 0.3, stints: 2 };
/** What the evening before left behind. */
const LEFT_OVER = { "composition.waterMass": 0.31, skimmedVolume: 2e-5 };
const WEIGHED: Entry = {
  kind: "weighed",
  at: "2026-11-25T20:00:00.000+01:00",
  vessel: 1,
  ingredient: "water",
  reading: 0.29,
};
/** A batch with all that a record can have. */
const DONE = {
  ...EMPTY_BATCH,
  name: "November",
  values: { ...PLAN, ...LEFT_OVER, ceiling: 35 },
  units: { batchVolume: "mL" },
  notes: "smells clean",
  made: "2026-11-25",
  discard: "2027-01-24",
  lecithinSource: "soy",
  labelSize: "small",
  id: "november-0001",
  revision: 12,
  repeats: "october-0001",
  gear: { scale: "Small scale" },
  planned: PLAN,
  log: [WEIGHED],
} satisfies Batch;

describe("valuesOf(batch)", () => {
  it("is what was typed, where nothing was noted at the bench", () => {
    expect(valuesOf({ ...EMPTY_BATCH, values: PLAN })).toEqual(PLAN);
    expect(valuesOf({ ...EMPTY_BATCH, values: PLAN, log: [] })).toEqual(PLAN);
  });

  it("adds what the log gives, and lets the reader type over it", () => {
    const noted = { ...DONE, values: PLAN };
    expect(valuesOf(noted)).toEqual({ ...PLAN, "composition.waterMass": 0.29 });
    expect(valuesOf(DONE)["composition.waterMass"]).toBe(0.31);
    fc.assert(
      fc.property(batches, (batch) => {
        expect(valuesOf(batch)).toEqual({ ...loggedValues(batch.log ?? []), ...batch.values });
      }),
      { seed: 11, numRuns: 100 },
    );
  });
});

describe("begin(batch)", () => {
  const { planned: _, ...before } = DONE;

  it("puts the plan on record and starts an empty log, without what an earlier evening left", () => {
    const plan = { ...PLAN, ceiling: 35 };
    expect(begin(before)).toEqual({ ...before, values: plan, planned: plan, log: [] });
  });

  it("takes nothing from a plan but what belongs to one evening", () => {
    fc.assert(
      fc.property(batches, fc.subarray([...EVENING_KEYS]), (batch, keys) => {
        const evening = Object.fromEntries(keys.map((key) => [key, 0.1]));
        const { planned: __, ...fresh } = batch;
        const begun = begin({ ...fresh, values: { ...evening, ...batch.values } });
        expect(begun.planned).toEqual(batch.values);
      }),
      { seed: 12, numRuns: 100 },
    );
  });

  it("leaves a batch that has begun as it is", () => {
    expect(begin(DONE)).toBe(DONE);
    const begun = begin(before);
    expect(begin(begun)).toBe(begun);
  });
});

describe("planOf(batch)", () => {
  it("keeps plan, label and gear, and leaves out place and evening", () => {
    const { id: _, revision: __, repeats: ___, planned: ____, log: _____, ...plan } = DONE;
    expect(planOf(DONE)).toEqual(plan);
    expect(planOf(EMPTY_BATCH)).toEqual(EMPTY_BATCH);
  });
});

describe("again(batch, newId)", () => {
  it("is the plan for another day, and says which batch it does again", () => {
    expect(again(DONE, "december-0001")).toEqual({
      name: "November",
      values: { ...PLAN, ceiling: 35 },
      units: { batchVolume: "mL" },
      notes: "",
      lecithinSource: "soy",
      labelSize: "small",
      gear: { scale: "Small scale" },
      id: "december-0001",
      repeats: "november-0001",
    });
  });

  it("repeats nothing where the first has no place among the records", () => {
    const { id: _, ...nameless } = DONE;
    expect(again(nameless, "december-0001")).not.toHaveProperty("repeats");
  });
});

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
