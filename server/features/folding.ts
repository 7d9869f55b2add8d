import { listOf } from "../../grammar/lines";
import { positionsOf, type Source } from "../../grammar/source";
import type { Item, Line } from "../../grammar/tree";
import { type Project, sourceOf } from "../project";

/** Rows that fold away behind the first of them, which stays to be seen. */
export interface Fold {
  readonly from: number;
  /** The last that goes. */
  readonly to: number;
  readonly kind: "block" | "comment" | "includes";
}

/** Blocks up to their closing brace, runs of comments, and a file's includes. */
export function folding(project: Project, path: string): readonly Fold[] {
  const source = sourceOf(project, path);
  if (source === undefined) return [];
  const folds = [...blocksIn(source, source.items), ...runsIn(source)];
  return folds.filter(it => it.from < it.to).sort((a, b) => a.from - b.from || b.to - a.to);
}

function blocksIn(source: Source, items: readonly Item[]): Fold[] {
  return items.flatMap(item => {
    const inside = blocksIn(source, item.items);
    const { head, open, close } = item;
    const start = open ?? (item.items.length > 0 ? head : undefined);
    if (start === undefined) return inside;
    const from = positionsOf(source, start).end.line;
    // a block that nothing closes yet folds up to the last thing in it
    const to = close ? positionsOf(source, close).start.line - 1 : lastRowOf(source, item);
    return [{ from, to, kind: "block" as const }, ...inside];
  });
}

function lastRowOf(source: Source, { head, items, close }: Item): number {
  const last = items.at(-1);
  return last && !close ? lastRowOf(source, last) : positionsOf(source, close ?? head).end.line;
}

/** Comments that stand one below the other, and includes with nothing but comments and blanks between. */
function runsIn({ lines }: Source): Fold[] {
  const folds: Fold[] = [];
  let run: { kind: LineKind; from: number; to: number } | undefined;
  let includes: { from: number; to: number } | undefined;
  let row = 0;
  const end = () => {
    if (run?.kind === "comment") folds.push({ ...run, kind: "comment" });
    run = undefined;
  };
  const endIncludes = () => {
    if (includes) folds.push({ ...includes, kind: "includes" });
    includes = undefined;
  };
  for (const line of listOf(lines)) {
    const kind = kindOf(line);
    const to = row + line.rows - 1;
    if (run?.kind === kind) run.to = to;
    else {
      end();
      run = { kind, from: row, to };
    }
    if (kind === "include") includes = { from: includes?.from ?? row, to };
    else if (kind === "other") endIncludes();
    row = to + 1;
  }
  end();
  endIncludes();
  return folds;
}

type LineKind = "comment" | "include" | "blank" | "other";

function kindOf({ text, pieces }: Line): LineKind {
  const said = text.trimStart();
  if (said === "") return "blank";
  if (said.startsWith("//")) return "comment";
  const [only] = pieces;
  return only?.kind === "statement" && only.item.head.kind === "include" ? "include" : "other";
}
