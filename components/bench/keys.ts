/** Names under which the browser keeps what is this device's own, and half-typed texts of the bench. */
export const SOUND_KEY = "bilayer-bench.sound";
export const DRAFT_PREFIX = "bench.";
