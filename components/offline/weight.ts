import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

export interface Weight {
  /** bytes as they lie on disk */
  readonly stored: number;
  /** bytes as a host sends them: compressed, or as they are where that is less */
  readonly sent: number;
}

/**
 * What a set of files weighs.
 * @param paths - of files that exist
 */
export function weigh(paths: Iterable<string>): Weight {
  let [stored, sent] = [0, 0];
  for (const path of paths) {
    const bytes = readFileSync(path);
    stored += bytes.length;
    sent += Math.min(bytes.length, gzipSync(bytes, { level: 9 }).length);
  }
  return { stored, sent };
}
