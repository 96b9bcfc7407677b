/** A closed interval in one SI unit ("°C" for temperatures). The form reads the same object as the function. */
export interface Limits {
  readonly min: number;
  readonly max: number;
  readonly unit: string;
}

/** A quantity outside the range its formula was checked for. Carries facts; the page writes the sentence. */
export class OutOfRangeError extends RangeError {
  override name = "OutOfRangeError"; // a literal: minifiers rename classes
  readonly quantity: string;
  readonly value: number;
  readonly limits: Limits;
  constructor(quantity: string, value: number, limits: Limits) {
    super(`${quantity} must be from ${limits.min} to ${limits.max} ${limits.unit}, got ${value}`);
    this.quantity = quantity;
    this.value = value;
    this.limits = limits;
  }
}

/**
 * Refuses a value outside its limits, NaN included.
 * @throws OutOfRangeError naming the quantity
 */
export function inRange(quantity: string, value: number, limits: Limits): void {
  // Written so that NaN fails too.
  if (!(value >= limits.min && value <= limits.max))
    throw new OutOfRangeError(quantity, value, limits);
}
