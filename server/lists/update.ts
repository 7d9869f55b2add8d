import type { Source } from "../../grammar/source";
import { clauseOf, clausesOf } from "../model/clauses";
import type { Unit } from "../quantity/units";
import { changesOf, comesFromList, type Insert } from "./changes";
import type { ListItem } from "./items";
import { isFlat, type Match, matched, type Place, placesIn } from "./match";
import { applied, newlineOf, offsetsIn, rowEnd, rowStart } from "./splice";
import { declarationsOf, type Origin } from "./write";

export interface Update {
  readonly text: string;
  /** What became of it, each a line: "wing.spar: 21.4 lb becomes 21.9 lb". */
  readonly changed: readonly string[];
  readonly added: readonly string[];
  /** In the spec from a list, and in this list no longer. Nothing is deleted. */
  readonly vanished: readonly string[];
  /** In the spec by another hand. */
  readonly others: readonly string[];
  /** What the list says otherwise and was left as it is. */
  readonly kept: readonly string[];
}

/**
 * A spec brought up to a list: changed masses become records, moved places change `at`, what is new
 * is added where it belongs. Every other byte of the text stays.
 * @param text as it stands on the disk, with its own ends of lines
 * @param length the unit of a bare number after FS, BL or WL; undefined where no aircraft says it
 */
export function updated(
  text: string,
  source: Source,
  items: readonly ListItem[],
  origin: Origin,
  length: Unit | undefined,
): Update {
  const places = placesIn(source.items);
  const matches = matched(withoutRoot(items, source, places), places);
  const edits: { readonly from: number; readonly to: number; readonly text: string }[] = [];
  const newline = newlineOf(text);
  const offset = offsetsIn(text, source);
  const put = (from: number, to: number, fresh: string) =>
    edits.push({ from, to, text: fresh.replaceAll("\n", newline) });

  const changed: string[] = [];
  const kept: string[] = [];
  const added: string[] = [];
  for (const { item, place, parent } of matches) {
    if (place === undefined) continue;
    if (place.parent !== parent?.place && !isFlat(items))
      kept.push(
        `${place.path}: the list has it under ${parent ? `"${parent.item.title}"` : "no assembly"}; it is not moved`,
      );
    if (place.head.kind !== "part") continue;
    const changes = changesOf(place, item, origin, length);
    for (const { at, fresh } of changes.edits) put(offset(at, "start"), offset(at, "end"), fresh);
    for (const insert of changes.inserts)
      put(placeOfInsert(insert), placeOfInsert(insert), insert.fresh);
    changed.push(...changes.changed.map(it => `${place.path}: ${it}`));
    kept.push(...changes.kept.map(it => `${place.path}: ${it}`));
  }
  const newcomers = new Map<Match | undefined, ListItem[]>();
  for (const match of matches) {
    const { item, parent } = match;
    if (match.place || (parent && !parent.place)) continue;
    const fresh = withoutKnown(item, matches);
    if (fresh.length === 0) continue;
    added.push(`${parent?.place ? `${parent.place.path}: ` : ""}${item.title}`);
    newcomers.set(parent, [...(newcomers.get(parent) ?? []), ...fresh]);
  }
  for (const [parent, fresh] of newcomers) addTo(parent?.place, fresh);

  const found = new Set(matches.flatMap(it => it.place ?? []));
  const missing = places.filter(it => it.head.kind === "part" && !found.has(it));
  const described = ({ path, pn }: Place) => (pn === undefined ? path : `${path} (${pn})`);
  return {
    text: applied(text, edits),
    changed,
    added,
    kept,
    vanished: missing.filter(comesFromList).map(described),
    others: missing.filter(it => !comesFromList(it)).map(described),
  };

  /** Behind a span; a row of its own where that span has one, behind its comment. */
  function placeOfInsert({ after, ownRow }: Insert): number {
    const at = offset(after, "end");
    return ownRow ? rowEnd(text, at) : at;
  }

  function addTo(parent: Place | undefined, fresh: readonly ListItem[]): void {
    const level = places.filter(it => it.parent === parent).map(it => it.head.path!.text);
    const taken = new Set(level);
    if (parent === undefined) {
      const root = source.items.find(it => it.head.kind === "aircraft")?.head;
      if (root && "path" in root && root.path) taken.add(root.path.text);
      const before = text === "" || /[\r\n]$/.test(text) ? "" : "\n";
      put(
        text.length,
        text.length,
        `${before}${declarationsOf(fresh, origin, "", taken).join("\n")}\n`,
      );
      return;
    }
    const { item, head } = parent;
    const own = head.line.text.slice(0, head.from).match(/^\s*/)![0];
    const rows = declarationsOf(fresh, origin, `${own}  `, taken).join("\n");
    if (item.close) {
      const close = offset(item.close, "start");
      const start = rowStart(text, close);
      if (text.slice(start, close).trim() === "") put(start, start, `${rows}\n`);
      else put(close, close, `\n${rows}\n${own}`);
    } else {
      const end = offset(head, "end");
      put(end, end, ` {\n${rows}\n${own}}`);
    }
  }
}

/** Of a new assembly, the parts that are in the spec elsewhere stay there; without any it is none. */
function withoutKnown(item: ListItem, matches: readonly Match[]): readonly ListItem[] {
  const known = new Set(matches.filter(it => it.place).map(it => it.item));
  const strip = (it: ListItem): readonly ListItem[] => {
    if (known.has(it)) return [];
    const items = it.items.flatMap(strip);
    return it.items.length > 0 && items.length === 0 ? [] : [{ ...it, items }];
  };
  return strip(item);
}

/** A list that begins with the aircraft itself: what is in it stands at the top of the spec. */
function withoutRoot(
  items: readonly ListItem[],
  source: Source,
  places: readonly Place[],
): readonly ListItem[] {
  const [only, ...more] = items;
  if (only === undefined || more.length > 0 || only.items.length === 0) return items;
  const aircraft = source.items.find(it => it.head.kind === "aircraft");
  const head = aircraft?.head.kind === "aircraft" ? aircraft.head : undefined;
  const numbered = aircraft && clauseOf(clausesOf(aircraft), "pn")?.text?.text;
  const itself =
    head &&
    (head.title?.text === only.title ||
      head.path?.text === only.title ||
      (only.pn !== undefined && numbered === only.pn));
  const listed = places.some(it => it.parent === undefined && it.head.title?.text === only.title);
  return itself && !listed ? only.items : items;
}
