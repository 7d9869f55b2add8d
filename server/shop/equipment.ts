import type { PartKind } from "../../grammar/tree";
import { aroundOf } from "../compute/response";
import { numeral } from "../lists/write";
import { clauseOf, clausesOf } from "../model/clauses";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import type { Unit } from "../quantity/units";
import { cellOf, guarded } from "./sheet";
import { type WeighablePart, weighablesOf } from "./weighable";

/** A line of an equipment list: kg of all its pieces, m, kg m about the datum. */
export interface Equipment {
  readonly weighable: WeighablePart;
  /** Its own, or the nearest around it; undefined: nobody says. */
  readonly kind: PartKind | undefined;
  readonly mass: number | undefined;
  readonly fs: number | undefined;
  readonly moment: number | undefined;
}

export const kinds = ["required", "optional", "consumable", "structure"] as const;

/**
 * What is fitted, by its kind and then as declared. Without `all` what is structure, or of no kind and no
 * serial number, is left out.
 * @param root by its parts: an airframe, or the aircraft as designed
 */
export function equipmentOf(root: Root, all: boolean): readonly Equipment[] {
  const rows = weighablesOf(root).map((weighable): Equipment => {
    const { part, before, pieces } = weighable;
    const { fs } = part.place;
    const mass = before && before.mass * pieces;
    const moment = mass === undefined || fs === undefined ? undefined : mass * fs;
    return { weighable, kind: kindOf(root, part), mass, fs, moment };
  });
  const order = (it: Equipment) => (it.kind === undefined ? kinds.length : kinds.indexOf(it.kind));
  return rows
    .filter(
      it =>
        all ||
        (it.kind !== "structure" && (it.kind !== undefined || it.weighable.sn !== undefined)),
    )
    .sort((a, b) => order(a) - order(b));
}

/** Its own, or the nearest around it. */
export function kindOf(root: Root, part: Part): PartKind | undefined {
  const chain = [...aroundOf(root, part), part];
  return chain.map(it => clauseOf(clausesOf(it.item), "kind")?.value).findLast(Boolean);
}

/**
 * As a table for a spreadsheet, which `poise import` takes back: of one piece the mass and place, pieces of
 * both sides together.
 */
export function equipmentCsv(rows: readonly Equipment[], { units }: Root): string {
  const { mass, length } = units;
  const exact = (si: number | undefined, { factor }: Unit) =>
    si === undefined ? "" : numeral(Number(Number((si / factor).toPrecision(12)).toFixed(12)));
  const head = [
    ...["path", "name", "part number", "rev", "maker", "serial number", "kind", "qty", "basis"],
    ...[`mass [${mass.name}]`, ...["FS", "BL", "WL"].map(it => `${it} [${length.name}]`)],
  ];
  const cells = rows.map(({ weighable, kind }) => {
    const { part, path, pn, sn, title, pieces, before } = weighable;
    const { fs, bl, wl } = part.place;
    const text = (of: "rev" | "maker") => clauseOf(clausesOf(part.item), of)?.text?.text;
    const rev = text("rev") ?? part.records.findLast(it => it.clause.rev)?.clause.rev?.text;
    const isLeft = /\.LH(\.|$)/.test(path) && bl !== undefined && bl > 0;
    return [
      ...[path, title, pn, rev, text("maker"), sn].map(it => guarded(it ?? "")),
      ...[kind ?? "", String(pieces), before?.basis ?? "", exact(before?.mass, mass)],
      ...[exact(fs, length), exact(isLeft ? -bl : bl, length), exact(wl, length)],
    ];
  });
  return [head, ...cells].map(it => it.map(cell => cellOf(cell, ",")).join(",")).join("\n");
}
