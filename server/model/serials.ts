import type { Clause, Item } from "../../grammar/tree";
import { memo } from "../memo";
import { clausesOf } from "./clauses";
import type { Edit } from "./env";

/** Does anything in it, or in what is done to it, hold for some serial numbers only? */
export function mentionsSerials(item: Item, edits: readonly Edit[]): boolean {
  return mentions(item).found || edits.some(it => mentions(it.item).found);
}

const yes = { found: true };
const no = { found: false };

const mentions = memo((item: Item): { readonly found: boolean } => {
  const said = clausesOf(item).some(
    it => it.kind === "effective" || (it.kind === "record" && it.effective !== undefined),
  );
  return said || item.items.some(it => mentions(it).found) ? yes : no;
});

/** Does anything in them, or in what is done to them, have a record dated after that day? */
export function mentionsLater(
  items: readonly Item[],
  edits: readonly Edit[],
  until: string | undefined,
): boolean {
  if (until === undefined) return false;
  return (
    items.some(it => latest(it).on > until) ||
    edits.some(({ item, clause }) => dateIn(clause) > until || latest(item).on > until)
  );
}

/** The latest day of a record in it; empty: there is none. */
const latest = memo((item: Item): { readonly on: string } => {
  const days = [...clausesOf(item).map(dateIn), ...item.items.map(it => latest(it).on)];
  return { on: days.reduce((a, b) => (a > b ? a : b), "") };
});

const dateIn = (clause: Clause | undefined) =>
  clause?.kind === "record" ? (clause.on?.text ?? "") : "";

/** The day by which all in it is known by one record at least: that day, or the one of its first record. */
export function firstKnown(item: Item, until: string): string {
  const days = clausesOf(item).flatMap(it => (it.kind === "record" && !it.was ? [dateIn(it)] : []));
  const own = days.sort()[0] ?? "";
  return [own, ...item.items.map(it => firstKnown(it, until))].reduce(
    (a, b) => (a > b ? a : b),
    until,
  );
}
