import type { Clause, Item, Statement } from "../../grammar/tree";
import type { Member } from "./assembly";
import { type Core, joinPath } from "./env";
import type { Report } from "./fault";

/** What may be a member of an assembly. */
const memberKinds: ReadonlySet<Statement["kind"]> = new Set([
  "part",
  "ballast",
  "assembly",
  "reserve",
  "tank",
  "seat",
  "bay",
]);

/** The name of something in an assembly's block; a path belongs in an option, an airframe or a change. */
export function declaredName(item: Item, report: Report): string | undefined {
  const { head } = item;
  if (!("clauses" in head) || head.path === undefined) return undefined;
  if (head.path.words.length > 1 && memberKinds.has(head.kind)) {
    report(
      "syntax",
      head.path,
      "write this inside its assembly; a path stands in an option or an airframe",
    );
    return undefined;
  }
  return head.path.text;
}

export function reportTwice(members: readonly Member[], report: Report): void {
  const names = new Map<string, Member>();
  for (const member of members) {
    const first = names.get(member.name);
    if (first === undefined) names.set(member.name, member);
    else
      report(
        "declared-twice",
        member.head.path ?? member.head,
        `${member.path} is declared twice`,
        [{ at: first.head.path ?? first.head, message: "the other one" }],
      );
  }
}

/** What an option puts where nothing is, or on one side of something. */
export function reportLost(core: Core, members: readonly Member[], report: Report): void {
  for (const { words, item, budget } of core.additions) {
    const [name, next] = words;
    if (name === undefined || (words.length === 1 && budget === undefined)) continue;
    const member = members.find(it => it.name === name);
    const path = joinPath(core.path, name);
    const { head } = item;
    const clause = head.kind === "clause" && head.clause.kind === "budget" && head.clause.of;
    const at = "clauses" in head && head.path ? head.path : clause || head;
    if (member && "mirrored" in member && member.mirrored && isSide(next))
      report(
        "syntax",
        at,
        `${path}.${next} is one side alone, which an option cannot change yet; ${path} means both`,
      );
    else if (words.length > 1 && member?.kind !== "assembly")
      report("unknown-name", at, `there is no assembly ${path}`);
    else if (words.length === 1 && !(member && "budget" in member))
      report("unknown-name", at, `there is no assembly or part ${path}`);
  }
}

export const isSide = (word: string | undefined) => word === "LH" || word === "RH";

type Block = "an assembly" | "a choice" | "an option";

/** What a block holds but does not count: nothing that is written is passed over in silence. */
export function reportStray(head: Statement, block: Block, report: Report): void {
  const { kind } = head;
  if (kind === "clause") {
    if (block !== "an assembly") reportStrayClause(head.clause, block, report);
  } else if (block === "a choice" ? kind !== "option" : !memberKinds.has(kind) && kind !== "let")
    report("syntax", head, `${nameOf(kind)} does not stand in ${block}${instead[block]}`);
}

/** An option has the budgets of paths; of what else a clause says, nothing counts. */
export function reportStrayClause(clause: Clause, block: Block, report: Report): void {
  if (clause.kind === "note" || clause.kind === "effective") return;
  if (block === "an option" && clause.kind === "budget") {
    if (clause.of === undefined)
      report("syntax", clause, "a budget of what? in an option its path stands before the figure");
  } else report("syntax", clause, `${clause.kind} does not stand in ${block}${instead[block]}`);
}

const instead: Readonly<Record<Block, string>> = {
  "an assembly": ": write it at the top of a file, or in the aircraft's block",
  "a choice": ": write it in one of its options",
  "an option": ": write it outside its choice",
};

function nameOf(kind: Statement["kind"]): string {
  const irregular = names[kind];
  return irregular ?? `${/^[aeiou]/.test(kind) ? "an" : "a"} ${kind}`;
}
const names: Partial<Record<Statement["kind"], string>> = {
  waive: "a waiver",
  require: "a requirement",
  load: "an amount",
  choose: "choosing",
  remove: "removing",
  move: "moving",
  "record-of": "a record of a path",
  "swing-these": "swinging",
  missing: "what is missing",
};
