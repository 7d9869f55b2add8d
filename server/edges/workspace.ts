import { read, textOf } from "../../grammar/source";
import { resolvePath } from "../model/reach";
import {
  emptyProject,
  type Project,
  type SourceFile,
  sourceOf,
  withEdit,
  withFile,
  withoutFile,
} from "../project";
import { isIn } from "./uris";

export interface Change {
  readonly range?: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
  readonly text: string;
}

/** Where files are found and read: on this machine, or wherever the editor has them. */
export interface Disk {
  /** What is known of a file now. */
  readonly file: (path: string) => SourceFile;
  /** Every build spec that is known below a folder now. */
  readonly folder: (folder: string) => readonly SourceFile[];
  /** Something happened there: looks again, and says so. */
  readonly look: (paths: readonly string[]) => void;
  /** Whether what was asked of it is known: before, a judgement would miss files. */
  readonly settled: () => boolean;
}

/** @param changed is told of files and folders of which more is known than before */
export type DiskFor = (changed: (paths: readonly string[]) => void) => Disk;

/** The picture of the workspace the server works on: what is on disk, under what is open in the editor. */
export interface Workspace {
  readonly project: () => Project;
  readonly setFolders: (folders: readonly string[]) => void;
  readonly open: (path: string, text: string) => void;
  readonly change: (path: string, changes: readonly Change[]) => void;
  readonly close: (path: string) => void;
  readonly isOpen: (path: string) => boolean;
  /** More is known of files or folders on disk. */
  readonly refresh: (paths: readonly string[]) => void;
}

/** @param excluded which paths, as seen from their workspace folder, the user does not want read */
export function workspace(disk: Disk, excluded: (path: string) => boolean): Workspace {
  let project = emptyProject([]);
  const opened = new Set<string>();
  /** Outside of every folder, and here because an open file outside includes them. */
  let followed: ReadonlySet<string> = new Set();

  const folderOf = (path: string) =>
    project.folders.filter(it => isIn(path, it)).sort((a, b) => b.length - a.length)[0];
  const belongs = (path: string) => {
    const folder = folderOf(path);
    if (folder === undefined) return followed.has(path);
    const inside = path.slice(folder.length).replace(/^\//, "");
    return !passedOver.test(inside) && !excluded(inside);
  };
  const put = (file: SourceFile) => {
    if (!alike(project.files.get(file.path), file)) project = withFile(project, file);
  };
  const reread = (path: string) => {
    if (opened.has(path)) return;
    const file = belongs(path) ? disk.file(path) : undefined;
    if (file === undefined || isGone(file)) project = withoutFile(project, path);
    else put(file);
  };
  const rescan = () => {
    const found = project.folders.flatMap(disk.folder).filter(it => belongs(it.path));
    const kept = new Set([...found.map(it => it.path), ...opened, ...followed]);
    for (const path of project.files.keys())
      if (!kept.has(path)) project = withoutFile(project, path);
    for (const file of found) if (!opened.has(file.path)) put(file);
  };
  /** A file opened by itself, without a folder, still has what it includes. */
  const follow = () => {
    const before = followed;
    const now = new Set<string>();
    const open = [...opened].filter(path => path.includes("/") && folderOf(path) === undefined);
    for (const path of open) now.add(path);
    for (const path of now) {
      if (!opened.has(path) && !project.files.has(path)) {
        const file = disk.file(path);
        if (!isGone(file)) put(file);
      }
      for (const target of includedBy(project, path))
        if (folderOf(target) === undefined) now.add(target);
    }
    followed = now;
    for (const path of before)
      if (!now.has(path) && !opened.has(path)) project = withoutFile(project, path);
  };

  return {
    project: () => project,
    setFolders: folders => {
      project = { ...project, folders };
      rescan();
      follow();
    },
    open: (path, text) => {
      opened.add(path);
      put(read(path, text));
      follow();
    },
    change: (path, changes) => {
      for (const { range, text } of changes)
        project = range
          ? withEdit(project, path, range.start, range.end, text)
          : withFile(project, read(path, text));
      if (followed.has(path)) follow();
    },
    isOpen: path => opened.has(path),
    close: path => {
      opened.delete(path);
      // what stays open keeps its text until the disk has told its own
      if (path.includes("/")) disk.look([path]);
      else project = withoutFile(project, path);
    },
    refresh: paths => {
      // a folder that went away or came takes its files along
      const known = [...project.files.keys(), ...project.folders.map(it => `${it}/`)];
      if (paths.some(path => known.some(file => file !== path && isIn(file, path)))) rescan();
      for (const path of paths) if (path.endsWith(".poise")) reread(path);
      follow();
    },
  };
}

/** What reading a folder passes over: hidden ones and installed packages. */
const passedOver = /(^|\/)(\.|node_modules\/)/;

function isGone(file: SourceFile): boolean {
  return "unreadable" in file && file.unreadable === "does not exist";
}

/** The same text again: the picture before is worth more, for everything known of it stays known. */
function alike(before: SourceFile | undefined, after: SourceFile): boolean {
  if (before === undefined) return false;
  if ("unreadable" in before || "unreadable" in after)
    return (
      "unreadable" in before && "unreadable" in after && before.unreadable === after.unreadable
    );
  return textOf(before) === textOf(after);
}

function includedBy(project: Project, path: string): readonly string[] {
  const items = sourceOf(project, path)?.items ?? [];
  return items.flatMap(({ head }) => {
    const named = head.kind === "include" ? head.path?.text : undefined;
    return named?.endsWith(".poise") && !/^[\\/]|:/.test(named) ? [resolvePath(path, named)] : [];
  });
}
