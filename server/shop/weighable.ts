import type { Basis, Item } from "../../grammar/tree";
import { closest } from "../../grammar/unexpected";
import { rounded } from "../compute/exact";
import { serialNumberOf } from "../compute/serial-numbers";
import { deviationOf, deviationOfPiece } from "../compute/spread";
import { basicBalance, oneSide } from "../compute/weight";
import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import { clauseOf, clausesOf, membersOf } from "../model/clauses";
import { joinPath } from "../model/env";
import type { Part } from "../model/part";
import { dateOf, type MassRecord } from "../model/records";
import { fittedIn, type Root } from "../model/root";
import type { Unit } from "../quantity/units";

/** What can be laid on a scale, and what is thought of it so far. */
export interface Weighable {
  /** As a record names it: in an airframe with its side, in the design without. */
  readonly path: string;
  /** The path of the assembly it stands in, with its side. */
  readonly group: string;
  readonly item: Item;
  readonly around: Assembly;
  readonly pn: string | undefined;
  /** The serial number of the one that is fitted. */
  readonly sn: string | undefined;
  readonly title: string | undefined;
  /** How many like pieces `total` speaks of. */
  readonly pieces: number;
  /** The record that governs so far, or what its parts come to; undefined: that is not known. */
  readonly before: Thought | undefined;
  /** By itself, by all its parts, or with all around it as a whole. */
  readonly weighed: boolean;
  /** The assembly around it that was weighed as a whole: its figure already holds this one. */
  readonly within: Assembly | undefined;
  /** It stands in the block of the airframe or of a change: so does its record. */
  readonly fitted: boolean;
}

/** A piece. */
export interface WeighablePart extends Weighable {
  readonly part: Part;
}

/** An assembly as a whole. */
export interface WeighableWhole extends Weighable {
  readonly assembly: Assembly;
  /** The pieces in it. */
  readonly inside: readonly WeighablePart[];
}

export const isWhole = (it: Weighable): it is WeighableWhole => "assembly" in it;

/** What is thought of one piece. */
export interface Thought {
  readonly basis: Basis | "by its parts";
  /** kg */
  readonly mass: number;
  readonly unit: Unit;
  /** kg, one standard deviation; 0: nobody says. */
  readonly spread: number;
  /** kg it is still expected to grow by, by its basis. */
  readonly growth: number;
  /** ISO, or empty. */
  readonly on: string;
}

/**
 * Every piece of an aircraft that can be weighed, in the order in which it is declared.
 * @param root by its parts; of an airframe each of the design's sides is a piece of its own, and only the
 *   airframe's own records count as its weighings
 */
export const weighablesOf = (root: Root): readonly WeighablePart[] => allOf(root).parts;

/** Every assembly that can be weighed as a whole, the outer ones first; the aircraft itself has its scales. */
export const wholesOf = (root: Root): readonly WeighableWhole[] => allOf(root).wholes;

const allOf = memo((root: Root) => {
  const parts: WeighablePart[] = [];
  const wholes: WeighableWhole[] = [];
  const { airframe } = root;
  const blocks = fittedIn(root);

  const visit = (
    around: Assembly,
    group: string,
    weighed: boolean,
    within: Assembly | undefined,
    fitted: boolean,
  ) => {
    for (const member of around.members) {
      if (member.kind !== "assembly" && member.kind !== "part" && member.kind !== "ballast")
        continue;
      const own = fitted || blocks.has(member.item);
      const plain = joinPath(group, member.side ? `${member.name}.${member.side}` : member.name);
      const apart = airframe !== undefined && !own && member.mirrored;
      for (const path of apart ? [`${plain}.RH`, `${plain}.LH`] : [plain]) {
        const both = (airframe === undefined || own) && (member.mirrored || around.core.mirrored);
        const common = {
          ...{ path, group, around, within, fitted: own, item: member.item },
          pn: clauseOf(clausesOf(member.item), "pn")?.text?.text,
          sn: serialNumberOf(root, path, member),
          title: member.head.title?.text,
        };
        if (member.kind === "assembly") {
          const asWhole = weighed || isOwnRecord(root, member.weighed, member.item, own);
          const at = wholes.length;
          const first = parts.length;
          visit(member, path, asWhole, member.weighed?.mass === undefined ? within : member, own);
          const inside = parts.slice(first);
          wholes.splice(at, 0, {
            ...common,
            assembly: member,
            inside,
            pieces: both ? 2 : 1,
            before: ofWhole(member),
            weighed: asWhole || (inside.length > 0 && inside.every(it => it.weighed)),
          });
        } else if (member.qty > 0) {
          const { governing } = member;
          parts.push({
            ...common,
            part: member,
            pieces: member.qty * (both ? 2 : 1),
            before:
              governing?.mass === undefined ? ofBallast(member) : thoughtOf(member, governing.mass),
            weighed:
              weighed ||
              (governing?.basis === "weighed" && isOwnRecord(root, governing, member.item, own)),
          });
        }
      }
    }
  };
  visit(root.aircraft, "", false, undefined, false);
  return { parts, wholes };
});

/** Whether its record is the airframe's own, one that the design does not have; the design owns its records. */
export function isOwn({ part, fitted }: WeighablePart, root: Root): boolean {
  return isOwnRecord(root, part.governing, part.item, fitted);
}

/**
 * The airframe's line that weighed an assembly as a whole after a part in it was: the part's record stands
 * before that line, for behind it it would change the whole.
 */
export function laterWhole(
  { within, fitted }: Weighable,
  { airframe }: Root,
  on: string,
): Item | undefined {
  const record = within?.weighed;
  if (record === undefined || fitted || dateOf(record) <= on) return undefined;
  return membersOf(airframe?.item.items ?? []).find(
    ({ head }) => head.kind === "record-of" && head.record === record.clause,
  );
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
    growth: part.growth / part.qty,
    on: dateOf(part.governing!),
  };
}

/** Of one side: as it was weighed, else the sum of its parts where all of them have a mass. */
function ofWhole(assembly: Assembly): Thought | undefined {
  const { weighed, core } = assembly;
  const weight = oneSide(assembly);
  const { mass } = basicBalance(weight);
  if (weight.unknown > 0 || mass === 0) return undefined;
  return {
    basis: weighed?.mass === undefined ? "by its parts" : "weighed",
    mass,
    unit: weighed?.unit ?? core.units.mass,
    spread: deviationOf(assembly).mass,
    growth: rounded(weight.growth.mass),
    on: weighed?.mass === undefined ? "" : dateOf(weighed),
  };
}

/** A ballast without a record counts as calculated, without a spread. */
function ofBallast({ kind, mass, qty, unit }: Part): Thought | undefined {
  if (kind !== "ballast" || mass === undefined) return undefined;
  return { basis: "calculated", mass: mass / qty, unit, spread: 0, growth: 0, on: "" };
}

export { withoutSide } from "../lists/words";

/** The path that a slip most likely meant: one that ends alike, else one that is a letter or two off. */
export function nearest(path: string, among: readonly Weighable[]): string | undefined {
  const names = among.map(it => it.path);
  const last = `.${path.split(".").at(-1)}`;
  return closest(path, names) ?? names.find(it => it.endsWith(last));
}
