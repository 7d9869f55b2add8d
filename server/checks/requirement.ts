import type { StatementOf } from "../../grammar/tree";
import { askOf } from "../compute/ask";
import { memo } from "../memo";
import { evaluate } from "../model/evaluate";
import { collector, type Fault } from "../model/fault";
import type { Root } from "../model/root";
import { exceeds, same } from "../quantity/compare";
import { ANGLE, LENGTH, MASS, nameOf, PLAIN, VOLUME } from "../quantity/dimension";
import type { Quantity } from "../quantity/quantity";
import { closestShown, show, showNumber } from "../quantity/show";
import { type Unit, unitTable } from "../quantity/units";

/** A requirement as it stands, with basic or with predicted masses. */
export interface Judged {
  readonly head: StatementOf<"require">;
  readonly text: string;
  /** Null: it rests on something unknown. */
  readonly holds: boolean | null;
  /** The first two sides that break it, or the outermost ones, in the author's units. */
  readonly left: string;
  readonly right: string;
  readonly comparison: string;
  readonly faults: readonly Fault[];
}

/** Every requirement with basic and with predicted masses; those for every loading come later. */
export const requirementsOf = memo((root: Root) =>
  root.statements.requires
    .filter(head => !isLater(head))
    .map(head => ({
      basic: judge(root, head, "basic"),
      predicted: judge(root, head, "predicted"),
    })),
);

/** The extremes of all loadings, and every loading in turn, are not judged yet. */
export function isLater(head: StatementOf<"require">): boolean {
  return head.everyLoading || /\b(forward|aft)\(/.test(head.line.text.slice(head.from, head.to));
}

function judge(root: Root, head: StatementOf<"require">, which: "basic" | "predicted"): Judged {
  const { report, found } = collector();
  let complete = true;
  const ask = askOf(root, which, () => {
    complete = false;
  });
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
  return {
    head,
    text,
    holds,
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
  const { mass, length, volume } = root.units;
  if (dimension === MASS) return mass;
  if (dimension === LENGTH) return length;
  if (dimension === VOLUME) return volume;
  if (dimension === ANGLE) return unitTable.get("deg");
  return dimension === PLAIN ? undefined : { name: "(SI)", factor: 1, dimension };
}
