import { describe, expect, it } from "vitest";
import {
  dayOf,
  entryLine,
  mergeText,
  newestFirst,
  sideTitles,
  stateOf,
  summaryOf,
  temperatureFigure,
  valueText,
} from "../../../components/records/records-text.ts";
import type { Log } from "../../../lib/batch/log.ts";
import { EMPTY_BATCH, type Batch } from "../../../lib/batch/record.ts";
import { MASS, TEMPERATURE, TIME } from "../../../lib/calculations/quantities/kinds.ts";
import { firstUnit } from "../../../lib/calculations/say.ts";

const at = (time: string): string => `2026-03-14T${time}.000+01:00`;
const LOG: Log = [
  { kind: "step", at: at("20:00:00"), step: "stint-1" },
  { kind: "read", at: at("20:05:00"), liquid: 21.5, bath: 24 },
  { kind: "read", at: at("20:10:00"), liquid: 25 },
];
const plain = (text: string): string => text.replaceAll("\u00a0", " ");
const batch = (more: Partial<Batch>): Batch => ({ ...EMPTY_BATCH, ...more });

describe("stateOf(batch)", () => {
  it.each([
    ["planned", {}],
    ["at the bench", { planned: {}, log: [] }],
    ["at the bench", { planned: {}, log: LOG }],
    ["finished", { planned: {}, log: [...LOG, { kind: "end", at: at("20:20:00") }] as Log }],
    [
      "at the bench",
      {
        planned: {},
        log: [
          { kind: "end", at: at("20:20:00") },
          { kind: "step", at: at("20:21:00"), step: "bottle" },
        ] as Log,
      },
    ],
  ] as const)("says “%s”", (state, more) => {
    expect(stateOf(batch(more))).toBe(state);
  });
});

describe("newestFirst(batches)", () => {
  it("puts plans first, then the latest evening, by day and by hour", () => {
    const all = [
      batch({ name: "old", made: "2025-12-01" }),
      batch({ name: "plan b" }),
      batch({ name: "evening", log: LOG }),
      batch({ name: "morning", made: "2026-03-14" }),
      batch({ name: "plan a" }),
    ];
    expect(newestFirst(all).map(({ name }) => name)).toEqual([
      "plan a",
      "plan b",
      "evening",
      "morning",
      "old",
    ]);
  });
});

describe("summaryOf(batch, unitFor)", () => {
  it("says day, size, spirit, alcohol and state of what was planned", () => {
    const planned = { batchVolume: 0.5e-3, spiritStrength: 0.4, alcoholStrength: 0.1 };
    const text = summaryOf(batch({ planned, log: LOG, values: { batchVolume: 1 } }), firstUnit);
    expect(plain(text)).toBe(
      "2026-03-14 · 500 mL · spirit 40 % vol · alcohol 10 % vol · at the bench",
    );
  });

  it("takes the day from the label before that of the log, and none from a plan", () => {
    expect(dayOf(batch({ made: "2026-03-15", log: LOG }))).toBe("2026-03-15");
    expect(dayOf(batch({ log: LOG }))).toBe("2026-03-14");
    expect(summaryOf(batch({}), firstUnit)).toMatch(/^no day yet/);
  });
});

describe("sideTitles(batches, unitFor)", () => {
  const sides = (...more: Partial<Batch>[]) =>
    sideTitles(
      more.map((each) => batch({ name: "Mild", ...each })),
      firstUnit,
    ).map(plain);
  it("names each by its name and day", () => {
    expect(sides({ log: LOG }, {})).toEqual(["Mild, 2026-03-14", "Mild, no day yet"]);
  });
  it("tells two of one name and one day apart", () => {
    const values = { spiritStrength: 0.54 };
    const [one, other] = sides({ log: LOG }, { log: LOG, values });
    expect(one).not.toBe(other);
    expect(other).toMatch(/^Mild, 2026-03-14 .*spirit 54 % vol/);
  });
});

describe("valueText(value, fact, unitFor)", () => {
  it.each([
    ["321.2 ± 0.4 g", 0.3212, { group: "weighed", of: MASS, doubt: 0.4e-3 }],
    ["12 min", 720, { group: "times", of: TIME, doubt: 10 }],
    ["2 h 40 min", 9600, { group: "times", of: TIME, doubt: 10 }],
    ["37 s", 37, { group: "times", of: TIME, doubt: 10 }],
    ["20 °C", 20, { group: "recipe", of: TEMPERATURE, doubt: 0 }],
    ["–", undefined, { group: "weighed", of: MASS }],
    ["1 row", [[0, 1]], { group: "other" }],
    ["soy", "soy", { group: "notes" }],
  ] as const)("says “%s”", (text, value, fact) => {
    expect(plain(valueText(value, fact, firstUnit))).toBe(text);
  });
});

describe("temperatureFigure(batch)", () => {
  it("draws liquid and bath against the time that passed, and the ceiling", () => {
    expect(temperatureFigure(batch({ log: LOG, values: { ceiling: 35 } }))).toMatchObject({
      lines: [
        {
          label: "liquid",
          points: [
            [300, 21.5],
            [600, 25],
          ],
        },
      ],
      rules: [{ y: 35, label: "ceiling" }],
    });
  });

  it("draws nothing from one reading", () => {
    expect(temperatureFigure(batch({ log: LOG.slice(0, 2) }))).toBeUndefined();
  });
});

describe("mergeText(result)", () => {
  it.each([
    ["“March”: added.", { kind: "batch", name: "March", outcome: "added" }],
    ["“March”: here already, the same.", { kind: "batch", name: "March", outcome: "here already" }],
    ["Gear without a name: added.", { kind: "gear", name: "", outcome: "added" }],
  ] as const)("says “%s”", (text, result) => {
    expect(mergeText(result)).toBe(text);
  });

  it("says that both of two with one id are kept", () => {
    expect(mergeText({ kind: "batch", name: "", outcome: "beside" })).toMatch(
      /^A batch without a name: .*Both are kept/,
    );
  });
});

describe("entryLine(entry, nameOf, unitFor)", () => {
  it.each([
    ["20:00 Stint 1 begins", LOG[0]],
    ["20:05 liquid 21.5 °C, bath 24 °C", LOG[1]],
    ["20:10 liquid 25 °C", LOG[2]],
    [
      "20:11 water in beaker 2: the scale shows 320.3 g",
      { kind: "weighed", at: at("20:11:00"), vessel: 2, ingredient: "water", reading: 0.3203 },
    ],
    [
      "20:11 water in beaker 2 stays as it is",
      {
        kind: "weighed",
        at: at("20:11:09"),
        vessel: 2,
        ingredient: "water",
        reading: 0.3203,
        accepted: true,
      },
    ],
    ["20:12 bottles filled: 5", { kind: "amount", at: at("20:12:00"), of: "bottles", value: 5 }],
    ["20:13 smells clean", { kind: "note", at: at("20:13:00"), text: "smells clean" }],
    ["20:14 the clock jumped by −60 s", { kind: "clock", at: at("20:14:00"), by: -60 }],
    ["20:15 the last step ends", { kind: "end", at: at("20:15:00") }],
  ] as const)("says “%s”", (text, entry) => {
    const line = entryLine(entry as Log[number], () => "Stint 1", firstUnit);
    expect(plain(line)).toBe(text);
  });
});
