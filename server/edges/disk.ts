import { existsSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { dirname, join, resolve, sep } from "node:path";
import { read } from "../../grammar/source";
import type { SourceFile } from "../project";

const LARGEST = 64 * 2 ** 20;

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

export function isIn(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}

/** Every build spec below a folder; hidden folders and installed packages are passed over. */
export function readFolder(folder: string): readonly SourceFile[] {
  const files: SourceFile[] = [];
  const seen = new Set<string>();
  const visit = (at: string) => {
    const real = realpathSync(at);
    if (seen.has(real)) return;
    seen.add(real);
    for (const entry of readdirSync(at, { withFileTypes: true }).sort((a, b) =>
      a.name < b.name ? -1 : 1,
    )) {
      if (entry.name.startsWith(".") || entry.name === "node_modules") continue;
      const path = join(at, entry.name);
      try {
        const folderHere =
          entry.isDirectory() || (entry.isSymbolicLink() && statSync(path).isDirectory());
        if (folderHere && !entry.name.endsWith(".poise")) visit(path);
        else if (entry.name.endsWith(".poise")) files.push(readFile(path));
      } catch {
        // a link to nowhere, or a folder this user may not read, holds no spec of theirs
      }
    }
  };
  visit(folder);
  return files;
}

/** A file's text, or in words why it is none. */
export function readFile(path: string): SourceFile {
  const name = plainPath(path);
  let bytes: Buffer;
  try {
    const stat = statSync(path);
    if (stat.isDirectory()) return { path: name, unreadable: "is a folder" };
    if (stat.size > LARGEST) return { path: name, unreadable: "is larger than 64 MB" };
    bytes = readFileSync(path);
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === "ENOENT";
    return { path: name, unreadable: missing ? "does not exist" : "cannot be read" };
  }
  return readBytes(name, bytes);
}

export function readBytes(path: string, bytes: Buffer): SourceFile {
  const nul = bytes.indexOf(0);
  if (nul >= 0) return { path, unreadable: `holds a NUL byte at ${nul}: it is no text` };
  try {
    return read(path, new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return { path, unreadable: `is not UTF-8 text${badByte(bytes)}` };
  }
}

/** Where the first byte stands that no UTF-8 text has. */
function badByte(bytes: Buffer): string {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let low = 0;
  let high = bytes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    try {
      decoder.decode(bytes.subarray(0, middle + 1), { stream: true });
      low = middle + 1;
    } catch {
      high = middle;
    }
    decoder.decode(new Uint8Array(), { stream: false });
  }
  const byte = bytes[low];
  return byte === undefined ? "" : ` (byte 0x${byte.toString(16).toUpperCase()} at ${low})`;
}
