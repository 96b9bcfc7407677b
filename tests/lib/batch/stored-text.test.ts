import * as v from "valibot";
import { describe, expect, it } from "vitest";
import { readText, writeText, type TextKind } from "../../../lib/batch/stored-text.ts";

const NOTE: TextKind<{ text: string }> = {
  format: "note-of-ours",
  version: 3,
  called: "note",
  key: "note",
  schema: v.strictObject({ text: v.string() }),
  longest: 200,
};
const text = (data: object): string => JSON.stringify(data);
const OURS = { format: "note-of-ours", version: 3, note: { text: "hello" } };

function message(of: string): string {
  const read = readText(NOTE, of);
  return read.ok ? "" : read.message;
}

describe("readText(kind, text)", () => {
  it("reads back what was written", () => {
    expect(readText(NOTE, writeText(NOTE, { text: "hello" }))).toEqual({
      ok: true,
      value: { text: "hello" },
    });
  });

  it("takes a text as long as may be, and not one longer", () => {
    const padded = (length: number): string => text(OURS).padEnd(length);
    expect(message(padded(200))).toBe("");
    expect(message(padded(201))).toMatch(/^It is far too long to be a note /);
  });

  it.each([
    ["", /^It is not a note file/],
    ["{", /^It is not a note file/],
    ["null", /^It is a file of another kind/],
    ["7", /^It is a file of another kind/],
    ["[]", /^It is a file of another kind/],
    [text({ ...OURS, format: "something" }), /^It is a file of another kind/],
    [text({ ...OURS, version: "3" }), /^It is a file of another kind/],
    [text({ ...OURS, version: 4 }), /newer version .*\(format 4, this one reads 3\)/],
    [text({ ...OURS, version: 2 }), /damaged at “version”/],
    [text({ ...OURS, note: { text: 1 } }), /damaged at “note.text”/],
    [text({ ...OURS, more: 1 }), /damaged at “more”/],
  ])("says what is wrong with %s", (given, says) => {
    expect(message(given)).toMatch(says);
  });
});
