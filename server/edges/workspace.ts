import { read } from "../../grammar/source";
import { emptyProject, type Project, withEdit, withFile, withoutFile } from "../project";
import { isIn, readFile, readFolder } from "./disk";

export interface Change {
  readonly range?: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
  readonly text: string;
}

/** The picture of the workspace the server works on: what is on disk, under what is open in the editor. */
export interface Workspace {
  readonly project: () => Project;
  readonly setFolders: (folders: readonly string[]) => void;
  readonly open: (path: string, text: string) => void;
  readonly change: (path: string, changes: readonly Change[]) => void;
  readonly close: (path: string) => void;
  /** Something happened to files or folders on disk. */
  readonly refresh: (paths: readonly string[]) => void;
}

/** @param excluded which paths the user does not want read */
export function workspace(excluded: (path: string) => boolean): Workspace {
  let project = emptyProject([]);
  const opened = new Set<string>();

  const reread = (path: string) => {
    if (opened.has(path)) return;
    const file = readFile(path);
    const gone = "unreadable" in file && file.unreadable === "does not exist";
    const inside = project.folders.some(folder => isIn(path, folder));
    project =
      gone || excluded(path) || !inside ? withoutFile(project, path) : withFile(project, file);
  };
  const rescan = () => {
    const found = new Map(project.folders.flatMap(readFolder).map(file => [file.path, file]));
    for (const path of project.files.keys())
      if (!opened.has(path) && (!found.has(path) || excluded(path)))
        project = withoutFile(project, path);
    for (const [path, file] of found)
      if (!opened.has(path) && !excluded(path)) project = withFile(project, file);
  };

  return {
    project: () => project,
    setFolders: folders => {
      project = { ...project, folders };
      rescan();
    },
    open: (path, text) => {
      opened.add(path);
      project = withFile(project, read(path, text));
    },
    change: (path, changes) => {
      for (const { range, text } of changes)
        project = range
          ? withEdit(project, path, range.start, range.end, text)
          : withFile(project, read(path, text));
    },
    close: path => {
      opened.delete(path);
      reread(path);
    },
    refresh: paths => {
      // a folder that went away or came takes its files along
      const known = [...project.files.keys()];
      if (paths.some(path => known.some(file => file !== path && isIn(file, path)))) rescan();
      for (const path of paths) if (path.endsWith(".poise")) reread(path);
    },
  };
}
