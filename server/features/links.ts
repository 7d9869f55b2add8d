import type { Span } from "../../grammar/tree";
import { reachesOf } from "../model/reach";
import type { Project } from "../project";

export interface Link {
  /** The path in its quotes. */
  readonly at: Span;
  readonly file: string;
}

/** Where a file's includes lead; one that leads nowhere is a finding and no link. */
export function links(project: Project, path: string): readonly Link[] {
  return [...reachesOf(project).targets].flatMap(([{ path: at }, file]) =>
    at?.line.file === path ? [{ at, file }] : [],
  );
}
