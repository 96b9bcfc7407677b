import Ajv2020 from "ajv/dist/2020.js";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { writeGear } from "../../../lib/batch/gear.ts";
import { undone } from "../../../lib/batch/log.ts";
import {
  again,
  begin,
  EMPTY_BATCH,
  readRecord,
  writeRecord,
  type Batch,
} from "../../../lib/batch/record.ts";
import {
  MAX_RECORDS_TEXT,
  mergeRecords,
  readRecordsFile,
  writeRecordsFile,
  type Records,
} from "../../../lib/batch/records-file.ts";
import { recordsJsonSchema } from "../../../lib/batch/records-schema.ts";
import { batches, entries, pieces } from "../../helpers/records.ts";

const records: fc.Arbitrary<Records> = fc.record(
  {
    batches: fc.uniqueArray(batches, { selector: ({ id }) => id, maxLength: 5 }),
    gear: fc.uniqueArray(pieces, { selector: ({ id }) => id, maxLength: 4 }),
  },
  { noNullPrototype: true },
);
const TUESDAY = { ...EMPTY_BATCH, name: "Tuesday", id: "11111111-aaaa", revision: 3 };
const SCALE = { id: "22222222-bbbb", kind: "scale", name: "Small scale", values: {}, units: {} };
const file = (batches: unknown[], gear: unknown[] = []): string =>
  JSON.stringify({ format: "bilayer-bench-records", version: 1, batches, gear });
const counter = (): (() => string) => {
  let count = 0;
  return () => `new-id-${++count}`;
};

describe("readRecordsFile(text)", () => {
  it("reads back whatever was written, exactly", () => {
    fc.assert(
      fc.property(records, (all) => {
        expect(readRecordsFile(writeRecordsFile(all))).toStrictEqual({
          ok: true,
          records: all,
          refused: [],
        });
      }),
      { seed: 21, numRuns: 200 },
    );
  });

  it("accepts a file with a single batch, or a single piece of gear", () => {
    expect(readRecordsFile(writeRecord(TUESDAY))).toEqual({
      ok: true,
      records: { batches: [TUESDAY], gear: [] },
      refused: [],
    });
    expect(readRecordsFile(writeGear(SCALE as never))).toEqual({
      ok: true,
      records: { batches: [], gear: [SCALE] },
      refused: [],
    });
  });

  it("keeps the good ones, and names each bad one and its place", () => {
    const wrongLog = [{ kind: "read", at: "2026-03-14T20:00:00.000+01:00", liquid: "hot" }];
    const read = readRecordsFile(
      file(
        [
          TUESDAY,
          { ...TUESDAY, name: "Burnt", log: wrongLog },
          { ...TUESDAY, name: "", values: { batchVolume: null } },
          "soup",
          { ...TUESDAY, surprise: 1 },
        ],
        [SCALE, { ...SCALE, kind: "spoon" }],
      ),
    );
    expect(read).toEqual({
      ok: true,
      records: { batches: [TUESDAY], gear: [SCALE] },
      refused: [
        "Batch 2 of 5, “Burnt”, is damaged at its log, entry 1, “liquid”.",
        "Batch 3 of 5 is damaged at its values, “batchVolume”.",
        "Batch 4 of 5 is damaged at its very start.",
        "Batch 5 of 5, “Tuesday”, is damaged at “surprise”, which this version does not know.",
        "Piece of gear 2 of 2, “Small scale”, is damaged at its kind.",
      ],
    });
  });

  it.each([
    ["nothing", "", /another kind/],
    ["a picture", "\u0089PNG\r\n", /another kind/],
    ["null", "null", /another kind/],
    ["a list", "[1,2]", /another kind/],
    ["another program's file", '{"format":"something","version":1}', /another kind/],
    ["no version", '{"format":"bilayer-bench-records"}', /another kind/],
    ["a newer version", file([]).replace('"version":1', '"version":2'), /newer version/],
    ["one cut short", file([TUESDAY]).slice(0, -40), /cut short/],
    ["no list of batches", file([]).replace("[]", "{}"), /damaged at its list of batches/],
    ["a damaged single batch", writeRecord(TUESDAY).replace('"Tuesday"', "7"), /damaged at/],
    ["a huge one", " ".repeat(MAX_RECORDS_TEXT + 1), /far too long/],
  ])("refuses %s in plain words", (_, text, sentence) => {
    const read = readRecordsFile(text);
    expect(read).toMatchObject({ ok: false });
    expect(read.ok ? "" : read.message).toMatch(sentence);
    expect(read.ok ? "" : read.message).toMatch(/^It .*\.$/);
  });

  it("reads the newest of a file cut anywhere as a refusal, never as an error", () => {
    const text = file([TUESDAY, TUESDAY], [SCALE]);
    for (let end = 0; end < text.length; end += 1)
      expect(readRecordsFile(text.slice(0, end))).toMatchObject({ ok: false });
  });

  it("lets no key reach into what all objects share", () => {
    const bad = '"__proto__":{"polluted":1}';
    const text = file([TUESDAY, TUESDAY])
      .replace('"values":{}', `"values":{${bad},"constructor":{"polluted":1}}`)
      .replace(/"name"(?!.*"name")/, `${bad},"name"`);
    const read = readRecordsFile(text);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    expect(read).toEqual({
      ok: true,
      records: { batches: [TUESDAY], gear: [] },
      refused: [
        "Batch 2 of 2, “Tuesday”, is damaged at “__proto__”, which this version does not know.",
      ],
    });
  });
});

describe("mergeRecords(here, file, newId)", () => {
  it("adds all of a file to an empty notebook, the same", () => {
    fc.assert(
      fc.property(records, (all) => {
        const { add } = mergeRecords({ batches: [], gear: [] }, all, counter());
        expect(add).toEqual(all);
      }),
      { seed: 22, numRuns: 100 },
    );
  });

  it("adds nothing of what is here already, however often the file is opened", () => {
    fc.assert(
      fc.property(records, records, (here, file) => {
        const newId = counter();
        const { add } = mergeRecords(here, file, newId);
        const now = {
          batches: [...here.batches, ...add.batches],
          gear: [...here.gear, ...add.gear],
        };
        const second = mergeRecords(now, file, newId);
        expect(second.add).toEqual({ batches: [], gear: [] });
        expect(second.results.every(({ outcome }) => outcome === "here already")).toBe(true);
      }),
      { seed: 23, numRuns: 100 },
    );
  });

  it("keeps both of two different batches with one id, the one from the file under a new id", () => {
    const other = { ...TUESDAY, notes: "sunflower", revision: 9 };
    const merged = mergeRecords(
      { batches: [TUESDAY], gear: [] },
      { batches: [other], gear: [] },
      counter(),
    );
    expect(merged.add.batches).toEqual([{ ...other, id: "new-id-1" }]);
    expect(merged.results).toEqual([{ kind: "batch", name: "Tuesday", outcome: "beside" }]);
  });

  it("loses nothing: every content of either side is there afterwards, and every id is one batch's", () => {
    const content = ({ id: _, revision: __, ...rest }: Batch): string => JSON.stringify(rest);
    fc.assert(
      fc.property(records, records, fc.boolean(), (one, two, clash) => {
        const clashing = two.batches.map((batch, i): Batch => {
          const id = one.batches[i]?.id;
          return id === undefined ? batch : { ...batch, id };
        });
        const file = clash ? { ...two, batches: clashing } : two;
        const { add } = mergeRecords(one, file, counter());
        const all = [...one.batches, ...add.batches];
        const contents = new Set(all.map(content));
        for (const batch of [...one.batches, ...file.batches])
          expect(contents).toContain(content(batch));
        expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
      }),
      { seed: 24, numRuns: 200 },
    );
  });

  it("gives a batch without an id one, unless its content is here", () => {
    const { id: _, ...plain } = TUESDAY;
    const here = { batches: [TUESDAY], gear: [] };
    expect(mergeRecords(here, { batches: [plain], gear: [] }, counter()).add.batches).toEqual([]);
    const other = { ...plain, name: "Wednesday" };
    expect(mergeRecords(here, { batches: [other], gear: [] }, counter())).toMatchObject({
      add: { batches: [{ name: "Wednesday", id: "new-id-1" }] },
      results: [{ outcome: "added" }],
    });
  });
});

describe("recordsJsonSchema()", () => {
  const validate = new Ajv2020({ strict: false }).compile(recordsJsonSchema());

  it("describes whatever is written", () => {
    fc.assert(
      fc.property(records, (all) => {
        expect(validate(JSON.parse(writeRecordsFile(all))), JSON.stringify(validate.errors)).toBe(
          true,
        );
      }),
      { seed: 25, numRuns: 100 },
    );
  });

  it.each([
    ["a version of the future", file([]).replace('"version":1', '"version":2')],
    ["no gear at all", file([]).replace(',"gear":[]', "")],
    ["a field too many", file([{ ...TUESDAY, surprise: 1 }])],
    ["a value that is none", file([{ ...TUESDAY, values: { batchVolume: null } }])],
    ["gear of an unknown kind", file([{ ...TUESDAY, gear: { spoon: "big" } }])],
    ["an id that is none", file([{ ...TUESDAY, id: "Nr 1" }])],
    ["an entry of no kind", file([{ ...TUESDAY, log: [{ kind: "sung" }] }])],
  ])("refuses what the reader refuses: %s", (_, text) => {
    expect(validate(JSON.parse(text))).toBe(false);
    const read = readRecordsFile(text);
    expect(read.ok && read.refused.length === 0).toBe(false);
  });
});

describe("a record through an evening", () => {
  const edits = fc.oneof(
    fc.record({ do: fc.constant("note" as const), entry: entries }),
    fc.record({ do: fc.constant("undo" as const) }),
    fc.record({ do: fc.constant("begin" as const) }),
    fc.record({ do: fc.constant("again" as const), id: fc.uuid() }),
    fc.record({ do: fc.constant("edit" as const), change: batches }),
  );

  it("stays one that is read back the same, whatever is typed, noted and undone", () => {
    fc.assert(
      fc.property(batches, fc.array(edits, { maxLength: 20 }), (start, steps) => {
        const end = steps.reduce((batch: Batch, step): Batch => {
          switch (step.do) {
            case "note":
              return { ...batch, log: [...(batch.log ?? []), step.entry] };
            case "undo":
              return batch.log ? { ...batch, log: undone(batch.log) } : batch;
            case "begin":
              return begin(batch);
            case "again":
              return again(batch, step.id);
            case "edit":
              return { ...batch, values: step.change.values, notes: step.change.notes };
          }
        }, start);
        expect(readRecord(writeRecord(end))).toStrictEqual({ ok: true, batch: end });
      }),
      { seed: 26, numRuns: 200 },
    );
  });
});
