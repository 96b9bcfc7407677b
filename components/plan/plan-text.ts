import type { Remedy } from "../../lib/batch/remedies.ts";
import { isSame } from "../../lib/batch/same.ts";
import { BATH_KEYS, MOST_COMPARED, type ManyBeakers } from "../../lib/batch/scaling-up.ts";
import type { ScheduledStep, Scheduled } from "../../lib/batch/schedule.ts";
import type { Banded, Quantity, Result } from "../../lib/calculations/calculation.ts";
import type { Graph } from "../../lib/calculations/graph.ts";
import { say, type UnitChoice } from "../../lib/calculations/say.ts";
import { formatAmount } from "../../lib/units/format.ts";
import { derivationOf, type Derivation } from "../batch/derivations.ts";
import { obstacleText } from "../batch/sheet-text.ts";
import { lengthText, roughLength, roughLengthText } from "../bench/clock.ts";

/** One line of the plan, ready to show. */
export interface StepLine {
  readonly id: string;
  readonly label: string;
  readonly begins: string;
  readonly lasts: string;
  readonly you: string;
  /** Where its length comes from. */
  readonly derivation: Derivation | undefined;
}

const DAY = 86_400;

/**
 * The steps as lines of a table.
 *
 * @param start - s since midnight when the evening begins; without it, the time since then is said
 */
export function stepLines(
  steps: readonly ScheduledStep[],
  start: number | undefined,
): readonly StepLine[] {
  return steps.map((step) => ({
    id: step.id,
    label: step.label,
    begins: start === undefined ? sinceText(step.start) : clockTime(start + step.start),
    // Nobody has measured this fridge: what follows from an estimate is no matter of minutes.
    lasts:
      step.stage === "chill" ? `about ${roughLengthText(step.length)}` : lengthText(step.length),
    you: step.hands ? "hands on" : step.running ? "wait, bath on" : "wait",
    derivation: derivationOf(step.id),
  }));
}

/** Hours and minutes since the start: "0:36". */
function sinceText(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** The clock on the wall, past midnight too: "00:12 (next day)". */
export function clockTime(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  const days = Math.floor(minutes / 1440);
  const [hours, rest] = [Math.floor(minutes / 60) % 24, minutes % 60];
  const clock = `${String(hours).padStart(2, "0")}:${String(rest).padStart(2, "0")}`;
  return days === 0 ? clock : `${clock} (${days === 1 ? "next day" : `${days} days on`})`;
}

/** A time of day as a field holds it, "19:30", in s since midnight; `undefined` where it is none. */
export function readClock(text: string): number | undefined {
  const [, hours = "", minutes = ""] = /^(\d{1,2}):(\d{2})$/.exec(text) ?? [];
  const seconds = Number(hours) * 3600 + Number(minutes) * 60;
  return hours === "" || seconds >= DAY || Number(minutes) >= 60 ? undefined : seconds;
}

/** How long it all takes, in one sentence. */
export function totalText(scheduled: Scheduled, start: number | undefined): string {
  if (!scheduled.ok)
    return "There is no evening to plan yet: mend what stands in the way, above, first.";
  const { steps } = scheduled;
  // Parts that add up to the whole, each as roughly as it is known.
  const [total, hands] = [roughLength(scheduled.total), roughLength(scheduled.hands)];
  const end = start === undefined ? "" : `, at about ${clockTime(start + total)}`;
  const chill = steps.find(({ stage }) => stage === "chill");
  const cold = chill
    ? ` They are cold ${start === undefined ? `about ${roughLengthText(chill.length)} later` : `at about ${clockTime(roughLength(start + chill.start + chill.length))}`}, by themselves.`
    : "";
  return `About ${lengthText(total)} until the bottles are in the fridge${end}: ${lengthText(hands)} of work by hand and ${lengthText(total - hands)} of waiting within call.${cold}`;
}

/** What is still in the way once a remedy is taken. */
export function leftText({ left, too }: Pick<Remedy, "left" | "too">): string {
  const text =
    left === 0
      ? "then nothing stands in the way"
      : left === 1
        ? "then one thing is left"
        : `then ${left} things are left`;
  return too ? `${text}, as far as the rest holds: ${tooText(too)}` : text;
}

/** That a remedy was taken, and what it asks for besides. */
export function takenText(said: string, { too }: Pick<Remedy, "too">): string {
  return `Set: ${said}.${too ? ` Now ${tooText(too)}.` : ""}`;
}

function tooText(labels: readonly string[]): string {
  return `measure and type ${labels.map((label) => `“${label}”`).join(", ")} too`;
}

/** What is offered for one obstacle. */
export interface Offered {
  readonly fresh: readonly Remedy[];
  /** On changes that are offered above already; empty where none of them mends this. */
  readonly known: string;
}

/**
 * The remedies of one obstacle, parted into those to offer and a sentence on those that stand above already.
 *
 * @param above - what is offered for the obstacles before it
 */
export function offerOnce(
  remedies: readonly Remedy[],
  above: readonly Remedy[],
  unitFor: UnitChoice,
): Offered {
  const isAbove = ({ set }: Remedy): boolean => above.some((other) => isSame(other.set, set));
  const again = remedies.filter(isAbove);
  return {
    fresh: remedies.filter((remedy) => !isAbove(remedy)),
    known: again.length === 0 ? "" : knownText(again, again.length === above.length, unitFor),
  };
}

/** @param all - these are all that stand above, and need no names */
function knownText(again: readonly Remedy[], all: boolean, unitFor: UnitChoice): string {
  if (all)
    return again.length === 1
      ? "The change above mends this too."
      : "Each of the changes above mends this too.";
  const names = again.map((remedy) => `“${say(remedy.say, unitFor)}”`).join(", ");
  return again.length === 1
    ? `The change above mends this too: ${names}.`
    : `These changes above mend this too: ${names}.`;
}

/** How many things stand in the way, for whoever listens. */
export function countText(obstacles: number, mended: number): string {
  if (obstacles === 0) return "Nothing stands in the way of this batch.";
  const things = obstacles === 1 ? "One thing stands" : `${obstacles} things stand`;
  if (mended === 0) return `${things} in the way, and no single change is known that mends it.`;
  const which = mended < obstacles ? String(mended) : obstacles === 1 ? "it" : "each";
  return `${things} in the way; a single change is known for ${which}.`;
}

/** What is asked of a larger bath, as its calculators declare it. */
export function bathInputs(graph: Graph): readonly Quantity[] {
  return BATH_KEYS.map((key) => {
    const found = ["bath-level", "heat-capacity", "bath-heat"]
      .flatMap((id) => Object.values(graph.get(id).inputs))
      .find(({ name }) => name === key);
    if (found?.kind !== "number") throw new TypeError(`no calculation asks for ${key}`);
    return found;
  });
}

interface Shown {
  readonly dimension: Result["dimension"];
  readonly units: readonly string[];
  readonly digits: number;
  readonly name?: string;
}

const VOLUME: Shown = {
  name: "batchVolume",
  dimension: "volume",
  units: ["mL", "L", "fl oz"],
  digits: 4,
};
const MASS: Shown = { name: "spiritMass", dimension: "mass", units: ["g", "kg", "oz"], digits: 3 };
const SPIRIT_VOLUME: Shown = { ...VOLUME, digits: 3 };
const LITRES: Shown = { ...VOLUME, name: "bathWaterVolume", units: ["L", "mL"], digits: 2 };
const LENGTH: Shown = {
  name: "waterDepth",
  dimension: "length",
  units: ["mm", "cm", "in"],
  digits: 2,
};

/** The comparison as rows: what is compared, then one cell for each number of beakers. */
export function beakerRows(
  compared: readonly ManyBeakers[],
  unitFor: UnitChoice,
): { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] } {
  const amountIn = (of: Shown) => (value: number | null) =>
    value === null ? "–" : formatAmount(value, of.dimension, unitFor(of), of.digits);
  const lasting = (time: Banded | null): string =>
    time === null ? "–" : roughLengthText(time.value);
  const row = (label: string, cell: (column: ManyBeakers) => string): readonly string[] => [
    label,
    ...compared.map(cell),
  ];
  return {
    head: ["Compared", ...compared.map(({ beakers }) => beakersText(beakers))],
    rows: [
      row("Finished batch", ({ volume }) => amountIn(VOLUME)(volume)),
      row("Spirit to buy", ({ spirit, spiritVolume }) =>
        spiritVolume === null
          ? amountIn(MASS)(spirit)
          : `${amountIn(MASS)(spirit)} (${amountIn(SPIRIT_VOLUME)(spiritVolume)})`,
      ),
      row("In the bath at once", ({ hung }) => String(hung)),
      row("Loads, one after another", ({ loads }) => String(loads)),
      row("Heat for each litre of liquid", ({ heatByVolume }) =>
        heatByVolume === null ? "–" : `${Math.round(heatByVolume / 1000)}\u00a0W`,
      ),
      row("Longest first stint, to be sure", ({ longestStint }) =>
        longestStint === null ? "–" : lengthText(longestStint.low),
      ),
      row("Gap to walls and neighbours", ({ clearance }) => amountIn(LENGTH)(clearance)),
      row("Water to pour in", ({ water }) => amountIn(LITRES)(water)),
      row("Depth of that water before they go in", ({ waterDepth }) =>
        amountIn(LENGTH)(waterDepth),
      ),
      row("Scale, of the smallest portion", ({ weighingShare }) =>
        weighingShare === null ? "–" : `±\u00a0${formatAmount(weighingShare, "fraction", "%", 2)}`,
      ),
      row("Work by hand", ({ hands }) => lasting(hands)),
      row("Until the bottles are in the fridge", ({ whole }) => lasting(whole)),
    ],
  };
}

/** "One beaker", "3 beakers" */
export function beakersText(beakers: number): string {
  return beakers === 1 ? "One beaker" : `${beakers} beakers`;
}

/**
 * What does not fit or is not safe: each thing once, in the words of the fewest beakers that it holds for, and for
 * how many it holds.
 */
export function misfitTexts(
  graph: Graph,
  compared: readonly ManyBeakers[],
  unitFor: UnitChoice,
): readonly string[] {
  const found = new Map<string, { readonly sentence: string; readonly counts: number[] }>();
  for (const { beakers, notices } of compared)
    for (const { calculation, about, say: text } of notices) {
      const id = `${calculation} ${about}`;
      const sentence = obstacleText(graph, { calculation, say: text }, unitFor);
      const known = found.get(id) ?? { sentence, counts: [] };
      if (!known.counts.includes(beakers)) known.counts.push(beakers);
      found.set(id, known);
    }
  return [...found.values()].map(({ sentence, counts }) => `${whichText(counts)}. ${sentence}`);
}

function whichText(counts: readonly number[]): string {
  const [first = 1] = counts;
  if (counts.length === 1) return beakersText(first);
  const onwards = counts.at(-1) === MOST_COMPARED && counts.length === MOST_COMPARED - first + 1;
  if (!onwards) return `${counts.join(" or ")} beakers`;
  return first === 1 ? "Any number of beakers" : `From ${first} beakers on`;
}
