import * as v from "valibot";
import type { BatchValues } from "../calculations/graph.ts";
import { inRange, type Limits } from "../errors.ts";
import { isDay } from "./label.ts";

/** What is weighed in, in this order. */
export const INGREDIENTS = ["water", "spirit", "ascorbic acid", "lecithin"] as const;
export type Ingredient = (typeof INGREDIENTS)[number];

/** Amounts noted at the bench, each under its key in the batch; SI. */
export const NOTED = {
  /** m³ of foam, as the eye judges it */
  skimmedVolume: { min: 0, max: 0.02, unit: "m³" },
  /** kg of foam, as the scale shows it */
  skimmedMass: { min: 0, max: 20, unit: "kg" },
  /** bottles filled and closed */
  bottles: { min: 0, max: 1000, unit: "1" },
  /** m³ in the last bottle that was not full */
  lastVolume: { min: 0, max: 0.02, unit: "m³" },
} as const;
export type Noted = keyof typeof NOTED;

/** As many entries as a long evening with a reading every half minute has, and more. */
export const MOST_ENTRIES = 2000;
const RFC_3339 = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}\.\d{3}(Z|[+-]\d{2}:\d{2})$/;
const MINUTE = 60_000;

/** A moment with the clock that hung on the wall: "2026-10-25T02:30:00.000+02:00". */
const moment = v.pipe(
  v.string(),
  v.regex(RFC_3339),
  // The 31st of February parses as a day of March.
  v.check(
    (text) => isDay(text.slice(0, 10)) && !Number.isNaN(Date.parse(text)),
    "a moment that the calendar has",
  ),
);
const within = ({ min, max }: { readonly min: number; readonly max: number }) =>
  v.pipe(v.number(), v.finite(), v.minValue(min), v.maxValue(max));
const reading = within({ min: -40, max: 150 });
const vessel = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(1000));

const entrySchema = v.variant("kind", [
  /** A step of the schedule begins, and the one before it ends. */
  v.strictObject({
    kind: v.literal("step"),
    at: moment,
    step: v.pipe(v.string(), v.regex(/^[a-z][a-z0-9-]*$/), v.maxLength(40)),
  }),
  /** The last step ends. */
  v.strictObject({ kind: v.literal("end"), at: moment }),
  /** What the scale shows from its one tare, kg, after this ingredient went into this vessel. */
  v.strictObject({
    kind: v.literal("weighed"),
    at: moment,
    vessel,
    /** how many vessels the batch is made in; as many as are in the log where it is not said */
    of: v.exactOptional(vessel),
    ingredient: v.picklist(INGREDIENTS),
    reading: within({ min: 0, max: 50 }),
    /** It is further off than it may be, and the maker goes on as it is. */
    accepted: v.exactOptional(v.literal(true)),
  }),
  /** What the probe shows, °C. */
  v.strictObject({
    kind: v.literal("read"),
    at: moment,
    liquid: reading,
    bath: v.exactOptional(reading),
  }),
  v.pipe(
    v.strictObject({
      kind: v.literal("amount"),
      at: moment,
      of: v.picklist(Object.keys(NOTED) as Noted[]),
      value: v.pipe(v.number(), v.finite()),
    }),
    v.check(
      ({ of, value }) => value >= NOTED[of].min && value <= NOTED[of].max,
      "within its range",
    ),
  ),
  v.strictObject({
    kind: v.literal("note"),
    at: moment,
    text: v.pipe(v.string(), v.maxLength(500)),
  }),
  /** The clock was seen to jump by so many seconds: times before it are not comparable with times after. */
  v.strictObject({ kind: v.literal("clock"), at: moment, by: within({ min: -1e10, max: 1e10 }) }),
]);

/** The log as a record keeps it: what happened, in the order in which it was noted. */
export const logSchema = v.pipe(v.array(entrySchema), v.maxLength(MOST_ENTRIES));

export type Entry = v.InferOutput<typeof entrySchema>;
export type Log = readonly Entry[];
/** One kind of entry. */
export type EntryOf<K extends Entry["kind"]> = Extract<Entry, { kind: K }>;

/** How far a clock on a wall can be from UTC and still be written down, minutes. */
export const OFFSET_LIMITS: Limits = { min: -1439, max: 1439, unit: "min" };
/** The years that four digits can write, ms since 1970 in UTC. */
export const TIME_LIMITS: Limits = {
  min: Date.parse("0000-01-02T00:00:00Z"),
  max: Date.parse("9999-12-30T23:59:59.999Z"),
  unit: "ms",
};

/**
 * A moment as the log keeps it.
 *
 * @param time - ms since 1970 in UTC; within the years that four digits can write
 * @param offset - minutes that the clock on the wall is ahead of UTC; less than a day either way
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: RFC 3339 (2002), section 5.6. memory
 *
 * @example
 * stamp(Date.UTC(2026, 9, 25, 0, 30), 120); // "2026-10-25T02:30:00.000+02:00"
 */
export function stamp(time: number, offset: number): string {
  inRange("time", time, TIME_LIMITS);
  inRange("offset", offset, OFFSET_LIMITS);
  const local = new Date(time + offset * MINUTE).toISOString().slice(0, -1);
  const minutes = Math.abs(offset);
  const two = (n: number): string => String(Math.floor(n)).padStart(2, "0");
  return `${local}${offset < 0 ? "-" : "+"}${two(minutes / 60)}:${two(minutes % 60)}`;
}

/** When an entry was made, ms since 1970 in UTC, whatever clock hung on the wall. */
export function timeOf({ at }: Entry): number {
  return Date.parse(at);
}

/** The clock on the wall when an entry was made, "02:30". */
export function wallClock({ at }: Entry): string {
  return at.slice(11, 16);
}

export function entriesOf<K extends Entry["kind"]>(log: Log, kind: K): readonly EntryOf<K>[] {
  return log.filter((entry): entry is EntryOf<K> => entry.kind === kind);
}

/**
 * Seconds from an entry to a later one, or to now, with every jump of the clock in between taken out.
 *
 * @param from - an entry of this log
 * @param until - a later entry of this log, or ms since 1970 by the clock as it goes now: after a jump the
 * time alone does not tell whether a moment lies before it
 * @returns s; below zero only where the clock was set back and nobody saw it
 */
export function secondsSince(log: Log, from: Entry, until: Entry | number): number {
  const now = typeof until === "number";
  const between = log.slice(log.indexOf(from) + 1, now ? undefined : log.indexOf(until));
  const jumps = entriesOf(between, "clock").reduce((sum, { by }) => sum + by, 0);
  return ((now ? until : timeOf(until)) - timeOf(from)) / 1000 - jumps;
}

/** The step that goes on now; none before the first and after the last. */
export function stepNow(log: Log): EntryOf<"step"> | undefined {
  const last = log.findLast(({ kind }) => kind === "step" || kind === "end");
  return last?.kind === "step" ? last : undefined;
}

/** The entry that an undo would take away: the last that somebody made. Jumps of the clock make themselves. */
export function lastMade(log: Log): Entry | undefined {
  return log.findLast(({ kind }) => kind !== "clock");
}

/** The log without {@link lastMade}. Jumps of the clock stay: times are counted across them. */
export function undone(log: Log): Log {
  const last = lastMade(log);
  return log.filter((entry) => entry !== last);
}

/** What calculations call the mass of each ingredient. */
export const MASS_KEYS = {
  water: "waterMass",
  spirit: "spiritMass",
  "ascorbic acid": "ascorbicAcidMass",
  lecithin: "lecithinMass",
} as const satisfies Readonly<Record<Ingredient, string>>;

/** The batch key under which the log gives a mass, and no copy of it: it is worked out from what was noted. */
function weighedKey(ingredient: Ingredient): string {
  return `composition.${MASS_KEYS[ingredient]}`;
}

/**
 * What went in of each ingredient, kg: each reading less the one before it, all vessels together. An ingredient
 * may be weighed twice, when some is added to mend a ratio.
 */
export function weighedIn(log: Log): ReadonlyMap<Ingredient, number> {
  const sums = new Map<Ingredient, number>();
  const shown = new Map<number, number>();
  for (const { vessel, ingredient, reading: now } of entriesOf(log, "weighed")) {
    sums.set(ingredient, (sums.get(ingredient) ?? 0) + now - (shown.get(vessel) ?? 0));
    shown.set(vessel, now);
  }
  return sums;
}

/**
 * The log's own values by batch key, SI: a later note of the same amount takes the place of an earlier one.
 * While some vessels still wait for an ingredient, they count as those that have it: the batch is the whole of it.
 */
export function loggedValues(log: Log): BatchValues {
  const entries = entriesOf(log, "weighed");
  const vessels = entries.at(-1)?.of ?? countVessels(entries);
  const whole = [...weighedIn(log)].map(([ingredient, mass]) => {
    const have = countVessels(entries.filter((entry) => entry.ingredient === ingredient));
    return [ingredient, (mass * vessels) / have] as const;
  });
  const skimmed = entriesOf(log, "amount")
    .filter(({ of }) => of === "skimmedVolume")
    .map(({ of, value }) => [of, value]);
  return { ...massValues(new Map(whole)), ...Object.fromEntries(skimmed) };
}

/** Masses of the whole batch, kg, by the keys under which the composition reads them. */
export function massValues(masses: ReadonlyMap<Ingredient, number>): BatchValues {
  return Object.fromEntries(Array.from(masses, ([name, mass]) => [weighedKey(name), mass]));
}

function countVessels(entries: readonly EntryOf<"weighed">[]): number {
  return new Set(entries.map((entry) => entry.vessel)).size;
}

/** Keys whose values belong to one evening and not to the next. */
export const EVENING_KEYS: readonly string[] = [...INGREDIENTS.map(weighedKey), "skimmedVolume"];
