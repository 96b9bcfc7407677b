/** What lecithin is made from, as a label has to name it. */
export const LECITHIN_SOURCES = ["soy", "sunflower", "rapeseed", "egg", "milk"] as const;
export type LecithinSource = (typeof LECITHIN_SOURCES)[number];

/** Labels that fit A4 and Letter paper in rows of two or three, mm. */
export const LABEL_SIZES = {
  small: { width: 60, height: 40 },
  medium: { width: 90, height: 60 },
  large: { width: 96, height: 74 },
} as const;
export type LabelSize = keyof typeof LABEL_SIZES;

/**
 * How far a stated strength may be from the true one, in general.
 * Source: Regulation (EU) 1169/2011, Annex XII. memory
 */
export const STRENGTH_TOLERANCE = 0.003;

const DAY = 86_400;
const ISO_DAY = /^\d{4}-\d{2}-\d{2}$/;

/** Whether a text is a day that the calendar has, as "2026-03-14". */
export function isDay(text: string): boolean {
  if (!ISO_DAY.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  // The 31st of February parses as a day of March.
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}

/** How many whole days a time has, s; a hair is given, because whole days may come out a rounding short. */
export function wholeDays(time: number): number {
  return Math.floor(time / DAY + 1e-9);
}

/**
 * The day so long after another, part of a day left off.
 *
 * @param day - as {@link isDay} wants it
 * @param time - s, 0 or more
 * @returns `undefined` where that is past the year 9999
 */
export function dayAfter(day: string, time: number): string | undefined {
  const date = new Date(`${day}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() + wholeDays(time));
  if (Number.isNaN(date.getTime())) return undefined;
  const text = date.toISOString().slice(0, 10);
  return isDay(text) ? text : undefined;
}
