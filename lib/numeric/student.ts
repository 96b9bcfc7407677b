import { inRange } from "../errors.ts";
import { brent } from "./root.ts";

export const STUDENT_LIMITS = {
  degreesOfFreedom: { min: 1, max: 10_000, unit: "1" },
  coverage: { min: 0, max: 0.9999, unit: "1" },
} as const;

/**
 * Half-width, in standard errors, of the interval that covers a share of Student's distribution.
 *
 * For whole degrees of freedom the share is a finite sum in the angle θ, tan θ = t/√ν.
 *
 * @param degreesOfFreedom - readings less fitted parameters, ν, whole; 1 to 10 000
 * @param coverage - share inside, 0 to 0.9999
 * @returns t, the factor that a standard error is multiplied by
 * @throws OutOfRangeError outside those ranges, NaN included
 * @throws TypeError for degrees of freedom that are not whole
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4. memory
 *
 * @example
 * studentFactor(4); // 2.776
 */
export function studentFactor(degreesOfFreedom: number, coverage = 0.95): number {
  inRange("degreesOfFreedom", degreesOfFreedom, STUDENT_LIMITS.degreesOfFreedom);
  inRange("coverage", coverage, STUDENT_LIMITS.coverage);
  if (!Number.isInteger(degreesOfFreedom))
    throw new TypeError(`degrees of freedom are whole, got ${degreesOfFreedom}`);
  const angle = brent(
    (theta) => shareWithin(theta, degreesOfFreedom) - coverage,
    0,
    Math.PI / 2,
    1e-15,
  );
  return Math.sqrt(degreesOfFreedom) * Math.tan(angle);
}

/** Share of the distribution between −t and t. */
function shareWithin(theta: number, degreesOfFreedom: number): number {
  const odd = degreesOfFreedom % 2 === 1;
  const cosine = Math.cos(theta);
  let term = odd ? cosine : 1;
  let sum = degreesOfFreedom === 1 ? 0 : term;
  for (let k = odd ? 3 : 2; k < degreesOfFreedom; k += 2) {
    term *= ((k - 1) / k) * cosine ** 2;
    sum += term;
  }
  return odd ? (2 / Math.PI) * (theta + Math.sin(theta) * sum) : Math.sin(theta) * sum;
}
