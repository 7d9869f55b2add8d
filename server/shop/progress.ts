import type { Basis } from "../../grammar/tree";
import { sharesOf } from "../compute/shares";
import { deviationOfPiece } from "../compute/spread";
import { type Watch, watchesOf } from "../compute/watches";
import { oneSide } from "../compute/weight";
import type { Assembly } from "../model/assembly";
import type { Root } from "../model/root";
import { fittedIn } from "../model/root";
import { same } from "../quantity/compare";
import { isOwnRecord, type WeighablePart, weighablesOf } from "./weighable";

/** How far an assembly has come: kg, of both sides where it has two. */
export interface Progress {
  readonly assembly: Assembly;
  /** 0: the aircraft. */
  readonly depth: number;
  readonly basic: number;
  readonly shares: Readonly<Record<Basis, number>>;
  /** Of an airframe: how much of `weighed` stood on a scale as a piece of the design, not of this airframe. */
  readonly elsewhere: number;
  /** Parts without a mass, on both sides where there are two. */
  readonly unknown: number;
}

/**
 * How much of each assembly's basic mass is guess, calculation, quotation or scale, the outer ones first.
 * @param root by its parts: an airframe, or the aircraft as designed
 */
export function progressOf(root: Root): readonly Progress[] {
  const rows: Progress[] = [];
  const blocks = fittedIn(root);
  const visit = (assembly: Assembly, depth: number, sides: number, fitted: boolean): number => {
    const all = assembly.mirrored ? 2 * sides : sides;
    const one = sharesOf(assembly);
    const shares = {
      estimated: one.estimated * all,
      calculated: one.calculated * all,
      quoted: one.quoted * all,
      weighed: one.weighed * all,
    };
    const at = rows.length;
    const own = (it: { readonly item: Assembly["item"] }) => fitted || blocks.has(it.item);
    let elsewhere = 0;
    for (const it of assembly.members)
      if (it.kind === "assembly") elsewhere += visit(it, depth + 1, all, own(it));
      else if (it.kind === "part" && it.governing?.basis === "weighed")
        if (!isOwnRecord(root, it.governing, it.item, own(it)))
          elsewhere += (it.mass ?? 0) * (it.mirrored ? 2 * all : all);
    if (assembly.weighed)
      elsewhere = isOwnRecord(root, assembly.weighed, assembly.item, fitted) ? 0 : shares.weighed;
    rows.splice(at, 0, {
      ...{ assembly, depth, shares, elsewhere },
      basic: shares.estimated + shares.calculated + shares.quoted + shares.weighed,
      unknown: oneSide(assembly).unknown * all,
    });
    return elsewhere;
  };
  visit(root.aircraft, 0, 1, false);
  return rows;
}

/** A piece that nobody weighed yet, and what to weigh it would settle. */
export interface Next {
  readonly weighable: WeighablePart;
  /** kg of all its pieces, one standard deviation. */
  readonly spread: number;
  /** What it bears on most, and by how much one spread of it moves that chance. */
  readonly bears: { readonly watch: Watch; readonly by: number } | undefined;
}

/**
 * What is not weighed yet, the one first whose spread moves the chance of breaking a budget or a limit
 * most; where none moves one, the least certain and then the heaviest first.
 */
export function nextOf(root: Root): readonly Next[] {
  const watches = watchesOf(root);
  const nexts = weighablesOf(root)
    .filter(it => !it.weighed)
    .map((weighable): Next => {
      const { part, pieces, around, fitted } = weighable;
      const spread = deviationOfPiece(part) * pieces;
      const bothSides = (root.airframe === undefined || fitted) && around.core.mirrored;
      let bears: Next["bears"];
      for (const watch of watches) {
        const kg = watch.ofOneSide && bothSides ? spread / 2 : spread;
        const by = Math.abs(watch.slope(part) * kg);
        if (by > LEAST && by > (bears?.by ?? 0)) bears = { watch, by };
      }
      return { weighable, spread, bears };
    });
  const mass = ({ weighable: { before, pieces } }: Next) => (before?.mass ?? 0) * pieces;
  const down = (a: number, b: number) => (same(a, b) ? 0 : b - a);
  return nexts.sort(
    (a, b) =>
      down(a.bears?.by ?? 0, b.bears?.by ?? 0) ||
      down(a.spread, b.spread) ||
      down(mass(a), mass(b)),
  );
}

/** A chance that moves by less does not move. */
const LEAST = 1e-6;
