/** What can be said of the screen. */
export type Awake = "on" | "impossible" | "refused";

/**
 * Keeps the screen on while the page is open and seen: a dark screen shows no time.
 *
 * @param tell - called when it is known, and whenever it changes
 */
export function keepAwake(tell: (state: Awake) => void): void {
  if (!("wakeLock" in navigator)) return tell("impossible");
  const ask = async (): Promise<void> => {
    if (document.visibilityState !== "visible") return;
    try {
      await navigator.wakeLock.request("screen");
      tell("on");
    } catch {
      tell("refused"); // A battery that runs low, or a rule of the device.
    }
  };
  // A hidden page loses its lock.
  document.addEventListener("visibilitychange", () => void ask());
  void ask();
}
