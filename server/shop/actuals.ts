import type { PartKind } from "../../grammar/tree";
import { type Scatter, scatterOf } from "../compute/scatter";
import type { Part } from "../model/part";
import { dateOf, governing, type MassRecord } from "../model/records";
import type { Root } from "../model/root";
import { same } from "../quantity/compare";
import { kindOf } from "./equipment";
import { isOwn, weighablesOf, withoutSide } from "./weighable";

/** What rests on no scale, the least mature first. */
export const thoughts = ["estimated", "calculated", "quoted"] as const;
export type Thinking = (typeof thoughts)[number];

/** A piece on the scale beside what was thought of it: kg of one piece. */
export interface Actual {
  readonly path: string;
  /** The assembly it stands in, without a side; empty: the aircraft itself. */
  readonly group: string;
  readonly kind: PartKind | undefined;
  /** The airframe whose piece it is; undefined: the design's. */
  readonly airframe: string | undefined;
  readonly weighed: MassRecord;
  /** Of each less mature basis the record that governed before it was weighed. */
  readonly thought: readonly MassRecord[];
  /** How many pieces the weighed record speaks for. */
  readonly pieces: number;
}

/** How a group of weighed pieces lies about what was thought of them. */
export interface Row {
  readonly name: string;
  readonly scatter: Scatter;
  readonly pieces: number;
  /** kg of all pieces: thought, and weighed. */
  readonly thought: number;
  readonly weighed: number;
}

export interface Actuals {
  readonly all: readonly Actual[];
  /** Against what each basis said. */
  readonly byBasis: ReadonlyMap<Thinking, Row>;
  /** Against the most mature record before the weighing. */
  readonly byKind: readonly Row[];
  readonly byAssembly: readonly Row[];
  /** Weighed, with nothing of the same revision to compare with. */
  readonly alone: number;
}

/**
 * What was weighed, in the design and in all its airframes, beside what was thought of it. A weighing is
 * compared with records of the same revision that are not newer; one kept as history (`was`) is not
 * compared. A record of what was thought is one comparison, however many pieces it speaks for and in how
 * many airframes they were weighed: it has one error.
 * @param roots by their parts: the design and its airframes
 */
export function actualsOf(roots: readonly Root[]): Actuals {
  const all = roots.flatMap(weighedIn);
  const compared = all.filter(it => it.thought.length > 0);
  const byBasis = new Map<Thinking, Row>();
  for (const basis of thoughts) {
    const pairs = compared.flatMap(it => {
      const thought = it.thought.find(record => record.basis === basis);
      return thought ? [{ it, thought }] : [];
    });
    const row = rowOf(basis, pairs);
    if (row) byBasis.set(basis, row);
  }
  const latest = compared.map(it => ({ it, thought: it.thought.at(-1)! }));
  return {
    all,
    byBasis,
    byKind: grouped(latest, it => it.kind ?? ""),
    byAssembly: grouped(latest, it => it.group),
    alone: all.length - compared.length,
  };
}

interface Compared {
  readonly it: Actual;
  readonly thought: MassRecord;
}

function rowOf(name: string, compared: readonly Compared[]): Row | undefined {
  const pairs = new Map<unknown, { expected: number; actual: number }>();
  let pieces = 0;
  for (const { it, thought } of compared) {
    const pair = pairs.get(thought.clause) ?? { expected: 0, actual: 0 };
    pairs.set(thought.clause, pair);
    pair.expected += thought.mass! * it.pieces;
    pair.actual += it.weighed.mass! * it.pieces;
    pieces += it.pieces;
  }
  const all = [...pairs.values()];
  const scatter = scatterOf(all);
  return (
    scatter && {
      ...{ name, scatter, pieces },
      thought: all.reduce((sum, it) => sum + it.expected, 0),
      weighed: all.reduce((sum, it) => sum + it.actual, 0),
    }
  );
}

/** The heaviest first. */
function grouped(compared: readonly Compared[], of: (it: Actual) => string): readonly Row[] {
  const groups = new Map<string, Compared[]>();
  for (const one of compared) {
    const group = groups.get(of(one.it));
    if (group) group.push(one);
    else groups.set(of(one.it), [one]);
  }
  return [...groups]
    .map(([name, its]) => rowOf(name, its)!)
    .sort((a, b) => (same(a.weighed, b.weighed) ? 0 : b.weighed - a.weighed));
}

/** Of an airframe: what it weighed itself. A record of both sides is one. */
function weighedIn(root: Root): readonly Actual[] {
  const found = new Map<unknown, Actual>();
  for (const it of weighablesOf(root)) {
    const { part, pieces, path, group } = it;
    const weighed = part.governing;
    if (weighed?.basis !== "weighed" || !isOwn(it, root)) continue;
    const other = found.get(weighed.clause);
    found.set(
      weighed.clause,
      other
        ? { ...other, path: withoutSide(path), pieces: other.pieces + pieces }
        : {
            ...{ path, group: withoutSide(group), airframe: root.airframe?.name },
            kind: kindOf(root, part),
            ...{ weighed, pieces, thought: thoughtsOf(part, weighed) },
          },
    );
  }
  return [...found.values()].filter(it => it.weighed.mass! > 0);
}

/** Of each less mature basis the record that governs among its like, not newer than the weighing. */
export function thoughtsOf({ records }: Part, weighed: MassRecord): readonly MassRecord[] {
  const on = dateOf(weighed);
  return thoughts.flatMap(basis => {
    const its = records.filter(it => it.basis === basis && (on === "" || dateOf(it) <= on));
    const thought = governing(its);
    return thought?.mass ? [thought] : [];
  });
}
