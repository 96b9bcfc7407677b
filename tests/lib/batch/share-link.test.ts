import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EMPTY_BATCH, planOf, writeRecord, type Batch } from "../../../lib/batch/record.ts";
import { fromFragment, toFragment } from "../../../lib/batch/share-link.ts";
import { batches } from "../../helpers/records.ts";

/** As a link carries it: without spaces. */
function text(batch: Batch): string {
  return JSON.stringify(JSON.parse(writeRecord(batch)));
}

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
    expect(fromFragment("#batch-size")).toBeUndefined();
    expect(fromFragment("")).toBeUndefined();
  });

  it("is as long as messengers carry at most, and is read up to there", () => {
    // Each character stands for six bits: 8000 of them carry 6000 bytes.
    const bytes = (of: Batch): number => new TextEncoder().encode(text(of)).length;
    let batch: Batch = { ...EMPTY_BATCH, notes: "x".repeat(4000) };
    for (let i = 0; bytes(batch) < 5950; i++)
      batch = { ...batch, units: { ...batch.units, [`key${i}`]: "g" } };
    batch = { ...batch, name: "n".repeat(6000 - bytes(batch)) };
    expect(bytes(batch)).toBe(6000);
    const link = toFragment(batch);
    expect(link).toHaveLength("#batch=".length + 8000);
    expect(fromFragment(link ?? "")).toEqual({ ok: true, batch });
    expect(toFragment({ ...batch, name: `${batch.name}n` })).toBeUndefined();
    expect(fromFragment(`${link}A`)).toMatchObject({
      ok: false,
      message: expect.stringContaining("longer than any batch"),
    });
  });

  it("refuses letters that are none", () => {
    const broken = btoa(text(EMPTY_BATCH).replace('"name":""', '"name":"\xff"'));
    expect(fromFragment(`#batch=${broken.replaceAll("=", "")}`)).toMatchObject({
      ok: false,
      message: expect.stringContaining("changed or cut"),
    });
  });

  it.each([
    ["cut short", (link: string) => link.slice(0, -7)],
    ["changed inside", (link: string) => `${link.slice(0, 20)}!${link.slice(21)}`],
    ["far too long", (link: string) => link + "A".repeat(9000)],
    ["another text", () => "#batch=aGVsbG8"],
    ["without its sign", (link: string) => link.replace("=", "")],
    ["with its sign rewritten", (link: string) => link.replace("=", "%3D")],
    ["cut before the batch", () => "#batch"],
  ])("refuses a link that is %s", (_, change) => {
    const link = toFragment({ ...EMPTY_BATCH, values: { batchVolume: 0.0005 } });
    expect(fromFragment(change(link ?? ""))).toMatchObject({ ok: false });
  });
});
