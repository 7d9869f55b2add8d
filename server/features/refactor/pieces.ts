import { positionsOf, textOf } from "../../../grammar/source";
import type { Coord, Item, Span, Word } from "../../../grammar/tree";
import { memberAt } from "../../compute/member-at";
import type { Member } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import { joinPath } from "../../model/env";
import type { Root } from "../../model/root";
import { type Project, sourceOf } from "../../project";
import type { Edit } from "../amend";
import { occurrences, pathAround } from "../names";
import { nodesIn } from "../place";
import { edited, fileEdits, type Offer, type Refusal, type Rewrite } from "./rewrite";
import { ownRows } from "./rows";
import { plainNumber } from "./walk";

/** One of several like pieces becomes a part of its own, to be placed, weighed or dropped by itself. */
export function splitting(project: Project, root: Root, member: Member): readonly Offer[] {
  const { item } = member;
  const qty = clauseOf(clausesOf(item), "qty");
  const count = plainNumber(qty?.value);
  if (member.kind !== "part" || qty?.value === undefined || count === undefined) return [];
  if (!Number.isInteger(count) || count < 2) return [];
  const { value } = qty;
  const fresh = freeName(root, member);
  return [
    {
      title: `Split one of the ${count} off, as ${fresh}`,
      kind: "extract",
      rewrite: () => {
        const total = clausesOf(item).some(it => it.kind === "record" && it.total);
        if (total) return { refused: "a total is of all of them, and says nothing of one" };
        const edits = [{ at: value, text: `${count - 1}` }];
        const copy = [{ at: nameAt(item), text: fresh }, without(qty)];
        return withCopy(project, item, edits, copy);
      },
      keeps: { spreads: true },
    },
  ];
}

/** Of something mirrored both sides become parts of their own, the left one with its BL turned. */
export function unmirroring(project: Project, root: Root, member: Member): readonly Offer[] {
  const { item, name } = member;
  const mirrored = clauseOf(clausesOf(item), "mirrored");
  const [right, left] = [`${name}_rh`, `${name}_lh`];
  if (mirrored === undefined || [right, left].some(it => isTaken(root, member, it))) return [];
  const [from, toRight, toLeft] = [name, right, left].map(it => pathOf(member, it));
  return [
    {
      title: `Make two of the mirrored ${name}: ${right} and ${left}`,
      kind: "rewrite",
      rewrite: () => {
        const named = (text: string): readonly Edit[] => [
          { at: nameAt(item), text },
          without(mirrored),
        ];
        const copied = withCopy(project, item, named(right), [...named(left), ...turnedIn(item)]);
        if ("refused" in copied) return copied;
        const spoken = sidesSpokenOf(project, root, member, { RH: right, LH: left });
        return { ...copied, edits: [...copied.edits, ...fileEdits(project, spoken)] };
      },
      keeps: {
        spreads: true,
        renamed: key =>
          key.replace(`${from}.RH`, () => toRight!).replace(`${from}.LH`, () => toLeft!),
      },
    },
  ];
}

/** Where one side of something mirrored is spoken of, it is called by a name of its own. */
function sidesSpokenOf(
  project: Project,
  root: Root,
  { item, path }: Member,
  names: Readonly<Record<string, string>>,
): readonly Edit[] {
  const word = nameAt(item) as Word;
  return occurrences(project, { word, meaning: path, root }).flatMap(({ at, declares }) => {
    const words = pathAround(at)?.words ?? [];
    const side = words[words.findIndex(it => it.from === at.from) + 1];
    const name = side && names[side.text];
    if (declares || side === undefined || name === undefined) return [];
    return [{ at: { line: at.line, from: at.from, to: side.to }, text: name }];
  });
}

/** Of a right-hand and a left-hand one that are alike but for their BL one mirrored thing. */
export function mirroring(project: Project, root: Root, member: Member): readonly Offer[] {
  const stem = /^(.+)_(?:rh|right)$/i.exec(member.name)?.[1];
  const other = /_right$/i.test(member.name) ? `${stem}_left` : `${stem}_lh`;
  if (stem === undefined || !("members" in member || member.kind === "part")) return [];
  const left = memberAt(root, pathOf(member, other))?.member;
  if (left === undefined || isTaken(root, member, stem)) return [];
  const [from, to] = [pathOf(member, member.name), pathOf(member, stem)];
  return [
    {
      title: `Make one mirrored ${stem} of ${member.name} and ${other}`,
      kind: "rewrite",
      rewrite: () => {
        const source = sourceOf(project, left.item.head.line.file);
        const rows = source && ownRows(source, left.item);
        if (source === undefined || rows === undefined)
          return { refused: `something else stands on the rows of ${other}` };
        const { line, to: behind } = member.head.title ?? nameAt(member.item);
        const spoken = [
          [member, "RH"],
          [left, "LH"],
        ] as const;
        const edits = spoken.flatMap(([it, side]) =>
          occurrences(project, {
            ...{ word: nameAt(it.item) as Word, meaning: it.path, root },
          }).flatMap(({ at, declares }) => (declares ? [] : [{ at, text: `${stem}.${side}` }])),
        );
        const gone = {
          start: { line: rows.from, character: 0 },
          end: { line: rows.last + 1, character: 0 },
        };
        return {
          edits: [
            ...fileEdits(project, [
              { at: nameAt(member.item), text: stem },
              { at: { line, from: behind, to: behind }, text: " mirrored" },
              ...edits,
            ]),
            { path: source.path, ...gone, text: "" },
          ],
        };
      },
      keeps: {
        spreads: true,
        renamed: key =>
          key.replace(pathOf(member, other), () => `${to}.LH`).replace(from, () => `${to}.RH`),
      },
    },
  ];
}

/** A declaration with edits in it, and behind it a copy of it with others. */
function withCopy(
  project: Project,
  item: Item,
  edits: readonly Edit[],
  others: readonly Edit[],
): Rewrite | Refusal {
  const { head, close } = item;
  const source = sourceOf(project, head.line.file);
  if (source === undefined) return { refused: "the file is gone" };
  const own = ownRows(source, item);
  if (own === undefined) return { refused: "something else stands on its rows" };
  const { start } = positionsOf(source, head);
  const { end } = positionsOf(source, close ?? head);
  const text = textOf(source);
  const indent = text.split("\n")[start.line]!.slice(0, start.character);
  const copy = edited(text, fileEdits(project, others), { start, end });
  const after = own.end;
  return {
    edits: [
      ...fileEdits(project, edits),
      { path: source.path, start: after, end: after, text: `\n${indent}${copy}` },
    ],
  };
}

/** What goes with BL changes its sign on the other side. */
function turnedIn(item: Item): readonly Edit[] {
  return [item.head, ...inside(item)].flatMap(head =>
    [...nodesIn(head)].flatMap((node): readonly Edit[] => {
      if ("axis" in node && node.axis === "BL" && "upTo" in node) {
        const { value, upTo } = node as Coord;
        return value === undefined || upTo ? [] : [{ at: value, text: negated(value) }];
      }
      if ("terms" in node)
        return (node.terms as readonly { name: string; value?: Span }[]).flatMap(it =>
          it.value && turns.has(it.name) ? [{ at: it.value, text: negated(it.value) }] : [],
        );
      return [];
    }),
  );
}
const turns = new Set(["Ixy", "Iyz"]);

const inside = (item: Item): readonly Span[] => item.items.flatMap(it => [it.head, ...inside(it)]);

function negated(value: Span): string {
  const text = value.line.text.slice(value.from, value.to);
  if (plainNumber(value) === 0) return text;
  if ("kind" in value && value.kind === "negative") return text.replace(/^[-−]\s*/, "");
  return "kind" in value && value.kind === "quantity" ? `-${text}` : `-(${text})`;
}

function nameAt({ head }: Item): Span {
  return "clauses" in head && head.path ? head.path.words.at(-1)! : head;
}

/** A clause goes with the space before it. */
function without({ line, from, to }: Span): Edit {
  const before = line.text.slice(0, from).trimEnd().length;
  return { at: { line, from: before, to }, text: "" };
}

function freeName(root: Root, member: Member): string {
  for (let i = 2; ; i++)
    if (!isTaken(root, member, `${member.name}_${i}`)) return `${member.name}_${i}`;
}

const isTaken = (root: Root, member: Member, name: string) =>
  memberAt(root, pathOf(member, name)) !== undefined;

/** The path of a thing of another name in the same block. */
const pathOf = ({ path }: Member, name: string) =>
  joinPath(path.slice(0, Math.max(0, path.lastIndexOf("."))), name);
