import { positionsOf } from "../../grammar/source";
import { type Project, sourceOf } from "../project";
import { longest, type WhyLine } from "./why";

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
