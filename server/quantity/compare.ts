/** Two figures closer than this, relative to the larger, are equal: 3 × 0.1 lb is 0.3 lb. */
const tolerance = 1e-9;

/** Whether a is above b by more than rounding. False if either is NaN (unknown). */
export function exceeds(a: number, b: number): boolean {
  return a > b && !same(a, b);
}

/** Whether a and b differ by no more than rounding. False if either is NaN (unknown). */
export function same(a: number, b: number): boolean {
  if (a === b) return true;
  const size = Math.max(Math.abs(a), Math.abs(b));
  return Math.abs(a - b) <= tolerance * size && size < Number.POSITIVE_INFINITY;
}
