import type { Clause, ClauseOf, Item } from "../../grammar/tree";
import { memo } from "../memo";

/** A declaration's clauses: those behind its name, then those on lines of their own in its block. */
export function clausesOf(item: Item): readonly Clause[] {
  if (item.items.length > 0) return withInner(item);
  return "clauses" in item.head ? item.head.clauses : none;
}

const withInner = memo((item: Item): readonly Clause[] => {
  const own = "clauses" in item.head ? item.head.clauses : none;
  const inside = item.items.flatMap(({ head }) => (head.kind === "clause" ? [head.clause] : []));
  return inside.length === 0 ? own : [...own, ...inside];
});
const none: readonly Clause[] = [];

/** Something in it could not be read: what its clauses say may be less than what is written. */
export const isUnread = (clauses: readonly Clause[]): boolean =>
  clauses.some(it => it.kind === "unread");

/** The same of a block that is no declaration: of its head, or of a line in it. */
export const isBlockUnread = ({ head, items }: Item): boolean =>
  ("unread" in head && head.unread === true) || isUnread(clausesIn(items));

/** Clauses on lines of their own. */
export const clausesIn = (items: readonly Item[]): readonly Clause[] =>
  items.flatMap(({ head }) => (head.kind === "clause" ? [head.clause] : []));

/** The last clause of a kind: a later one replaces an earlier one. */
export function clauseOf<K extends Clause["kind"]>(
  clauses: readonly Clause[],
  kind: K,
): ClauseOf<K> | undefined {
  for (let i = clauses.length - 1; i >= 0; i--) {
    const clause = clauses[i]!;
    if (clause.kind === kind) return clause as ClauseOf<K>;
  }
  return undefined;
}

/** The things in a block, seen through blocks that lost their head. */
export const membersOf = memo((items: readonly Item[]): readonly Item[] =>
  items.some(item => item.head.kind === "nameless")
    ? items.flatMap(item => (item.head.kind === "nameless" ? membersOf(item.items) : [item]))
    : items,
);
