import { judgeSome } from "../judge";
import { nearestPath, why } from "../views/why";
import { withPlaces } from "../views/why-places";
import { fileOf, projectOf } from "./check";
import { plainPath } from "./disk";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** Prints how a figure comes about, each line with its place where it has one. */
export function tellWhy(args: readonly string[], print: (text: string) => void): 0 {
  const [file, path, ...more] = args;
  if (file === undefined || path === undefined || more.length > 0)
    throw new WrongUse("why takes a file and a path: poise why FILE wing.spar");
  const at = file === "-" ? file : plainPath(file);
  const project = projectOf([at]);
  const { roots } = judgeSome(project, it => it === fileOf(at) || it.startsWith(`${at}/`));
  // a file of its own is an airframe's
  const judged = roots.find(it => it.airframe && it.file === fileOf(at)) ?? roots[0];
  if (judged === undefined) throw new WrongUse(`no aircraft reaches ${shownPath(fileOf(at))}`);
  const lines = why(judged.root, path);
  if (lines === undefined) {
    const near = nearestPath(judged.root, path);
    const hint = near ? `; did you mean ${near}?` : "";
    throw new WrongUse(`nothing is called ${path} in ${judged.root.name}${hint}`);
  }
  for (const { text } of withPlaces(project, lines, shownPath)) print(text);
  return 0;
}
