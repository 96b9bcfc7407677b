import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isSame } from "../../../lib/batch/same.ts";

describe("isSame(one, other)", () => {
  it("holds for anything and its copy", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const copy: unknown = JSON.parse(JSON.stringify(value));
        expect(isSame(JSON.parse(JSON.stringify(value)), copy)).toBe(true);
      }),
      { seed: 31, numRuns: 200 },
    );
  });

  it("does not mind the order of fields, nor a field that is undefined", () => {
    expect(isSame({ a: 1, b: [2, { c: 3 }] }, { b: [2, { c: 3 }], a: 1, d: undefined })).toBe(true);
  });

  it.each([
    [{ a: 1 }, { a: 2 }],
    [{ a: 1 }, { a: 1, b: 1 }],
    [{ a: 1, b: undefined }, { b: 1 }],
    [{ toString: 1 }, {}],
    [
      [1, 2],
      [2, 1],
    ],
    [[], {}],
    [null, {}],
    [0, "0"],
    [1, null],
  ])("tells %j from %j, either way", (one, other) => {
    expect(isSame(one, other)).toBe(false);
    expect(isSame(other, one)).toBe(false);
  });
});
