import { weighingsOf } from "../compute/weighing";
import type { Root } from "../model/root";
import { weighablesOf, wholesOf } from "./weighable";

/**
 * The day an aircraft stands as of: all dated lines count, whatever today is, so one that is still to come
 * carries it there.
 * @param root by its parts, or as weighed
 * @param today ISO
 * @returns what is dated latest, where that is after today
 */
export function stillToCome(
  root: Root,
  today: string,
): { readonly on: string; readonly what: string } | undefined {
  const base = root.rolledUp ?? root;
  const dated = [
    ...base.changes.map(({ on, name }) => ({ on, what: `change ${name}` })),
    ...weighingsOf(base).map(({ on, name }) => ({ on, what: `weighing ${name}` })),
    ...[...weighablesOf(base), ...wholesOf(base)].map(({ before, path }) => ({
      on: before?.on ?? "",
      what: `record of ${path}`,
    })),
  ];
  return dated
    .filter(it => it.on > today)
    .reduce<(typeof dated)[number] | undefined>((a, b) => (a && a.on >= b.on ? a : b), undefined);
}

/** "as it stood on 2026-11-28", or with what is still to come in it. */
export function asOf(root: Root, today: string, word: string): string {
  const last = stillToCome(root, today);
  return last
    ? `with all that is dated until ${last.on} (${last.what}), ${word} on ${today}`
    : `as it stood on ${today}`;
}
