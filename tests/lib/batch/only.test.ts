import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { only, without } from "../../../lib/batch/only.ts";

const records = fc.dictionary(fc.string(), fc.integer(), { noNullPrototype: true });

describe("only(from, meant) and without(from, meant)", () => {
  it("part a record in two, each field in one of them", () => {
    fc.assert(
      fc.property(records, fc.func(fc.boolean()), (record, meant) => {
        const [these, those] = [only(record, meant), without(record, meant)];
        for (const name of Object.keys(record)) {
          expect(Object.hasOwn(these, name)).toBe(meant(name));
          expect(Object.hasOwn(those, name)).toBe(!meant(name));
        }
        expect({ ...these, ...those }).toEqual(record);
      }),
      { seed: 61 },
    );
  });
});
