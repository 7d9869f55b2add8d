import { memberAt } from "../compute/member-at";
import type { Edit } from "../features/amend";
import { plainTitle, quoted } from "../lists/words";
import { isPlainDate } from "../model/figures";
import type { MassRecord } from "../model/records";
import { type Root, rootsOf } from "../model/root";
import type { Unit } from "../quantity/units";
import { lineBefore, linesIn, recordIn } from "./insert";
import { type Off, offOf, suspicion } from "./off";
import { type Figure, figureOf } from "./reading";
import { sameDay } from "./same-day";
import {
  isWhole,
  laterWhole,
  nearest,
  type Weighable,
  weighablesOf,
  wholesOf,
  withoutSide,
} from "./weighable";

/** A reading as somebody gave it. */
export interface Reading {
  /** Where it stands: "line 12"; empty: where it was typed. */
  readonly where: string;
  /** Empty: its part number names it. */
  readonly path: string;
  readonly pn: string;
  /** As `figureOf` reads it. */
  readonly figure: string;
  /** Of a plain number; undefined: the aircraft's. */
  readonly unit: Unit | undefined;
  /** ISO. */
  readonly on: string;
  /** The scale. */
  readonly by: string;
  readonly note: string;
}

/** A reading that fits a part, with the record it becomes. */
export interface Fitting {
  readonly reading: Reading;
  readonly weighable: Weighable;
  readonly figure: Figure;
  readonly off: Off;
  /** The new record, or in an airframe its line. */
  readonly text: string;
  /** The part's newest weighing is newer: this one joins the history. */
  readonly isOlder: boolean;
  /** Another weighing of that day, which it governs over. */
  readonly over: MassRecord | undefined;
}

/** A reading that a record says already, of that day and scale: nothing is written of it. */
export interface Written {
  readonly reading: Reading;
  readonly weighable: Weighable;
  readonly figure: Figure;
}

export interface Misfit {
  readonly reading: Reading;
  readonly why: string;
  /** It looks like a slip: whoever is sure of it may say so. */
  readonly slip: boolean;
}

export interface WeighIn {
  readonly fitting: readonly Fitting[];
  readonly misfits: readonly Misfit[];
  readonly written: readonly Written[];
  /** What writes the fitting ones, of whatever file they stand in. */
  readonly edits: readonly Edit[];
}

/**
 * What readings come to: which part each is of, how far off it is, and the text that records it.
 * @param root by its parts: the airframe that was on the scale, or the aircraft as designed
 * @param sure takes also what looks like a slip
 * @param today ISO: a reading of a later day looks like one, too
 */
export function weighIn(
  root: Root,
  readings: readonly Reading[],
  sure: boolean,
  today?: string,
): WeighIn {
  const all: readonly Weighable[] = [...weighablesOf(root), ...wholesOf(root)];
  const airframe = root.airframe?.item;
  const byPath = new Map(all.map(it => [it.path, it]));
  const fitting: Fitting[] = [];
  const misfits: Misfit[] = [];
  const written: Written[] = [];
  const given = new Map<Weighable, Reading>();
  for (const reading of readings) {
    const found = fittingOf(reading);
    if (typeof found === "string") misfits.push({ reading, why: found, slip: false });
    else if ("why" in found) misfits.push(found);
    else if (!("text" in found)) written.push(found);
    else fitting.push(found);
  }
  const edits: Edit[] = [];
  const lines: string[] = [];
  for (const { weighable, reading, text } of airframe ? inOrder(fitting) : fitting) {
    const whole = laterWhole(weighable, root, reading.on);
    if (whole) edits.push(lineBefore(whole, text));
    else if (airframe && !weighable.fitted) lines.push(text);
    else edits.push(recordIn(weighable.item, text));
  }
  if (airframe && lines.length > 0) edits.push(linesIn(airframe, lines));
  return { fitting, misfits, written, edits };

  function fittingOf(reading: Reading): Fitting | Written | Misfit | string {
    const weighable = byPath.get(reading.path) ?? numbered(reading);
    if (weighable === undefined) return unknown(root, all, reading);
    if (typeof weighable === "string") return weighable;
    const figure = figureOf(reading.figure, reading.unit ?? root.units.mass);
    if ("wrong" in figure) return figure.wrong;
    if (!/^\d{4}-\d\d-\d\d$/.test(reading.on) || !isPlainDate(reading.on))
      return `the date is written as 2026-09-19 is, not ${reading.on}`;
    const other = given.get(weighable);
    if (other) return `${weighable.path} is read twice, the other time in ${other.where}`;
    given.set(weighable, reading);
    const day = sameDay(weighable, root, figure, {
      on: reading.on,
      by: plainTitle(reading.by),
    });
    if (day?.kind === "written") return { reading, weighable, figure };
    const toCome =
      today !== undefined && reading.on > today ? `${reading.on} is still to come` : undefined;
    const slip = sure ? undefined : (toCome ?? suspicion(weighable, figure));
    if (slip) return { reading, why: slip, slip: true };
    const { before } = weighable;
    return {
      reading,
      weighable,
      figure,
      off: offOf(weighable, figure),
      text: recordOf(reading, figure, airframe && !weighable.fitted ? weighable.path : undefined),
      isOlder: before?.basis === "weighed" && before.on > reading.on,
      over: day?.record,
    };
  }

  function numbered({ path, pn }: Reading): Weighable | string | undefined {
    if (path !== "" || pn === "") return undefined;
    const [only, ...more] = all.filter(it => it.pn === pn);
    if (more.length === 0) return only;
    return `${pn} is the number of ${[only!, ...more].map(it => it.path).join(", ")}: name one by its path`;
  }
}

/**
 * A part that is weighed after its assembly was as a whole changes the whole, and before it does not: of one
 * day the parts come first.
 */
function inOrder(fitting: readonly Fitting[]): readonly Fitting[] {
  const key = ({ reading, weighable }: Fitting) => `${reading.on} ${isWhole(weighable) ? 1 : 0}`;
  return [...fitting].sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
}

function recordOf({ on, by, note }: Reading, { record }: Figure, path: string | undefined): string {
  const what = path === undefined ? record : record.replace("weighed", `weighed ${path}`);
  const scale = plainTitle(by) === "" ? "" : ` by ${quoted(by)}`;
  return `${what} on ${on}${scale}${plainTitle(note) === "" ? "" : ` note ${quoted(note)}`}`;
}

/** Why a path names nothing that can be weighed. */
function unknown(root: Root, all: readonly Weighable[], { path, pn }: Reading): string {
  if (path === "") return pn === "" ? "which part?" : `no part has the number ${pn}`;
  const { airframe } = root;
  const name = airframe?.name ?? root.name;
  const plain = withoutSide(path);
  const sides = all.filter(it => withoutSide(it.path) === plain).map(it => it.path);
  if (airframe && sides.length > 1 && plain === path)
    return `${path} has two sides: say which, ${sides.join(" or ")}`;
  if (!airframe && sides.length > 0)
    return `${path} is one side: a record of the design is of each, so write ${plain}, or name an airframe`;
  if (path === root.name || path === airframe?.name)
    return `${path} is the whole aircraft: what its scales read is a weighing of an airframe, and poise sheet --weighing gives the form for it`;
  const found = memberAt(rootsOf(root.reach)[0]!, path)?.member;
  if (found && airframe && ["part", "ballast", "assembly"].includes(found.kind))
    return `${name} is without ${path}`;
  if (found && (found.kind === "tank" || found.kind === "reserve"))
    return `${path} is a ${found.kind}, and no part: ${found.kind === "tank" ? "what is in it counts in a loading or a weighing" : "it is held back until something is built"}`;
  if (found) return `${path} is a ${found.kind}, and no part`;
  const near = nearest(path, all);
  return `nothing is called ${path} in ${name}${near ? `; did you mean ${near}?` : ""}`;
}
