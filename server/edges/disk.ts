import { existsSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { dirname, join, resolve, sep } from "node:path";
import type { SourceFile } from "../project";
import { LARGEST, readBytes } from "./bytes";
import { isIn } from "./uris";
import type { DiskFor } from "./workspace";

/** The one of this machine: nothing need be asked for, so what is said of it is always true. */
export const ownDisk: DiskFor = changed => ({
  file: readFile,
  folder: readFolder,
  look: changed,
  settled: () => true,
});

/** Absolute, with `/`: what the core calls a file. */
export function plainPath(path: string): string {
  const absolute = resolve(path);
  return sep === "\\" ? absolute.replaceAll("\\", "/") : absolute;
}

/** The nearest folder upwards that holds `.git`, else the current one if the path is in it, else its own. */
export function workspaceFolderOf(path: string): string {
  const own = existsSync(path) && statSync(path).isDirectory() ? path : dirname(path);
  for (let at = resolve(own); ; at = dirname(at)) {
    if (existsSync(join(at, ".git"))) return plainPath(at);
    if (dirname(at) === at) break;
  }
  const here = plainPath(".");
  return isIn(plainPath(path), here) ? here : plainPath(own);
}

/** Every build spec below a folder; hidden folders and installed packages are passed over. */
export function readFolder(folder: string): readonly SourceFile[] {
  const files: SourceFile[] = [];
  const seen = new Set<string>();
  const visit = (at: string) => {
    const real = realpathSync(at);
    // a link that leads back up
    if (seen.has(real)) return;
    seen.add(real);
    const entries = readdirSync(at, { withFileTypes: true });
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      if (entry.name.startsWith(".") || entry.name === "node_modules") continue;
      const path = join(at, entry.name);
      unlessGone(() => {
        const link = entry.isSymbolicLink() ? statSync(path) : entry;
        // also a folder: an include that names it is told what it is
        if (entry.name.endsWith(".poise")) files.push(readFile(path));
        if (link.isDirectory()) visit(path);
      });
    }
  };
  unlessGone(() => visit(folder));
  return files;
}

/** A link to nowhere, a folder that went away or that this user may not read, holds no spec of theirs. */
function unlessGone(look: () => void): void {
  try {
    look();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).syscall === undefined) throw error;
  }
}

/** A file's text, or in words why it is none. */
export function readFile(path: string): SourceFile {
  const name = plainPath(path);
  let bytes: Buffer;
  try {
    const stat = statSync(path);
    if (stat.isDirectory()) return { path: name, unreadable: "is a folder" };
    // a pipe or a device may never come to its end
    if (!stat.isFile()) return { path: name, unreadable: "is neither a file nor a folder" };
    if (stat.size > LARGEST) return { path: name, unreadable: "is larger than 64 MB" };
    bytes = readFileSync(path);
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === "ENOENT";
    return { path: name, unreadable: missing ? "does not exist" : "cannot be read" };
  }
  return readBytes(name, bytes);
}
