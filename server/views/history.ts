import { type MemberAt, membersAt } from "../compute/member-at";
import { isNegligible } from "../compute/negligible";
import { totalsOf } from "../compute/scales";
import { asDrawn, emptyOf, emptyTotals } from "../compute/stages";
import { aroundChange, changeOf, weighingsOf } from "../compute/weighing";
import { type Balance, balanceOf, merge, none, oneSide } from "../compute/weight";
import { clauseOf, clausesOf, membersOf } from "../model/clauses";
import { airframeAfter, type Change, type Root } from "../model/root";

/** A line of an airframe's weight and balance record: kg, m. */
export interface Entry {
  /** ISO; empty: at the beginning. */
  readonly on: string;
  readonly what: string;
  /** Of one item: what came in, or went out; null: nobody knows. */
  readonly mass?: number | null;
  readonly fs?: number | null;
  /** Of one item: something in it has no mass; no mass or no arm. */
  readonly lacks?: { readonly mass: boolean; readonly fs: boolean };
  /** The basic empty weight and CG from then on. */
  readonly empty?: Balance;
  /**
   * Of a change that is negligible by published thresholds (`isNegligible`): by itself, or also together
   * with those before it, back to the last weighing or change that was not.
   */
  readonly negligible?: "alone" | "together";
}

/**
 * All that was done to an airframe, in order of dates: its weighings and its changes item by item, with the
 * basic empty weight and CG that follow. Where nobody weighed it, it begins with the sum of its parts.
 */
export function historyOf(root: Root): readonly Entry[] {
  const base = root.rolledUp ?? root;
  const weighings = weighingsOf(base);
  const start = airframeAfter(base, { changes: [] });
  const entries: Entry[] = [{ on: "", what: "sum of its parts", empty: emptyOf(start).basic }];
  let now = none();
  merge(now, emptyTotals(asDrawn(start)));
  const steps = [
    // on the day of a weighing a change counts as after it
    ...weighings.map(weighing => ({ on: weighing.on, order: 0, weighing, change: undefined })),
    ...base.changes.map(change => ({ on: change.on, order: 1, weighing: undefined, change })),
  ].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : a.order - b.order));
  let last = emptyOf(start).basic;
  let since = last;
  let isWeighed = false;
  // of what came and went since the weighing
  let unknown = 0;
  for (const { on, weighing, change } of steps)
    if (weighing?.broken) {
      entries.push({ on, what: `weighing ${weighing.name}, not understood` });
      // what follows rests on what could not be read
      unknown++;
    } else if (weighing) {
      isWeighed = true;
      unknown = 0;
      now = none();
      merge(now, weighing.totals);
      last = weighing.balance;
      since = last;
      entries.push({ on, what: `weighing ${weighing.name}`, empty: last });
    } else if (change) {
      const { before, after } = aroundChange(base, change);
      merge(now, changeOf(base, change));
      unknown += Math.abs(asDrawn(after).unknown - asDrawn(before).unknown);
      const empty = isWeighed ? balanceOf(now, unknown) : emptyOf(after).basic;
      const alone = isNegligible(last, empty, root.mac);
      const together = alone && isNegligible(since, empty, root.mac);
      entries.push(...itemsOf(base, change), {
        ...{ on, what: `change ${change.name}`, empty },
        ...(alone ? { negligible: together ? "together" : "alone" } : {}),
      });
      last = empty;
      // what has added up is told of once, and counts anew from there
      if (!together) since = empty;
    }
  return entries;
}

/** What comes in and what goes out, each by itself. */
function itemsOf(base: Root, change: Change): readonly Entry[] {
  const { before, after } = aroundChange(base, change);
  const entry = (what: string, root: Root, path: string, sign: 1 | -1): Entry => {
    const members = membersAt(root, path);
    // a tank or a seat is no mass, and what is held back never was there
    const its = members.filter(it => ["part", "ballast", "assembly"].includes(it.member.kind));
    if (its.length === 0 && members.length > 0) return { on: change.on, what };
    const sum = none();
    for (const it of its) merge(sum, totalsOf(it));
    const unknown = its.filter(it => !isKnown(it)).length;
    const { fs, mass, complete, massKnown } = balanceOf(sum, unknown);
    const isNothing = its.length === 0 || (!massKnown && mass === 0);
    return {
      ...{ on: change.on, what, mass: isNothing ? null : sign * mass, fs },
      ...(isNothing ? {} : { lacks: { mass: !massKnown, fs: !complete } }),
    };
  };
  return membersOf(change.item.items).flatMap((item): readonly Entry[] => {
    const { head } = item;
    if (head.kind === "remove")
      return head.paths.map(it => entry(`remove ${it.text}`, before, it.text, -1));
    if (head.kind === "move" && head.path) {
      const { text } = head.path;
      return [
        entry(`move ${text} from`, before, text, -1),
        entry(`move ${text} to`, after, text, 1),
      ];
    }
    if (head.kind === "choose")
      return [
        { on: change.on, what: `choose ${head.choice?.text ?? ""} ${head.option?.text ?? ""}` },
      ];
    if (head.kind === "serial-of" && head.path && head.text)
      return [{ on: change.on, what: `${head.path.text}: S/N ${head.text.text}` }];
    if ("installed" in head && head.path) {
      const sn = clauseOf(clausesOf(item), "sn")?.text?.text;
      const number = sn === undefined ? "" : `, S/N ${sn}`;
      return [entry(`install ${head.path.text}${number}`, after, head.path.text, 1)];
    }
    return [];
  });
}

const isKnown = ({ member }: MemberAt) =>
  member.kind === "assembly"
    ? oneSide(member).unknown === 0
    : !("mass" in member) || member.mass !== undefined;
