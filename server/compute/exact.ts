/**
 * Exact sums: a sum is kept as doubles that do not overlap, smallest first, and rounded once when it
 * is read. Neither order nor grouping can show, and an incremental result is a fresh one to the bit.
 * J. R. Shewchuk, "Adaptive Precision Floating-Point Arithmetic", 1997, sections 2.1 to 2.4.
 */
export type Exact = number[];

/** Adds x, exactly. */
export function add(sum: Exact, x: number): void {
  let kept = 0;
  let carry = x;
  for (let i = 0; i < sum.length; i++) {
    let y = sum[i]!;
    if (Math.abs(carry) < Math.abs(y)) [carry, y] = [y, carry];
    const high = carry + y;
    const low = y - (high - carry);
    if (low !== 0) sum[kept++] = low;
    carry = high;
  }
  sum.length = kept;
  if (carry !== 0) sum.push(carry);
}

/** Adds x times y, exactly: the product's rounding error is a double too (Dekker 1971). */
export function addProduct(sum: Exact, x: number, y: number): void {
  const product = x * y;
  add(sum, product);
  const error = errorOf(product, x, y);
  if (error !== 0) add(sum, error);
}

/** Adds x times y times z, exactly. */
export function addProduct3(sum: Exact, x: number, y: number, z: number): void {
  const product = y * z;
  addProduct(sum, x, product);
  const error = errorOf(product, y, z);
  if (error !== 0) addProduct(sum, x, error);
}

function errorOf(product: number, x: number, y: number): number {
  const [xHigh, xLow] = split(x);
  const [yHigh, yLow] = split(y);
  return xLow * yLow - (product - xHigh * yHigh - xLow * yHigh - xHigh * yLow);
}

/**
 * Σ m (x − a)(y − b) from Σ m x y, Σ m x, Σ m y and Σ m, rounded once: about the centre of what is there
 * most of it cancels, and doubles would keep little of the rest.
 */
export function centred(xy: Exact, x: Exact, y: Exact, m: Exact, a: number, b: number): number {
  const sum = [...xy];
  for (const part of y) addProduct(sum, -a, part);
  for (const part of x) addProduct(sum, -b, part);
  for (const part of m) addProduct3(sum, part, a, b);
  return rounded(sum);
}

export function addAll(sum: Exact, other: Exact): void {
  for (const x of other) add(sum, x);
}

/** The sum of n equal ones, for a small whole n that is a power of two. */
export function doubled(sum: Exact): Exact {
  return sum.map(x => 2 * x);
}

/** The double nearest to the sum; halves to even, as one rounding of the true value would. */
export function rounded(sum: Exact): number {
  let i = sum.length;
  if (i === 0) return 0;
  let high = sum[--i]!;
  let low = 0;
  while (i > 0) {
    const x = high;
    const y = sum[--i]!;
    high = x + y;
    low = y - (high - x);
    if (low !== 0) break;
  }
  if (i > 0 && ((low < 0 && sum[i - 1]! < 0) || (low > 0 && sum[i - 1]! > 0))) {
    const y = low * 2;
    const x = high + y;
    if (y === x - high) high = x;
  }
  return high;
}

function split(x: number): [number, number] {
  const c = 134217729 * x;
  const high = c - (c - x);
  return [high, x - high];
}

/** Of plain figures, rounded once. */
export function sumOf(values: readonly number[]): number {
  const sum: Exact = [];
  for (const it of values) add(sum, it);
  return rounded(sum);
}
