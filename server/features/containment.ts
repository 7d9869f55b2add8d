import { type Position, positionsOf } from "../../grammar/source";
import type { Item, Span } from "../../grammar/tree";
import { basicBalance, oneSide } from "../compute/weight";
import type { Assembly, Member } from "../model/assembly";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import { show } from "../quantity/show";
import { declarationOf } from "./definition";
import { memberWith, nodesAt, rootWith } from "./place";
import { endOf, kinds, massIn, type Outline } from "./symbols";

/** A thing with what it weighs: what it is in and what it contains are told of it. */
export interface Thing {
  readonly name: string;
  /** From the aircraft, whose own is empty: finds it again in another picture. */
  readonly path: string;
  /** Its basic mass and CG. */
  readonly detail: string;
  readonly kind: Outline["kind"];
  readonly at: Span;
  /** From the start of the first to the end of the last. */
  readonly whole: readonly [Span, Span];
}

/** The thing whose name is under the cursor, declared there or used. */
export function thingAt(project: Project, file: string, position: Position): Thing | undefined {
  const at = nodesAt(project, file, position);
  const root = rootWith(project, file);
  const target = at && root && declarationOf(root, at);
  const source = target && sourceOf(project, target.line.file);
  if (root === undefined || target === undefined || source === undefined) return undefined;
  const declared = nodesAt(project, source.path, positionsOf(source, target).start);
  const member = declared && memberWith(root, declared.statement);
  return member && thingOf(root, member);
}

/** What is in it, the heaviest first. */
export function contains(project: Project, file: string, path: string): readonly Thing[] {
  const root = rootWith(project, file);
  const found = root && inside(root.aircraft, path);
  if (root === undefined || found?.member.kind !== "assembly") return [];
  return [...found.member.members]
    .sort((a, b) => weightIn(b) - weightIn(a))
    .map(it => thingOf(root, it));
}

/** What it is in. */
export function isIn(project: Project, file: string, path: string): Thing | undefined {
  const root = rootWith(project, file);
  const around = root && inside(root.aircraft, path)?.around;
  return around && thingOf(root, around);
}

/** By its own path, sides read apart included; with the assembly it stands in. */
function inside(
  at: Assembly,
  path: string,
): { readonly member: Member; readonly around: Assembly | undefined } | undefined {
  if (at.path === path) return { member: at, around: undefined };
  for (const member of at.members) {
    if (member.path === path) return { member, around: at };
    if (member.kind === "assembly" && path.startsWith(`${member.path}.`)) {
      const found = inside(member, path);
      if (found) return found;
    }
  }
  return undefined;
}

function weightIn(member: Member): number {
  if (member.kind === "assembly") return basicBalance(oneSide(member)).mass * sides(member);
  return "mass" in member ? (member.mass ?? 0) * sides(member) : 0;
}

const sides = (member: Member) => ("mirrored" in member && member.mirrored ? 2 : 1);

function thingOf(root: Root, member: Member): Thing {
  const { item, head, name, path } = member;
  return {
    name: path === "" ? root.name : name,
    path,
    detail: [massIn(member), placeText(root, member)].filter(Boolean).join(" · "),
    kind: kinds.get(head.kind) ?? "part",
    at: head.path ?? head,
    whole: wholeOf(item),
  };
}

const wholeOf = (item: Item): readonly [Span, Span] => [item.head, endOf(item)];

/** Of a mirrored one the right-hand side's. */
function placeText(root: Root, member: Member): string {
  const place = member.kind === "assembly" ? basicBalance(oneSide(member)) : member.place;
  const { length } = root.units;
  const fs = place?.fs ?? undefined;
  if (fs === undefined) return "";
  const what = member.kind === "assembly" ? "CG FS" : "FS";
  const sure = member.kind !== "assembly" || basicBalance(oneSide(member)).complete;
  return `${what} ${show(fs, length)}${sure ? "" : " (incomplete)"}`;
}
