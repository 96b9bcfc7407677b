import { describe, expect, it } from "vitest";
import {
  EMPTY_CHECK_LIST,
  OWN_LIMITS,
  ownLine,
  readCheckList,
  writeCheckList,
} from "../../../components/caution/check-list.ts";

describe("readCheckList(text)", () => {
  it("gives back what writeCheckList wrote", () => {
    const record = { ticked: ["spirit", "glass"], own: [{ text: "Cat is out", ticked: true }] };
    expect(readCheckList(writeCheckList(record))).toEqual(record);
  });
  it.each([null, "", "{", "null", "3", '"list"', "[]", '{"ticked":1,"own":"x"}'])(
    "takes %j for an empty list",
    (text) => {
      expect(readCheckList(text)).toEqual(EMPTY_CHECK_LIST);
    },
  );
  it("keeps what is sound beside what is not", () => {
    const text = '{"ticked":["glass",3],"own":[{"text":" "},{"text":"Tea"},7,{"ticked":true}]}';
    expect(readCheckList(text)).toEqual({
      ticked: ["glass"],
      own: [{ text: "Tea", ticked: false }],
    });
  });
  it("holds no more lines than the list takes", () => {
    const own = Array.from({ length: OWN_LIMITS.lines + 1 }, (_, i) => ({ text: `${i}` }));
    expect(readCheckList(JSON.stringify({ own })).own).toHaveLength(OWN_LIMITS.lines);
  });
});

describe("ownLine(text)", () => {
  it("makes one trimmed line", () => {
    expect(ownLine("  two\n words ")).toBe("two words");
  });
  it("is nothing for blanks", () => {
    expect(ownLine(" \n ")).toBeUndefined();
  });
  it("cuts a line at its limit", () => {
    expect(ownLine("x".repeat(OWN_LIMITS.length + 1))).toHaveLength(OWN_LIMITS.length);
  });
});
