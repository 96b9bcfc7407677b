import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EMPTY_BATCH, planOf, type Batch } from "../../../lib/batch/record.ts";
import { fromFragment, toFragment } from "../../../lib/batch/share-link.ts";
import { batches } from "../../helpers/records.ts";

describe("fromFragment(fragment)", () => {
  it("opens the plan of whatever toFragment was given, exactly, and nothing of its evening", () => {
    fc.assert(
      fc.property(batches, (batch) => {
        const fragment = toFragment(batch);
        if (fragment !== undefined)
          expect(fromFragment(fragment)).toEqual({ ok: true, batch: planOf(batch) });
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it("carries a log of an evening, and refuses to make a link that messengers would cut", () => {
    const rows = (count: number): (number | null)[][] =>
      Array.from({ length: count }, (_, i) => [i * 60, 20 + i / 10, i % 5 === 0 ? null : 21.5, 1]);
    const withLog = (count: number): Batch => ({
      ...EMPTY_BATCH,
      values: { heatReadings: rows(count) },
    });
    expect(fromFragment(toFragment(withLog(60)) ?? "")).toEqual({ ok: true, batch: withLog(60) });
    expect(toFragment(withLog(900))).toBeUndefined();
  });

  it("is nothing for an address without a batch", () => {
    expect(fromFragment("#contraction")).toBeUndefined();
    expect(fromFragment("")).toBeUndefined();
  });

  it.each([
    ["cut short", (link: string) => link.slice(0, -7)],
    ["changed inside", (link: string) => `${link.slice(0, 20)}!${link.slice(21)}`],
    ["far too long", (link: string) => link + "A".repeat(9000)],
    ["another text", () => "#batch=aGVsbG8"],
  ])("refuses a link that is %s", (_, change) => {
    const link = toFragment({ ...EMPTY_BATCH, values: { batchVolume: 0.0005 } });
    expect(fromFragment(change(link ?? ""))).toMatchObject({ ok: false });
  });
});
