import { memberAt } from "../../compute/member-at";
import { serialNumberOf } from "../../compute/serial-numbers";
import type { Assembly, Member } from "../../model/assembly";
import type { Part } from "../../model/part";
import type { Root } from "../../model/root";
import type { Scope } from "../../model/scope";
import { line, type WhyLine } from "./lines";

/** A thing in the aircraft with what it stands in. */
export interface Found<M extends Member = Member> {
  readonly member: M;
  readonly side: "RH" | "LH" | undefined;
  /** The assemblies around it, the aircraft first. */
  readonly around: readonly Assembly[];
  /** As asked for. */
  readonly path: string;
}

export function foundAt(root: Root, path: string): Found | undefined {
  const found = path === "" ? undefined : memberAt(root, path);
  if (found === undefined) return undefined;
  const around: Assembly[] = [];
  let at: Member = root.aircraft;
  for (const word of found.member.path.split(".")) {
    if (at === found.member || at.kind !== "assembly") break;
    around.push(at);
    at = at.members.find(it => it.name === word) ?? found.member;
  }
  return { ...found, around, path };
}

/** Of a piece that is fitted by its number. */
export function serialLine(root: Root, { path, member }: Found): readonly WhyLine[] {
  const number = serialNumberOf(root, path, member);
  return number === undefined ? [] : [line(`  S/N ${number}`)];
}

/** The lets its figures see: those of an option where an option put it there. */
export function scopeOf({ member, around }: Found): Scope {
  const parent = around.at(-1);
  const addition = parent?.core.edits.find(it => it.item === member.item);
  if (addition) return addition.scope;
  return "scope" in member && member.kind !== "assembly" ? member.scope : parent!.scope;
}

/** Is there another of it on the other side, whatever it is that is mirrored? */
const isPaired = ({ member, around }: Found): boolean =>
  ("mirrored" in member && member.mirrored) || around.some(it => it.mirrored);

export function titled({ member, side, path, ...rest }: Found): string {
  const { title } = member.head;
  const which =
    side === undefined
      ? isPaired({ member, side, path, ...rest })
        ? ", each side"
        : ""
      : side === "LH"
        ? ", the left-hand one"
        : ", the right-hand one";
  return `${path}${title ? ` "${title.text}"` : ""}${which}`;
}

/** All that a `total` of the declaration speaks of. */
export const piecesOf = (found: Found<Part>) => found.member.qty * (isPaired(found) ? 2 : 1);
