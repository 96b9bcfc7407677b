import * as fc from "fast-check";
import { GEAR_KINDS, type Gear } from "../../lib/batch/gear.ts";
import { LABEL_SIZES, LECITHIN_SOURCES, type LabelSize } from "../../lib/batch/label.ts";
import {
  INGREDIENTS,
  NOTED,
  OFFSET_LIMITS,
  stamp,
  TIME_LIMITS,
  type Entry,
  type Noted,
} from "../../lib/batch/log.ts";
import type { Batch } from "../../lib/batch/record.ts";

// Numbers as JSON writes them: it knows no negative zero.
const number = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((x) => (x === 0 ? 0 : x));
const finite = number(-1e300, 1e300);
const key = fc.stringMatching(/^[a-z][a-zA-Z0-9]{0,20}(\.[a-z][a-zA-Z0-9]{0,20})?$/);
const dictionary = <T>(value: fc.Arbitrary<T>) =>
  fc.dictionary(key, value, { maxKeys: 6, noNullPrototype: true });
const rows = fc.array(fc.array(fc.option(finite), { maxLength: 8 }), { maxLength: 4 });
const values = dictionary(fc.oneof(finite, fc.string({ maxLength: 20 }), rows));
const units = dictionary(fc.constantFrom("g", "mL", "% vol"));
const day = fc
  .date({ min: new Date("0001-01-01"), max: new Date("9999-12-31"), noInvalidDate: true })
  .map((date) => date.toISOString().slice(0, 10));
const moment = fc
  .tuple(
    fc.integer({ min: TIME_LIMITS.min, max: TIME_LIMITS.max }),
    fc.integer({ min: OFFSET_LIMITS.min, max: OFFSET_LIMITS.max }),
  )
  .map(([time, offset]) => stamp(time, offset));
const temperature = number(-40, 150);
const id = fc.uuid();

/** One entry of a log, of any kind. */
export const entries: fc.Arbitrary<Entry> = fc
  .oneof(
    fc.record({
      kind: fc.constant("step" as const),
      at: moment,
      step: fc.oneof(
        fc.constantFrom("weigh", "stint-1", "rest-1", "skim"),
        fc.stringMatching(/^[a-z][a-z0-9-]{0,30}$/),
      ),
    }),
    fc.record({ kind: fc.constant("end" as const), at: moment }),
    fc.record(
      {
        kind: fc.constant("weighed" as const),
        at: moment,
        vessel: fc.integer({ min: 1, max: 1000 }),
        of: fc.integer({ min: 1, max: 1000 }),
        ingredient: fc.constantFrom(...INGREDIENTS),
        reading: number(0, 50),
        accepted: fc.constant(true as const),
      },
      { requiredKeys: ["kind", "at", "vessel", "ingredient", "reading"] },
    ),
    fc.record(
      { kind: fc.constant("read" as const), at: moment, liquid: temperature, bath: temperature },
      { requiredKeys: ["kind", "at", "liquid"] },
    ),
    fc.constantFrom(...(Object.keys(NOTED) as Noted[])).chain((of) =>
      fc.record({
        kind: fc.constant("amount" as const),
        at: moment,
        of: fc.constant(of),
        value: number(NOTED[of].min, NOTED[of].max),
      }),
    ),
    fc.record({
      kind: fc.constant("note" as const),
      at: moment,
      text: fc.string({ maxLength: 500 }),
    }),
    fc.record({ kind: fc.constant("clock" as const), at: moment, by: number(-1e10, 1e10) }),
  )
  .map((entry) => ({ ...entry }));

/** Any batch that a notebook may hold. */
export const batches = fc.record(
  {
    name: fc.string({ maxLength: 40 }),
    values,
    units,
    notes: fc.string({ maxLength: 200 }),
    made: day,
    discard: day,
    lecithinSource: fc.constantFrom(...LECITHIN_SOURCES),
    labelSize: fc.constantFrom(...(Object.keys(LABEL_SIZES) as LabelSize[])),
    id,
    revision: fc.nat(1_000_000),
    repeats: id,
    gear: fc
      .subarray([...GEAR_KINDS])
      .map((kinds) => Object.fromEntries(kinds.map((kind) => [kind, `my ${kind}`]))),
    planned: values,
    log: fc.array(entries, { maxLength: 12 }),
  },
  { requiredKeys: ["name", "values", "units", "notes", "id"], noNullPrototype: true },
) satisfies fc.Arbitrary<Batch>;

/** Any piece of gear. */
export const pieces = fc.record(
  { id, kind: fc.constantFrom(...GEAR_KINDS), name: fc.string({ maxLength: 40 }), values, units },
  { noNullPrototype: true },
) satisfies fc.Arbitrary<Gear>;
