import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { drawn } from "./formats/row";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** Writes a file that was asked for, in a folder that is made where it is missing. */
export function writeFile(path: string, text: string): void {
  write(path, text, "w");
}

/** Writes a file that is not there yet, and not over one that somebody else wrote meanwhile. */
export function newFile(path: string, text: string): void {
  write(path, text, "wx");
}

/** Writes a page over one of its kind, unless somebody has changed that. @param begins its heading */
export function writePage(path: string, text: string, begins: string): void {
  if (existsSync(path)) {
    const before = readFileSync(path, "utf8");
    const [kind] = begins.toLowerCase().split(":");
    if (!before.includes(`<h1>${begins}`))
      throw new WrongUse(`${shownPath(path)} is no ${kind}: it is left alone`);
    const [, page, mark] = before.match(/^([\s\S]*)<!-- ([\da-f]+) -->\n$/) ?? [];
    if (page === undefined || markOf(page) !== mark)
      throw new WrongUse(
        `${shownPath(path)} was changed since it was written: it is left alone; name a new file`,
      );
  }
  writeFile(path, `${text}<!-- ${markOf(text)} -->\n`);
}

/** Shows whether a page is still as it was written. */
const markOf = (page: string) => createHash("sha256").update(page).digest("hex").slice(0, 16);

function write(path: string, text: string, flag: "w" | "wx"): void {
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text, { flag });
  } catch (error) {
    const { code = "" } = error as NodeJS.ErrnoException;
    if (code === "EEXIST" && flag === "wx" && existsSync(path))
      throw new WrongUse(`${shownPath(path)} is there already: nothing is written`);
    if (code === "") throw error;
    throw new WrongUse(`${drawn(shownPath(path))} cannot be written: ${reasons[code] ?? code}`);
  }
}

const reasons: Readonly<Record<string, string>> = {
  EACCES: "it is protected, or its folder is",
  EPERM: "it is protected, or its folder is",
  EISDIR: "it is a folder",
  EEXIST: "a file stands where its folder would be",
  ENOTDIR: "a file stands where its folder would be",
  ENOSPC: "the disk is full",
  EROFS: "the disk can only be read",
  ENAMETOOLONG: "its name is too long",
};
