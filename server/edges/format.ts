import { readFileSync, statSync, writeFileSync } from "node:fs";
import { closest } from "../../grammar/unexpected";
import { type RowEdit, rowEdits } from "../features/format";
import { readBytes } from "./bytes";
import { plainPath, readFile, readFolder } from "./disk";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

export interface Streams {
  /** A line for whoever called. */
  readonly print: (text: string) => void;
  /** A formatted standard input, as it is. */
  readonly pass: (text: string) => void;
  readonly note: (text: string) => void;
}

/**
 * Brings files into the one layout, or with `--check` only says which are not in it. The exit status:
 * 0 all are now, 1 one is not or has a fault in its text and is left alone, 2 one could not be read.
 */
export function format(args: readonly string[], to: Streams): 0 | 1 | 2 {
  const paths = args.filter(it => it === "-" || !it.startsWith("-"));
  for (const option of args)
    if (!paths.includes(option) && option !== "--check") {
      const near = closest(option, ["--check"]);
      throw new WrongUse(`format has no option ${option}${near ? `; did you mean ${near}?` : ""}`);
    }
  if (paths.length === 0) throw new WrongUse("format takes files: poise format FILE …");
  const only = args.includes("--check");
  const worst = paths.flatMap(filesOf).map(path => formatOne(path, only, to));
  return Math.max(...worst) as 0 | 1 | 2;
}

function filesOf(path: string): readonly string[] {
  if (path === "-") return [path];
  const stat = statSync(path, { throwIfNoEntry: false });
  if (stat === undefined) throw new WrongUse(`${shownPath(plainPath(path))} does not exist`);
  if (!stat.isDirectory()) return [plainPath(path)];
  const files = readFolder(path).map(it => it.path);
  if (files.length === 0) throw new WrongUse(`${shownPath(plainPath(path))} holds no .poise file`);
  return files;
}

function formatOne(path: string, only: boolean, { print, pass, note }: Streams): 0 | 1 | 2 {
  const input = path === "-";
  const name = input ? "standard input" : shownPath(path);
  const bytes = input ? readFileSync(0) : undefined;
  const source = bytes ? readBytes(name, bytes) : readFile(path);
  if ("unreadable" in source) {
    note(`${name} ${source.unreadable}`);
    return 2;
  }
  const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes ?? readFileSync(path));
  const faulty = source.faulty.length > 0 || source.braceFaults.length > 0;
  if (faulty) note(`${name} has an error in its text and is left alone; check says where`);
  const now = withRows(text, rowEdits(source));
  if (input && !only) pass(now);
  if (faulty) return 1;
  if (now === text) return 0;
  if (only) {
    print(`${name} is not formatted`);
    return 1;
  }
  if (!input) {
    writeFileSync(path, now);
    print(`${name}: formatted`);
  }
  return 0;
}

/** A row keeps how it ends, also where rows of a file end differently; a new one ends as its first. */
function withRows(text: string, edits: readonly RowEdit[]): string {
  const mark = text.startsWith("\ufeff") ? "\ufeff" : "";
  const parts = text.slice(mark.length).split(/(\r\n|\n|\r)/);
  const usual = parts[1] ?? "\n";
  const endOf = (row: number) => parts[2 * row + 1] ?? "";
  let result = mark;
  let next = 0;
  const keep = (to: number) => {
    result += parts.slice(2 * next, 2 * to).join("");
  };
  for (const { from, to, rows } of edits) {
    keep(from);
    rows.forEach((row, i) => {
      result += row + (i === rows.length - 1 ? endOf(to - 1) : endOf(from) || usual);
    });
    next = to;
  }
  keep(parts.length);
  return result;
}
