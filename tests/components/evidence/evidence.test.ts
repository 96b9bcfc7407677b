import { describe, expect, it } from "vitest";
import {
  asPrinted,
  evidenceTables,
  shownAlike,
  verdictOf,
} from "../../../components/evidence/evidence.ts";

describe("asPrinted(value)", () => {
  it("keeps the digits it is given, with a minus sign and thousands apart", () => {
    expect(asPrinted(-18.179)).toEqual({ digits: "\u221218.179" });
    expect(asPrinted(17_000)).toEqual({ digits: "17\u202f000" });
    expect(asPrinted(0)).toEqual({ digits: "0" });
  });
  it("writes what would be all zeros with a power of ten", () => {
    expect(asPrinted(3.2e-7)).toEqual({ digits: "3.2", power: "\u22127" });
    expect(asPrinted(0.0000025)).toEqual({ digits: "2.5", power: "\u22126" });
    expect(asPrinted(0.00001)).toEqual({ digits: "0.00001" });
  });
});

describe("shownAlike(value, tolerance)", () => {
  it("gives two digits beyond the tolerance, with a minus sign", () => {
    expect(shownAlike(-0.94852, 0.01)).toBe("\u22120.9485");
  });
});

describe("verdictOf(check, checked)", () => {
  it("lets an exact figure agree that is off by rounding alone", () => {
    const [row] = evidenceTables("serving").flatMap(({ rows }) =>
      rows.filter(({ check }) => check.tolerance === 0),
    );
    if (!row) throw new Error("no exact figure there");
    expect(verdictOf(row.check, { ...row.checked, difference: 1e-13 * row.check.value })).toBe(
      "agrees",
    );
    expect(verdictOf(row.check, { ...row.checked, difference: 1e-9 * row.check.value })).toBe(
      "inside our band",
    );
  });
});
