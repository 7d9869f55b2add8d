import type { StatementOf } from "../../grammar/tree";
import { askOf } from "../compute/ask";
import { type Flight, flightsOf } from "../compute/flights";
import { memo } from "../memo";
import { evaluate } from "../model/evaluate";
import { collector, type Fault } from "../model/fault";
import type { Loading } from "../model/loading";
import type { Root } from "../model/root";
import { exceeds, same } from "../quantity/compare";
import { derivedUnit } from "../quantity/derived";
import { nameOf, PLAIN } from "../quantity/dimension";
import type { Quantity } from "../quantity/quantity";
import { closestShown, show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";

/** A requirement as it stands, with basic or with predicted masses. */
export interface Judged {
  readonly head: StatementOf<"require">;
  readonly text: string;
  /** Null: it rests on something unknown. */
  readonly holds: boolean | null;
  /** Nothing that it asks for has an unknown in it. */
  readonly complete: boolean;
  /** The first two sides that break it, or the outermost ones, in the author's units. */
  readonly left: string;
  readonly right: string;
  readonly comparison: string;
  /** Of a requirement for every loading: the one that breaks it worst, and the others that do. */
  readonly loading: Loading | undefined;
  readonly others: readonly Loading[];
  readonly faults: readonly Fault[];
}

/** Every requirement with basic and with predicted masses. */
export const requirementsOf = memo((root: Root) =>
  root.statements.requires.map(head => ({
    basic: judge(root, head, "basic"),
    predicted: judge(root, head, "predicted"),
  })),
);

function judge(root: Root, head: StatementOf<"require">, which: "basic" | "predicted"): Judged {
  if (!head.everyLoading) return judgeOne(root, head, which);
  const each = flightsOf(root).map(it => judgeOne(root, head, which, it));
  // the first that has no answer is worse than the ones that hold
  const worst = each.reduce<One | undefined>(
    (a, b) => (a && rank(a) >= rank(b) ? a : b),
    undefined,
  );
  if (worst === undefined) return { ...judgeOne(root, head, which), holds: null, faults: [] };
  const others = each.filter(it => it !== worst && it.holds === false);
  return { ...worst, others: others.flatMap(it => it.loading ?? []), faults: each[0]!.faults };
}

const rank = ({ holds, off }: One) => (holds === false ? 1 + off : holds === null ? 0.5 : 0);

type One = Judged & {
  /** How far the two sides of the broken comparison are apart, in SI units. */
  readonly off: number;
};

function judgeOne(
  root: Root,
  head: StatementOf<"require">,
  which: "basic" | "predicted",
  loading?: Flight,
): One {
  const { report, found } = collector();
  let complete = true;
  const ask = askOf(
    root,
    which,
    () => {
      complete = false;
    },
    loading,
  );
  const setting = { scope: root.scope, report, ask };
  const sides = head.sides.map(side => evaluate(side, setting));
  let holds: boolean | null = true;
  let shown: [number, number] = [0, head.sides.length - 1];
  head.comparisons.forEach((comparison, i) => {
    const [left, right] = [sides[i], sides[i + 1]];
    if (left === undefined || right === undefined) {
      if (holds) holds = null;
      return;
    }
    if (left.dimension !== right.dimension) {
      const [a, b] = [nameOf(left.dimension), nameOf(right.dimension)];
      report("wrong-dimension", head.sides[i + 1]!, `${a} and ${b} cannot be compared`);
      holds = null;
    } else if (!compares(left.value, comparison, right.value)) {
      if (holds !== false) shown = [i, i + 1];
      holds = false;
    }
  });
  if (holds === true && !complete) holds = null;
  const [left, right] = inWords(sides[shown[0]], sides[shown[1]], root);
  const text = head.line.text
    .slice(head.sides[0]?.from ?? head.from, head.why?.from ?? head.to)
    .trim();
  const [a, b] = shown.map(i => sides[i]?.value);
  return {
    head,
    text,
    holds,
    complete,
    loading: loading?.loading,
    others: [],
    off: a === undefined || b === undefined ? 0 : Math.abs(a - b),
    left,
    right,
    comparison: head.comparisons[shown[0]] ?? "",
    faults: found(),
  };
}

function compares(a: number, comparison: string, b: number): boolean {
  switch (comparison) {
    case "<=":
      return !exceeds(a, b);
    case ">=":
      return !exceeds(b, a);
    case "<":
      return exceeds(b, a);
    case ">":
      return exceeds(a, b);
    case "==":
      return same(a, b);
    default:
      return !same(a, b);
  }
}

function inWords(
  left: Quantity | undefined,
  right: Quantity | undefined,
  root: Root,
): [string, string] {
  const unit = right?.unit ?? left?.unit ?? (left && unitFor(left, root));
  if (
    left &&
    right &&
    unit &&
    left.dimension === unit.dimension &&
    right.dimension === unit.dimension
  )
    return closestShown(left.value, right.value, unit);
  return [words(left, root), words(right, root)];
}

function words(value: Quantity | undefined, root: Root): string {
  if (value === undefined) return "unknown";
  const unit = value.unit ?? unitFor(value, root);
  return unit ? show(value.value, unit) : showNumber(value.value);
}

function unitFor({ dimension }: Quantity, root: Root): Unit | undefined {
  if (dimension === PLAIN) return undefined;
  return derivedUnit(dimension, root.units) ?? { name: "(SI)", factor: 1, dimension };
}

/** "two_up: 122 in is not >= 124 in: the reason", at the comparison; the other loadings beside it. */
export function brokenBy(judged: Judged, when = "") {
  const { head, left, right, comparison, loading, others, complete } = judged;
  const floor = complete ? "" : " (incomplete: something has no mass or no arm)";
  const [first, last] = [head.sides[0]!, head.sides.at(-1)!];
  const who = loading ? `${loading.name}: ` : "";
  return {
    at: { line: head.line, from: first.from, to: last.to },
    message: `${who}${left} is not ${comparison} ${right}${when}${floor}${head.why ? `: ${head.why.text}` : ""}`,
    related: others.map(({ at, name }) => ({ at, message: `${name} breaks it too` })),
  };
}
