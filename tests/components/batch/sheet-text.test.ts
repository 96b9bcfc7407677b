import { describe, expect, it } from "vitest";
import { eveningSentence, misreadSentences } from "../../../components/batch/sheet-text.ts";
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

describe("misreadSentences(inputs, drafts)", () => {
  const inputs = [["recipe.batchVolume", { label: "Finished batch" }]] as const;

  it("quotes what was typed, and names a field left empty", () => {
    expect(misreadSentences(inputs, {})).toEqual([]);
    expect(misreadSentences(inputs, { "recipe.batchVolume": "abc" })).toEqual([
      "Finished batch: “abc” is not read, and the value before it still counts. Mend it first.",
    ]);
    expect(misreadSentences(inputs, { "recipe.batchVolume": " " })[0]).toMatch(/^[^“]*empty/);
  });
});
