import type { Decimal } from "../lists/cells";
import { same } from "../quantity/compare";
import { show } from "../quantity/show";
import type { Unit } from "../quantity/units";
import { columns } from "./readings";
import { isWhole, type Weighable, type WeighableWhole } from "./weighable";

/** What is still to be weighed in one assembly. */
export interface Group {
  /** Empty: the aircraft itself. */
  readonly path: string;
  readonly rows: readonly Weighable[];
}

/**
 * What nobody has weighed yet, by assembly: the assembly with the most unweighed mass first, and in it the
 * heaviest; what nobody knows a mass of stands last.
 */
export function unweighed(all: readonly Weighable[]): readonly Group[] {
  const groups = new Map<string, Weighable[]>();
  for (const it of all) {
    if (it.weighed) continue;
    const group = groups.get(it.group);
    if (group) group.push(it);
    else groups.set(it.group, [it]);
  }
  return [...groups]
    .map(([path, rows]) => ({ path, rows: sortedBy(rows, massOf), mass: sum(rows) }))
    .sort((a, b) => (same(a.mass, b.mass) ? 0 : b.mass - a.mass))
    .map(({ path, rows }) => ({ path, rows }));
}

/** Assemblies that may be weighed as a whole in place of their parts, the heaviest first; one piece alone is none. */
export function unweighedWholes(all: readonly WeighableWhole[]): readonly WeighableWhole[] {
  return sortedBy(
    all.filter(({ weighed, inside, pieces }) => {
      const many = inside.length > 1 || inside.some(it => it.pieces > pieces);
      return many && !weighed;
    }),
    massOf,
  );
}

/** kg of all its pieces, as far as it is known. */
const massOf = ({ before, pieces }: Weighable) => (before ? before.mass * pieces : -1);
const sum = (rows: readonly Weighable[]) =>
  rows.reduce((total, it) => total + Math.max(0, massOf(it)), 0);

function sortedBy<T>(all: readonly T[], worth: (it: T) => number): readonly T[] {
  return [...all].sort((a, b) => (same(worth(a), worth(b)) ? 0 : worth(b) - worth(a)));
}

/**
 * The sheet as CSV, to be filled in and read by `readingsIn`: a figure is of one piece.
 * @param decimal with a comma the cells are parted by semicolons, as spreadsheets there do
 */
export function csvOf(
  groups: readonly Group[],
  wholes: readonly WeighableWhole[],
  unit: Unit,
  decimal: Decimal,
): string {
  const mark = decimal === "," ? ";" : ",";
  const row = (cells: readonly string[]) => cells.map(it => cellOf(it, mark)).join(mark);
  const headings: Partial<Record<string, string>> = { pn: "part number", sn: "serial number" };
  // without a serial number there is no column of them
  const all: readonly Weighable[] = [...groups.flatMap(it => it.rows), ...wholes];
  const numbered = all.some(it => it.sn !== undefined);
  const shown = columns.filter(([column]) => column !== "sn" || numbered);
  const rows = all.map(it => {
    const values: Partial<Record<string, string>> = {
      path: it.path,
      pn: guarded(it.pn ?? ""),
      sn: guarded(it.sn ?? ""),
      name: guarded(nameOf(it)),
      pieces: String(it.pieces),
      expected: expectedOf(it, unit).replace(".", decimal),
      unit: unit.name,
    };
    return shown.map(([column]) => values[column] ?? "");
  });
  const head = shown.map(([column]) => headings[column] ?? column);
  return [head, ...rows].map(it => `${row(it)}\r\n`).join("");
}

/** Its title; of an assembly also that it lies on the scale with all that is in it. */
function nameOf(it: Weighable): string {
  if (!isWhole(it)) return it.title ?? "";
  return it.title === undefined ? "whole assembly" : `${it.title} (whole assembly)`;
}

/** Of one piece, in a unit, without thousands; empty where nobody knows. */
export function expectedOf({ before }: Weighable, unit: Unit): string {
  if (before === undefined) return "";
  return show(before.mass, { ...unit, name: "" }).replaceAll(",", "");
}

export const cellOf = (text: string, mark: string) =>
  text.includes('"') || text.includes(mark) || /[\r\n]/.test(text)
    ? `"${text.replaceAll('"', '""')}"`
    : text;

/** A spreadsheet takes for a formula what begins like one. */
export const guarded = (text: string) => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);
