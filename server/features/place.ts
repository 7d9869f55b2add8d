import { indexOf, lineAt } from "../../grammar/lines";
import { type Position, placeAt } from "../../grammar/source";
import type { Item, Span, Statement, Word } from "../../grammar/tree";
import { askOf } from "../compute/ask";
import { judge } from "../judge";
import { memo } from "../memo";
import { type Assembly, letsOf, type Member } from "../model/assembly";
import { evaluate } from "../model/evaluate";
import type { Root } from "../model/root";
import { type Let, type Scope, scopeIn } from "../model/scope";
import { type Project, sourceOf } from "../project";
import { derivedUnit } from "../quantity/derived";
import { nameOf, PLAIN } from "../quantity/dimension";
import { show, showNumber } from "../quantity/show";

/** What stands at a position. */
export interface At {
  readonly statement: Statement;
  /** The blocks the statement stands in, the outermost first; its own last. */
  readonly blocks: readonly Item[];
  /** The nodes around the position, the statement first, the innermost last. */
  readonly nodes: readonly Span[];
  readonly offset: number;
}

export function nodesAt(project: Project, path: string, position: Position): At | undefined {
  const source = sourceOf(project, path);
  if (source === undefined) return undefined;
  const { line, offset } = placeAt(source, position);
  const heads = line.pieces.flatMap(it => (it.kind === "statement" ? [it.item.head] : []));
  const statement = nearest(heads, offset);
  if (statement === undefined) return undefined;
  const blocks = blocksAround(source.items, statement) ?? [];
  return { statement, blocks, nodes: around(statement, offset), offset };
}

/**
 * The narrowest one an offset lies in, for a record's span may go around the path it is of; one that
 * ends there only if nothing else begins.
 */
function nearest<S extends Span>(spans: readonly S[], offset: number): S | undefined {
  const touching = spans.filter(it => it.from <= offset && offset <= it.to);
  const within = touching.filter(it => offset < it.to);
  const [first, ...others] = within.length > 0 ? within : touching;
  return others.reduce((best, it) => (it.to - it.from < best!.to - best!.from ? it : best), first);
}

/** The nodes around an offset, the innermost last. */
export function around(node: Span, offset: number): Span[] {
  const inside = nearest([...childrenOf(node)], offset);
  return inside ? [node, ...around(inside, offset)] : [node];
}

/** The tree is plain data: whatever has a `from` and a `to` is a node, also in what has none of its own. */
export function* childrenOf(node: object): Iterable<Span> {
  for (const [key, value] of Object.entries(node)) {
    if (key === "line") continue;
    for (const it of Array.isArray(value) ? value : [value])
      if (typeof it === "object" && it !== null)
        if ("from" in it && "to" in it) yield it;
        else yield* childrenOf(it);
  }
}

/** Every node of a statement, itself first. */
export function* nodesIn(node: Span): Iterable<Span> {
  yield node;
  for (const it of childrenOf(node)) yield* nodesIn(it);
}

/** Every statement, with the blocks it stands in, the outermost first; its own last. */
export function* itemsIn(
  items: readonly Item[],
  outer: readonly Item[] = [],
): Iterable<{ readonly item: Item; readonly blocks: readonly Item[] }> {
  for (const item of items) {
    const blocks = [...outer, item];
    yield { item, blocks };
    if (item.items.length > 0) yield* itemsIn(item.items, blocks);
  }
}

/** A word, and not a text in quotes. */
export function isWord(node: Span): node is Word {
  return "text" in node && !("words" in node) && node.line.text[node.from] !== '"';
}

function blocksAround(items: readonly Item[], head: Statement): readonly Item[] | undefined {
  for (const item of items) {
    if (item.head === head) return [item];
    const inside = item.items.length > 0 ? blocksAround(item.items, head) : undefined;
    if (inside) return [item, ...inside];
  }
  return undefined;
}

/** The first aircraft that a file belongs to; of a file that only fits an airframe, that one. */
export function rootWith(project: Project, path: string): Root | undefined {
  const { roots } = judge(project);
  const fitting = roots.find(({ root, airframe }) => airframe && isFitting(root, path));
  return (fitting ?? roots.find(root => root.files.includes(path)))?.root;
}

const isFitting = ({ reach, airframe }: Root, path: string) =>
  airframe?.item.head.line.file === path && !reach.files.some(it => it.path === path);

/** The lets that a statement sees: those of the blocks around it, then those of the aircraft. */
export function scopeAt(root: Root, blocks: readonly Item[]): Scope {
  return blocks
    .filter(({ head }) => head.kind !== "aircraft")
    .reduce((scope, { items }) => scopeIn(scope, letsOf(items)), root.scope);
}

/** A let's value as its author would write it; undefined where something in it is not known. */
export function valueOfLet(
  root: Root,
  { value }: Let,
  blocks: readonly Item[],
): string | undefined {
  const ask = askOf(root, "basic", () => {});
  const result = value && evaluate(value, { scope: scopeAt(root, blocks), report: () => {}, ask });
  if (result === undefined) return undefined;
  if (result.dimension === PLAIN && !result.unit) return showNumber(result.value);
  const unit = result.unit ?? derivedUnit(result.dimension, root.units);
  return unit
    ? show(result.value, unit)
    : `${showNumber(result.value)} (SI), ${nameOf(result.dimension)}`;
}

/** The thing a statement declares. */
export function memberWith(root: Root, head: Statement): Member | undefined {
  return membersByHead(root.aircraft).get(head);
}

export const membersByHead = memo((aircraft: Assembly): ReadonlyMap<Statement, Member> => {
  const found = new Map<Statement, Member>([[aircraft.head, aircraft]]);
  const visit = ({ members }: Assembly) => {
    for (const member of members) {
      found.set(member.head, member);
      if (member.kind === "assembly") visit(member);
    }
  };
  visit(aircraft);
  return found;
});

/** The comment lines directly above a declaration. */
export function documentationOf(project: Project, head: Statement): string {
  const lines = sourceOf(project, head.line.file)?.lines;
  const found: string[] = [];
  for (let at = lines ? indexOf(lines, head.line) - 1 : -1; lines && at >= 0; at--) {
    const text = lineAt(lines, at)!.text.trim();
    if (!text.startsWith("//")) break;
    found.unshift(text.replace(/^\/\/ ?/, ""));
  }
  return found.join("\n");
}
