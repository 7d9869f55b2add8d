import { memberAt } from "../compute/member-at";
import type { Edit } from "../features/amend";
import { plainTitle, quoted } from "../lists/words";
import { isPlainDate } from "../model/figures";
import { type Root, rootsOf } from "../model/root";
import type { Unit } from "../quantity/units";
import { linesIn, recordIn } from "./insert";
import { type Off, offOf, suspicion } from "./off";
import { type Figure, figureOf } from "./reading";
import { nearest, type Weighable, weighablesOf, withoutSide } from "./weighable";

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
  /** What writes the fitting ones, of whatever file they stand in. */
  readonly edits: readonly Edit[];
}

/**
 * What readings come to: which part each is of, how far off it is, and the text that records it.
 * @param root by its parts: the airframe that was on the scale, or the aircraft as designed
 * @param sure takes also what looks like a slip
 */
export function weighIn(root: Root, readings: readonly Reading[], sure: boolean): WeighIn {
  const all = weighablesOf(root);
  const airframe = root.airframe?.item;
  const byPath = new Map(all.map(it => [it.path, it]));
  const fitting: Fitting[] = [];
  const misfits: Misfit[] = [];
  const given = new Map<Weighable, Reading>();
  for (const reading of readings) {
    const found = fittingOf(reading);
    if (typeof found === "string") misfits.push({ reading, why: found, slip: false });
    else if ("why" in found) misfits.push(found);
    else fitting.push(found);
  }
  const byPathAlone = airframe ? fitting.filter(it => !it.weighable.fitted) : [];
  const edits = fitting
    .filter(it => !byPathAlone.includes(it))
    .map(it => recordIn(it.weighable.part.item, it.text));
  if (airframe && byPathAlone.length > 0)
    edits.push(
      linesIn(
        airframe,
        byPathAlone.map(it => it.text),
      ),
    );
  return { fitting, misfits, edits };

  function fittingOf(reading: Reading): Fitting | Misfit | string {
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
    const slip = sure ? undefined : suspicion(weighable, figure);
    if (slip) return { reading, why: slip, slip: true };
    const { before } = weighable;
    return {
      reading,
      weighable,
      figure,
      off: offOf(weighable, figure),
      text: recordOf(reading, figure, airframe && !weighable.fitted ? weighable.path : undefined),
      isOlder: before?.basis === "weighed" && before.on > reading.on,
    };
  }

  function numbered({ path, pn }: Reading): Weighable | string | undefined {
    if (path !== "" || pn === "") return undefined;
    const [only, ...more] = all.filter(it => it.pn === pn);
    if (more.length === 0) return only;
    return `${pn} is the number of ${[only!, ...more].map(it => it.path).join(", ")}: name one by its path`;
  }
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
  const found = memberAt(rootsOf(root.reach)[0]!, path)?.member;
  if (found?.kind === "assembly")
    return `${path} is an assembly: weigh its parts, or write weighed in its own block`;
  if (found && airframe && (found.kind === "part" || found.kind === "ballast"))
    return `${name} is without ${path}`;
  if (found) return `${path} is a ${found.kind}, and no part`;
  const near = nearest(path, all);
  return `nothing is called ${path} in ${name}${near ? `; did you mean ${near}?` : ""}`;
}
