import { closest } from "../../grammar/unexpected";
import { judgeSome } from "../judge";
import { type Root, rootsOf } from "../model/root";
import type { Project } from "../project";
import { onlyOne } from "./airframe-named";
import { projectOf } from "./check";
import { plainPath } from "./disk";
import { shownPath } from "./places";
import { isIn } from "./uris";
import { WrongUse } from "./wrong-use";

/** The aircraft that is in the shop, and which airframe of it. */
export interface InShop {
  readonly project: Project;
  /** By its parts: the airframe, or the aircraft as designed. */
  readonly root: Root;
  /** "Dunlin two-seat amphibian, S/N 003" */
  readonly title: string;
}

/** @param file one that belongs to the aircraft; undefined: it is the only one of the current folder */
export function inShop(file: string | undefined, airframe: string | undefined): InShop {
  const at = plainPath(file ?? ".");
  const project = projectOf([at]);
  const judgement = judgeSome(project, it => isIn(it, at));
  const roots = judgement.roots.filter(it => it.airframe === undefined);
  const [judged] = roots;
  if (judged === undefined)
    throw new WrongUse(
      file === undefined ? "no aircraft is in this folder" : `no aircraft reaches ${shownPath(at)}`,
    );
  onlyOne(roots, file);
  const [design, ...airframes] = rootsOf(judged.root.reach);
  const title = design!.title ?? design!.name;
  if (airframe === undefined) return { project, root: design!, title };
  const names = airframes.flatMap(it => it.airframe?.name ?? []);
  const root = airframes.find(it => it.airframe?.name === airframe);
  if (root === undefined) {
    const near = closest(airframe, names);
    const others =
      names.length > 0
        ? `, but ${names.join(", ")}`
        : `: write airframe ${plainWord(airframe)} { } at the top of a file`;
    throw new WrongUse(
      `${design!.name} has no airframe ${airframe}${near ? `; did you mean ${near}?` : others}`,
    );
  }
  return { project, root, title: `${title}, ${root.airframe?.title ?? airframe}` };
}

/** As it may be called in the language. */
const plainWord = (name: string) => (/^\p{L}[\p{L}\p{N}_]*$/u.test(name) ? name : "sn001");
