import type { Basis, Item, StatementOf } from "../../grammar/tree";
import { closest } from "../../grammar/unexpected";
import { deviationOfPiece } from "../compute/spread";
import type { Assembly } from "../model/assembly";
import { clauseOf, clausesOf, membersOf } from "../model/clauses";
import { joinPath } from "../model/env";
import { massOf } from "../model/figures";
import { noSums, type Part } from "../model/part";
import { dateOf } from "../model/records";
import type { Root } from "../model/root";
import { spreadOf } from "../model/spreads";
import type { Unit } from "../quantity/units";
import { settingIn, weighedSpread } from "./spread";

/** A piece that can be laid on a scale, and what is thought of it so far. */
export interface Weighable {
  /** As a record names it: in an airframe with its side, in the design without. */
  readonly path: string;
  /** The path of the assembly it stands in, with its side. */
  readonly group: string;
  readonly part: Part;
  readonly around: Assembly;
  readonly pn: string | undefined;
  readonly title: string | undefined;
  /** How many like pieces `total` speaks of. */
  readonly pieces: number;
  /** The record that governs so far; undefined: nobody has given it a mass. */
  readonly before: Thought | undefined;
  /** By itself, or with all around it as a whole. */
  readonly weighed: boolean;
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
 * @param airframe each of its sides is a piece of its own, what it removes is none, and only its own
 *   records count as its weighings
 */
export function weighablesOf(root: Root, airframe: Item | undefined): readonly Weighable[] {
  const fits = airframe ? membersOf(airframe.items).map(it => it.head) : [];
  const removed = fits.flatMap(it => (it.kind === "remove" ? it.paths.map(path => path.text) : []));
  const records = new Map<string, StatementOf<"record-of">>();
  for (const it of fits)
    if (it.kind === "record-of" && it.path && it.record.basis === "weighed" && !it.record.was) {
      const other = records.get(it.path.text)?.record.on?.text ?? "";
      if ((it.record.on?.text ?? "") >= other) records.set(it.path.text, it);
    }
  const found: Weighable[] = [];

  /** A record without a side speaks for both. */
  const recordOf = (path: string) => records.get(path) ?? records.get(withoutSide(path));

  const visit = (around: Assembly, group: string, within: boolean) => {
    const own = airframe ? recordOf(group) : around.weighed;
    const asWhole = within || own !== undefined;
    for (const member of around.members) {
      if (member.kind !== "assembly" && member.kind !== "part" && member.kind !== "ballast")
        continue;
      const plain = joinPath(group, member.name);
      const paths = airframe && member.mirrored ? [`${plain}.RH`, `${plain}.LH`] : [plain];
      for (const path of paths)
        if (isRemoved(path, removed)) continue;
        else if (member.kind === "assembly") visit(member, path, asWhole);
        else if (member.qty > 0) found.push(piece(member, around, path, group, asWhole));
    }
  };
  const piece = (
    part: Part,
    around: Assembly,
    path: string,
    group: string,
    asWhole: boolean,
  ): Weighable => {
    const both = airframe === undefined && (part.mirrored || around.core.mirrored);
    const own = recordOf(path);
    const { governing } = part;
    const designed = governing?.mass === undefined ? undefined : thoughtOf(part, governing.mass);
    return {
      path,
      group,
      part,
      around,
      pn: clauseOf(clausesOf(part.item), "pn")?.text?.text,
      title: part.head.title?.text,
      pieces: part.qty * (both ? 2 : 1),
      before: (own && recordedOf(own, part, around, root)) ?? designed ?? ofBallast(part),
      weighed: asWhole || (airframe ? own !== undefined : governing?.basis === "weighed"),
    };
  };
  visit(root.aircraft, "", false);
  return found;
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

/** What an airframe's own line says of one piece. */
function recordedOf(
  { record }: StatementOf<"record-of">,
  part: Part,
  around: Assembly,
  root: Root,
): Thought | undefined {
  const setting = { ...settingIn(around), scope: root.scope, ask: noSums(() => {}) };
  const mass = massOf(record.figure, "this mass", setting);
  if (mass === undefined) return undefined;
  const per = record.total ? part.qty : 1;
  const own = record.spread && spreadOf(record.spread, mass, setting);
  return {
    basis: "weighed",
    mass: mass.value / per,
    unit: mass.unit ?? root.units.mass,
    spread: own === undefined ? weighedSpread(part, around, mass.value / per, per) : own / per,
    on: record.on?.text ?? "",
  };
}

function isRemoved(path: string, removed: readonly string[]): boolean {
  return removed.some(it => it === path || it === withoutSide(path));
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
