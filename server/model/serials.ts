import type { Item } from "../../grammar/tree";
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
