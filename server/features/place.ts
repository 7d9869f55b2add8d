import { type Position, placeAt } from "../../grammar/source";
import type { Span, Statement } from "../../grammar/tree";
import { judge } from "../judge";
import type { Assembly, Member } from "../model/assembly";
import type { Root } from "../model/root";
import { type Project, sourceOf } from "../project";

/** What stands at a position: the statement, and the nodes around the position, the innermost last. */
export interface At {
  readonly statement: Statement;
  readonly nodes: readonly Span[];
  readonly offset: number;
}

export function nodesAt(project: Project, path: string, position: Position): At | undefined {
  const source = sourceOf(project, path);
  if (source === undefined) return undefined;
  const { line, offset } = placeAt(source, position);
  for (const piece of line.pieces) {
    if (piece.kind !== "statement") continue;
    const statement = piece.item.head;
    if (offset < statement.from || offset > statement.to) continue;
    return { statement, nodes: around(statement, offset), offset };
  }
  return undefined;
}

/** The tree is plain data: whatever has a `from` and a `to` is a node. */
function around(node: Span, offset: number): Span[] {
  for (const value of Object.values(node)) {
    for (const inside of Array.isArray(value) ? value : [value]) {
      if (!isSpan(inside) || offset < inside.from || offset > inside.to) continue;
      return [node, ...around(inside, offset)];
    }
  }
  return [node];
}

function isSpan(value: unknown): value is Span {
  return (
    typeof value === "object" &&
    value !== null &&
    "from" in value &&
    "to" in value &&
    "line" in value
  );
}

/** The first aircraft that a file belongs to. */
export function rootWith(project: Project, path: string): Root | undefined {
  return judge(project).roots.find(root => root.files.includes(path))?.root;
}

/** The thing a statement declares. */
export function memberWith(root: Root, head: Statement): Member | undefined {
  const find = (assembly: Assembly): Member | undefined => {
    for (const member of assembly.members) {
      if (member.head === head) return member;
      const inside = member.kind === "assembly" ? find(member) : undefined;
      if (inside) return inside;
    }
    return undefined;
  };
  return root.aircraft.head === head ? root.aircraft : find(root.aircraft);
}

/** The comment lines directly above a declaration. */
export function documentationOf(project: Project, head: Statement): string {
  const lines = sourceOf(project, head.line.file)?.lines ?? [];
  let at = lines.indexOf(head.line);
  const found: string[] = [];
  while (at-- > 0) {
    const text = lines[at]!.text.trim();
    if (!text.startsWith("//")) break;
    found.unshift(text.replace(/^\/\/ ?/, ""));
  }
  return found.join("\n");
}
