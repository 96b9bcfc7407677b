import { describe, expect, it } from "vitest";
import { eveningSentence } from "../../../components/batch/sheet-text.ts";
import { begin, EMPTY_BATCH } from "../../../lib/batch/record.ts";
import { evening } from "../../helpers/evening.ts";

describe("eveningSentence(batch)", () => {
  const begun = evening().step(0, "weigh").step(480, "dissolve");

  it("tells since when the batch is at the bench, and what a change means then", () => {
    expect(eveningSentence(begun.batch())).toBe(
      "This batch has been at the bench since 20:00: what you change here changes what is still ahead; what was planned stays on record.",
    );
    expect(eveningSentence(begin(EMPTY_BATCH))).toMatch(/^This batch is at the bench: /);
  });

  it("says nothing before the evening and after it", () => {
    expect(eveningSentence(EMPTY_BATCH)).toBe("");
    expect(eveningSentence(begun.end(900).batch())).toBe("");
  });
});
