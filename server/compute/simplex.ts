/**
 * A linear program: each variable from 0 to its bound, each row the plain sum of some variables, at
 * most its room (≥ 0). A variable is in the rows of its group.
 */
export interface Program {
  readonly bound: Float64Array;
  readonly group: Int32Array;
  readonly rowsOf: readonly (readonly number[])[];
  readonly room: Float64Array;
}

/** Relative to the largest worth: less cannot be told from rounding. */
const worthless = 1e-13;
/** The inverse of a small matrix of zeros and ones has no entry so near zero but zero itself. */
const zero = 1e-9;

/**
 * Finds the values of the variables for which the sum of worth × value is largest, by the simplex
 * method with bounds. It starts where the last answer was: the next direction is often a step away.
 * After steps without gain it takes the lowest index (R. Bland, "New finite pivoting rules for the
 * simplex method", 1977), which cannot cycle. The array is used again.
 */
export function simplex(program: Program): (worth: Float64Array) => Float64Array {
  const { group, rowsOf, room } = program;
  const n = group.length;
  const m = room.length;
  // After the variables stands what each row leaves over, without a bound.
  const all = n + m;
  const bound = Float64Array.from({ length: all }, (_, j) =>
    j < n ? program.bound[j]! : Number.POSITIVE_INFINITY,
  );
  const value = new Float64Array(all);
  const atBound = new Uint8Array(all);
  /** The row a basic variable is solved from, or -1. */
  const rowOf = Int32Array.from({ length: all }, (_, j) => j - n).map(it => Math.max(it, -1));
  const basis = Int32Array.from({ length: m }, (_, i) => n + i);
  const inverse = new Float64Array(m * m);
  const matrix = new Float64Array(m * m);
  const price = new Float64Array(m);
  const groupPrice = new Float64Array(rowsOf.length);
  const rate = new Float64Array(m);
  const left = new Float64Array(m);

  return worth => {
    const least = worthless * worth.reduce((most, it) => Math.max(most, Math.abs(it)), 0);
    solve();
    setPrices(worth);
    let idle = 0;
    let stuck = 0;
    for (let j = 0; idle < all; j = (j + 1) % all, idle++) {
      if (rowOf[j]! >= 0) continue;
      const gain = j < n ? worth[j]! - groupPrice[group[j]!]! : -price[j - n]!;
      if (atBound[j] ? gain >= -least : gain <= least) continue;
      const pivoted = step(j, stuck > all);
      if (pivoted === "stuck") stuck++;
      else stuck = 0;
      if (pivoted === "flipped") continue;
      setPrices(worth);
      idle = -1;
      if (stuck > all) j = all - 1;
    }
    solve();
    return value;
  };

  /** Moves j from one bound towards the other, till it is there or a basic variable is at its own. */
  function step(j: number, lowestIndex: boolean): "flipped" | "moved" | "stuck" {
    const sign = atBound[j] ? -1 : 1;
    setRates(j);
    let length = bound[j]!;
    let out = -1;
    for (let i = 0; i < m; i++) {
      const fall = sign * rate[i]!;
      if (Math.abs(fall) <= zero) continue;
      const b = basis[i]!;
      const space = fall > 0 ? value[b]! : bound[b]! - value[b]!;
      const reach = Math.max(0, space / Math.abs(fall));
      const better =
        reach < length ||
        (reach === length &&
          out >= 0 &&
          (lowestIndex ? b < basis[out]! : Math.abs(fall) > Math.abs(rate[out]!)));
      if (!better) continue;
      length = reach;
      out = i;
    }
    for (let i = 0; i < m; i++) value[basis[i]!]! -= sign * rate[i]! * length;
    if (out < 0) {
      atBound[j] = 1 - atBound[j]!;
      value[j] = atBound[j] ? bound[j]! : 0;
      return "flipped";
    }
    const leaving = basis[out]!;
    atBound[leaving] = sign * rate[out]! > 0 ? 0 : 1;
    value[leaving] = atBound[leaving] ? bound[leaving]! : 0;
    rowOf[leaving] = -1;
    value[j]! += sign * length;
    rowOf[j] = out;
    basis[out] = j;
    pivot(out);
    return length > 0 ? "moved" : "stuck";
  }

  function setPrices(worth: Float64Array): void {
    price.fill(0);
    for (let i = 0; i < m; i++) {
      const b = basis[i]!;
      if (b < n) for (let k = 0; k < m; k++) price[k]! += worth[b]! * inverse[i * m + k]!;
    }
    for (let g = 0; g < rowsOf.length; g++) {
      let sum = 0;
      for (const k of rowsOf[g]!) sum += price[k]!;
      groupPrice[g] = sum;
    }
  }

  /** How fast each basic variable falls as j rises. */
  function setRates(j: number): void {
    for (let i = 0; i < m; i++) {
      let sum = 0;
      if (j >= n) sum = inverse[i * m + j - n]!;
      else for (const k of rowsOf[group[j]!]!) sum += inverse[i * m + k]!;
      rate[i] = sum;
    }
  }

  function pivot(out: number): void {
    const by = rate[out]!;
    for (let k = 0; k < m; k++) inverse[out * m + k]! /= by;
    for (let i = 0; i < m; i++)
      if (i !== out && rate[i] !== 0)
        for (let k = 0; k < m; k++) inverse[i * m + k]! -= rate[i]! * inverse[out * m + k]!;
  }

  /** Inverts the basis and solves for its variables anew, so that rounding does not add up. */
  function solve(): void {
    matrix.fill(0);
    inverse.fill(0);
    for (let i = 0; i < m; i++) {
      inverse[i * m + i] = 1;
      const b = basis[i]!;
      if (b >= n) matrix[(b - n) * m + i] = 1;
      else for (const k of rowsOf[group[b]!]!) matrix[k * m + i] = 1;
    }
    invert(matrix, inverse, m);
    left.set(room);
    for (let j = 0; j < n; j++)
      if (atBound[j] && rowOf[j]! < 0) for (const k of rowsOf[group[j]!]!) left[k]! -= bound[j]!;
    for (let i = 0; i < m; i++) {
      let sum = 0;
      for (let k = 0; k < m; k++) sum += inverse[i * m + k]! * left[k]!;
      value[basis[i]!] = Math.min(Math.max(sum, 0), bound[basis[i]!]!);
    }
  }
}

/** Gauss and Jordan's elimination with the largest pivot; `inverse` comes as the unit matrix. */
function invert(matrix: Float64Array, inverse: Float64Array, m: number): void {
  for (let c = 0; c < m; c++) {
    let best = c;
    for (let i = c + 1; i < m; i++)
      if (Math.abs(matrix[i * m + c]!) > Math.abs(matrix[best * m + c]!)) best = i;
    const by = matrix[best * m + c]!;
    for (const it of [matrix, inverse])
      for (let k = 0; k < m; k++) {
        const held = it[best * m + k]! / by;
        it[best * m + k] = it[c * m + k]!;
        it[c * m + k] = held;
      }
    for (let i = 0; i < m; i++) {
      const times = matrix[i * m + c]!;
      if (i === c || times === 0) continue;
      for (const it of [matrix, inverse])
        for (let k = 0; k < m; k++) it[i * m + k]! -= times * it[c * m + k]!;
    }
  }
}
