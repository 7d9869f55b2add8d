import type { Declaration, Item } from "../../grammar/tree";
import { clauseOf, clausesOf } from "../model/clauses";
import { isEffective } from "../model/records";
import type { ListItem } from "./items";
import { joinSides } from "./sides";
import { withoutSide, wordOf } from "./words";

/** A part or an assembly of a spec, where it stands. */
export interface Place {
  readonly item: Item;
  readonly head: Declaration;
  readonly path: string;
  readonly pn: string | undefined;
  readonly parent: Place | undefined;
  readonly inside: readonly Place[];
  /** Two where it or what it stands in is mirrored: its text is of one of them. */
  readonly sides: 1 | 2;
  /** Mirrored inside something mirrored, which is an error of the spec. */
  readonly isTwice: boolean;
  /** It stands in an option of a choice, which a list does not change. */
  readonly isOption: boolean;
}

/** The parts and assemblies of a file, each after the one around it; airframes are not looked into. */
export function placesIn(
  items: readonly Item[],
  parent?: Place,
  isOption = false,
): readonly Place[] {
  return items.flatMap((item): readonly Place[] => {
    const { head } = item;
    if (head.kind === "aircraft" || head.kind === "nameless")
      return placesIn(item.items, parent, isOption);
    if (head.kind === "choice" || head.kind === "option")
      return placesIn(item.items, undefined, true);
    if (head.kind !== "part" && head.kind !== "assembly" && head.kind !== "ballast") return [];
    // a list is of the newest, as the design is
    const serials = clauseOf(clausesOf(item), "effective")?.serials;
    if (head.installed || !isEffective(serials, undefined)) return [];
    const name = head.path?.text;
    if (name === undefined) return [];
    const path = parent ? `${parent.path}.${name}` : name;
    const pn = clauseOf(clausesOf(item), "pn")?.text?.text;
    const mirrored = clausesOf(item).some(it => it.kind === "mirrored");
    const place = {
      ...{ item, head, path, pn, parent, inside: [] as Place[] },
      sides: mirrored ? (2 as const) : (parent?.sides ?? 1),
      isOption,
      isTwice: parent?.isTwice || (mirrored && parent?.sides === 2),
    };
    if (head.kind === "assembly") place.inside.push(...placesIn(item.items, place, isOption));
    return [place, ...place.inside];
  });
}

/** An item of the list with what it is in the spec, if it is there. */
export interface Match {
  readonly item: ListItem;
  parent: Match | undefined;
  place: Place | undefined;
  /** The row before it that speaks of the same mirrored thing. */
  joins: Match | undefined;
  /** The rows that join this one. */
  readonly rows: Match[];
  refused: string | undefined;
}

/**
 * Which part of the spec each item is: the one of its part number, in its own assembly before others;
 * without one, what bears its name there.
 */
export function matched(items: readonly ListItem[], places: readonly Place[]): readonly Match[] {
  const all: Match[] = [];
  const list = (items: readonly ListItem[], parent: Match | undefined): void => {
    for (const item of items) {
      const match = matchOf(item, parent, undefined);
      all.push(match);
      list(item.items, match);
    }
  };
  list(items, undefined);

  const used = new Set<Place>();
  const byNumber = grouped(places, it => it.pn);
  const take = (match: Match, candidates: readonly Place[] | undefined, anywhere: boolean) => {
    const free = candidates?.filter(it => !used.has(it) && isAlike(it, match.item)) ?? [];
    const near = free.find(it => it.parent === match.parent?.place && !misses(match));
    const place = near ?? (anywhere ? free[0] : undefined);
    if (place) used.add(place);
    match.place = place;
  };
  const byPath = grouped(places, it => it.path);
  for (const match of all)
    if (match.item.path !== undefined) take(match, byPath.get(withoutSide(match.item.path)), true);
  // those that stand where they stood, before any that moved could take their place
  for (const anywhere of [false, true])
    for (const match of all)
      if (match.place === undefined && match.item.pn !== undefined)
        take(match, byNumber.get(match.item.pn), anywhere);
  // a name says as much as a title that was left out for it; a title as it stands comes first
  const byTitle = grouped(places, it => it.head.title?.text ?? it.head.path!.text);
  const byName = grouped(places, it => it.head.path!.text);
  const takeNamed = () => {
    for (const candidates of [
      ({ title }: ListItem) => byTitle.get(title),
      ({ title }: ListItem) => byName.get(wordOf(title)),
    ])
      for (const match of all) {
        const { item } = match;
        const free = (it: Place) => it.pn === undefined || item.pn === undefined;
        const found = candidates(item)?.filter(free);
        // a list without levels says nothing of where its parts belong
        const anywhere = isFlat(items) && found?.length === 1;
        const isNamed = match.item.path === undefined && match.joins === undefined;
        if (match.place === undefined && isNamed) take(match, found, anywhere);
      }
  };
  // what stands on the left-hand side alone is found once its assembly is known for one
  for (let round = 0; round < 2; round++) {
    takeNamed();
    joinSides(all, isFlat(items));
  }
  const around = new Map<Place, Match>();
  for (const match of all) {
    if (match.joins) match.place = match.joins.place;
    const [, path] = match.item.path?.match(/^(.+)\.[^.]+$/) ?? [];
    const place = path === undefined ? undefined : byPath.get(withoutSide(path))?.[0];
    if (match.place || match.parent || place?.head.kind !== "assembly") continue;
    // what is new in a list without levels stands where its path says
    match.parent = around.get(place) ?? matchOf(assemblyItem(place), undefined, place);
    around.set(place, match.parent);
  }
  return all;
}

const matchOf = (item: ListItem, parent: Match | undefined, place: Place | undefined): Match => ({
  ...{ item, parent, place, joins: undefined, rows: [], refused: undefined },
});

const assemblyItem = ({ path, pn }: Place): ListItem => ({
  ...{ row: 0, title: path, pn, rev: undefined, maker: undefined },
  ...{ qty: 1, mass: undefined, at: {}, items: [] },
});

export const isFlat = (items: readonly ListItem[]) => items.every(it => it.items.length === 0);

/** The assembly around it is new: nothing inside can be there yet. */
const misses = ({ parent }: Match) => parent !== undefined && parent.place === undefined;

const isAlike = ({ head }: Place, { items }: ListItem) =>
  (head.kind === "assembly") === items.length > 0;

function grouped<T>(all: readonly T[], key: (it: T) => string | undefined): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const it of all) {
    const name = key(it);
    if (name === undefined) continue;
    const group = groups.get(name);
    if (group) group.push(it);
    else groups.set(name, [it]);
  }
  return groups;
}
