import type { Item } from "../../grammar/tree";
import { closest } from "../../grammar/unexpected";
import { judgeSome } from "../judge";
import type { Root } from "../model/root";
import type { Project } from "../project";
import { projectOf } from "./check";
import { isIn, plainPath } from "./disk";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** The aircraft that is in the shop, and which airframe of it. */
export interface InShop {
  readonly project: Project;
  readonly root: Root;
  /** Undefined: the aircraft as designed. */
  readonly airframe: Item | undefined;
  /** "Dunlin two-seat amphibian, S/N 003" */
  readonly title: string;
}

/** @param file one that belongs to the aircraft; undefined: it is the only one of the current folder */
export function inShop(file: string | undefined, airframe: string | undefined): InShop {
  const at = plainPath(file ?? ".");
  const project = projectOf([at]);
  const judgement = judgeSome(project, it => isIn(it, at));
  const roots = judgement.roots.filter(it => it.airframe === undefined);
  const [judged, ...others] = roots;
  if (judged === undefined)
    throw new WrongUse(
      file === undefined ? "no aircraft is in this folder" : `no aircraft reaches ${shownPath(at)}`,
    );
  if (others.length > 0)
    throw new WrongUse(
      `${roots.length} aircraft are ${file === undefined ? "in this folder" : `in ${shownPath(at)}`}: name a file of the one that is meant, such as ${shownPath(judged.file)}`,
    );
  const { root } = judged;
  const fitted = airframe === undefined ? undefined : airframeOf(root, airframe);
  const head = fitted?.head;
  const called =
    head && "title" in head && head.title ? head.title.text : head ? airframe : undefined;
  const title = root.title ?? root.name;
  return { project, root, airframe: fitted, title: called ? `${title}, ${called}` : title };
}

function airframeOf(root: Root, name: string): Item {
  const all = root.statements.airframes.flatMap(item =>
    item.head.kind === "airframe" && item.head.name ? [{ item, name: item.head.name.text }] : [],
  );
  const found = all.find(it => it.name === name);
  if (found) return found.item;
  const names = all.map(it => it.name);
  const near = closest(name, names);
  const others = names.length > 0 ? `, but ${names.join(", ")}` : "";
  throw new WrongUse(
    `${root.name} has no airframe ${name}${near ? `; did you mean ${near}?` : others}`,
  );
}
