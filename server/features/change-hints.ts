import { positionsOf } from "../../grammar/source";
import { judge } from "../judge";
import { memo2 } from "../memo";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";
import { type Difference, differenceOf, type RootDifference } from "../views/diff/difference";
import type { PartChange } from "../views/diff/parts";
import type { AssemblyChange } from "../views/diff/sums";
import type { Hint } from "./hints";
import type { Range } from "./selection";

/** Another state of the workspace, and what it is called: "HEAD". */
export interface Base {
  readonly name: string;
  readonly project: Project;
}

/**
 * What each changed line does to the aircraft as designed since a base, at the line's end:
 * "+0.84 lb, wing 97 % → 101 % since HEAD". The percentage is the predicted mass of the nearest budget around.
 */
export function changeHints(
  project: Project,
  base: Base,
  path: string,
  { start, end }: Range,
): readonly Hint[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  const design = designSince(base, project, path);
  if (design === undefined) return [];
  const { root } = design.head;
  return design.parts.changes.flatMap((change): readonly Hint[] => {
    const at = change.head?.figureAt;
    if (at === undefined || at.line.file !== path) return [];
    const row = positionsOf(source, at).end.line;
    if (row < start.line || row > end.line) return [];
    const text = changeText(change, design, root);
    const stop = at.line.text.indexOf("\n", at.to);
    const to = stop < 0 ? at.line.text.length : stop;
    const tooltip = `was ${change.base?.mass === undefined ? "not there, or without a mass" : show(change.base.mass, root.units.mass)} at ${base.name}`;
    return [
      {
        at: { line: at.line, from: to, to },
        parts: [{ text: `${text} since ${base.name}`, refers: undefined, tooltip }],
      },
    ];
  });
}

/** What became of the aircraft, as designed, that a file belongs to; undefined: it was not there. */
export function designSince(base: Base, project: Project, path: string) {
  const found = difference(project, base.project).roots.find(
    it => it.airframe === undefined && it.head?.files.includes(path) && it.base !== undefined,
  );
  const { head } = found ?? {};
  return found && head && { ...found, head };
}

const difference = memo2(
  (project: Project, base: Project): Difference =>
    differenceOf({ project: base, ...judge(base) }, { project, ...judge(project) }),
);

function changeText(change: PartChange, design: RootDifference, root: Root): string {
  const { causes, difference: by } = change;
  const mass = moreText(by, root.units.mass);
  const words = causes.filter(it => mass === "" || it === "new" || it === "moved");
  return [...words, mass, budgetText(change, design)].filter(it => it !== "").join(", ");
}

/** "+0.84 lb"; nothing where it stays. */
export function moreText(by: number, unit: Unit): string {
  return by === 0 ? "" : `${by > 0 ? "+" : "−"}${show(Math.abs(by), unit)}`;
}

/** Of the nearest assembly around that has a budget in both states, where its share shows. */
function budgetText({ head }: PartChange, { assemblies }: RootDifference): string {
  for (let path = head!.path; path !== ""; ) {
    path = path.slice(0, Math.max(0, path.lastIndexOf(".")));
    const around = assemblies.find(it => it.path === path);
    const share = around && shareText(around);
    if (share !== undefined) return share && `${path || "the aircraft"} ${share}`;
  }
  return "";
}

/** "97 % → 101 %" of the budget as predicted; empty where it shows the same, undefined without one in both. */
export function shareText({ base, head }: AssemblyChange): string | undefined {
  const [was, is] = [base, head].map(it =>
    it?.budget ? `${showNumber((it.predicted.mass / it.budget) * 100, 0)} %` : undefined,
  );
  if (was === undefined || is === undefined) return undefined;
  return was === is ? "" : `${was} → ${is}`;
}
