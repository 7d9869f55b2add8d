import type { Statement } from "../../grammar/tree";
import { serialNumbers } from "../compute/serial-numbers";
import { emptyOf } from "../compute/stages";
import { asWeighed, weighingsOf } from "../compute/weighing";
import type { Balance } from "../compute/weight";
import { type Root, rootsOf } from "../model/root";
import { show } from "../quantity/show";
import { type Entry, historyOf } from "../views/history";

/** Title and rows of what is kept of an airframe; undefined: the statement is nothing of the kind. */
export interface Kept {
  readonly title: string;
  readonly rows: readonly (readonly [string, string])[];
}

/** An airframe, its weighing or its change, of whichever airframe the statement speaks. */
export function keptOf(root: Root, head: Statement): Kept | undefined {
  if (head.kind !== "airframe" && head.kind !== "weighing" && head.kind !== "change")
    return undefined;
  const name = head.kind === "airframe" ? head.name?.text : head.of?.text;
  const own = rootsOf(root.reach).find(it => it.airframe?.name === name);
  if (own?.airframe === undefined) return undefined;
  if (head.kind === "airframe") return airframeKept(own);
  return head.kind === "weighing" ? weighingKept(own, head) : changeKept(own, head);
}

function airframeKept(own: Root): Kept {
  const weighed = asWeighed(own);
  const { basic } = emptyOf(weighed);
  const { airframe, chosen } = own;
  const last = weighingsOf(own).findLast(it => !it.broken);
  return {
    title: airframe?.title ?? airframe?.name ?? "",
    rows: [
      ["basic empty weight", balanceText(basic, own)],
      ["rests on", last ? `weighing ${last.name}, ${last.on}` : "its parts: not weighed yet"],
      ...[...chosen].map(([choice, option]) => [choice, option] as const),
      ...serialNumbers(own).map(([path, text]) => [`S/N of ${path}`, text] as const),
    ],
  };
}

function weighingKept(own: Root, head: Statement): Kept | undefined {
  const it = weighingsOf(own).find(it => it.item.head === head);
  if (it === undefined) return undefined;
  const { mass, length } = own.units;
  const where = it.unexplainedFs === undefined ? "" : `, near FS ${show(it.unexplainedFs, length)}`;
  return {
    title: `${it.name}, weighing of ${own.airframe?.title ?? own.airframe?.name} on ${it.on}`,
    rows: it.broken
      ? [["basic empty weight", "not understood: it does not count"]]
      : [
          ["basic empty weight", balanceText(it.balance, own)],
          ["by its parts", balanceText(it.rolledUp, own)],
          ["unexplained", `${show(it.unexplained, mass)}${where}`],
          ["both may be off", it.off === 0 ? "no spread is known" : `± ${show(it.off, mass)}`],
        ],
  };
}

function changeKept(own: Root, head: Statement): Kept | undefined {
  const change = own.changes.find(it => it.item.head === head);
  if (change === undefined) return undefined;
  const { mass } = own.units;
  const entries = historyOf(own);
  const at = entries.findIndex(it => it.on === change.on && it.what === `change ${change.name}`);
  const now = entries[at]?.empty;
  const before = entries.slice(0, at).findLast(it => it.empty)?.empty;
  const by = now && before && now.mass - before.mass;
  return {
    title: `${change.name}, change of ${own.airframe?.title ?? own.airframe?.name} on ${change.on}`,
    rows: [
      ["adds", by === undefined ? "not known" : show(by, mass)],
      ["basic empty weight then", now ? balanceText(now, own) : "not known"],
      ...(entries[at]?.negligible ? [["negligible", negligibleText(entries[at])] as const] : []),
    ],
  };
}

const negligibleText = ({ negligible }: Entry) =>
  negligible === "together"
    ? "by AC 43.13-1B, 10-2c, also with those before it"
    : "by AC 43.13-1B, 10-2c, by itself; not with those before it";

function balanceText({ mass, fs, complete }: Balance, { units }: Root): string {
  const station = fs === null ? "" : `, FS ${show(fs, units.length)}`;
  return `${show(mass, units.mass)}${station}${complete ? "" : " (incomplete)"}`;
}
