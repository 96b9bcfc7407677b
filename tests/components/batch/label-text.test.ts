import { describe, expect, it } from "vitest";
import {
  alcoholText,
  countText,
  datesText,
  fieldTexts,
  labelsOf,
  MOST_LABELS,
  withField,
} from "../../../components/batch/label-text.ts";
import { LECITHIN_SOURCES } from "../../../lib/batch/label.ts";
import type { Entry, Ingredient } from "../../../lib/batch/log.ts";
import { EMPTY_BATCH, type Batch } from "../../../lib/batch/record.ts";
import { firstUnit } from "../../../lib/calculations/say.ts";
import { graph } from "../../helpers/calculations.ts";

const DAY = 86_400;

/** A batch with every number that a label rests on. */
const OWN: Batch = {
  ...EMPTY_BATCH,
  name: "Tuesday",
  made: "2026-03-01",
  lecithinSource: "soy",
  values: {
    batchVolume: 0.5e-3,
    spiritStrength: 0.4,
    alcoholStrength: 0.12,
    ascorbicAcidConcentration: 100,
    lecithinConcentration: 60,
    servingVolume: 5e-6,
    bottleVolume: 0.11e-3,
    fillShare: 0.92,
    cover: "closed",
  },
};

const made = (batch: Batch, drafts = {}) => labelsOf(graph, batch, drafts, firstUnit);
const withValues = (values: Batch["values"]): Batch => ({
  ...OWN,
  values: { ...OWN.values, ...values },
});
/** Spaces that do not break are spaces to a reader. */
const plain = (text: string | undefined) => text?.replaceAll("\u00a0", " ");
const first = (batch: Batch) =>
  Object.fromEntries(
    Object.entries(made(batch).labels[0] ?? {}).map(([part, text]) => [part, plain(text)]),
  );

describe("labelsOf(graph, batch, drafts, unitFor)", () => {
  it("knows from the bench on which days it was made", () => {
    const entry = { kind: "step", step: "weigh" } as const;
    const log: readonly Entry[] = [
      { ...entry, at: "2026-03-01T22:30:00.000+01:00" },
      { ...entry, at: "2026-03-02T01:10:00.000+01:00", step: "chill" },
    ];
    const remarks = (day: string) => plain(made({ ...OWN, log, made: day }).remarks.join(" "));
    for (const day of ["2026-03-01", "2026-03-02"])
      expect(remarks(day)).not.toMatch(/mend the day/);
    for (const day of ["2026-02-28", "2027-03-02"])
      expect(remarks(day)).toMatch(/made on 2 Mar 2026, not on .*mend the day/);
  });
  it("says what is in the bottle, by mass, and who must not have it", () => {
    expect(first(OWN)).toEqual({
      warning: "",
      name: "Tuesday",
      volume: "101 mL.",
      alcohol: "Contains alcohol, 12.0 % vol.",
      contents: "In 100 mL: 10 g ascorbic acid, 6 g soy lecithin, the rest water and spirit.",
      serving: "Serving, 5 mL: 500 mg ascorbic acid, 0.47 g alcohol.",
      allergens: "Contains soy.",
      dates: "Made 1 Mar 2026. Throw away by 15 Mar 2026.",
      keep: "Keep cold, closed, dark. Turn before pouring.",
      notes: "Home-made. Not a medicine. Keep from children.",
    });
    expect(made(OWN).remarks).toEqual([]);
  });

  it("makes one for each bottle, and tells the part-filled one", () => {
    const volumes = made(OWN).labels.map(({ volume }) => plain(volume));
    expect(volumes).toEqual([
      ...Array.from({ length: 4 }, () => "101 mL."),
      "80 mL, part-filled: drink first.",
    ]);
    expect(
      made(withValues({ skimmedVolume: 0, spilledVolume: 0.5e-3 - 4 * 0.92 * 0.11e-3 })).labels,
    ).toHaveLength(4);
  });

  it("names the source of the lecithin, and its allergen where law knows one", () => {
    const said = LECITHIN_SOURCES.map((lecithinSource) => first({ ...OWN, lecithinSource }));
    expect(said.map(({ allergens }) => allergens)).toEqual([
      "Contains soy.",
      "",
      "",
      "Contains egg.",
      "Contains milk.",
    ]);
    LECITHIN_SOURCES.forEach((source, i) =>
      expect(said[i]?.["contents"]).toContain(`${source} lecithin`),
    );
    const none = first(withValues({ lecithinConcentration: 0 }));
    expect(none["allergens"]).toBe("");
    expect(none["contents"]).not.toContain("lecithin");
  });

  it("leaves a blank for the lecithin's source until the reader has said it, and asks", () => {
    const { lecithinSource: _, ...unsaid } = OWN;
    expect(first(unsaid).contents).toContain("lecithin from __________");
    expect(first(unsaid).allergens).toBe("");
    expect(made(unsaid).remarks.join(" ")).toMatch(/Say what your lecithin is made from/);
  });

  it("says nothing of alcohol where there is none", () => {
    const text = Object.values(first(withValues({ alcoholStrength: 0 }))).join(" ");
    expect(text).not.toMatch(/alcohol|spirit/);
  });

  it("claims nothing, whatever the vesicles are thought to hold", () => {
    for (const batch of [OWN, EMPTY_BATCH])
      for (const label of made(batch).labels)
        expect(Object.values(label).join(" ")).not.toMatch(
          /liposom|encapsul|enclosed|absorb|bioavail|immun|health|cure|vitamin/i,
        );
    // Vesicles that the liquid has no room for are no reason to go without a label.
    expect(first(withValues({ outerDiameter: 5e-6 }))).toEqual(first(OWN));
  });

  it("calls the demonstration one, on every label", () => {
    const { labels, remarks } = made(EMPTY_BATCH);
    expect(labels.map(({ warning }) => warning)).toEqual(
      labels.map(() => "Demonstration: do not use"),
    );
    expect(labels[0]?.name).toBe("Demonstration batch");
    expect(remarks.join(" ")).toMatch(/invented demonstration/);
    // A name and a date make no batch.
    expect(first({ ...EMPTY_BATCH, name: "Mine", made: "2026-03-01" })["warning"]).toBe(
      "Demonstration: do not use",
    );
  });

  it.each(Object.keys(OWN.values).filter((name) => name !== "cover"))(
    "calls it part of one while %s is still invented",
    (key) => {
      const { [key]: _, ...values } = OWN.values;
      const { labels, remarks } = made({ ...OWN, values });
      expect(labels[0]?.warning).toBe("Part demonstration: do not use");
      expect(remarks).toHaveLength(1);
    },
  );

  it("asks for no recipe where the contents are typed in themselves", () => {
    const { servingVolume } = OWN.values;
    const values = {
      servingVolume: servingVolume!,
      "serving.ascorbicAcidConcentration": 80,
      "serving.lecithinConcentration": 40,
      "serving.alcoholStrength": 0.1,
      "serving.bottleVolume": 0.1e-3,
    };
    expect(first({ ...OWN, values })["warning"]).toBe("");
  });

  it("follows what was weighed in", () => {
    const more = first(withValues({ "composition.ascorbicAcidMass": 0.055 }));
    expect(more["contents"]).toMatch(/^In 100 mL: 10\.9 g ascorbic acid/);
  });

  it("goes by what was filled, once that is noted at the bench", () => {
    const noted = (of: "bottles" | "lastVolume", value: number): Entry => ({
      kind: "amount",
      at: "2026-03-01T21:00:00.000+01:00",
      of,
      value,
    });
    const volumes = (...log: Entry[]) =>
      made({ ...OWN, log }).labels.map(({ volume }) => plain(volume));
    const full = Array.from({ length: 3 }, () => "101 mL.");
    expect(volumes(noted("bottles", 4), noted("bottles", 3))).toEqual(full);
    expect(volumes(noted("bottles", 3), noted("lastVolume", 40e-6))).toEqual([
      ...full,
      "40 mL, part-filled: drink first.",
    ]);
    expect(volumes(noted("lastVolume", 0))).toEqual([...full, "101 mL."]);
  });

  it("says what it does not know to have gone in", () => {
    const weighing = (ingredient: Ingredient, reading: number): Entry => ({
      kind: "weighed",
      at: "2026-03-01T20:00:00.000+01:00",
      vessel: 1,
      ingredient,
      reading,
    });
    const some = [weighing("water", 0.32), weighing("spirit", 0.44)];
    const remarks = (values: Batch["values"], log: Entry[]): string =>
      made({ ...withValues(values), log }).remarks.join(" ");
    expect(remarks({}, some)).toMatch(/no weighing is noted of ascorbic acid and lecithin:/);
    expect(remarks({ lecithinConcentration: 0 }, some)).toMatch(/is noted of ascorbic acid:/);
    const all = [...some, weighing("ascorbic acid", 0.49), weighing("lecithin", 0.52)];
    for (const log of [[], all]) expect(remarks({}, log)).not.toMatch(/no weighing/);
  });

  it("makes none where there is no answer, and says why", () => {
    const { labels, remarks } = made(withValues({ servingVolume: 0.2e-3 }));
    expect(labels).toEqual([]);
    expect(remarks.join(" ")).toMatch(/must be from/);
    const lost = made(withValues({ skimmedVolume: 0, spilledVolume: 0.5e-3 }));
    expect(lost).toEqual({ labels: [], remarks: ["Nothing is left to fill a bottle with."] });
  });

  it("passes on what serving, bottle and fridge warn of", () => {
    const { remarks } = made(
      withValues({ servingVolume: 25e-6, fillShare: 0.995, "keeping.temperature": 9 }),
    );
    expect(remarks).toHaveLength(3);
    expect(remarks.join(" ")).toMatch(/upper level.*air stay.*fridge/);
  });

  it("says so where more alcohol may leave on the way than a label can overlook", () => {
    const open = made(withValues({ cover: "open" })).remarks.map(plain);
    expect(open).toEqual([expect.stringMatching(/^Up to [\d.]+ g of alcohol may leave a beaker/)]);
    expect(first(withValues({ cover: "open" })).alcohol).toBe("Contains alcohol, 12.0 % vol.");
  });

  it("does not pass over a text that was not read", () => {
    const { remarks } = made(OWN, { servingVolume: "a spoon", fridgeCap: "long" });
    expect(remarks).toHaveLength(1);
    expect(remarks[0]).toMatch(/^One serving: “a spoon” is not read/);
  });

  it("stops at so many labels, and says that there are more bottles", () => {
    const { labels, remarks } = made(
      withValues({ bottleVolume: 5e-6, fillShare: 0.9, servingVolume: 2e-6 }),
    );
    expect(labels).toHaveLength(MOST_LABELS);
    expect(remarks.join(" ")).toMatch(/There are 107 bottles and 60 labels/);
  });

  it("will not print a day later than the one worked out, nor one before the making", () => {
    const late = made({ ...OWN, discard: "2026-04-01" });
    expect(plain(late.labels[0]?.dates)).toBe("Made 1 Mar 2026. Throw away by 15 Mar 2026.");
    expect(plain(late.remarks.join(" "))).toMatch(/not be kept past 15 Mar 2026/);
    const soon = made({ ...OWN, discard: "2026-03-08" });
    expect(plain(soon.labels[0]?.dates)).toBe("Made 1 Mar 2026. Throw away by 8 Mar 2026.");
    expect(soon.remarks).toEqual([]);
    expect(made({ ...OWN, discard: "2026-02-27" }).remarks.join(" ")).toMatch(/before it was made/);
  });
});

describe("datesText({ made, discard, keepsFor })", () => {
  it.each([
    [undefined, undefined, 14 * DAY, "Made __________. Throw away 14 days later."],
    [undefined, undefined, 1.5 * DAY, "Made __________. Throw away a day later."],
    [undefined, undefined, 0.9 * DAY, "Made __________. Throw away the same day."],
    [undefined, undefined, undefined, "Made __________. Throw away by __________."],
    [undefined, "2026-03-08", 14 * DAY, "Made __________. Throw away by 8 Mar 2026."],
    ["2026-12-24", undefined, 14.9 * DAY, "Made 24 Dec 2026. Throw away by 7 Jan 2027."],
    ["2026-12-24", undefined, undefined, "Made 24 Dec 2026. Throw away by __________."],
    ["2026-12-24", undefined, 1e21, "Made 24 Dec 2026. Throw away by __________."],
  ])("made %s, thrown away %s, keeps %s s: “%s”", (day, discard, keepsFor, text) => {
    expect(plain(datesText({ made: day, discard, keepsFor }))).toBe(text);
  });
});

describe("alcoholText(strength)", () => {
  const within = (value: number, half: number) => ({
    value,
    low: value - half,
    high: value + half,
  });

  it.each([
    // Regulation (EU) 1169/2011: to not more than one decimal (seen), within 0.3 % vol (memory).
    [0.1204, 0.001, "Contains alcohol, 12.0 % vol."],
    [0.12049, 0.0029, "Contains alcohol, 12.0 % vol."],
    [0.1206, 0.001, "Contains alcohol, 12.1 % vol."],
    [0.1204, 0.0031, "Contains alcohol, about 12 % vol."],
    [0.008, 0.001, "Contains alcohol, 0.8 % vol."],
    [0.008, 0.004, "Contains alcohol, below 1 % vol."],
    [0.0004, 0.0001, "Contains a trace of alcohol."],
    [0, 0, ""],
  ])("%d ± %d reads “%s”", (value, half, text) => {
    expect(plain(alcoholText(within(value, half)))).toBe(text);
  });
});

describe("withField(batch, name, value)", () => {
  it.each([
    ["name", "Friday", { name: "Friday" }],
    ["name", "x".repeat(200), { name: "x".repeat(120) }],
    ["made", "2026-05-01", { made: "2026-05-01" }],
    ["discard", "2026-05-09", { discard: "2026-05-09" }],
    ["lecithinSource", "egg", { lecithinSource: "egg" }],
    ["labelSize", "large", { labelSize: "large" }],
  ])("keeps a %s of “%s”", (name, value, kept) => {
    expect(withField(EMPTY_BATCH, name, value)).toEqual({ ...EMPTY_BATCH, ...kept });
  });

  it("forgets a day that is taken back or is none", () => {
    for (const value of ["", "2026-02-30"])
      expect(withField(OWN, "made", value)).not.toHaveProperty("made");
  });

  it.each([
    ["lecithinSource", "moon"],
    ["labelSize", "toString"],
    ["values", "1"],
  ])("leaves the batch as it is for a %s of “%s”", (name, value) => {
    expect(withField(OWN, name, value)).toEqual(OWN);
  });

  it("shows again what it keeps", () => {
    const batch = withField(withField(EMPTY_BATCH, "labelSize", "small"), "made", "2026-05-01");
    expect(fieldTexts(batch)).toMatchObject({ labelSize: "small", made: "2026-05-01", name: "" });
    expect(fieldTexts(EMPTY_BATCH)).toMatchObject({ labelSize: "medium", lecithinSource: "" });
  });
});

describe("countText(count)", () => {
  it.each([
    [0, ""],
    [1, "One label, for one bottle."],
    [5, "5 labels, one for each bottle; all are printed."],
  ])("%d: “%s”", (count, text) => expect(countText(count)).toBe(text));
});
