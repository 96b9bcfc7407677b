import { describe, expect, it } from "vitest";
import { batchKeeping, keeping, recordsKeeping } from "../../../components/batch/keeping.ts";

describe("batchKeeping", () => {
  it.each([
    ["kept", "kept", "kept"],
    ["kept", "refused", "kept"],
    ["refused", "kept", "records"],
    ["full", "kept", "records"],
    ["refused", "full", "full"],
    ["full", "refused", "full"],
    ["refused", "refused", "refused"],
  ] as const)("of a quick storage %s and a database %s is %s", (quick, records, both) => {
    keeping.set(quick);
    recordsKeeping.set(records);
    expect(batchKeeping.get()).toBe(both);
  });
});
