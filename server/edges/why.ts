import { positionsOf } from "../../grammar/source";
import { judgeSome } from "../judge";
import { type Project, sourceOf } from "../project";
import { longest, nearestPath, type WhyLine, why } from "../views/why";
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

export interface Told {
  readonly text: string;
  /** Where the place stands in it, if the line has one. */
  readonly from: number;
  readonly line: WhyLine;
}

/** Each line with `file:line:column` behind it, all in one column: terminals and editors open it. */
export function withPlaces(
  project: Project,
  lines: readonly WhyLine[],
  nameOf: (path: string) => string,
): readonly Told[] {
  const placed = lines.filter(it => it.at).map(it => it.text);
  const from = Math.min(FARTHEST, longest(placed)) + 2;
  return lines.map(line => {
    const source = line.at && sourceOf(project, line.at.line.file);
    if (line.at === undefined || source === undefined)
      return { text: line.text, from: line.text.length, line };
    const { start } = positionsOf(source, line.at);
    const before = line.text.padEnd(from - 2).concat("  ");
    const place = `${nameOf(source.path)}:${start.line + 1}:${start.character + 1}`;
    return { text: before + place, from: before.length, line };
  });
}

/** What is longer pushes its own place out, and not those of all other lines. */
const FARTHEST = 90;
