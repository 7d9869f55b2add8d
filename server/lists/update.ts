import type { Source } from "../../grammar/source";
import type { Item, Span } from "../../grammar/tree";
import { clauseOf, clausesOf } from "../model/clauses";
import type { Unit } from "../quantity/units";
import { changesOf, comesFromList, type Insert, isNear, piecesOf, type Value } from "./changes";
import type { ListItem } from "./items";
import { isFlat, type Match, matched, type Place, placesIn } from "./match";
import { around, type Listed, leading, listedOf } from "./sides";
import { newlineOf, offsetsIn, rowEnd, rowStart, type Splice } from "./splice";
import { withoutSide } from "./words";
import { declarationsOf, type Origin } from "./write";

/** A file of a spec: its text as it stands on the disk, with its own ends of lines, and as it was read. */
export interface SpecText {
  readonly text: string;
  readonly source: Source;
}

/** What became of a part: "wing.spar: 21.4 lb becomes 21.9 lb". */
export interface Told {
  /** Where it stands, or what is new is put. */
  readonly file: string;
  readonly says: string;
}

export interface Update {
  /** What changes in each file, none where it stays as it is. */
  readonly splices: ReadonlyMap<string, readonly Splice[]>;
  readonly changed: readonly Told[];
  readonly added: readonly Told[];
  /** In the spec from a list, and in this list no longer. Nothing is deleted. */
  readonly vanished: readonly Told[];
  /** In the spec by another hand. */
  readonly others: readonly Told[];
  /** What the list says otherwise and was left as it is. */
  readonly kept: readonly Told[];
  /** Mirrored parts by how the list counts their pieces. */
  readonly sides: Readonly<Record<"both" | "one", readonly Told[]>>;
}

/**
 * A spec brought up to a list: changed masses become records, moved places change `at`, what is new
 * is added where it belongs. Every other byte of its texts stays.
 * @param files of the spec; the last of them takes what is new and belongs to no assembly of theirs
 * @param elsewhere what else the aircraft has: a part number that stands there is not added a second time
 * @param values what its parts come to, by path
 * @param length the unit of a bare number after FS, BL or WL; undefined where no aircraft says it
 */
export function updated(
  files: readonly SpecText[],
  elsewhere: readonly Item[],
  items: readonly ListItem[],
  origin: Origin,
  length: Unit | undefined,
  values: ReadonlyMap<string, Value> = new Map(),
): Update {
  const everything = files.flatMap(it => it.source.items);
  const places = placesIn(everything);
  const matches = matched(withoutRoot(items, everything, places), places);
  const writers = new Map(files.map(it => [it.source.path, writerOf(it)]));
  const writerAt = ({ line }: Span) => writers.get(line.file)!;
  const told = ({ head, path }: Place, says?: string): Told => ({
    file: head.line.file,
    says: says === undefined ? path : `${path}: ${says}`,
  });

  const changed: Told[] = [];
  const kept: Told[] = [];
  const added: Told[] = [];
  const sides = { both: [] as Told[], one: [] as Told[] };
  const usual = new Map<Place | undefined, Listed["counts"]>();
  for (const match of matches) {
    const { place, parent } = match;
    if (place === undefined || match.joins) continue;
    if (place.parent !== parent?.place && !isFlat(items))
      kept.push(
        told(
          place,
          `the list has it under ${parent ? `"${parent.item.title}"` : "no assembly"}; it is not moved`,
        ),
      );
    const value = values.get(place.path);
    const pieces = piecesOf(place);
    const listed = listedOf(
      match,
      pieces === "open" ? (value?.qty ?? pieces) : pieces,
      undefined,
      value?.bl,
    );
    if (place.head.kind === "ballast" || (place.head.kind === "part" && place.isOption)) {
      if (!("refused" in listed) && weighs(listed.item, value)) continue;
      kept.push(
        told(
          place,
          `it ${place.isOption ? "stands in an option" : "is ballast"}; it is not changed`,
        ),
      );
      continue;
    }
    if (place.head.kind !== "part") continue;
    if ("refused" in listed) {
      kept.push(told(place, listed.refused));
      continue;
    }
    if (listed.counts) {
      sides[listed.counts].push(told(place));
      usual.set(place.parent, listed.counts);
    }
    kept.push(...listed.kept.map(it => told(place, it)));
    const changes = changesOf(place, listed.item, origin, length, value);
    for (const { at, fresh } of changes.edits) writerAt(at).replace(at, fresh);
    for (const insert of changes.inserts) writerAt(insert.after).insert(insert);
    changed.push(...changes.changed.map(it => told(place, it)));
    kept.push(...changes.kept.map(it => told(place, it)));
  }
  const known = new Set(matches.filter(it => it.place).map(it => it.item));
  const beyond = placesIn(elsewhere);
  const others = new Map(beyond.flatMap(it => (it.pn ? [[it.pn, it] as const] : [])));
  const byPath = new Map(beyond.map(it => [it.path, it]));
  for (const { item, place } of matches) {
    if (place || item.items.length > 0) continue;
    const there = item.path === undefined ? undefined : byPath.get(withoutSide(item.path));
    const other = there ?? others.get(item.pn ?? "");
    if (other === undefined) continue;
    known.add(item);
    if (there && weighs(item, values.get(other.path))) continue;
    const what = there ? "it" : item.pn;
    kept.push(
      told(other, `${what} is not added again; the file that is named does not include it`),
    );
  }
  const asListed = new Map<ListItem, ListItem>();
  for (const match of matches) {
    if (match.place || match.item.items.length > 0 || known.has(match.item)) continue;
    const beside = around(match);
    if (match.joins) known.add(match.item);
    else if (beside) {
      const listed = listedOf(match, undefined, usual.get(beside));
      if ("refused" in listed) {
        known.add(match.item);
        kept.push(told(beside, `"${match.item.title}" is not added: ${listed.refused}`));
      } else {
        asListed.set(match.item, listed.item);
        kept.push(...listed.kept.map(it => told(beside, `"${match.item.title}": ${it}`)));
      }
    }
  }
  const newcomers = new Map<Match | undefined, ListItem[]>();
  for (const match of matches) {
    const { item } = match;
    const parent = match.parent && leading(match.parent);
    if (match.place || match.joins || (parent && !parent.place)) continue;
    const fresh = withoutKnown(item, known, asListed);
    if (fresh.length === 0) continue;
    const top = { file: files.at(-1)!.source.path, says: item.title };
    added.push(parent?.place ? told(parent.place, item.title) : top);
    newcomers.set(parent, [...(newcomers.get(parent) ?? []), ...fresh]);
  }
  for (const [parent, fresh] of newcomers)
    if (parent?.place) {
      const { item, head } = parent.place;
      const taken = new Set(namesIn(item.items));
      writerAt(head).addTo(item, indent => declarationsOf(fresh, origin, indent, taken));
    } else {
      const rows = declarationsOf(
        fresh,
        origin,
        "",
        new Set(namesIn([...everything, ...elsewhere])),
      );
      writers.get(files.at(-1)!.source.path)!.addBelow(rows);
    }

  const found = new Set(matches.flatMap(it => it.place ?? []));
  const missing = places.filter(it => it.head.kind === "part" && !it.isOption && !found.has(it));
  const described = ({ head, path, pn }: Place): Told => ({
    file: head.line.file,
    says: pn === undefined ? path : `${path} (${pn})`,
  });
  return {
    splices: new Map([...writers].map(([path, it]) => [path, it.splices])),
    changed,
    added,
    kept,
    sides,
    vanished: missing.filter(comesFromList).map(described),
    others: missing.filter(it => !comesFromList(it)).map(described),
  };
}

/** Whether the list has the mass that a part comes to, or none. */
function weighs({ mass, qty }: ListItem, value: Value | undefined): boolean {
  if (mass === undefined) return true;
  const kg = (mass.value * mass.unit.factor) / (mass.total && qty > 0 ? qty : 1);
  return value?.mass !== undefined && isNear(kg, value.mass);
}

/** Collects what changes in one file. */
function writerOf({ text, source }: SpecText) {
  const splices: Splice[] = [];
  const newline = newlineOf(text);
  const offset = offsetsIn(text, source);
  const put = (from: number, to: number, fresh: string) =>
    splices.push({ from, to, text: fresh.replaceAll("\n", newline) });
  return {
    splices: splices as readonly Splice[],
    replace(at: Span, fresh: string) {
      put(offset(at, "start"), offset(at, "end"), fresh);
    },
    /** Behind a span; a row of its own where that span has one, behind its comment. */
    insert({ after, ownRow, fresh }: Insert) {
      const end = offset(after, "end");
      const at = ownRow ? rowEnd(text, end) : end;
      put(at, at, fresh);
    },
    /** At the end of an assembly's block, in a new one where it has none. */
    addTo({ head, close }: Item, rowsAt: (indent: string) => readonly string[]) {
      const own = head.line.text.slice(0, head.from).match(/^\s*/)![0];
      const rows = rowsAt(`${own}  `).join("\n");
      if (close) {
        const at = offset(close, "start");
        const start = rowStart(text, at);
        if (text.slice(start, at).trim() === "") put(start, start, `${rows}\n`);
        else put(at, at, `\n${rows}\n${own}`);
      } else {
        const end = offset(head, "end");
        put(end, end, ` {\n${rows}\n${own}}`);
      }
    },
    addBelow(rows: readonly string[]) {
      const before = text === "" || /[\r\n]$/.test(text) ? "" : "\n";
      put(text.length, text.length, `${before}${rows.join("\n")}\n`);
    },
  };
}

/** What may not be called so again: the names in a block, of the aircraft those of all its files. */
function namesIn(items: readonly Item[]): readonly string[] {
  return items.flatMap(({ head, items: inside }) => [
    ...("path" in head && head.path ? [head.path.text] : []),
    ...(head.kind === "aircraft" || head.kind === "nameless" ? namesIn(inside) : []),
  ]);
}

/** Of a new assembly, the parts that are in the spec elsewhere stay there; without any it is none. */
function withoutKnown(
  item: ListItem,
  known: ReadonlySet<ListItem>,
  asListed: ReadonlyMap<ListItem, ListItem>,
): readonly ListItem[] {
  const strip = (it: ListItem): readonly ListItem[] => {
    if (known.has(it)) return [];
    const items = it.items.flatMap(strip);
    return it.items.length > 0 && items.length === 0
      ? []
      : [{ ...(asListed.get(it) ?? it), items }];
  };
  return strip(item);
}

/** A list that begins with the aircraft itself: what is in it stands at the top of the spec. */
function withoutRoot(
  items: readonly ListItem[],
  everything: readonly Item[],
  places: readonly Place[],
): readonly ListItem[] {
  const [only, ...more] = items;
  if (only === undefined || more.length > 0 || only.items.length === 0) return items;
  const aircraft = everything.find(it => it.head.kind === "aircraft");
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
