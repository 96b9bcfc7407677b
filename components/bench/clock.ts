import { stamp } from "../../lib/batch/log.ts";

/** ms: a clock that is set right by the network moves by less. */
const LEAST_JUMP = 2000;
const MINUTE = 60_000;

/** Minutes that the clock on the wall is ahead of UTC at a moment: summer time begins and ends while one works. */
export function offsetAt(time: number): number {
  return -new Date(time).getTimezoneOffset();
}

/** This moment as the log keeps it. */
export function stampNow(): string {
  const now = Date.now();
  return stamp(now, offsetAt(now));
}

/** What the clock on the wall shows at a moment, "02:30". */
export function wallClockAt(time: number): string {
  return stamp(time, offsetAt(time)).slice(11, 16);
}

/**
 * Watches for a clock that is set back, by a second one that nobody can set.
 *
 * A jump forward is left alone: the second clock stands still while a device sleeps, and time passes.
 *
 * @param wall - ms since 1970, as the device shows it
 * @param steady - ms since anything, never set
 * @returns asked again and again: s by which the clock was set back since it was last asked, below zero, or 0
 */
export function watchClock(
  wall: () => number = () => Date.now(),
  steady: () => number = () => performance.now(),
): () => number {
  let ahead = wall() - steady();
  return () => {
    const moved = wall() - steady() - ahead;
    ahead += moved;
    return moved <= -LEAST_JUMP ? moved / 1000 : 0;
  };
}

/** Minutes and seconds as a clock shows them: "4:05", "1:02:05" from an hour on. */
export function clockText(seconds: number): string {
  const whole = Math.floor(seconds);
  const two = (n: number): string => String(Math.floor(n)).padStart(2, "0");
  const rest = `${two((whole % 3600) / 60)}:${two(whole % 60)}`;
  return whole >= 3600 ? `${Math.floor(whole / 3600)}:${rest}` : rest.replace(/^0/, "");
}

/** A length of time in words, to the minute: "40 s", "8 min", "1 h 20 min". */
export function lengthText(seconds: number): string {
  if (seconds < 90) return `${Math.round(seconds)}\u00a0s`;
  const minutes = Math.round((seconds * 1000) / MINUTE);
  const [hours, left] = [Math.floor(minutes / 60), minutes % 60];
  const parts = [hours > 0 ? `${hours}\u00a0h` : "", left > 0 ? `${left}\u00a0min` : ""];
  return parts.filter((part) => part !== "").join(" ");
}

/** A length of time that is known roughly, to five minutes from ten on: "37 s", "8 min", "2 h 35 min". */
export function roughLengthText(seconds: number): string {
  return lengthText(roughLength(seconds));
}

/** s, as {@link roughLengthText} says it. */
export function roughLength(seconds: number): number {
  return seconds < 600 ? seconds : Math.round(seconds / 300) * 300;
}
