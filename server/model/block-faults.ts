import type { Clause, Item, Statement } from "../../grammar/tree";
import type { Member } from "./assembly";
import { clausesOf } from "./clauses";
import { isSide } from "./edits";
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
    // the two sides of one thing, read apart, share its name
    const first = names.get(member.path);
    if (first === undefined) names.set(member.path, member);
    else
      report(
        "declared-twice",
        member.head.path ?? member.head,
        `${member.path} is declared twice`,
        [{ at: first.head.path ?? first.head, message: "the other one" }],
      );
  }
}

/**
 * What an option or an airframe does to what is not there, or cannot have it done.
 * @param named all that stood here, also what was removed later
 */
export function reportLost(
  core: Core,
  members: readonly Member[],
  named: ReadonlySet<string | undefined>,
  report: Report,
): void {
  for (const { words, does, at } of core.edits) {
    const [name, next] = words;
    if (name === undefined || (words.length === 1 && (does === "put" || does === "remove")))
      continue;
    const path = joinPath(core.path, name);
    const member = members.find(it => it.name === name);
    const apart = member && "side" in member && member.side !== undefined;
    const sided = isSide(next);
    const rest = words.length - (sided ? 2 : 1);
    if (member === undefined) {
      // what was removed later was there when this was done
      if (named.has(name)) continue;
      const what = words.length > 1 ? "assembly" : does === "budget" ? "assembly or part" : "part";
      report("unknown-name", at, `there is no ${what} ${path}`);
    } else if (sided && !apart && !("mirrored" in member && member.mirrored) && !isStation(member))
      report(
        "unknown-name",
        at,
        core.mirrored
          ? `the side stands right after what is mirrored, and ${name} only stands in it`
          : `${path} is not mirrored: it has no ${next}`,
      );
    else if (isStation(member) && does === "move" && rest === 0 && !sided) continue;
    else if (isStation(member) || member.kind === "reserve")
      report(
        "syntax",
        at,
        `${path} is a ${member.kind}: an airframe ${isStation(member) ? "moves it, or " : ""}removes it and installs another`,
      );
    else if (rest > 0 && member.kind !== "assembly")
      report("unknown-name", at, `there is no assembly ${path}`);
    else if (rest === 0 && sided && does === "put")
      report("unknown-name", at, `${path}.${next} is one side of what is there already`);
    else if (
      rest === 0 &&
      does === "move" &&
      member.kind === "assembly" &&
      !clausesOf(member.item).some(it => it.kind === "at")
    )
      report("syntax", at, `${path} has no origin of its own (at …): move its parts`);
  }
}

const isStation = ({ kind }: Member) => kind === "tank" || kind === "seat" || kind === "bay";

type Block = "an assembly" | "a choice" | "an option" | "an airframe" | "a change";

/** What a block holds but does not count: nothing that is written is passed over in silence. */
export function reportStray(head: Statement, block: Block, report: Report): void {
  const { kind } = head;
  if (kind === "clause") {
    if (block !== "an assembly") reportStrayClause(head.clause, block, report);
  } else if ((block === "an airframe" || block === "a change") && fits.has(kind)) {
    // what only these blocks have
  } else if (block === "a choice" ? kind !== "option" : !memberKinds.has(kind) && kind !== "let")
    report("syntax", head, `${nameOf(kind)} does not stand in ${block}${instead[block]}`);
}

/** An option has the budgets of paths; of what else a clause says, nothing counts. */
export function reportStrayClause(clause: Clause, block: Block, report: Report): void {
  if (clause.kind === "note" || clause.kind === "effective" || clause.kind === "unread") return;
  if (block !== "an assembly" && block !== "a choice" && clause.kind === "budget") {
    if (clause.of === undefined)
      report("syntax", clause, `a budget of what? in ${block} its path stands before the figure`);
  } else report("syntax", clause, `${clause.kind} does not stand in ${block}${instead[block]}`);
}

const fits: ReadonlySet<Statement["kind"]> = new Set([
  "choose",
  "remove",
  "move",
  "record-of",
  "serial-of",
]);

const instead: Readonly<Record<Block, string>> = {
  "an assembly": ": write it at the top of a file, or in the aircraft's block",
  "a choice": ": write it in one of its options",
  "an option": ": write it outside its choice",
  "an airframe": ": write it at the top of a file",
  "a change": ": write it at the top of a file",
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
  "serial-of": "the serial number of a path",
  "swing-these": "swinging",
  missing: "what is missing",
};
