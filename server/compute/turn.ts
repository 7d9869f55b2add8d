import type { SecondMoments } from "../model/body";
import type { Place } from "../model/env";

/** A rigid motion, or a reflection: x′ = m x + t. Rows of m, then t; FS aft, BL right, WL up, m. */
export interface Turn {
  readonly m: readonly [Row, Row, Row];
  readonly t: Row;
}
export type Row = readonly [number, number, number];

export const still: Turn = {
  m: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  t: [0, 0, 0],
};

/** From the right-hand side to the left-hand one. */
export const mirror: Turn = {
  m: [
    [1, 0, 0],
    [0, -1, 0],
    [0, 0, 1],
  ],
  t: [0, 0, 0],
};

/**
 * About a line through `hinge` along `axis` (of length one), by `angle` radians, right-hand rule.
 * O. Rodrigues' formula, 1840; from memory.
 */
export function turnAbout(hinge: Row, axis: Row, angle: number): Turn {
  const [x, y, z] = axis;
  const [s, c] = [Math.sin(angle), Math.cos(angle)];
  const d = 1 - c;
  // a right angle is one: what sin and cos leave over would let an unknown WL spoil a known FS
  const n = (it: number) => (Math.abs(it) < 1e-15 ? 0 : it);
  const m: Turn["m"] = [
    [n(c + d * x * x), n(d * x * y - s * z), n(d * x * z + s * y)],
    [n(d * x * y + s * z), n(c + d * y * y), n(d * y * z - s * x)],
    [n(d * x * z - s * y), n(d * y * z + s * x), n(c + d * z * z)],
  ];
  const there = times(m, hinge);
  return { m, t: [hinge[0] - there[0], hinge[1] - there[1], hinge[2] - there[2]] };
}

/** First `inner`, then `outer`. */
export function after(outer: Turn, inner: Turn): Turn {
  if (outer === still) return inner;
  if (inner === still) return outer;
  const row = (i: 0 | 1 | 2): Row => {
    const entry = (j: 0 | 1 | 2) =>
      outer.m[i][0] * inner.m[0][j] + outer.m[i][1] * inner.m[1][j] + outer.m[i][2] * inner.m[2][j];
    return [entry(0), entry(1), entry(2)];
  };
  const t = times(outer.m, inner.t);
  return {
    m: [row(0), row(1), row(2)],
    t: [t[0] + outer.t[0], t[1] + outer.t[1], t[2] + outer.t[2]],
  };
}

/** Where a place comes to lie. A coordinate that hangs on an unknown one is unknown. */
export function turned(turn: Turn, place: Place): Place {
  if (turn === still) return place;
  const of = (i: 0 | 1 | 2) => {
    const [a, b, c] = turn.m[i];
    let sum = turn.t[i];
    for (const [factor, x] of [
      [a, place.fs],
      [b, place.bl],
      [c, place.wl],
    ] as const) {
      if (factor === 0) continue;
      if (x === undefined) return undefined;
      sum += factor * x;
    }
    return sum;
  };
  return { fs: of(0), bl: of(1), wl: of(2) };
}

/** How a body lies once turned: M L Mᵀ. */
export function turnedSecond({ m }: Turn, second: SecondMoments): SecondMoments {
  const { xx, yy, zz, xy, xz, yz } = second;
  const rows = [
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ] as const;
  const entry = (i: 0 | 1 | 2, j: 0 | 1 | 2): number | undefined => {
    let sum = 0;
    for (const k of [0, 1, 2] as const)
      for (const l of [0, 1, 2] as const) {
        const factor = m[i][k] * m[j][l];
        if (factor === 0) continue;
        const term = rows[k][l];
        if (term === undefined) return undefined;
        sum += factor * term;
      }
    return sum;
  };
  return {
    xx: entry(0, 0),
    yy: entry(1, 1),
    zz: entry(2, 2),
    xy: entry(0, 1),
    xz: entry(0, 2),
    yz: entry(1, 2),
  };
}

function times(m: Turn["m"], [x, y, z]: Row): Row {
  const of = ([a, b, c]: Row) => a * x + b * y + c * z;
  return [of(m[0]), of(m[1]), of(m[2])];
}
