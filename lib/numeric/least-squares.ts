import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { Matrix, SingularValueDecomposition } from "ml-matrix";

/**
 * Why readings cannot carry a fit: fewer than the parameters and one more; a reading, start or model value
 * that is not a number; parameters that the readings cannot tell apart; a best fit that lies outside the
 * limits; or none found from this start.
 */
export type FitReason = "too-few" | "not-finite" | "singular" | "at-limit" | "no-convergence";

/** The readings cannot carry the fit. Carries the reason; the page writes the sentence. */
export class FitError extends Error {
  override name = "FitError"; // a literal: minifiers rename classes
  readonly reason: FitReason;
  constructor(reason: FitReason) {
    super(`the readings cannot carry this fit: ${reason}`);
    this.reason = reason;
  }
}

/** A curve for each set of parameters, so that what depends on them alone is worked out once. */
export type Model = (parameters: readonly number[]) => (x: number) => number;

/** A fitted model. Standard errors are one standard uncertainty, from the scatter about the curve. */
export interface Fit {
  readonly parameters: readonly number[];
  readonly standardErrors: readonly number[];
  /** Shape (parameters, parameters), 1 on the diagonal. */
  readonly correlations: readonly (readonly number[])[];
  /** In the unit of y. */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
}

export interface FitOptions {
  /** Least value of each parameter. */
  readonly low?: readonly number[];
  /** Greatest value of each parameter. */
  readonly high?: readonly number[];
}

type Reading = readonly [x: number, y: number];

/** Rounds of search and descent, and steps in each. */
const ROUNDS = 12;
const SEARCH_STEPS = 5;
const DESCENT_STEPS = 12;
const DAMPING = 0.01;
/** Relative. The cube root of rounding: there a central difference is at its best, 1e-10. */
const DIFFERENCE = 6e-6;
/** Relative step that ends the descent; the next would be smaller by far. */
const SETTLED = 1e-9;
/** Least singular value over the greatest, once every column has length 1: below it differences are noise. */
const DISTINCT = 1e-7;

/**
 * Fits a model to readings by least squares, each reading weighing the same.
 *
 * Levenberg and Marquardt's damped steps search; Gauss and Newton's undamped ones end it and prove it, for
 * they only settle at a minimum. The covariance is s² (JᵀJ)⁻¹ there, s² the sum of squares over the degrees
 * of freedom.
 *
 * @param model - of the parameters, then of x; it is also asked a few millionths beyond the limits
 * @param readings - x and y, shape (n, 2), n above the number of parameters
 * @param start - a guess for each parameter; its size is taken as that of the answer, so 0 stands for 1
 * @param options - limits of the parameters; none if left out
 * @returns parameters with standard errors and correlations, to 8 digits for the certified sets
 * @throws FitError where the readings cannot carry the fit
 * Source: Moré, Lect. Notes Math. 630 (1978) 105; Draper & Smith, Applied Regression Analysis (1998), ch. 24.
 * memory
 *
 * @example
 * leastSquares(([a, b]) => (x) => a * (1 - Math.exp(-b * x)), readings, [250, 5e-4]);
 */
export function leastSquares(
  model: Model,
  readings: readonly Reading[],
  start: readonly number[],
  options: FitOptions = {},
): Fit {
  if (readings.length <= start.length) throw new FitError("too-few");
  const curve = model(start);
  if (!start.every(Number.isFinite) || !readings.every((row) => row.every(Number.isFinite)))
    throw new FitError("not-finite");
  if (!readings.every(([x]) => Number.isFinite(curve(x)))) throw new FitError("not-finite");
  let parameters = start;
  let failure: FitReason = "no-convergence";
  let damping = DAMPING;
  for (let round = 0; round < ROUNDS; round++) {
    // A parameter near 0 is still counted in steps worth taking.
    const sizes = parameters.map((value, i) =>
      Math.max(sizeOf(value), sizeOf(start[i] as number) / 1000),
    );
    const found = search(model, readings, parameters, { sizes, damping }, options);
    // The package takes a step that climbs too and may not come back: then shorter ones are asked for.
    damping = found === parameters ? damping * 10 : Math.max(damping / 3, DAMPING);
    parameters = found;
    const end = descend(model, readings, parameters, options);
    if (typeof end !== "string") return end;
    failure = end;
  }
  throw new FitError(failure);
}

/**
 * Some damped steps; the start itself when none went lower. The damping is the same for all parameters, so
 * each is counted in its own size.
 */
function search(
  model: Model,
  readings: readonly Reading[],
  start: readonly number[],
  { sizes, damping }: { readonly sizes: readonly number[]; readonly damping: number },
  { low, high }: FitOptions,
): readonly number[] {
  const scaled = (values: readonly number[]): number[] =>
    values.map((value, i) => value / (sizes[i] as number));
  const unscaled = (values: readonly number[]): number[] =>
    values.map((value, i) => value * (sizes[i] as number));
  const height = sizeOf(Math.max(...readings.map(([, y]) => Math.abs(y))));
  const initialValues = scaled(start);
  let found: readonly number[];
  try {
    found = levenbergMarquardt(
      { x: readings.map(([x]) => x), y: readings.map(([, y]) => y / height) },
      (values) => {
        const curve = model(unscaled(values));
        return (x) => curve(x) / height;
      },
      {
        initialValues,
        jacobianFunction: (values) => {
          const slopes = slopesOf(model, unscaled(values));
          return (x) => slopes.map((slope, i) => (slope(x) * (sizes[i] as number)) / height);
        },
        maxIterations: SEARCH_STEPS,
        errorTolerance: 0,
        damping,
        ...(low && { minValues: scaled(low) }),
        ...(high && { maxValues: scaled(high) }),
      },
    ).parameterValues;
  } catch {
    // Steps that climbed until the model has no value, or no slopes to solve for.
    return start;
  }
  return found.some((value, i) => value !== initialValues[i]) ? unscaled(found) : start;
}

/** Undamped steps, for as long as they go down, to where they settle. */
function descend(
  model: Model,
  readings: readonly Reading[],
  start: readonly number[],
  { low, high }: FitOptions,
): Fit | FitReason {
  const beyond = (value: number, i: number): boolean =>
    value < (low?.[i] ?? -Infinity) || value > (high?.[i] ?? Infinity);
  let parameters = start;
  let here = residualsOf(model, readings, parameters);
  for (let step = 0; step < DESCENT_STEPS; step++) {
    const slopes = slopesOf(model, parameters);
    const columns = slopes.map((slope) => readings.map(([x]) => slope(x)));
    const lengths = columns.map((column) => Math.hypot(...column));
    if (!lengths.every((length) => length > 0 && length < Infinity)) return "singular";
    const unit = columns.map((column, i) => column.map((value) => value / (lengths[i] as number)));
    const svd = new SingularValueDecomposition(new Matrix(unit).transpose());
    const [greatest, least] = [svd.diagonal[0] as number, svd.diagonal.at(-1) as number];
    if (!(least > DISTINCT * greatest)) return "singular";
    const change = svd
      .solve(Matrix.columnVector(here.values))
      .to1DArray()
      .map((value, i) => value / (lengths[i] as number));
    const next = parameters.map((value, i) => value + (change[i] as number));
    if (next.some(beyond)) return "at-limit";
    const there = residualsOf(model, readings, next);
    const settled = change.every((by, i) => Math.abs(by) <= SETTLED * sizeOf(next[i] as number));
    if (!(there.sum <= here.sum + rounding(readings, here.sum))) return "no-convergence";
    [parameters, here] = [next, there];
    if (settled) return summary(parameters, here.sum, readings.length, svd, lengths);
  }
  return "no-convergence";
}

/** At the very bottom rounding may lift the sum of squares by this much. */
function rounding(readings: readonly Reading[], sum: number): number {
  return 1e-10 * sum + readings.reduce((total, [, y]) => total + (1e-14 * y) ** 2, 0);
}

function summary(
  parameters: readonly number[],
  sum: number,
  count: number,
  svd: SingularValueDecomposition,
  lengths: readonly number[],
): Fit {
  const degreesOfFreedom = count - parameters.length;
  const residualSd = Math.sqrt(sum / degreesOfFreedom);
  const spread = svd.rightSingularVectors.mulRowVector(svd.diagonal.map((value) => 1 / value));
  const covariance = spread.mmul(spread.transpose());
  const deviation = (i: number): number => Math.sqrt(covariance.get(i, i));
  return {
    parameters,
    standardErrors: lengths.map((length, i) => (residualSd * deviation(i)) / length),
    correlations: lengths.map((_, i) =>
      lengths.map((_, j) => covariance.get(i, j) / (deviation(i) * deviation(j))),
    ),
    residualSd,
    degreesOfFreedom,
  };
}

function residualsOf(
  model: Model,
  readings: readonly Reading[],
  parameters: readonly number[],
): { readonly values: number[]; readonly sum: number } {
  const curve = model(parameters);
  const values = readings.map(([x, y]) => y - curve(x));
  return { values, sum: values.reduce((sum, value) => sum + value ** 2, 0) };
}

/** How the curve moves with each parameter, by central differences. */
function slopesOf(model: Model, parameters: readonly number[]): readonly ((x: number) => number)[] {
  return parameters.map((value, i) => {
    const step = DIFFERENCE * sizeOf(value);
    const [above, below] = [value + step, value - step];
    const up = model(parameters.with(i, above));
    const down = model(parameters.with(i, below));
    return (x) => (up(x) - down(x)) / (above - below);
  });
}

function sizeOf(value: number): number {
  return Math.abs(value) || 1;
}

/** y = intercept + slope x. Standard errors are one standard uncertainty, from the scatter about the line. */
export interface StraightLine {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeError: number;
  readonly interceptError: number;
  /** Of slope and intercept. */
  readonly covariance: number;
  /** In the unit of y. */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
}

/**
 * The straight line through readings by least squares, each reading weighing the same.
 *
 * @param x - n ≥ 3, not all equal; the unit is the caller's
 * @param y - as many
 * @returns slope and intercept with standard errors; x is counted from its mean, which keeps the digits that
 * the textbook's sums lose
 * @throws FitError for fewer than three readings, a value that is not a number, or every x the same
 * @throws TypeError for x and y of different lengths
 * Source: Draper & Smith, Applied Regression Analysis (1998), chapter 1. memory
 *
 * @example
 * straightLine([0, 60, 120], [20, 21, 22.1]); // slope 0.0175
 */
export function straightLine(x: readonly number[], y: readonly number[]): StraightLine {
  if (x.length !== y.length) throw new TypeError(`${x.length} values of x and ${y.length} of y`);
  if (x.length < 3) throw new FitError("too-few");
  if (![...x, ...y].every(Number.isFinite)) throw new FitError("not-finite");
  const [xMean, yMean] = [mean(x), mean(y)];
  const fromMean = x.map((value) => value - xMean);
  const squares = fromMean.reduce((sum, value) => sum + value ** 2, 0);
  if (!(squares > 0)) throw new FitError("singular");
  const slope =
    fromMean.reduce((sum, value, i) => sum + value * ((y[i] as number) - yMean), 0) / squares;
  const residuals = fromMean.map((value, i) => (y[i] as number) - yMean - slope * value);
  const degreesOfFreedom = x.length - 2;
  const variance = residuals.reduce((sum, value) => sum + value ** 2, 0) / degreesOfFreedom;
  return {
    slope,
    intercept: yMean - slope * xMean,
    slopeError: Math.sqrt(variance / squares),
    interceptError: Math.sqrt(variance * (1 / x.length + xMean ** 2 / squares)),
    covariance: (-xMean * variance) / squares,
    residualSd: Math.sqrt(variance),
    degreesOfFreedom,
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
