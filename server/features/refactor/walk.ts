import { listOf } from "../../../grammar/lines";
import type { Source } from "../../../grammar/source";
import type { Measure, Quantity, Span, Statement } from "../../../grammar/tree";

export function statementsIn(source: Source): readonly Statement[] {
  return listOf(source.lines).flatMap(line =>
    line.pieces.flatMap(it => (it.kind === "statement" ? [it.item.head] : [])),
  );
}

export const isQuantity = (node: Span): node is Quantity =>
  "kind" in node && node.kind === "quantity";

/** A number without a unit, with its sign. */
export function plainNumber(node: Span | undefined): number | undefined {
  if (node === undefined || !("kind" in node)) return undefined;
  if (node.kind === "negative" && "of" in node) {
    const inner = plainNumber(node.of as Span);
    return inner === undefined ? undefined : -inner;
  }
  if (!isQuantity(node) || node.measures.length > 1) return undefined;
  const [measure]: readonly Measure[] = node.measures;
  return measure!.unit.length === 0 ? measure!.value : undefined;
}

/** As an author writes it: no thousands, no noise of rounding, up to so many decimals. */
export const figure = (value: number, decimals?: number) =>
  `${Number(decimals === undefined ? value.toPrecision(12) : value.toFixed(decimals))}`;
