import type { Item, Path, Text } from "../../grammar/tree";
import { memo } from "../memo";
import type { Member } from "../model/assembly";
import { clauseOf, clausesOf, membersOf } from "../model/clauses";
import { collector, type Fault } from "../model/fault";
import { airframeAfter, type Root } from "../model/root";
import { memberAt, membersAt } from "./member-at";

/** What is fitted by its serial number. No figure rests on one. */
export interface SerialNumbers {
  /** By path, with its side. */
  readonly byPath: ReadonlyMap<string, string>;
  readonly faults: readonly Fault[];
}

/**
 * The serial numbers of what an airframe has fitted: those its block and its changes give, the later
 * winning, as long as the same piece is there. What a declaration says of itself (`install part … sn`) is
 * asked for with `serialNumberOf`.
 * @param root by its parts or as weighed
 */
export const serialNumbersOf = memo((of: Root): SerialNumbers => {
  const root = of.rolledUp ?? of;
  const { report, found } = collector();
  const given = new Map<string, { readonly text: string; readonly item: Item }>();
  const blocks = [root.airframe?.item, ...root.changes.map(it => it.item)];
  for (const [i, block] of blocks.entries()) {
    const lines = membersOf(block?.items ?? []).flatMap(({ head }) =>
      head.kind === "serial-of" && head.path && head.text
        ? [{ path: head.path, text: head.text }]
        : [],
    );
    if (lines.length === 0) continue;
    const later = new Set(blocks.slice(i + 1).flatMap(it => membersOf(it?.items ?? [])));
    const chooses = [...later].some(it => it.head.kind === "choose");
    let then: Root | undefined;
    // what no later change touches is there as it was: an airframe is read again only where one does
    const rootWith = ({ text }: Path): Root => {
      const now = memberAt(root, text)?.member.item;
      if (now !== undefined && !chooses && !later.has(now)) return root;
      then ??= later.size === 0 ? root : airframeAfter(root, { changes: root.changes.slice(0, i) });
      return then;
    };
    const here = new Map<string, Path>();
    for (const { path, text } of lines) {
      const item = fittedAt(path, rootWith(path));
      if (item === undefined) continue;
      const other = here.get(path.text);
      if (other)
        report("declared-twice", path, `${path.text} has two serial numbers here`, [
          { at: other, message: "the other one" },
        ]);
      here.set(path.text, path);
      given.set(path.text, { text: text.text, item });
    }
  }
  const byPath = new Map<string, string>();
  for (const [path, { text, item }] of given)
    if (memberAt(root, path)?.member.item === item) byPath.set(path, text);
  return { byPath, faults: found() };

  function fittedAt(path: Path, then: Root): Item | undefined {
    const [first, ...others] = membersAt(then, path.text);
    const say = (code: string, message: string) => {
      report(code, path, message);
      return undefined;
    };
    if (path.text === then.name)
      return say("syntax", "this is the whole airframe: write serial and its number at its head");
    if (first === undefined)
      return say("unknown-name", `nothing is called ${path.text} in ${root.airframe?.name}`);
    if (first.member.kind === "reserve")
      return say("syntax", `${path.text} is a reserve: nothing of it is fitted`);
    if (first.pair || others.length > 0)
      return say(
        "syntax",
        `${path.text} has two sides, each with its own serial number: say which`,
      );
    return first.member.item;
  }
});

/** Of a member by its path, with its side: what the airframe gives it, else what its declaration says. */
export function serialNumberOf(root: Root, path: string, member: Member): string | undefined {
  const own: Text | undefined = clauseOf(clausesOf(member.item), "sn")?.text;
  return serialNumbersOf(root).byPath.get(path) ?? own?.text;
}

/** In the order of their paths' words, for a list. */
export function serialNumbers(root: Root): readonly (readonly [string, string])[] {
  const all = new Map<string, string>();
  const visit = (member: Member, path: string) => {
    const own = clauseOf(clausesOf(member.item), "sn")?.text?.text;
    if (own !== undefined) all.set(path, own);
    if (member.kind === "assembly")
      for (const it of member.members)
        visit(it, [path, it.name, "side" in it ? it.side : undefined].filter(Boolean).join("."));
  };
  visit(root.aircraft, "");
  for (const [path, text] of serialNumbersOf(root).byPath) all.set(path, text);
  return [...all].sort(([a], [b]) => (a < b ? -1 : 1));
}
