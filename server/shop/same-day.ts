import { dateOf, type MassRecord } from "../model/records";
import type { Root } from "../model/root";
import { same } from "../quantity/compare";
import type { Figure } from "./reading";
import { isOwnRecord, type Weighable, type WeighablePart, type WeighableWhole } from "./weighable";

/** The weighings of a piece that count and are of one day, the last written behind; of an airframe its own. */
function weighedOn(it: Weighable, root: Root, on: string): readonly MassRecord[] {
  const { part } = it as WeighablePart;
  const { assembly } = it as WeighableWhole;
  const records = part ? part.records : assembly.weighed ? [assembly.weighed] : [];
  return records.filter(
    record =>
      record.basis === "weighed" &&
      !record.history &&
      dateOf(record) === on &&
      isOwnRecord(root, record, it.item, it.fitted),
  );
}

/** What a day's weighings of a piece say of a further reading of that day. */
export type SameDay =
  | { readonly kind: "written" }
  /** The one that no longer governs. */
  | { readonly kind: "another"; readonly record: MassRecord };

/**
 * A reading that says what a record of that day and scale says is written already; one that says something
 * else governs over it, being the last written.
 */
export function sameDay(
  weighable: Weighable,
  root: Root,
  figure: Figure,
  { on, by }: { readonly on: string; readonly by: string },
): SameDay | undefined {
  const records = weighedOn(weighable, root, on);
  const mass = figure.mass / (figure.total ? weighable.pieces : 1);
  const spread = figure.spread && figure.spread / (figure.total ? weighable.pieces : 1);
  const isSame = (record: MassRecord) =>
    same(record.mass ?? Number.NaN, mass) &&
    (record.clause.by?.text ?? "") === by &&
    (record.spread === spread || same(record.spread ?? Number.NaN, spread ?? Number.NaN));
  if (records.some(isSame)) return { kind: "written" };
  const record = records.at(-1);
  return record && { kind: "another", record };
}
