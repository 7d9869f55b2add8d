import type { Span } from "../../grammar/tree";
import { reachesOf } from "../model/reach";
import type { Project } from "../project";

export interface Link {
  /** The path, without its quotes. */
  readonly at: Span;
  readonly file: string;
}

/** Where a file's includes lead; one that leads nowhere is a finding and no link. */
export function links(project: Project, path: string): readonly Link[] {
  const found: Link[] = [];
  for (const [{ path: named, line }, file] of reachesOf(project).targets) {
    if (line.file !== path || named === undefined) continue;
    const closed = line.text[named.to - 1] === '"' && named.to - named.from > 1;
    found.push({ at: { line, from: named.from + 1, to: named.to - (closed ? 1 : 0) }, file });
  }
  return found;
}
