import { SOUND_KEY } from "./keys.ts";

/** What the bench calls out for. */
export type Alarm = "over" | "near-ceiling" | "ceiling";

interface Tone {
  /** Hz, one after another */
  readonly notes: readonly number[];
  /** s each */
  readonly length: number;
  readonly loudness: number;
  readonly wave: OscillatorType;
  /** ms on, off, on … */
  readonly shake: readonly number[];
}

const TONES: Readonly<Record<Alarm, Tone>> = {
  over: {
    notes: [880, 0, 880, 0, 880],
    length: 0.2,
    loudness: 0.3,
    wave: "sine",
    shake: [300, 200, 300],
  },
  "near-ceiling": {
    notes: [660, 990, 660, 990],
    length: 0.25,
    loudness: 0.5,
    wave: "triangle",
    shake: [200, 100, 200, 100, 200],
  },
  ceiling: {
    notes: [1400, 700, 1400, 700, 1400, 700, 1400, 700, 1400, 700],
    length: 0.3,
    loudness: 0.9,
    wave: "square",
    shake: [800, 200, 800, 200, 800],
  },
};

let context: AudioContext | undefined;
let consented: boolean | undefined;

/** Whether the reader has asked for sound on this device. */
export function soundAllowed(): boolean {
  if (consented !== undefined) return consented;
  try {
    consented = localStorage.getItem(SOUND_KEY) === "on";
  } catch {
    consented = false;
  }
  return consented;
}

/** Keeps the answer on this device; only a press of the reader calls this. */
export function allowSound(allowed: boolean): void {
  consented = allowed;
  try {
    if (allowed) localStorage.setItem(SOUND_KEY, "on");
    else localStorage.removeItem(SOUND_KEY);
  } catch {
    // Nothing can be kept: the answer holds until the page is closed.
  }
  if (!allowed) {
    void context?.close();
    context = undefined;
  }
}

/** Browsers keep a page silent until it is touched; a touch that comes by wakes what was allowed before. */
export function wakeSound(): void {
  if (!soundAllowed() || !("AudioContext" in window)) return;
  context ??= new AudioContext();
  if (context.state === "suspended") void context.resume();
}

/** Whether a sound would be heard now. */
export function soundReady(): boolean {
  return context?.state === "running";
}

/** Sounds and shakes, where the reader allowed it. */
export function callOut(alarm: Alarm): void {
  if (!soundAllowed()) return;
  const { notes, length, loudness, wave, shake } = TONES[alarm];
  if ("vibrate" in navigator) navigator.vibrate([...shake]);
  wakeSound();
  if (!context) return;
  for (const [i, pitch] of notes.entries()) {
    if (pitch === 0) continue;
    const start = context.currentTime + 0.05 + i * length;
    const oscillator = new OscillatorNode(context, { type: wave, frequency: pitch });
    const volume = new GainNode(context, { gain: 0 });
    // Ramped: a tone cut off clicks.
    volume.gain.setValueAtTime(0, start);
    volume.gain.linearRampToValueAtTime(loudness, start + 0.02);
    volume.gain.setValueAtTime(loudness, start + length - 0.03);
    volume.gain.linearRampToValueAtTime(0, start + length);
    oscillator.connect(volume).connect(context.destination);
    oscillator.start(start);
    oscillator.stop(start + length);
  }
}
