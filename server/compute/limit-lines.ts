import { memo } from "../memo";
import type { Row } from "../model/envelope";
import { same } from "../quantity/compare";

/** One end of what is allowed at a key, m: `x` there, and how it changes with the key around it. */
export interface Limit extends End {
  readonly code: "cg-forward" | "cg-aft" | "cg-lateral";
  readonly what: string;
  /** 1 where a greater arm is outside, -1 where a smaller one is. */
  readonly out: 1 | -1;
}

/** Every end that holds at a weight (kg) or, of lateral rows by station, at an FS (m). */
export function limitsAt(
  rows: readonly Row[],
  key: number,
  axis: "cg" | "lateral" = "cg",
): readonly Limit[] {
  const limits: Limit[] = [];
  for (const { low, high } of bandsAt(rows, key)) {
    if (low) limits.push(limit(low, names[axis].low, -1));
    if (high) limits.push(limit(high, names[axis].high, 1));
  }
  return limits;
}

// written out, for a spread of three objects is most of what a keystroke would cost
const limit = (
  { x, slope, row }: End,
  { code, what }: Pick<Limit, "code" | "what">,
  out: Limit["out"],
): Limit => ({ x, slope, row, code, what, out });

const names = {
  cg: {
    low: { code: "cg-forward", what: "the forward limit" },
    high: { code: "cg-aft", what: "the aft limit" },
  },
  lateral: {
    low: { code: "cg-lateral", what: "the left limit" },
    high: { code: "cg-lateral", what: "the right limit" },
  },
} as const;

interface End {
  readonly x: number;
  /** Change of x with the key; zero at a corner, where there is none. */
  readonly slope: number;
  readonly row: Row;
}

/** The limits at a weight (or a station): of the rows that hold at every weight, and of the keyed ones. */
function bandsAt(
  rows: readonly Row[],
  key: number,
): readonly { low: End | undefined; high: End | undefined }[] {
  if (rows.length === 0) return [];
  const { always, lows, highs, keyed } = sorted(rows);
  if (keyed < 2) return always;
  const low = along(lows, key, row => row.low!, Math.min);
  return [...always, { low, high: along(highs, key, row => row.high!, Math.max) }];
}

/** The rows that hold at every weight, and the corners of either end. */
const sorted = memo((rows: readonly Row[]) => {
  const keyed = rows.filter(row => row.key !== undefined);
  return {
    always: rows
      .filter(row => row.key === undefined)
      .map(row => ({ low: end(row.low, row), high: end(row.high, row) })),
    lows: keyed.filter(row => row.low !== undefined),
    highs: keyed.filter(row => row.high !== undefined),
    keyed: keyed.length,
  };
});

const end = (x: number | undefined, row: Row): End | undefined =>
  x === undefined ? undefined : { x, slope: 0, row };

/** A limit at a weight between two corners; at a step both hold, and the wider counts. */
function along(
  corners: readonly Row[],
  key: number,
  of: (row: Row) => number,
  wider: (a: number, b: number) => number,
): End | undefined {
  const first = corners[0];
  const last = corners.at(-1);
  if (first === undefined || last === undefined) return undefined;
  if (key <= first.key! || same(key, first.key!))
    return widest(
      corners.filter(row => row.key === first.key),
      of,
      wider,
    );
  if (key >= last.key! || same(key, last.key!))
    return widest(
      corners.filter(row => row.key === last.key),
      of,
      wider,
    );
  const here = corners.filter(row => same(row.key!, key));
  if (here.length > 0) return widest(here, of, wider);
  const above = corners.findIndex(row => row.key! > key);
  const [a, b] = [corners[above - 1]!, corners[above]!];
  const slope = (of(b) - of(a)) / (b.key! - a.key!);
  return { x: of(a) + slope * (key - a.key!), slope, row: b };
}

function widest(
  rows: readonly Row[],
  of: (row: Row) => number,
  wider: (a: number, b: number) => number,
): End {
  const x = rows.map(of).reduce((a, b) => wider(a, b));
  return { x, slope: 0, row: rows.find(row => of(row) === x)! };
}
