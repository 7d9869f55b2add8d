import type { Span, Statement } from "../../grammar/tree";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";
import { bothSides, type Figure, type HintKind, massFigures, stationFigures } from "./hint-figures";
import { rootWith } from "./place";
import type { Range } from "./selection";
import { memberIn, type Standing, statementsIn } from "./standing";

export type { HintKind } from "./hint-figures";

/** What is shown at the end of one row: there it moves no word of the text. */
export interface Hint {
  /** Nothing wide: the end of the row. */
  readonly at: Span;
  readonly parts: readonly HintPart[];
}

export interface HintPart {
  readonly text: string;
  /** Where what it tells of is written. */
  readonly refers: Span | undefined;
  readonly tooltip: string;
}

/** The figures that some rows of a file come to and do not say themselves. */
export function hints(
  project: Project,
  path: string,
  rows: Range,
  wanted: ReadonlySet<HintKind>,
): readonly Hint[] {
  const source = sourceOf(project, path);
  const root = rootWith(project, path);
  if (source === undefined || root === undefined || wanted.size === 0) return [];
  const shown: { at: Span; of: Statement; figures: readonly Figure[] }[] = [];
  for (const standing of statementsIn(source, rows))
    for (const figure of figuresAt(root, standing)) {
      if (!wanted.has(figure.kind)) continue;
      const at = rowEnd(figure.behind);
      const last = shown.at(-1);
      if (last && last.of === standing.head && isAt(last.at, at))
        shown[shown.length - 1] = { ...last, figures: [...last.figures, figure] };
      else shown.push({ at, of: standing.head, figures: [figure] });
    }
  const byRow: Hint[] = [];
  for (const [i, { at, of, figures }] of shown.entries()) {
    const shares = [shown[i - 1], shown[i + 1]].some(it => it !== undefined && isAt(it.at, at));
    const name = shares ? nameOf(of) : undefined;
    const parts = [...(name ? [name] : []), ...joined(figures)];
    const last = byRow.at(-1);
    if (last && isAt(last.at, at))
      byRow[byRow.length - 1] = { at, parts: [...last.parts, between, ...parts] };
    else byRow.push({ at, parts });
  }
  return byRow;
}

function figuresAt(root: Root, standing: Standing): readonly Figure[] {
  const { head, around } = standing;
  if (head.kind === "clause") {
    const [block, outer] = [around.at(-1), around.slice(0, -1)];
    const found = block && memberIn(root, { head: block, around: outer });
    return found ? stationFigures(found, [head.clause]) : [];
  }
  if ("clauses" in head) {
    const found = memberIn(root, standing);
    return found
      ? [...massFigures(root, found.member), ...stationFigures(found, head.clauses)]
      : [];
  }
  return bothSides(root, head);
}

/** The end of the row that a stretch ends in, behind its comment: figures may grow there. */
function rowEnd({ line, to }: Span): Span {
  const end = line.text.indexOf("\n", to);
  const at = end < 0 ? line.text.length : end;
  return { line, from: at, to: at };
}

const isAt = (a: Span, b: Span) => a.line === b.line && a.from === b.from;

const between: HintPart = { text: ";  ", refers: undefined, tooltip: "" };

function joined(figures: readonly Figure[]): readonly HintPart[] {
  return figures.flatMap(({ parts }, i) =>
    i === 0 ? parts : [{ text: " · ", refers: undefined, tooltip: "" }, ...parts],
  );
}

/** Where several things share a row, each figure says whose it is. */
function nameOf(head: Statement): HintPart | undefined {
  const path = "path" in head && head.path && "words" in head.path ? head.path : undefined;
  return path && { text: `${path.words.at(-1)?.text} `, refers: path, tooltip: "" };
}
