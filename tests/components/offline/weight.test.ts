import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { weigh } from "../../../components/offline/weight.ts";

const TEXT = "water and spirit ".repeat(500);
/** Has no pattern that a compressor could use. */
const PACKED = gzipSync(Array.from({ length: 900 }, (_, i) => Math.sin(i)).join(""));

let folder: string;
let text: string;
let packed: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "weight-"));
  text = join(folder, "text.html");
  packed = join(folder, "packed.woff2");
  writeFileSync(text, TEXT);
  writeFileSync(packed, PACKED);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe("weigh(paths)", () => {
  it("counts text as it is sent, compressed", () => {
    const { stored, sent } = weigh([text]);
    expect(stored).toBe(TEXT.length);
    expect(sent).toBeLessThan(0.05 * stored);
  });

  it("counts what is packed already as it lies", () => {
    expect(weigh([packed])).toEqual({ stored: PACKED.length, sent: PACKED.length });
  });

  it("adds up", () => {
    const [a, b, both] = [weigh([text]), weigh([packed]), weigh([text, packed])];
    expect(both).toEqual({ stored: a.stored + b.stored, sent: a.sent + b.sent });
    expect(weigh([])).toEqual({ stored: 0, sent: 0 });
  });

  it("throws for a file that is not there", () => {
    expect(() => weigh([join(folder, "none")])).toThrow(/ENOENT/);
  });
});
