import {
  fitHeat,
  ReadingsError,
  type HeatFit,
  type HeatReading,
  type ReadingsReason,
} from "../laws/heat-fit.ts";
import type { HeatNodes, HeatPowers } from "../laws/two-node-heat.ts";
import { FitError } from "../numeric/least-squares.ts";
import { RefusedError, type Rows } from "./calculation.ts";
import { fitRefusal } from "./fit-refusal.ts";

/** Fewer rows than this draw no curve, whatever the count of numbers says. */
const LEAST_ROWS = 4;

const WORDS: Readonly<Record<ReadingsReason, string>> = {
  "too-few":
    "There are too few readings for a fit. Four rows are the least; twenty or more are sound.",
  "not-finite": "has a value that is not a number.",
  "out-of-range": "has a temperature or a time out of range.",
  "time-order": "is earlier than the row before it. Put the readings in order of time.",
  "time-equal": "has the same time as the row before it. Leave one of them out.",
  constant:
    "The liquid never changes in these readings, so they say nothing of any power. Let the bath run while you read.",
  "never-running":
    "The bath never runs in these readings. Write “on” in the row from which it runs.",
  "no-bath-start": "has no bath temperature. The first row needs both: they are the start.",
  "no-rest":
    "Losses can be told from power only at rest. Add readings after the bath is off, or hold the losses.",
};

/** Fits of one table of readings by what else they were made with: bands ask for the same ones again. */
const known = new WeakMap<Rows, Map<string, HeatFit>>();
const MOST = 100;

/**
 * The fit of a reader's rows.
 *
 * @param rows - time, liquid, bath or `null`, 1 for running; SI
 * @param nodes - what is held, and a first guess of the exchange
 * @param guess - of the powers; what the rows cannot tell stays at the guess
 * @throws RefusedError for `readings`, in words
 */
export function fitRows(rows: Rows, nodes: HeatNodes, guess: HeatPowers, losses: boolean): HeatFit {
  if (rows.length < LEAST_ROWS) throw new RefusedError("readings", [WORDS["too-few"]]);
  const key = JSON.stringify([nodes, guess, losses]);
  let fits = known.get(rows);
  if (!fits) known.set(rows, (fits = new Map<string, HeatFit>()));
  let fit = fits.get(key);
  if (!fit) {
    if (fits.size >= MOST) fits.clear();
    fit = refusing(() => fitHeat(rows.map(asReading), nodes, guess, losses));
    fits.set(key, fit);
  }
  return fit;
}

function asReading([time, liquid, bath, running]: Rows[number]): HeatReading {
  return {
    time: Number(time),
    liquid: Number(liquid),
    ...(typeof bath === "number" && { bath }),
    running: running === 1,
  };
}

function refusing(fit: () => HeatFit): HeatFit {
  try {
    return fit();
  } catch (error) {
    if (error instanceof FitError) throw new RefusedError("readings", fitRefusal(error));
    if (!(error instanceof ReadingsError)) throw error;
    const words = WORDS[error.reason];
    const row = error.row === null ? "" : `Row ${error.row + 1} `;
    throw new RefusedError("readings", [/^[A-Z]/.test(words) ? words : `${row}${words}`]);
  }
}
