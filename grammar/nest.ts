import {
  beginsWithClose,
  closing,
  guessContext,
  indentOf,
  type Layout,
  layoutOf,
  says,
} from "./layout";
import { type Around, contextIn, isUnread, takesBlock } from "./read-line";
import type { Context, Fault, Item, Line, Span, Statement } from "./tree";

/** Deeper blocks are no aircraft; everything that walks the tree may recurse as far as this. */
const DEEPEST = 100;

export interface Nested {
  readonly lines: readonly Line[];
  readonly items: readonly Item[];
  /** Braces without a partner. None: the braces alone say what stands in what. */
  readonly faults: readonly Fault[];
}

/** Reads a line anew that turns out to stand in another kind of block than it was read in. */
export type Again = (line: Line, around: Around) => Line;

/**
 * Nests a file's lines by their braces. Where those do not balance the layout decides: a block ends
 * before the first line that stands no further right than its head, and begins where lines stand
 * further right than a head without its brace.
 */
export function nest(lines: readonly Line[], again: Again): Nested {
  const byBraces = walk(lines, again, undefined);
  return byBraces.faults.length === 0 ? byBraces : walk(lines, again, layoutOf(lines));
}

/** An open block. */
interface Frame {
  readonly head: Statement | undefined;
  readonly open: Span | undefined;
  readonly context: Context;
  readonly items: Item[];
  /** The column its head's line begins in. */
  readonly indent: number;
}

function walk(lines: readonly Line[], again: Again, layout: Layout | undefined): Nested {
  const read: Line[] = [];
  const faults: Fault[] = [];
  const root: Frame = { head: undefined, open: undefined, context: "body", items: [], indent: -1 };
  const stack: Frame[] = [root];
  /** The last line that says something, and how it ended. */
  let last: { index: number; indent: number; frame: Frame; endsIn: Item | undefined } | undefined;

  const top = () => stack[stack.length - 1]!;
  const around: Around = depth => stack[Math.max(0, stack.length - 1 - depth)]!.context;

  const open = (head: Statement, at: Span | undefined, indent: number, context: Context) => {
    if (stack.length === DEEPEST + 1 && at)
      faults.push({
        at,
        message: `blocks stand more than ${DEEPEST} deep here; what is deeper is left out`,
      });
    stack.push({ head, open: at, context, items: [], indent });
  };
  const close = (at: Span | undefined) => {
    const frame = stack.pop()!;
    if (stack.length <= DEEPEST) top().items.push(group(frame, at));
  };
  /** The brace that was never typed, where it should stand: behind the block's last line. */
  const closeMissing = (before: number) => {
    const line = read[Math.min((last?.index ?? -1) + 1, before - 1)] ?? read.at(-1)!;
    const at = { line, from: Math.max(0, line.text.length - 1), to: line.text.length };
    // what has no head or stands too deep was said where it began
    const { head, open } = top();
    const said = (head?.kind === "nameless" && open === undefined) || stack.length > DEEPEST + 1;
    if (!said) faults.push({ at, message: closing(head) });
    close(undefined);
  };

  const placed = (line: Line, where: Around): Line =>
    line.contexts.every((context, depth) => context === where(depth)) ? line : again(line, where);

  const byLayout = (line: Line, index: number, indent: number, step: number): Line => {
    if (beginsWithClose(line)) {
      const mine = stack.some(frame => frame.indent === indent && frame !== root);
      while (stack.length > 1 && (mine ? top().indent !== indent : top().indent > indent))
        closeMissing(index);
      return line;
    }
    while (stack.length > 1 && top().indent >= indent) closeMissing(index);
    // a blank row between them is where the head once stood
    const since = read.slice((last?.index ?? -1) + 1, index);
    const blank = since.findLast(between => between.text.trim() === "");
    const headless = blank === undefined && last?.frame === top() ? last.endsIn : undefined;
    const expected = stack.length === 1 ? 0 : top().indent + step;
    if (last && headless && indent > last.indent && takesBlock(headless.head)) {
      top().items.pop();
      const before = headless.head.line;
      const at = {
        line: before,
        from: Math.max(0, before.text.length - 1),
        to: before.text.length,
      };
      faults.push({ at, message: "a { is missing here" });
      open(headless.head, undefined, last.indent, contextIn(headless.head, top().context));
    } else if (indent > expected) {
      const context = guessContext(line);
      const inside = placed(line, depth => (depth === 0 ? context : around(depth - 1)));
      const where = blank ?? inside;
      const at = { line: where, from: 0, to: where.text.length };
      faults.push({ at, message: "the head of this block is missing" });
      open(nameless(inside), undefined, expected, context);
      return inside;
    }
    return line;
  };

  for (let index = 0; index < lines.length; index++) {
    let line = lines[index]!;
    const counts = layout !== undefined && says(line);
    const indent = counts ? indentOf(line) : 0;
    if (counts && layout.trusted) line = byLayout(line, index, indent, layout.step);
    line = placed(line, around);
    read.push(line);

    let headed: Item | undefined;
    for (const piece of line.pieces) {
      if (piece.kind === "statement") {
        headed = piece.item;
        top().items.push(headed);
      } else if (piece.kind === "open") {
        // a head that could not be read is none, and stays for what it stands in
        if (isUnread(headed?.head)) headed = undefined;
        const head = headed?.head ?? nameless(piece.at);
        if (headed) top().items.pop();
        open(head, piece.at, indent, contextIn(head, top().context));
        headed = undefined;
      } else {
        const stray = stack.length === 1 || (layout?.trusted && strayClose(line, piece.at, top()));
        if (stray) faults.push({ at: piece.at, message: "this brace closes nothing" });
        else close(piece.at);
        headed = undefined;
      }
    }
    if (counts) last = { index, indent, frame: top(), endsIn: headed };
  }
  if (layout || stack.length === 1) while (stack.length > 1) closeMissing(lines.length);
  else faults.push({ at: top().open!, message: closing(top().head) });
  return { lines: read, items: root.items, faults };
}

/** A brace at the head of its line that stands inside the open block is not that block's. */
function strayClose(line: Line, at: Span, frame: Frame): boolean {
  return beginsWithClose(line) && at.from === indentOf(line) && indentOf(line) > frame.indent;
}

/** One head for each brace or line that has none, so that an unchanged text gives an unchanged tree. */
const namelessHeads = new WeakMap<object, Statement>();
function nameless(where: Span | Line): Statement {
  let head = namelessHeads.get(where);
  if (head === undefined) {
    const at = "line" in where ? where : { line: where, from: 0, to: 0 };
    head = { kind: "nameless", line: at.line, from: at.from, to: at.to };
    namelessHeads.set(where, head);
  }
  return head;
}

/** Gives the block of the last time where nothing in it changed: memos hang on it. */
const lastGroups = new WeakMap<Statement, Item>();
function group({ head, items, open }: Frame, close: Span | undefined): Item {
  const before = lastGroups.get(head!);
  if (
    before !== undefined &&
    before.open === open &&
    before.close === close &&
    before.items.length === items.length &&
    before.items.every((item, i) => item === items[i])
  )
    return before;
  const item: Item = { head: head!, items, open, close };
  lastGroups.set(head!, item);
  return item;
}
