import type { StatementOf } from "../../grammar/tree";
import { memo } from "../memo";
import type { Envelope } from "../model/envelope";
import { collector, type Fault } from "../model/fault";
import { massOf } from "../model/figures";
import { type Spot, spotAt } from "../model/loading";
import { noSums } from "../model/part";
import type { Root } from "../model/root";
import type { Unit } from "../quantity/units";
import type { State } from "./contents";

/** What some places may hold together: `limit 65 lb of baggage, bow_locker`. */
export interface LoadLimit {
  readonly statement: StatementOf<"limit">;
  /** kg */
  readonly most: number;
  readonly unit: Unit;
  readonly spots: readonly Spot[];
  /** Undefined: it holds in every loading. */
  readonly under: Envelope | undefined;
}

/** Every limit that can be understood, and what cannot be in the others. */
export const loadLimitsOf = memo(
  (root: Root): { readonly limits: readonly LoadLimit[]; readonly faults: readonly Fault[] } => {
    const { report, found } = collector();
    const setting = { scope: root.scope, report, ask: noSums(report) };
    const all = [
      ...root.statements.limits.map(statement => ({ statement, under: undefined })),
      ...root.envelopes.flatMap(under => under.limits.map(statement => ({ statement, under }))),
    ];
    const limits = all.flatMap(({ statement, under }): LoadLimit[] => {
      const most = massOf(statement.amount, "a limit", setting);
      const spots = statement.of.map(path => spotAt(path, root, setting));
      if (most === undefined || !spots.every(it => it !== undefined)) return [];
      const unit = most.unit ?? root.units.mass;
      return [{ statement, most: most.value, unit, spots, under }];
    });
    return { limits, faults: found() };
  },
);

/** kg in all the places a limit names, both sides of those that it names without a side. */
export function heldIn(state: State, { spots }: LoadLimit): number {
  let mass = 0;
  for (const { station, side } of spots) {
    const { right = 0, left = 0 } = state.get(station) ?? {};
    mass += side === "RH" ? right : side === "LH" ? left : right + left;
  }
  return mass;
}
