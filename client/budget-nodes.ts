import type { Entry } from "./budget-text";

/** Where an entry stands, and what is in it. */
export interface Placed {
  readonly uri: string;
  /** Of its name. */
  readonly range: Span;
  /** Of all of it. */
  readonly whole: Span;
  readonly inside: readonly (Entry & Placed)[];
}

interface Span {
  readonly start: Place;
  readonly end: Place;
}
interface Place {
  readonly line: number;
  readonly character: number;
}

/** A row of the tree. */
export interface Node {
  readonly id: string;
  readonly entry: Entry & Placed;
  readonly outer: Node | undefined;
  readonly inside: readonly Node[];
  /** Set: it stands for what is left out of the rows above it. */
  readonly more?: NonNullable<Entry["more"]>;
}

/** Each has an id of its own that it keeps as long as it is called the same: so it stays open. */
export function nodesOf(entry: Entry & Placed, root: string, outer?: Node, nth = 0): Node {
  const own = `${outer?.id ?? root}/${entry.kind === "aircraft" ? "" : entry.path}`;
  const inside: Node[] = [];
  const node: Node = { id: nth === 0 ? own : `${own}#${nth}`, entry, outer, inside };
  const seen = new Map<string, number>();
  for (const it of entry.inside) {
    const before = seen.get(it.path) ?? 0;
    seen.set(it.path, before + 1);
    inside.push(nodesOf(it, root, node, before));
  }
  const { more } = entry;
  if (more) inside.push({ id: `${node.id}/…`, entry, outer: node, inside: [], more });
  return node;
}

/** The narrowest row around a place; the one that is selected, where it is as narrow. */
export function nodeAt(top: Node, uri: string, at: Place, selected?: Node): Node | undefined {
  const around: Node[] = [];
  const visit = (node: Node) => {
    if (node.more) return;
    if (node.entry.uri === uri && holds(node.entry.whole, at)) around.push(node);
    node.inside.forEach(visit);
  };
  visit(top);
  const best = around.reduce<Node | undefined>(
    (found, it) => (found && !holds(found.entry.whole, it.entry.whole.start) ? found : it),
    undefined,
  );
  const same = around.find(
    it => it.id === selected?.id && it.entry.whole.start.line === best?.entry.whole.start.line,
  );
  return same ?? best;
}

function holds({ start, end }: Span, { line, character }: Place): boolean {
  if (line === start.line && character < start.character) return false;
  if (line === end.line && character > end.character) return false;
  return start.line <= line && line <= end.line;
}
