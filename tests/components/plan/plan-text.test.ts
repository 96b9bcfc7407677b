import { describe, expect, it } from "vitest";
import { obstacleText } from "../../../components/batch/sheet-text.ts";
import {
  bathInputs,
  beakerRows,
  clockTime,
  countText,
  leftText,
  misfitTexts,
  offerOnce,
  readClock,
  stepLines,
  takenText,
  totalText,
} from "../../../components/plan/plan-text.ts";
import { OBSTACLE_CALCULATIONS, survey } from "../../../lib/batch/obstacles.ts";
import type { Remedy } from "../../../lib/batch/remedies.ts";
import { compareBeakers, SCALING_CALCULATIONS } from "../../../lib/batch/scaling-up.ts";
import { scheduleBatch } from "../../../lib/batch/schedule.ts";
import { loadGraph } from "../../../lib/calculations/registry.ts";
import { firstUnit } from "../../../lib/calculations/say.ts";

const graph = await loadGraph([...OBSTACLE_CALCULATIONS, ...SCALING_CALCULATIONS]);
const HALF_PAST_SEVEN = 19.5 * 3600;

function schedule(values = {}) {
  const scheduled = scheduleBatch(graph, values);
  if (!scheduled.ok) throw new Error("refused");
  return scheduled;
}

describe("stepLines(steps, start)", () => {
  it("says when each step begins and how long it lasts, since the start or by the clock", () => {
    const { steps } = schedule();
    const since = stepLines(steps, undefined);
    expect(since[0]).toMatchObject({ begins: "0:00", lasts: "8\u00a0min", you: "hands on" });
    const stint = since.find(({ id }) => id === "stint-1");
    expect(stint).toMatchObject({ begins: "0:36", you: "wait, bath on" });
    const clock = stepLines(steps, HALF_PAST_SEVEN);
    expect(clock.find(({ id }) => id === "stint-1")?.begins).toBe("20:06");
    expect(clock.find(({ id }) => id === "rest-1")?.you).toBe("wait");
    // 121 minutes by the model, which knows the fridge to a factor of two.
    expect(since.at(-1)?.lasts.replaceAll("\u00a0", " ")).toBe("about 2 h");
  });

  it("leads from each step to a derivation", () => {
    for (const { id, derivation } of stepLines(schedule({ pulses: 2 }).steps, undefined))
      expect(derivation?.href, id).toMatch(/^\/chapters\//);
  });
});

describe("clockTime(seconds)", () => {
  it.each([
    [0, "00:00"],
    [HALF_PAST_SEVEN, "19:30"],
    [86_399, "00:00 (next day)"],
    [86_400 + 720, "00:12 (next day)"],
    [2 * 86_400, "00:00 (2 days on)"],
  ])("says %d s as %s", (seconds, text) => {
    expect(clockTime(seconds)).toBe(text);
  });
});

describe("readClock(text)", () => {
  it.each([
    ["19:30", HALF_PAST_SEVEN],
    ["00:00", 0],
    ["7:05", 7 * 3600 + 300],
    ["", undefined],
    ["24:00", undefined],
    ["12:60", undefined],
    ["half past", undefined],
  ])("reads “%s”", (text, seconds) => {
    expect(readClock(text)).toBe(seconds);
  });
});

describe("totalText(scheduled, start)", () => {
  it("parts work from waiting, and tells when it ends if it is told when it starts", () => {
    const plain = totalText(schedule(), undefined).replaceAll("\u00a0", " ");
    expect(plain).toMatch(/^About 2 h 35 min until/);
    expect(plain).toContain("50 min of work by hand and 1 h 45 min of waiting");
    expect(totalText(schedule(), HALF_PAST_SEVEN)).toContain(", at about 22:05:");
  });

  it("says that there is none where the batch is refused", () => {
    expect(totalText(scheduleBatch(graph, { alcoholStrength: 0.5 }), undefined)).toMatch(
      /no evening to plan yet/,
    );
  });

  it("leaves the fridge out where nothing has to be chilled", () => {
    expect(totalText(schedule({ chillStart: 6 }), undefined)).not.toMatch(/cold/);
  });
});

describe("obstacleText(graph, obstacle, unitFor)", () => {
  it("names the calculation that speaks, and uses the reader's units", () => {
    const [obstacle] = survey(graph, { liquidTemperature: 33 }).obstacles.filter(
      ({ care }) => !care,
    );
    expect(obstacleText(graph, obstacle!, firstUnit)).toMatch(/^Stints in the bath: .*33\u00a0°C/);
    const fahrenheit = obstacleText(graph, obstacle!, ({ units }) => units.at(-1)!);
    expect(fahrenheit).toContain("91.4\u00a0°F");
  });
});

describe("leftText(left) and countText(obstacles, mended)", () => {
  it("counts in words", () => {
    expect([0, 1, 3].map((left) => leftText({ left }))).toEqual([
      "then nothing stands in the way",
      "then one thing is left",
      "then 3 things are left",
    ]);
    expect(countText(0, 0)).toBe("Nothing stands in the way of this batch.");
    expect(countText(1, 1)).toBe("One thing stands in the way; a single change is known for it.");
    expect(countText(3, 3)).toMatch(/^3 things stand in the way; .* for each\.$/);
    expect(countText(3, 0)).toMatch(/no single change is known/);
    expect(countText(3, 2)).toMatch(/for 2\.$/);
  });
});

describe("leftText(remedy) and takenText(said, remedy) of another beaker", () => {
  it("ask for what the beaker has other than the old one", () => {
    const too = ["Beaker, height", "Your beaker holds"];
    const ask = "measure and type “Beaker, height”, “Your beaker holds” too";
    expect(leftText({ left: 0, too })).toBe(
      `then nothing stands in the way, as far as the rest holds: ${ask}`,
    );
    expect(takenText("Take another", { too })).toBe(`Set: Take another. Now ${ask}.`);
    expect(takenText("Rest longer", {})).toBe("Set: Rest longer.");
  });
});

describe("offerOnce(remedies, above, unitFor)", () => {
  const to = (lever: string, value: number): Remedy => ({
    lever,
    say: [`${lever} ${value}`],
    set: { [lever]: value },
    change: 1,
    left: 0,
  });
  const [rest, longer, stints] = [to("restTime", 900), to("restTime", 1200), to("stints", 2)];

  it("offers all where nothing stands above", () => {
    expect(offerOnce([rest, stints], [], firstUnit)).toEqual({ fresh: [rest, stints], known: "" });
  });

  it("offers what stands above no more, and says that it mends this too", () => {
    // Left over may count otherwise; what it sets is what it is.
    const again = { ...rest, left: 1 };
    expect(offerOnce([again, stints], [rest], firstUnit)).toEqual({
      fresh: [stints],
      known: "The change above mends this too.",
    });
    expect(offerOnce([stints, rest], [rest, stints], firstUnit)).toEqual({
      fresh: [],
      known: "Each of the changes above mends this too.",
    });
  });

  it("names them where not all that stands above mends this", () => {
    expect(offerOnce([rest], [rest, stints], firstUnit).known).toBe(
      "The change above mends this too: “restTime 900”.",
    );
    expect(offerOnce([rest, stints], [rest, stints, longer], firstUnit).known).toBe(
      "These changes above mend this too: “restTime 900”, “stints 2”.",
    );
  });

  it("takes another value of the same lever for another change", () => {
    expect(offerOnce([longer], [rest], firstUnit)).toEqual({ fresh: [longer], known: "" });
  });
});

describe("bathInputs(graph)", () => {
  it("asks for a bath's length, width, water and power as the calculators do", () => {
    expect(bathInputs(graph).map(({ name }) => name)).toEqual([
      "bathLength",
      "bathWidth",
      "bathWaterVolume",
      "ratedPower",
    ]);
  });
});

describe("beakerRows(compared, unitFor)", () => {
  it("has a column for each number of beakers and a cell in each", () => {
    const { head, rows } = beakerRows(compareBeakers(graph, {}), firstUnit);
    expect(head).toEqual(["Compared", "One beaker", "2 beakers", "3 beakers", "4 beakers"]);
    for (const row of rows) expect(row).toHaveLength(5);
    expect(rows[0]).toEqual([
      "Finished batch",
      ...[500, 1000, 1500, 2000].map((mL) => `${mL}\u00a0mL`),
    ]);
    expect(rows.flat().join(" ")).not.toMatch(/NaN|undefined|null/);
  });

  it("says the spirit to buy by weight and by volume", () => {
    const { rows } = beakerRows(compareBeakers(graph, {}), firstUnit);
    const cell = rows.find(([label]) => label === "Spirit to buy")?.[1]?.replaceAll("\u00a0", " ");
    const [, grams, millilitres] = /^([\d.]+) g \(([\d.]+) mL\)$/.exec(cell ?? "") ?? [];
    // Spirit is lighter than water.
    expect(Number(millilitres)).toBeGreaterThan(Number(grams));
  });

  it("draws a line through what has no answer", () => {
    const { rows } = beakerRows(compareBeakers(graph, {}, { bathWidth: 0.08 }), firstUnit);
    expect(rows.find(([label]) => label?.startsWith("Gap"))?.[1]).toBe("–");
  });
});

describe("misfitTexts(graph, compared, unitFor)", () => {
  it("says each thing once, and from how many beakers on", () => {
    const texts = misfitTexts(graph, compareBeakers(graph, {}), firstUnit);
    expect(texts.find((text) => text.includes("water stands at"))).toMatch(
      /^From 2 beakers on\. Beakers and water in the tank: /,
    );
    expect(new Set(texts).size).toBe(texts.length);
    const none = misfitTexts(graph, compareBeakers(graph, {}, { bathWidth: 0.08 }), firstUnit);
    expect(none[0]).toMatch(/^Any number of beakers\. /);
  });
});
