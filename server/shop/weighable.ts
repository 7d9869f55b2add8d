import type { Basis, Item } from "../../grammar/tree";
import { closest } from "../../grammar/unexpected";
import { serialNumberOf } from "../compute/serial-numbers";
import { deviationOfPiece } from "../compute/spread";
import type { Assembly } from "../model/assembly";
import { clauseOf, clausesOf } from "../model/clauses";
import { joinPath } from "../model/env";
import type { Part } from "../model/part";
import { dateOf, type MassRecord } from "../model/records";
import { fittedIn, type Root } from "../model/root";
import type { Unit } from "../quantity/units";

/** A piece that can be laid on a scale, and what is thought of it so far. */
export interface Weighable {
  /** As a record names it: in an airframe with its side, in the design without. */
  readonly path: string;
  /** The path of the assembly it stands in, with its side. */
  readonly group: string;
  readonly part: Part;
  readonly around: Assembly;
  readonly pn: string | undefined;
  /** The serial number of the one that is fitted. */
  readonly sn: string | undefined;
  readonly title: string | undefined;
  /** How many like pieces `total` speaks of. */
  readonly pieces: number;
  /** The record that governs so far; undefined: nobody has given it a mass. */
  readonly before: Thought | undefined;
  /** By itself, or with all around it as a whole. */
  readonly weighed: boolean;
  /** It stands in the block of the airframe or of a change: so does its record. */
  readonly fitted: boolean;
}

/** What is thought of one piece. */
export interface Thought {
  readonly basis: Basis;
  /** kg */
  readonly mass: number;
  readonly unit: Unit;
  /** kg, one standard deviation; 0: nobody says. */
  readonly spread: number;
  /** ISO, or empty. */
  readonly on: string;
}

/**
 * Every piece of an aircraft that can be weighed, in the order in which it is declared.
 * @param root by its parts; of an airframe each of the design's sides is a piece of its own, and only the
 *   airframe's own records count as its weighings
 */
export function weighablesOf(root: Root): readonly Weighable[] {
  const found: Weighable[] = [];
  const { airframe } = root;
  const blocks = fittedIn(root);

  const visit = (around: Assembly, group: string, within: boolean, fitted: boolean) => {
    const asWhole = within || isOwnRecord(root, around.weighed, around.item, fitted);
    for (const member of around.members) {
      if (member.kind !== "assembly" && member.kind !== "part" && member.kind !== "ballast")
        continue;
      const own = fitted || blocks.has(member.item);
      const plain = joinPath(group, member.side ? `${member.name}.${member.side}` : member.name);
      const apart = airframe !== undefined && !own && member.mirrored;
      for (const path of apart ? [`${plain}.RH`, `${plain}.LH`] : [plain])
        if (member.kind === "assembly") visit(member, path, asWhole, own);
        else if (member.qty > 0) found.push(piece(member, around, path, group, asWhole, own));
    }
  };
  const piece = (
    part: Part,
    around: Assembly,
    path: string,
    group: string,
    asWhole: boolean,
    fitted: boolean,
  ): Weighable => {
    const both = (airframe === undefined || fitted) && (part.mirrored || around.core.mirrored);
    const { governing } = part;
    return {
      ...{ path, group, part, around, fitted },
      pn: clauseOf(clausesOf(part.item), "pn")?.text?.text,
      sn: serialNumberOf(root, path, part),
      title: part.head.title?.text,
      pieces: part.qty * (both ? 2 : 1),
      before: governing?.mass === undefined ? ofBallast(part) : thoughtOf(part, governing.mass),
      weighed:
        asWhole ||
        (governing?.basis === "weighed" && isOwnRecord(root, governing, part.item, fitted)),
    };
  };
  visit(root.aircraft, "", false, false);
  return found;
}

/** Whether its record is the airframe's own, one that the design does not have; the design owns its records. */
export function isOwn({ part, fitted }: Weighable, root: Root): boolean {
  return isOwnRecord(root, part.governing, part.item, fitted);
}

export function isOwnRecord(
  { airframe }: Root,
  record: MassRecord | undefined,
  item: Item,
  fitted: boolean,
): boolean {
  return (
    record !== undefined &&
    (airframe === undefined || fitted || !clausesOf(item).includes(record.clause))
  );
}

function thoughtOf(part: Part, mass: number): Thought {
  const { basis } = part.governing!;
  const spread = deviationOfPiece(part);
  return {
    basis,
    mass,
    unit: part.governing?.unit ?? part.unit,
    spread,
    on: dateOf(part.governing!),
  };
}

/** A ballast without a record counts as calculated, without a spread. */
function ofBallast({ kind, mass, qty, unit }: Part): Thought | undefined {
  if (kind !== "ballast" || mass === undefined) return undefined;
  return { basis: "calculated", mass: mass / qty, unit, spread: 0, on: "" };
}

/** A path with the side left out that stands in it, if any. */
export function withoutSide(path: string): string {
  return path.replace(/\.(LH|RH)(?=\.|$)/, "");
}

/** The path that a slip most likely meant: one that ends alike, else one that is a letter or two off. */
export function nearest(path: string, among: readonly Weighable[]): string | undefined {
  const names = among.map(it => it.path);
  const last = `.${path.split(".").at(-1)}`;
  return closest(path, names) ?? names.find(it => it.endsWith(last));
}
