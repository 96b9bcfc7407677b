import { timeOf, type Log } from "./log.ts";

/** A step as it really went. */
export interface Stretch {
  /** as the schedule names it */
  readonly step: string;
  /** s since the first entry of the log */
  readonly start: number;
  /** the same; `null` while it lasts */
  readonly end: number | null;
}

/** s from the first entry of a log to each of its entries, with every jump of the clock that was seen taken out. */
export function steadyTimes(log: Log): readonly number[] {
  const [first, ...later] = log;
  if (!first) return [];
  let jumped = 0;
  const times = later.map((entry) => {
    // It is stamped by the clock as it goes from then on.
    if (entry.kind === "clock") jumped += entry.by;
    return (timeOf(entry) - timeOf(first)) / 1000 - jumped;
  });
  return [0, ...times];
}

/** Every step in the order in which it was begun; one begun twice is there twice. */
export function stretchesOf(log: Log): readonly Stretch[] {
  const times = steadyTimes(log);
  const stretches: Stretch[] = [];
  for (const [i, entry] of log.entries()) {
    if (entry.kind !== "step" && entry.kind !== "end") continue;
    const time = times[i] as number;
    const last = stretches.at(-1);
    if (last?.end === null) stretches[stretches.length - 1] = { ...last, end: time };
    if (entry.kind === "step") stretches.push({ step: entry.step, start: time, end: null });
  }
  return stretches;
}
