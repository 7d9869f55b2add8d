import type { MassRecord } from "../model/records";
import type { Root } from "../model/root";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";
import { thought, toldOff, toldWithin } from "./off";
import type { Fitting, Written } from "./weigh-in";
import { isWhole } from "./weighable";

/** Readings beside what was thought of their parts, a line each, in columns. */
export function table(fitting: readonly Fitting[], root: Root): readonly string[] {
  const rows = fitting.map(({ weighable, figure, off, isOlder, over, reading }) => [
    weighable.path,
    thought(weighable.before, weighable.before?.unit ?? figure.unit),
    `${figure.total ? "total " : ""}${figure.shown}`,
    toldOff(weighable, off) +
      (isOlder ? `; the weighing of ${weighable.before!.on} is newer` : "") +
      toldOver(over, root.units.mass, reading.on, isOlder) +
      toldWithin(weighable, root, reading.on),
  ]);
  const widths = [0, 1, 2].map(i => Math.min(WIDEST, Math.max(...rows.map(it => it[i]!.length))));
  return rows.map(row =>
    row.map((cell, i) => (i === 3 ? cell : cell.padEnd(widths[i]!))).join("  "),
  );
}

/** Of two weighings of a day the last written governs. */
export function toldOver(
  over: MassRecord | undefined,
  unit: Unit,
  on: string,
  isOlder: boolean,
): string {
  if (over?.mass === undefined) return "";
  const { by } = over.clause;
  const other = `${show(over.mass, over.unit ?? unit)}${by ? ` by ${by.text}` : ""}`;
  return `; weighed on ${on} already, ${other}: this one ${isOlder ? "counts of that day" : "governs"}, being the last written`;
}

/** Of readings that say what is written. */
export const toldWritten = ({ reading, weighable, figure }: Written) =>
  `${weighable.path}: ${figure.total ? "total " : ""}${figure.shown} on ${reading.on}${reading.by === "" ? "" : ` by ${reading.by}`} is already written`;

const WIDEST = 48;

/**
 * What they come to, beside what was thought: of all the pieces each reading speaks for. What lies in an
 * assembly that is among them as a whole is in that one.
 */
export function toldSum(fitting: readonly Fitting[], unit: Unit): string {
  const wholes = fitting.flatMap(it => (isWhole(it.weighable) ? `${it.weighable.path}.` : []));
  let [mass, by, unknown] = [0, 0, 0];
  for (const { weighable, off } of fitting) {
    if (wholes.some(it => weighable.path.startsWith(it))) continue;
    mass += off.mass * weighable.pieces;
    if (off.by === undefined) unknown++;
    else by += off.by * weighable.pieces;
  }
  const shown = showNumber(Math.abs(by) / unit.factor, 2);
  const more =
    shown === "0"
      ? "as was thought"
      : `${shown} ${unit.name} ${by > 0 ? "more" : "less"} than was thought`;
  const without = unknown > 0 ? `, ${unknown} of them without a mass before` : "";
  return `${fitting.length} readings, ${show(mass, unit)}: ${more}${without}`;
}
