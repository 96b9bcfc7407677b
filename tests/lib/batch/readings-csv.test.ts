import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Log } from "../../../lib/batch/log.ts";
import { readingsCsv } from "../../../lib/batch/readings-csv.ts";
import { entries } from "../../helpers/records.ts";

const at = (time: string): string => `2026-03-14T${time}.000+01:00`;
const LOG: Log = [
  { kind: "step", at: at("20:00:00"), step: "weigh" },
  { kind: "weighed", at: at("20:01:00"), vessel: 1, ingredient: "water", reading: 0.3203 },
  { kind: "step", at: at("20:10:00"), step: "stint-1" },
  { kind: "read", at: at("20:12:30"), liquid: 21.5, bath: 24 },
  { kind: "clock", at: at("21:12:30"), by: 3600 },
  { kind: "note", at: at("21:13:00"), text: 'smells, "sweet"' },
  { kind: "end", at: at("21:14:00") },
];

/** A reader of RFC 4180 of our own: quotes doubled inside quotes, lines ended by CR and LF. */
function parse(text: string): string[][] {
  const lines: string[][] = [[]];
  let rest = text;
  while (rest !== "") {
    const quoted = /^"((?:[^"]|"")*)"/.exec(rest);
    const plain = /^[^",\r\n]*/.exec(rest);
    const taken = quoted?.[0] ?? plain?.[0] ?? "";
    lines.at(-1)?.push(quoted ? (quoted[1] ?? "").replaceAll('""', '"') : taken);
    rest = rest.slice(taken.length);
    if (rest.startsWith(",")) rest = rest.slice(1);
    else if (rest.startsWith("\r\n")) {
      rest = rest.slice(2);
      lines.push([]);
    } else throw new Error(`not RFC 4180 from “${rest.slice(0, 20)}”`);
  }
  return lines.slice(0, -1);
}

describe("readingsCsv(batch)", () => {
  it("writes every entry on its line, with the time that really passed", () => {
    const [head = [], ...lines] = parse(readingsCsv({ log: LOG }));
    const column = (name: string): string[] => lines.map((line) => line[head.indexOf(name)] ?? "");
    expect(lines).toHaveLength(LOG.length);
    expect(column("time (UTC)")[0]).toBe("2026-03-14T19:00:00.000Z");
    expect(column("local time")[0]).toBe("2026-03-14 20:00:00");
    // The clock was seen to jump by an hour: half a minute passed, not an hour and a half minute.
    expect(column("since the first entry (s)")).toEqual([
      "0",
      "60",
      "600",
      "750",
      "750",
      "780",
      "840",
    ]);
    expect(column("ultrasound")).toEqual(["off", "off", "on", "on", "on", "on", "off"]);
    expect(column("liquid (°C)")[3]).toBe("21.5");
    expect(column("bath (°C)")[3]).toBe("24");
    expect(column("scale shows (g)")[1]).toBe("320.3");
    expect(column("note")[5]).toBe('smells, "sweet"');
    expect(column("what")).toEqual([
      "step begins",
      "weighing",
      "step begins",
      "reading",
      "clock jumped",
      "note",
      "last step ends",
    ]);
    expect(column("value (SI)")[4]).toBe("3600");
  });

  it("names what was measured, in SI", () => {
    const log: Log = [{ kind: "amount", at: at("22:00:00"), of: "skimmedVolume", value: 6e-5 }];
    const [head = [], line = []] = parse(readingsCsv({ log }));
    const cells = Object.fromEntries(head.map((name, i) => [name, line[i]]));
    expect(cells).toMatchObject({
      what: "amount",
      amount: "skimmedVolume",
      "value (SI)": "0.00006",
    });
  });

  it("leaves a plain word without quotes", () => {
    expect(readingsCsv({}).startsWith("time (UTC),local time,")).toBe(true);
  });

  it("has a heading and nothing else where nothing was noted", () => {
    expect(parse(readingsCsv({}))).toHaveLength(1);
  });

  it.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])(
    "makes %j harmless for a spreadsheet",
    (text) => {
      const log: Log = [{ kind: "note", at: at("20:00:00"), text }];
      expect(parse(readingsCsv({ log }))[1]?.at(-1)).toBe(`'${text}`);
    },
  );

  it("is a table with as many cells in each line, whatever was noted", () => {
    fc.assert(
      fc.property(fc.array(entries, { maxLength: 10 }), (log) => {
        const [head = [], ...lines] = parse(readingsCsv({ log }));
        expect(lines).toHaveLength(log.length);
        for (const line of lines) expect(line).toHaveLength(head.length);
      }),
      { seed: 41, numRuns: 100 },
    );
  });

  it("leaves a temperature below zero a number", () => {
    const log: Log = [{ kind: "read", at: at("20:00:00"), liquid: -2.5 }];
    expect(parse(readingsCsv({ log }))[1]).toContain("-2.5");
  });
});
