import type { Item, RecordClause, Serials } from "../../grammar/tree";
import { membersAt } from "../compute/member-at";
import { clauseOf, clausesOf, membersOf } from "../model/clauses";
import { joinPath } from "../model/env";
import { nameOfOption, optionsOf } from "../model/options";
import type { Root } from "../model/root";

/** Something of the design that holds for some serial numbers only. */
export interface Effective {
  readonly path: string;
  /** A declaration of this kind, or the record as it is written. */
  readonly what: string;
  readonly serials: string;
  /** Of each aircraft, in the order given. */
  readonly holds: readonly Holds[];
}

/** A declaration is fitted; a record governs, or counts without governing. */
export type Holds = "fitted" | "governs" | "counts" | "no";

/**
 * All of the design that is effective for some serial numbers only, in the order of reading.
 * @param roots the same design as itself and as its airframes
 */
export function effectivityOf(roots: readonly Root[]): readonly Effective[] {
  const [design] = roots;
  if (design === undefined) return [];
  const inParts = roots.map(it => it.rolledUp ?? it);
  const { reach } = design;
  const items = [
    ...reach.files.flatMap(file => membersOf(file.items)),
    ...membersOf(reach.aircraft.items),
  ];
  return items.flatMap(it => effectiveIn(it, "", inParts));
}

function effectiveIn(
  item: Item,
  around: string,
  roots: readonly Root[],
  within = "",
): readonly Effective[] {
  const { head } = item;
  if (head.kind === "choice")
    return optionsOf(item).flatMap(option =>
      membersOf(option.items).flatMap(it =>
        effectiveIn(it, "", roots, ` of option ${nameOfOption(option)}`),
      ),
    );
  if (!("clauses" in head) || head.path === undefined || head.kind === "aircraft") return [];
  const path = joinPath(around, head.path.text);
  const clauses = clausesOf(item);
  const own = clauseOf(clauses, "effective");
  const found: Effective[] = [];
  if (own)
    found.push({
      path,
      what: `${head.kind}${within}`,
      serials: serialsShown(own.serials),
      holds: roots.map(root => (isFitted(root, path, item) ? "fitted" : "no")),
    });
  for (const clause of clauses)
    if (clause.kind === "record" && clause.effective)
      found.push({
        path,
        what: `${clause.basis} ${textOf(clause)}${within}`,
        serials: serialsShown(clause.effective),
        holds: roots.map(root => holdsIn(root, path, item, clause)),
      });
  return [...found, ...membersOf(item.items).flatMap(it => effectiveIn(it, path, roots, within))];
}

const isFitted = (root: Root, path: string, item: Item) =>
  membersAt(root, path).some(it => it.member.item === item);

function holdsIn(root: Root, path: string, item: Item, clause: RecordClause): Holds {
  const sides = membersAt(root, path).flatMap(({ member }) => {
    if (member.item !== item) return [];
    if (member.kind === "assembly") return { rules: member.weighed, records: [] };
    return "records" in member ? { rules: member.governing, records: member.records } : [];
  });
  if (sides.some(it => it.rules?.clause === clause)) return "governs";
  const counts = sides.some(it => it.records.some(its => its.clause === clause && !its.history));
  return counts ? "counts" : "no";
}

const textOf = ({ figure }: RecordClause) =>
  figure === undefined ? "" : figure.line.text.slice(figure.from, figure.to);

const serialsShown = ({ first, last }: Serials) => [first ?? "", "..", last ?? ""].join(" ").trim();
