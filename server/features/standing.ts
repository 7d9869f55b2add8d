import { indexAtRow, lineAt } from "../../grammar/lines";
import type { Source } from "../../grammar/source";
import type { Item, Line, Statement } from "../../grammar/tree";
import { memberAt } from "../compute/member-at";
import { memo } from "../memo";
import type { Assembly, Member } from "../model/assembly";
import type { Root } from "../model/root";
import type { Range } from "./selection";

/** A statement, and the heads of the blocks it stands in, the outermost first. */
export interface Standing {
  readonly head: Statement;
  readonly around: readonly Statement[];
}

/** The statements of some rows in order: what stands elsewhere is not looked at. */
export function statementsIn(source: Source, rows: Range): readonly Standing[] {
  const { lines } = source;
  const found: Standing[] = [];
  const last = indexAtRow(lines, rows.end.line);
  for (let i = indexAtRow(lines, rows.start.line); i <= last; i++) {
    const line = lineAt(lines, i)!;
    const around = line.pieces.length === 0 ? [] : [...blocksAt(source, line)];
    let before: Statement | undefined;
    for (const piece of line.pieces) {
      if (piece.kind === "statement") {
        before = piece.item.head;
        found.push({ head: before, around: [...around] });
      } else if (piece.kind === "close") around.pop();
      else if (before) around.push(before);
    }
  }
  return found;
}

/** The heads of the blocks that a line begins in, the outermost first. */
export const blocksAt = (source: Source, line: Line): readonly Statement[] => [
  ...headsAround(source.items, line),
];

function* headsAround(items: readonly Item[], line: Line): Iterable<Statement> {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (items[middle]!.head.line.rank < line.rank) low = middle + 1;
    else high = middle;
  }
  const block = items[low - 1];
  // a block that nothing closes goes on to the end
  if (block?.open === undefined || (block.close && block.close.line.rank < line.rank)) return;
  yield block.head;
  yield* headsAround(block.items, line);
}

/** What a statement declares, and the assemblies around that, the aircraft first. */
export interface MemberIn {
  readonly member: Member;
  readonly around: readonly Assembly[];
}

/** Undefined of what declares no member, and in an aircraft or airframe that has none of it. */
export function memberIn(root: Root, { head, around }: Standing): MemberIn | undefined {
  if (head === root.aircraft.head) return { member: root.aircraft, around: [] };
  let path: readonly Assembly[] = [root.aircraft];
  for (const block of around) {
    if (block === root.aircraft.head) continue;
    // what stands in an option or an airframe is put where its own path leads
    if (apart.has(block.kind)) path = [root.aircraft];
    else {
      const next = inside(root, path, block);
      if (next?.member.kind !== "assembly") return undefined;
      path = [...next.around, next.member];
    }
  }
  return inside(root, path, head);
}

const apart = new Set<Statement["kind"]>(["choice", "option", "airframe", "change"]);

function inside(root: Root, path: readonly Assembly[], head: Statement): MemberIn | undefined {
  const direct = byHead(path.at(-1)!).get(head);
  if (direct) return { member: direct, around: path };
  const words = "clauses" in head ? (head.path?.words ?? []) : [];
  if (path.length > 1 || words.length < 2) return undefined;
  const member = memberAt(root, words.map(it => it.text).join("."))?.member;
  if (member?.head !== head) return undefined;
  const around = words.slice(0, -1).flatMap((_, i) => {
    const outer = memberAt(
      root,
      words
        .slice(0, i + 1)
        .map(it => it.text)
        .join("."),
    )?.member;
    return outer?.kind === "assembly" ? outer : [];
  });
  return { member, around: [root.aircraft, ...around] };
}

const byHead = memo(
  ({ members }: Assembly): ReadonlyMap<Statement, Member> =>
    // of two sides read apart the right-hand one stands for both
    new Map([...members].reverse().map(it => [it.head, it])),
);
