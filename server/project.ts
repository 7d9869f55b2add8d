import { edit, type Position, read, type Source } from "../grammar/source";

/** A file of the workspace: its text read, or why it could not be. */
export type SourceFile = Source | Unreadable;

export interface Unreadable {
  readonly path: string;
  /** In words: "is not UTF-8 text". */
  readonly unreadable: string;
}

/**
 * One immutable picture of the workspace. An edit makes the next one and shares the rest.
 * Paths are plain texts with `/`, as the edge that reads the disk names its files.
 */
export interface Project {
  readonly files: ReadonlyMap<string, SourceFile>;
  /** The workspace's folders: no include leads out of the one its file is in. */
  readonly folders: readonly string[];
}

export function emptyProject(folders: readonly string[]): Project {
  return { files: new Map(), folders };
}

export function withText(project: Project, path: string, text: string): Project {
  return withFile(project, read(path, text));
}

export function withEdit(
  project: Project,
  path: string,
  from: Position,
  to: Position,
  text: string,
): Project {
  const file = project.files.get(path);
  if (file === undefined || "unreadable" in file) return project;
  return withFile(project, edit(file, from, to, text));
}

export function withFile(project: Project, file: SourceFile): Project {
  if (project.files.get(file.path) === file) return project;
  return { ...project, files: new Map(project.files).set(file.path, file) };
}

export function withoutFile(project: Project, path: string): Project {
  if (!project.files.has(path)) return project;
  const files = new Map(project.files);
  files.delete(path);
  return { ...project, files };
}

/** The text of a file, if it could be read. */
export function sourceOf(project: Project, path: string): Source | undefined {
  const file = project.files.get(path);
  return file === undefined || "unreadable" in file ? undefined : file;
}
