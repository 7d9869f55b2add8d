import type { Position } from "../../grammar/source";
import { positionsOf } from "../../grammar/source";
import type { Item, Path, Statement } from "../../grammar/tree";
import { memberAt } from "../compute/member-at";
import { joinPath } from "../model/env";
import type { Root } from "../model/root";
import type { Project } from "../project";
import { sourceOf } from "../project";
import { declarationOf } from "./definition";
import { memberWith, nodesAt, rootWith } from "./place";

/** What `why` can tell of a position. */
export interface WhyAt {
  readonly root: Root;
  readonly path: string;
  /** The name itself is under the cursor, and not only something in what it declares. */
  readonly named: boolean;
}

/** The thing named under the cursor; else the one whose declaration the cursor stands in. */
export function whyAt(project: Project, file: string, position: Position): WhyAt | undefined {
  const at = nodesAt(project, file, position);
  const root = rootWith(project, file);
  if (at === undefined || root === undefined) return undefined;
  const said = at.nodes.findLast((node): node is Path => "words" in node);
  const target = declarationOf(root, at);
  if (target) {
    // with its side or its stage, where one is written
    const exact = said && usedAs(root, said.text, at.statement);
    const path = exact ?? pathDeclaredAt(project, root, target);
    if (path !== undefined) return { root, path, named: true };
  }
  const around = [at.statement, ...at.blocks.map(it => it.head).reverse()];
  for (const [i, head] of around.entries()) {
    const path = pathOf(root, head, at.blocks.slice(0, at.blocks.length - i));
    if (path !== undefined) return { root, path, named: false };
  }
  return undefined;
}

/** A path as it is used, if `why` understands it like that. */
function usedAs(root: Root, path: string, statement: Statement): string | undefined {
  if ("clauses" in statement && statement.path?.text === path) return undefined;
  if (memberAt(root, path)) return path;
  const [first, stage] = path.split(".");
  const { loadings } = root.statements;
  return stage && loadings.some(it => nameOf(it.head) === first) ? path : undefined;
}

function pathDeclaredAt(
  project: Project,
  root: Root,
  target: NonNullable<ReturnType<typeof declarationOf>>,
): string | undefined {
  const source = sourceOf(project, target.line.file);
  const declared = source && nodesAt(project, source.path, positionsOf(source, target).start);
  return declared && pathOf(root, declared.statement, declared.blocks);
}

function pathOf(root: Root, head: Statement, blocks: readonly Item[]): string | undefined {
  const member = memberWith(root, head);
  if (member) return member === root.aircraft ? root.name : member.path;
  if (head.kind === "let") {
    const outer = [...blocks].reverse().find(it => it.head.kind === "assembly");
    const around = outer && memberWith(root, outer.head)?.path;
    return head.name && joinPath(around ?? "", head.name.text);
  }
  if (head.kind === "fluid") return head.path?.text;
  if (head.kind === "weighing" && head.of && head.name) return `${head.of.text}.${head.name.text}`;
  // a change is told of where its airframe is
  if (head.kind === "change") return head.of?.text;
  const kinds = ["loading", "envelope", "configuration", "airframe", "choice"];
  return kinds.includes(head.kind) ? nameOf(head) : undefined;
}

const nameOf = (head: Statement) =>
  "name" in head && head.name !== undefined ? head.name.text : undefined;
