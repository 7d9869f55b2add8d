import { addProduct, type Exact, rounded, sumOf } from "./exact";

/** What was measured against what had been expected, both in the same unit, and how much it stands for. */
export interface Pair {
  readonly expected: number;
  readonly actual: number;
}

/** How a set of pairs lies about what was expected. Shares of the expected figure: 0.03 is 3 % more. */
export interface Scatter {
  readonly count: number;
  /** Mean of actual ÷ expected, less one: each pair counts alike. */
  readonly bias: number;
  /** Σ actual ÷ Σ expected, less one: the mean weighted by what was expected. */
  readonly weighted: number;
  /** One standard deviation of `weighted`; undefined: one pair alone shows none. */
  readonly weightedError: number | undefined;
  /** Sample standard deviation of actual ÷ expected; undefined: one pair alone shows none. */
  readonly deviation: number | undefined;
  /** The same without its bias for small samples, if the ratios are normal: `deviation` ÷ c₄. */
  readonly unbiased: number | undefined;
}

/** Undefined without a pair. What was expected is above zero. */
export function scatterOf(pairs: readonly Pair[]): Scatter | undefined {
  const count = pairs.length;
  if (count === 0) return undefined;
  const ratios = pairs.map(it => it.actual / it.expected);
  const expected = sumOf(pairs.map(it => it.expected));
  const ratio = sumOf(pairs.map(it => it.actual)) / expected;
  const deviation = deviationOf(ratios);
  return {
    count,
    bias: meanOf(ratios) - 1,
    weighted: ratio - 1,
    weightedError: count < 2 ? undefined : errorOfRatio(pairs, ratio, expected),
    deviation,
    unbiased: deviation === undefined ? undefined : deviation / c4(count),
  };
}

export function meanOf(values: readonly number[]): number {
  return sumOf(values) / values.length;
}

/**
 * The sample standard deviation, √(Σ (x − mean)² ÷ (n − 1)): NIST/SEMATECH e-Handbook of Statistical
 * Methods, 1.3.5.6. Undefined of fewer than two.
 */
export function deviationOf(values: readonly number[]): number | undefined {
  if (values.length < 2) return undefined;
  const mean = meanOf(values);
  return Math.sqrt(squares(values.map(it => it - mean)) / (values.length - 1));
}

/**
 * What the sample standard deviation of n normal values is on average, as a share of the true one:
 * √(2 ÷ (n − 1)) Γ(n ÷ 2) ÷ Γ((n − 1) ÷ 2). NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.
 */
export function c4(n: number): number {
  // c₄(n) c₄(n − 1) = √((n − 2) ÷ (n − 1)) follows from Γ(x + 1) = x Γ(x); c₄(2) is √(2 ÷ π)
  let value = Math.sqrt(2 / Math.PI);
  for (let i = 3; i <= n; i++) value = Math.sqrt((i - 2) / (i - 1)) / value;
  return value;
}

/**
 * How far off a sample standard deviation of n normal values is itself, as a share of it: √(1 − c₄²) ÷ c₄.
 * JCGM 100:2008, E.4.3 and table E.1: 76 % of two values, 36 % of five, 24 % of ten.
 */
export function errorOfDeviation(n: number): number {
  const share = c4(n);
  return Math.sqrt(1 - share ** 2) / share;
}

/**
 * One standard deviation of a ratio of sums, √(n ÷ (n − 1) Σ (y − R x)²) ÷ Σ x, for a sample from many:
 * W. G. Cochran, Sampling Techniques, 3rd edition, 1977, section 6.4.
 */
function errorOfRatio(pairs: readonly Pair[], ratio: number, expected: number): number {
  const n = pairs.length;
  const off = squares(pairs.map(it => it.actual - ratio * it.expected));
  return Math.sqrt((n / (n - 1)) * off) / expected;
}

function squares(values: readonly number[]): number {
  const total: Exact = [];
  for (const it of values) addProduct(total, it, it);
  return rounded(total);
}
