/** A value with the band that it lies in, all three in one SI unit. */
export interface Banded {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}
