import { listOf } from "../../../grammar/lines";
import type { Source } from "../../../grammar/source";
import type { Item, Measure, Quantity, Span, Statement } from "../../../grammar/tree";

/** Every node of a statement, itself first: the tree is plain data. */
export function* nodesIn(node: object): Iterable<Span> {
  if (isSpan(node)) yield node;
  for (const [key, value] of Object.entries(node)) {
    if (key === "line") continue;
    for (const it of Array.isArray(value) ? value : [value])
      if (typeof it === "object" && it !== null) yield* nodesIn(it);
  }
}

const isSpan = (node: object): node is Span => "from" in node && "to" in node;

export function statementsIn(source: Source): readonly Statement[] {
  return listOf(source.lines).flatMap(line =>
    line.pieces.flatMap(it => (it.kind === "statement" ? [it.item.head] : [])),
  );
}

export function* itemsIn(
  items: readonly Item[],
  blocks: readonly Item[] = [],
): Iterable<{
  readonly item: Item;
  /** Around it, the outermost first. */
  readonly blocks: readonly Item[];
}> {
  for (const item of items) {
    yield { item, blocks };
    if (item.items.length > 0) yield* itemsIn(item.items, [...blocks, item]);
  }
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
