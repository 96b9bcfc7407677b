import {
  OVERFILL,
  READING_LIMITS,
  type Ask,
  type NoGrowth,
  type WeighingIn,
} from "../../lib/batch/weighing-in.ts";
import type { Entry } from "../../lib/batch/log.ts";
import type { Plan } from "../../lib/batch/plan.ts";
import { stepKind, type ScheduledStep } from "../../lib/batch/schedule.ts";
import type { StageCalculation } from "../../lib/batch/stages.ts";
import { EVENING_STEPS, type EveningStep } from "../../lib/calculations/evening.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { sheetLines } from "../batch/sheet-text.ts";
import { roughLengthText } from "./clock.ts";

/** A number of a calculation, to be shown in large digits. */
export interface Shown {
  readonly calculation: string;
  /** one of its results, or one of its inputs */
  readonly result?: string;
  readonly input?: string;
  readonly before: string;
  /** another result of it that counts with it where it is above zero, and the words before that */
  readonly more?: { readonly result: string; readonly before: string };
}

/** What the bench says at one kind of step. */
export interface StepText {
  /** the one thing to do */
  readonly say: string;
  /** The clock decides: it counts down, and calls out. */
  readonly timed: boolean;
  /** The liquid may warm: the probe belongs in it. */
  readonly warm: boolean;
  /** what is large beside the time, or instead of it */
  readonly number?: Shown;
  /** whose notices matter now */
  readonly notices: readonly StageCalculation[];
  /** ids of cautions that hold whatever the numbers are */
  readonly cautions: readonly string[];
}

const STOP = "Stop at";

export const STEP_TEXTS: Readonly<Record<EveningStep, StepText>> = {
  weigh: {
    say: "Tare the scale once, with the empty beaker on it; then add until it shows this.",
    timed: false,
    warm: false,
    notices: ["room-vapour"],
    cautions: ["drinking-spirit", "sparks", "powder"],
  },
  dissolve: {
    say: "Stir until the lecithin is wet through and no grain of acid lies on the bottom.",
    timed: false,
    warm: false,
    notices: [],
    cautions: ["undissolved", "ventilation"],
  },
  cool: {
    say: "Stand the covered beaker in cold water, and stir now and then.",
    timed: true,
    warm: false,
    number: { calculation: "cooling", input: "targetTemperature", before: "Down to" },
    notices: ["cooling", "thermal-stress"],
    cautions: ["glass"],
  },
  blend: {
    say: "Blend with the lid on. Off when the time is up, or when the liquid is too warm.",
    timed: true,
    warm: true,
    number: { calculation: "blending", input: "ceiling", before: STOP },
    notices: ["flash-point", "blending"],
    cautions: ["sparks", "ceiling"],
  },
  pause: {
    say: "Blender off. Leave the lid on and wait.",
    timed: true,
    warm: true,
    number: { calculation: "blending", input: "ceiling", before: "Below" },
    notices: [],
    cautions: ["ceiling"],
  },
  "set-up": {
    say: "Unplugged: fill the tank, hang the beaker free, cover it, probe in the liquid.",
    timed: false,
    warm: false,
    number: { calculation: "bath-level", result: "waterToFill", before: "Water to fill" },
    notices: ["bath-level", "hang", "stand-balance"],
    cautions: ["electricity", "tank", "water-level"],
  },
  stint: {
    say: "Bath on, lid on, and stay within call. Off when the time is up, or when the liquid is too warm.",
    timed: true,
    warm: true,
    number: { calculation: "sonication", input: "ceiling", before: STOP },
    notices: ["flash-point", "sonication"],
    cautions: ["running-bath", "ceiling"],
  },
  rest: {
    say: "Bath off. Let the liquid rest, and watch the probe: it may go on warming.",
    timed: true,
    warm: true,
    number: { calculation: "sonication", input: "ceiling", before: "Lift out at" },
    notices: [],
    cautions: ["ceiling"],
  },
  "lift-out": {
    say: "Switch off and unplug first. Then lift the beaker out and dry it.",
    timed: false,
    warm: true,
    notices: ["stand-balance", "thermal-stress"],
    cautions: ["electricity", "tipping"],
  },
  degas: {
    say: "Let it stand, loosely covered, until the bubbles that you see have come up.",
    timed: true,
    warm: false,
    notices: ["evaporation"],
    cautions: ["ventilation"],
  },
  skim: {
    say: "Take foam and film off with a clean spoon, and note how much.",
    timed: false,
    warm: false,
    notices: [],
    cautions: ["cleanliness"],
  },
  bottle: {
    say: "Fill, close, wipe and label.",
    timed: false,
    warm: false,
    number: {
      calculation: "bottling",
      result: "bottles",
      before: "Bottles to fill",
      more: { result: "lastVolume", before: "full, and one with" },
    },
    notices: [],
    cautions: ["cleanliness", "storage", "allergens"],
  },
  chill: {
    say: "Bottles into the fridge, upright and apart. Then clean up: the evening is done.",
    timed: true,
    warm: false,
    number: { calculation: "evening", input: "chillTarget", before: "Cold enough at" },
    notices: [],
    cautions: ["storage", "children"],
  },
};

/** The kind of a step: "stint" for "stint-2". */
export function kindOf(id: string): EveningStep | undefined {
  return EVENING_STEPS.find((step) => step.id === stepKind(id))?.id;
}

/** The name of a step, also of one that a change of the plan took out. */
export function nameOf(id: string, steps: readonly ScheduledStep[]): string {
  const found = steps.find((step) => step.id === id);
  return found?.label ?? EVENING_STEPS.find((step) => step.id === kindOf(id))?.label ?? id;
}

/** What an undo would take away, in a few words. */
export function entryText(entry: Entry, steps: readonly ScheduledStep[]): string {
  switch (entry.kind) {
    case "step":
      return `“${nameOf(entry.step, steps)}” begins`;
    case "end":
      return "the end";
    case "weighed":
      return entry.accepted ? "going on as it is" : `the reading after ${entry.ingredient}`;
    case "read":
      return "the probe’s reading";
    case "amount":
      return "the amount";
    case "note":
      return "the note";
    case "clock":
      return "a jump of the clock";
  }
}

/** What to do for the next portion: grains show in a clear liquid only, so they go before the lecithin comes. */
export function weighText({ ingredient, more }: Pick<Ask, "ingredient" | "more">): string {
  return ingredient === "lecithin" && !more
    ? "First stir until no grain of acid is left; the scale must then show what it showed. Then add until it shows this."
    : STEP_TEXTS.weigh.say;
}

/** One addition in the reader's unit, with the scale's decimals. */
export interface AskText {
  readonly reading: string;
  readonly portion: string;
  readonly tolerance: string;
}

export function askTexts(
  plan: Plan,
  asks: readonly Ask[],
  readability: number,
  unit: string,
): readonly AskText[] {
  return sheetLines({ ok: true, plan: { ...plan, additions: asks } }, readability, unit);
}

/** How a mass off the mark is said: to the scale's step, without a sign. */
export function offText(plan: Plan, off: number, readability: number, unit: string): string {
  const ask = { ingredient: "water", label: "", portion: Math.abs(off), tolerance: 0, reading: 0 };
  const [line] = askTexts(plan, [{ ...ask, vessel: 1, more: false } as Ask], readability, unit);
  return line?.portion ?? "";
}

/** What the last reading means, in a sentence or two; empty before the first. */
export function lastText(stand: WeighingIn, plan: Plan, readability: number, unit: string): string {
  const { last, refusal } = stand;
  if (!last) return "";
  const name = last.label;
  if (last.accepted) return `${name}: it stays as it is.`;
  const by = offText(plan, last.off, readability, unit);
  if (last.verdict === "within") return `${name} is within its give or take.`;
  if (last.verdict === "short") return `${name} is ${by} short: add more.`;
  if (refusal) return `${name} is ${by} over. ${refusalText(refusal, unit)}`;
  const growth = stand.growth[last.vessel - 1] ?? 1;
  return `${name} is ${by} over. To keep the recipe, the batch in this beaker grows by ${percent(growth)}: the readings to come have moved.`;
}

/**
 * Why this cannot be what the scale shows; empty where it can.
 *
 * @param reading - kg, as typed
 */
export function wrongReadingText(
  { asks: [ask], last, shown }: WeighingIn,
  reading: number,
  unit: string,
): string {
  const at = (kg: number): string => formatAmount(kg, "mass", unit, 5);
  const { max } = READING_LIMITS;
  if (!(reading <= max)) return `A scale of this notebook shows at most ${at(max)}.`;
  const vessel = ask?.vessel ?? last?.vessel ?? 1;
  const now = shown[vessel - 1] ?? 0;
  if (reading < 0)
    return `Below nought something is off the scale that it was tared with. Put it back: it must show ${at(now)} then, as before.`;
  // Only of what went over is anything spooned out again, and no more than went in.
  const over = last?.vessel === vessel && last.verdict === "over" && !last.accepted;
  const least = over ? now - last.in : now;
  if (reading >= least - 1e-9) return "";
  if (over)
    return `It showed ${at(least)} before this went in, and cannot show less now. Is the tare still the same?`;
  return `It showed ${at(now)} before, so it cannot show less now. If you tared again, type the two together: ${at(now + reading)}. If something was taken out, undo the reading before this one and type what it shows now.`;
}

/** What was left out when weighing was left; empty where all is in. */
export function missedText(asks: readonly Ask[], vessels: number): string {
  if (asks.length === 0) return "";
  const numbers = [...new Set(asks.map(({ vessel }) => vessel))];
  const parts = numbers.map((number) => {
    const names = asks
      .filter(({ vessel }) => vessel === number)
      .map(({ more, label }) => (more ? "some of the " : "") + label.toLowerCase());
    return `${vessels > 1 ? `beaker ${number}: ` : ""}${names.join(", ")}`;
  });
  const them = asks.length > 1 ? "them" : "it";
  const head = vessels > 1 ? "Not weighed in," : "Not weighed in:";
  return `${head} ${parts.join("; ")}. Go back to weigh ${them}, or the batch is what it is.`;
}

/** What going on without mending it means. */
export function acceptText({ last, refusal }: WeighingIn): string {
  if (last?.verdict !== "over") return "Leave it short, and go on";
  return refusal ? "Go on as it is" : "Keep the plan as it was, and go on";
}

/** Why the batch cannot grow after an overshoot, and what is left to do. */
export function refusalText(refusal: NoGrowth, unit: string): string {
  const { reason, factor, needed, asItIs, limit } = refusal;
  const at = (kg: number): string => formatAmount(kg, "mass", unit, 3);
  const why = {
    beaker: `would be ${at(needed)} in this beaker, and at most ${at(limit)} may stay in it, which is ${percent(OVERFILL)} above two thirds full`,
    scale: `would be ${at(needed)} with the vessel, and the scale carries ${at(limit)}`,
    spirit: `would take ${at(needed)} of spirit, and there is ${at(limit)}`,
    share: "would be another batch than the one that heat and dates were planned for",
  }[reason];
  const what =
    asItIs > limit
      ? `Even with the rest as planned it comes to ${at(asItIs)}: take some out and type what the scale shows then, or undo.`
      : "Take some out and type what the scale shows then, undo, or go on as it is.";
  return `To keep the recipe it would have to grow by ${percent(factor)}: that ${why}. ${what}`;
}

function percent(factor: number): string {
  return formatAmount(factor - 1, "fraction", "%", 2);
}

/**
 * What the bench is about to lead through.
 *
 * @param name - of the reader's batch; `undefined` for the demonstration
 * @param total - s until the bottles are in the fridge
 */
export function planText(name: string | undefined, steps: number, total: number): string {
  const batch = name ?? "the demonstration batch, which is invented";
  return `This leads through ${batch}: ${steps} steps, about ${roughLengthText(total)} until the bottles are in the fridge.`;
}
