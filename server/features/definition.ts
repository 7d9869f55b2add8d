import type { Position } from "../../grammar/source";
import type { Name, Path, Span, Statement, Word } from "../../grammar/tree";
import { memberAt } from "../compute/ask";
import { letsOf } from "../model/assembly";
import { reachesOf } from "../model/reach";
import type { Root } from "../model/root";
import type { Project } from "../project";
import { type At, nodesAt, rootWith } from "./place";

/** A place in a file, or the whole of one. */
export type Target = { readonly at: Span } | { readonly file: string };

/** Where the thing under the cursor is declared: nothing, one place, or several. */
export function definition(project: Project, path: string, position: Position): readonly Target[] {
  const at = nodesAt(project, path, position);
  if (at === undefined) return [];
  if (at.statement.kind === "include") {
    const file = reachesOf(project).targets.get(at.statement);
    return file === undefined ? [] : [{ file }];
  }
  const root = rootWith(project, path);
  const target = root && targetAt(root, at);
  return target ? [{ at: target }] : [];
}

/** The declaration that a name under the cursor means. */
export function targetAt(root: Root, { statement, nodes }: At): Span | undefined {
  const path = nodes.findLast((node): node is Path => "words" in node);
  const word = nodes.findLast((node): node is Word => "text" in node && !("words" in node));
  const name = nodes.findLast((node): node is Name => "kind" in node && node.kind === "name");
  if (path) {
    const upTo = path.words.slice(0, word ? path.words.indexOf(word) + 1 : undefined);
    const text = upTo.map(it => it.text).join(".");
    return (
      (name && upTo.length === 1 ? letCalled(root, text) : undefined) ??
      declared(root, text) ??
      declared(root, path.text)
    );
  }
  if (word === undefined) return undefined;
  return wordMeans(root, statement, word);
}

function declared(root: Root, path: string): Span | undefined {
  const member = memberAt(root, path)?.member;
  if (member) return member.head.path ?? member.head;
  const [first] = path.split(".");
  return (
    named(
      root.statements.loadings.map(it => it.head),
      first!,
    ) ??
    named(
      root.envelopes.map(it => it.item.head),
      first!,
    )
  );
}

function wordMeans(root: Root, statement: Statement, { text }: Word): Span | undefined {
  switch (statement.kind) {
    case "loading":
      return named(
        root.envelopes.map(it => it.item.head),
        text,
      );
    case "choose":
      return named(
        root.statements.choices.map(it => it.head),
        text,
      );
    case "choice":
    case "weighing":
    case "change":
      return named(
        root.statements.airframes.map(it => it.head),
        text,
      );
    default:
      return root.fluids.get(text)?.head.path;
  }
}

function named(heads: readonly Statement[], name: string): Span | undefined {
  for (const head of heads) if ("name" in head && head.name?.text === name) return head.name;
  return undefined;
}

/** The first let of that name in the aircraft's files: blocks rarely use one name twice. */
function letCalled(root: Root, name: string): Span | undefined {
  const search = (items: Parameters<typeof letsOf>[0]): Span | undefined => {
    const found = letsOf(items).find(it => it.name?.text === name)?.name;
    if (found) return found;
    for (const item of items) {
      const inside = item.items.length > 0 ? search(item.items) : undefined;
      if (inside) return inside;
    }
    return undefined;
  };
  for (const file of root.reach.files) {
    const found = search(file.items);
    if (found) return found;
  }
  return undefined;
}
