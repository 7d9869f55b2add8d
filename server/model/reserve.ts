import type { Declaration, Item } from "../../grammar/tree";
import type { Unit } from "../quantity/units";
import { clauseOf, clausesOf, isUnread } from "./clauses";
import { type Core, joinPath, type Place } from "./env";
import type { Setting } from "./evaluate";
import { type Outside, outsideOf } from "./extent";
import { collector, type Fault } from "./fault";
import { massOf } from "./figures";
import { reportAgain } from "./once";
import { noSums } from "./part";
import { placedIn, placeOf } from "./places";
import type { Scope } from "./scope";

/** Mass held back: in predicted, never in basic. */
export interface Reserve {
  readonly kind: "reserve";
  readonly item: Item;
  readonly head: Declaration;
  readonly name: string;
  readonly path: string;
  readonly mass: number | undefined;
  readonly place: Place | undefined;
  /** Coordinates beyond the aircraft's extent. */
  readonly outside: readonly Outside[];
  readonly unit: Unit;
  /** Something in it is not understood: what is predicted may be more. */
  readonly broken: boolean;
  readonly faults: readonly Fault[];
}

export function reserveOf(item: Item, name: string, core: Core, scope: Scope): Reserve {
  const head = item.head as Declaration;
  const { report, found } = collector();
  const setting: Setting = { scope, report, ask: noSums(report) };
  const mass = massOf(head.figure, "a reserve", setting);
  const clauses = clausesOf(item);
  reportAgain(clauses, report);
  const at = clauseOf(clauses, "at");
  return {
    kind: "reserve",
    item,
    head,
    name,
    path: joinPath(core.path, name),
    mass: mass?.value,
    place: at ? placedIn(core, placeOf(at.point, core.units.length, setting)) : undefined,
    outside: outsideOf(at ? [at.point] : [], core.mirrored, core, setting),
    unit: mass?.unit ?? core.units.mass,
    broken: found().length > 0 || isUnread(clauses) || mass === undefined,
    faults: found(),
  };
}
