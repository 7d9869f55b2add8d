import { closest } from "../../grammar/unexpected";
import { type JudgedRoot, judgeSome } from "../judge";
import type { Project } from "../project";
import { projectOf } from "./check";
import { plainPath } from "./disk";
import { shownPath } from "./places";
import { isIn } from "./uris";
import { WrongUse } from "./wrong-use";

/** The aircraft that what is named belongs to, as designed and each airframe. */
export function rootsAt(
  file: string,
  today?: string,
): { readonly at: string; readonly project: Project; readonly roots: readonly JudgedRoot[] } {
  const at = plainPath(file);
  const project = projectOf([at]);
  const { roots } = judgeSome(project, it => isIn(it, at), today);
  if (roots.length === 0) throw new WrongUse(`no aircraft reaches ${shownPath(at)}`);
  return { at, project, roots };
}

/** The one aircraft that what is named belongs to, as designed first. @param file undefined: none was named */
export function oneAircraft(file: string | undefined, today?: string): ReturnType<typeof rootsAt> {
  const found = rootsAt(file ?? ".", today);
  onlyOne(found.roots, file);
  return found;
}

/** Several aircraft are asked about, and never the first of them taken. */
export function onlyOne(roots: readonly JudgedRoot[], file: string | undefined): void {
  const designs = roots.filter(it => it.airframe === undefined);
  if (designs.length < 2) return;
  const where = file === undefined ? "in this folder" : `in ${shownPath(plainPath(file))}`;
  throw new WrongUse(
    `${designs.length} aircraft are ${where}: name a file of the one that is meant, such as ${shownPath(designs[0]!.file)}`,
  );
}

/** The airframe that is meant: by its name, or the only one there is. */
export function airframeNamed(
  roots: readonly JudgedRoot[],
  name: string | undefined,
  at: string,
): JudgedRoot {
  const airframes = roots.filter(it => it.airframe !== undefined);
  const [first, ...others] = airframes;
  if (first === undefined) throw new WrongUse(`${shownPath(at)} has no airframe`);
  if (name === undefined && others.length === 0) return first;
  const names = airframes.flatMap(it => it.airframe ?? []);
  if (name === undefined) throw new WrongUse(`which airframe? there are ${names.join(", ")}`);
  const found = airframes.find(it => it.airframe === name);
  if (found !== undefined) return found;
  const near = closest(name, names);
  throw new WrongUse(
    `no airframe is called ${name}${near ? `; did you mean ${near}?` : `: there are ${names.join(", ")}`}`,
  );
}
