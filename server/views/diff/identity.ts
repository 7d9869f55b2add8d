import type { Item, Span, Statement } from "../../../grammar/tree";
import type { Finding } from "../../findings";
import type { JudgedRoot } from "../../judge";
import { memo } from "../../memo";
import { type Project, sourceOf } from "../../project";

/** A finding as it is found again in another state of the text. */
export interface Identified {
  readonly finding: Finding;
  /** The aircraft it is of; of what no aircraft reaches, its file's name. */
  readonly root: JudgedRoot | undefined;
  /** The part, assembly, loading or envelope it stands in; "" is the aircraft. */
  readonly path: string;
}

/**
 * Where each finding belongs, by the things it stands in and not by its line: what moves in the text, or
 * to another file, keeps it.
 */
export function identified(
  project: Project,
  roots: readonly JudgedRoot[],
  findings: readonly Finding[],
): readonly Identified[] {
  const rootOf = new Map<string, JudgedRoot>();
  for (const root of [...roots].reverse()) for (const file of root.files) rootOf.set(file, root);
  const airframe = ({ airframes }: Finding) =>
    roots.find(it => it.airframe !== undefined && airframes?.includes(it.airframe));
  return findings.map(finding => ({
    finding,
    root: airframe(finding) ?? rootOf.get(finding.at.line.file),
    path: finding.subject ?? placeOf(project, finding.at),
  }));
}

/** The names of what a span stands in, joined with dots. */
function placeOf(project: Project, at: Span): string {
  const source = sourceOf(project, at.line.file);
  const names: string[] = [];
  let items = source?.items ?? [];
  for (let item = around(items, at); item; item = around(items, at)) {
    const name = item.head.kind === "aircraft" ? undefined : nameOf(item.head);
    if (name) names.push(name);
    items = item.items;
  }
  return names.join(".");
}

function around(items: readonly Item[], at: Span): Item | undefined {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (startsAfter(items[middle]!, at)) high = middle;
    else low = middle + 1;
  }
  const item = items[low - 1];
  if (item === undefined) return undefined;
  const end = item.close ?? lastOf(item);
  const past = end.line.rank < at.line.rank || (end.line === at.line && end.to < at.from);
  return past ? undefined : item;
}

const startsAfter = ({ head }: Item, at: Span) =>
  head.line.rank > at.line.rank || (head.line === at.line && head.from > at.from);

const lastOf = memo((item: Item): Span => {
  const last = item.items.at(-1);
  return last ? (last.close ?? lastOf(last)) : item.head;
});

function nameOf(head: Statement): string | undefined {
  if ("path" in head) return head.path?.text;
  return "name" in head ? head.name?.text : undefined;
}
