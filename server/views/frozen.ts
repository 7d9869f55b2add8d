import { listOf } from "../../grammar/lines";
import { positionsOf, type Source } from "../../grammar/source";
import type { Item, RecordClause, Span, StatementOf } from "../../grammar/tree";
import { clauseOf, clausesOf, membersOf } from "../model/clauses";
import { nameOfOption, optionsOf } from "../model/options";
import { isEffective } from "../model/records";
import type { Root } from "../model/root";

/**
 * An airframe as it stands, as a text that includes nothing: the design's files in the order of reading and
 * the airframe's own, without what is not of it: other airframes, options it does not have, and what is
 * effective for other serial numbers. A record that never held for it stays as history, so that a moment or a
 * revision beside it keeps its meaning. All else stays as it was written.
 */
export function frozen(root: Root): string {
  const { reach } = root;
  const texts = [
    ...reach.files.map(it => without(it, cutsIn(it, root))),
    // of the airframes' files those alone of which something is left
    ...reach.fitting.flatMap(it =>
      membersOf(it.items).some(item => isKept(item, root)) ? [without(it, cutsIn(it, root))] : [],
    ),
  ];
  return `${texts
    .map(it => it.replace(/\n{3,}/g, "\n\n").trim())
    .filter(it => it !== "")
    .join("\n\n")}\n`;
}

/** A stretch of a file that goes, with its row and the remark above it where nothing else is on it. */
interface Cut {
  readonly at: Span;
  /** Where a block that goes with it ends. */
  readonly to?: Span | undefined;
  readonly text: string;
}

function cutsIn(source: Source, root: Root): readonly Cut[] {
  return membersOf(source.items).flatMap(it => cutsOf(it, root));
}

function isKept({ head }: Item, { airframe }: Root): boolean {
  if (head.kind === "include") return false;
  if (head.kind === "airframe") return head.name?.text === airframe?.name;
  if (head.kind === "weighing" || head.kind === "change") return head.of?.text === airframe?.name;
  return true;
}

function cutsOf(item: Item, root: Root): readonly Cut[] {
  const { head } = item;
  const whole: readonly Cut[] = [{ at: head, to: item.close, text: "" }];
  if (!isKept(item, root)) return whole;
  if (head.kind === "choice") return choiceCuts(item, head, root);
  if (!("clauses" in head)) return [];
  const serial = root.airframe?.serial;
  const clauses = clausesOf(item);
  const own = clauseOf(clauses, "effective");
  if (own && !isEffective(own.serials, serial)) return whole;
  return [
    ...clauses.flatMap((it): readonly Cut[] => {
      if (it.kind === "effective") return [{ at: it, text: "" }];
      return it.kind === "record" && it.effective ? recordCuts(it, it.effective, serial) : [];
    }),
    ...membersOf(item.items).flatMap(it => cutsOf(it, root)),
  ];
}

function recordCuts(
  record: RecordClause,
  effective: Span,
  serial: number | undefined,
): readonly Cut[] {
  const { line, from } = record;
  const word = line.text.slice(0, effective.from).lastIndexOf("effective");
  const cut: Cut = { at: { line, from: word, to: effective.to }, text: "" };
  if (record.was || isEffective(record.effective, serial)) return [cut];
  return [{ at: { line, from, to: from }, text: "was " }, cut];
}

/** The options that are not fitted go, unless a change chooses among them. */
function choiceCuts(item: Item, head: StatementOf<"choice">, root: Root): readonly Cut[] {
  const name = head.name?.text;
  const chooses = (block: Item | undefined) =>
    membersOf(block?.items ?? []).some(
      it => it.head.kind === "choose" && it.head.choice?.text === name,
    );
  const inside = (option: Item) => membersOf(option.items).flatMap(it => cutsOf(it, root));
  if (root.changes.some(it => chooses(it.item))) return optionsOf(item).flatMap(inside);
  const fitted = name === undefined ? undefined : root.chosen.get(name);
  const { standard } = head;
  return [
    ...(standard && fitted ? [{ at: standard, text: fitted }] : []),
    ...optionsOf(item).flatMap((option): readonly Cut[] =>
      nameOfOption(option) === fitted
        ? inside(option)
        : [{ at: option.head, to: option.close, text: "" }],
    ),
  ];
}

/** A file's text with its cuts made. */
function without(source: Source, cuts: readonly Cut[]): string {
  const rows = listOf(source.lines).flatMap(it => it.text.split("\n"));
  const gone = new Set<number>();
  const spans = cuts
    .map(({ at, to, text }) => {
      const start = positionsOf(source, at).start;
      return { start, end: positionsOf(source, to ?? at).end, text };
    })
    .sort((a, b) => b.start.line - a.start.line || b.start.character - a.start.character);
  for (const { start, end, text } of spans) {
    const before = rows[start.line]!.slice(0, start.character);
    const after = rows[end.line]!.slice(end.character);
    if (text === "" && before.trim() === "" && /^\s*;?\s*(\/\/.*)?$/.test(after)) {
      for (let row = start.line; row <= end.line; row++) gone.add(row);
      for (let row = start.line - 1; isRemark(rows[row]); row--) gone.add(row);
      continue;
    }
    // of a statement or clause among others, the sign or the space that set it off goes with it
    const rest = text === "" ? after.replace(/^\s*;/, "") : after;
    const kept = text === "" ? before.replace(/[ \t]+$/, "") : before;
    rows[start.line] =
      text === "" && /^[\s{]*$/.test(before)
        ? `${before}${rest.trimStart()}`
        : `${kept}${text}${rest}`;
    for (let row = start.line + 1; row <= end.line; row++) gone.add(row);
  }
  return rows.filter((_, row) => !gone.has(row)).join("\n");
}

const isRemark = (row: string | undefined) => row !== undefined && /^\s*\/\//.test(row);
