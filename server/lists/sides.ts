import { clauseOf, clausesOf } from "../model/clauses";
import { same } from "../quantity/compare";
import { plainValue } from "./figures";
import type { Amount, Axis, ListItem } from "./items";
import type { Match, Place } from "./match";
import { withoutSide } from "./words";
import { written } from "./write";

/**
 * What a list says of something mirrored, whose text is of one side: its rows as one, in the pieces and at the
 * place of the right-hand side.
 */
export interface Listed {
  readonly item: ListItem;
  /** Whether the list counts both sides together; undefined: there are no two, or nobody can tell. */
  readonly counts: "both" | "one" | undefined;
  readonly kept: readonly string[];
}

/** Why nothing of what the list says of it can be taken. */
export interface Refused {
  readonly refused: string;
}

/**
 * Lets the rows that speak of one mirrored thing speak together: a left and a right one, or one row for each
 * piece. Rows at another place are another part.
 */
export function joinSides(all: readonly Match[], isFlat: boolean): void {
  const byKey = new Map<string, Match[]>();
  for (const match of all) {
    const { item } = match;
    const said = item.path && withoutSide(item.path);
    const named = said ?? item.pn ?? item.title;
    const key = `${item.items.length > 0} ${said !== undefined} ${item.pn === undefined} ${named}`;
    const rows = byKey.get(key) ?? [];
    byKey.set(key, [...rows, match]);
    if (match.place || match.joins) continue;
    const first = rows.find(
      it =>
        it.joins === undefined &&
        isTwoSided(it) &&
        speaksOf(it, match, isFlat) &&
        !isElsewhere(it.item, item),
    );
    if (first === undefined) continue;
    match.place = first.place;
    match.joins = first;
    first.rows.push(match);
  }
  for (const rows of byKey.values()) {
    const mirrored = rows.filter(it => it.joins === undefined && it.place?.sides === 2);
    const joined = rows.filter(it => it.joins);
    if (mirrored.length < 2 || joined.length === 0) continue;
    const lines = rows.map(it => it.item.row).join(", ");
    for (const it of mirrored)
      it.refused = `rows ${lines} bear one number or name with ${mirrored.length} mirrored parts, and which is which cannot be told`;
  }
}

const isTwoSided = (match: Match) => (match.place ?? around(match))?.sides === 2;

/** The nearest thing of the spec that it stands in. */
export function around(match: Match): Place | undefined {
  for (let it = match.parent; it; it = it.parent) if (it.place) return it.place;
  return undefined;
}

/** The first of the rows that speak together. */
export const leading = (match: Match): Match => match.joins ?? match;

/** Only a number says the same anywhere; a name does in the same assembly. */
function speaksOf(first: Match, match: Match, isFlat: boolean): boolean {
  const [a, b] = [first.parent, match.parent].map(it => it && leading(it));
  return (match.item.pn !== undefined && first.place !== undefined) || a === b || isFlat;
}

function isElsewhere({ at: a }: ListItem, { at: b }: ListItem): boolean {
  if (a.BL && b.BL && a.BL.value * b.BL.value < 0) return false;
  return (["FS", "BL", "WL"] as const).some(axis => differ(a[axis], b[axis]));
}

const differ = (a: Amount | undefined, b: Amount | undefined) =>
  a && b && !same(Math.abs(a.value) * a.unit.factor, Math.abs(b.value) * b.unit.factor);

/**
 * @param each pieces of one side as the spec has them; "open": an expression says it
 * @param usual how the list counts what stands beside it
 * @param bl where the side that is written comes to be, if the aircraft says it
 */
export function listedOf(
  match: Match,
  each: number | "open" | undefined,
  usual?: Listed["counts"],
  bl?: number,
): Listed | Refused {
  if (match.refused !== undefined) return { refused: match.refused };
  if (!isTwoSided(match)) return { item: match.item, counts: undefined, kept: [] };
  if (match.place?.isTwice) return { refused: "it is mirrored inside something mirrored" };
  const rows = [match, ...match.rows].map(it => it.item);
  const pieces = rows.reduce((sum, it) => sum + it.qty, 0);
  const kept: string[] = [];
  const counts = countsOf(match, pieces, each, usual);
  if (counts === "both" && pieces % 2 !== 0 && each !== "open")
    return { refused: `the list's ${pieces} do not divide over its two sides` };
  const qty = counts === "both" && each !== "open" ? pieces / 2 : pieces;
  const mass = massOf(rows, pieces, counts === "both" && each !== "open", kept);
  return {
    item: { ...match.item, qty, mass, at: placeOf(match.place, rows, counts, bl, kept) },
    counts: each === "open" ? undefined : counts,
    kept,
  };
}

function countsOf(
  match: Match,
  pieces: number,
  each: number | "open" | undefined,
  usual: Listed["counts"],
): "both" | "one" {
  if (match.rows.length > 0 || areBoth(match.parent)) return "both";
  if (each === undefined) return usual ?? (around(match) && isOne(match.parent) ? "one" : "both");
  return pieces === each ? "one" : "both";
}

/** The assembly around it stands in the list once for each side. */
function areBoth(parent: Match | undefined): boolean {
  for (let it = parent; it && it.place?.sides !== 1; it = it.parent) {
    const first = leading(it);
    if (first.rows.length > 0 || (it.item.qty > 0 && it.item.qty % 2 === 0)) return true;
  }
  return false;
}

const isOne = (parent: Match | undefined) => parent?.item.qty === 1;

/** A figure of all pieces stays one only where the spec counts the same pieces. */
function massOf(
  rows: readonly ListItem[],
  pieces: number,
  isOfAll: boolean,
  kept: string[],
): ListItem["mass"] {
  const figures = rows.flatMap(({ mass, qty }) => (mass && qty > 0 ? [{ mass, qty }] : []));
  const [first] = figures;
  if (first === undefined) return rows[0]!.mass;
  const ofOne = ({ mass, qty }: typeof first) =>
    (mass.value * mass.unit.factor) / (mass.total ? qty : 1);
  const other = figures.find(it => !same(ofOne(it), ofOne(first)));
  if (other) {
    kept.push(
      `its rows say ${written(first.mass)} and ${written(other.mass)}, and what is mirrored has one figure for both`,
    );
    return undefined;
  }
  const { mass, qty } = first;
  if (!mass.total) return mass;
  const value = (n: number) => Number(((mass.value / qty) * n).toPrecision(12));
  return isOfAll ? { ...mass, value: value(pieces) } : { ...mass, value: value(1), total: false };
}

/** Of the right-hand side, or of the one that the spec has written. */
function placeOf(
  place: Place | undefined,
  rows: readonly ListItem[],
  counts: Listed["counts"],
  bl: number | undefined,
  kept: string[],
): ListItem["at"] {
  const right = rows.find(it => (it.at.BL?.value ?? 0) > 0) ?? rows[0]!;
  const uneven = rows.some(it =>
    (["FS", "BL", "WL"] as const).some(axis => differ(it.at[axis], right.at[axis])),
  );
  if (uneven) {
    kept.push("its two rows are not the mirror image of each other, so its place is not changed");
    return {};
  }
  const at: Partial<Record<Axis, Amount>> = { ...right.at };
  const { BL } = at;
  if (BL === undefined) return at;
  const clause = place && clauseOf(clausesOf(place.item), "at");
  const before = clause?.point.coords.findLast(it => it.axis === "BL")?.value;
  if (BL.value === 0) {
    if (counts !== "both" || before === undefined || plainValue(before) === 0) return at;
    delete at.BL;
    kept.push("the list's BL 0 is of both sides together; the BL of each is not changed");
    return at;
  }
  const isLeft = bl === undefined ? before?.kind === "negative" : bl < 0;
  const value = isLeft ? -Math.abs(BL.value) : Math.abs(BL.value);
  return { ...at, BL: { ...BL, value } };
}
