import type { Item, Span, StatementOf } from "../../grammar/tree";
import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import { clauseOf, clausesOf } from "../model/clauses";
import { collector, type Fault } from "../model/fault";
import type { Root } from "../model/root";
import type { Station } from "../model/station";
import { membersAt } from "./member-at";
import { holdsSwung, movedSum, type Side, type Sum, type Swung, sidesOf, swingTurn } from "./moved";
import { asDrawn, type Shape } from "./stages";
import { after, mirror, still, type Turn, turned } from "./turn";
import { merge, none, subtract, type Totals, weightOf } from "./weight";

/** A set of assemblies that are swung together. */
export interface Configuration {
  readonly item: Item;
  readonly name: string;
  readonly title: string | undefined;
  /** Judged on the ground only: no loading flies in it. */
  readonly ground: boolean;
  readonly at: Span;
  readonly swung: Swung;
  /** All of it can be swung: only then is anything judged in it. */
  readonly sound: boolean;
  readonly faults: readonly Fault[];
}

export const configurationsOf = memo((root: Root): readonly Configuration[] =>
  root.statements.configurations.map(item => configurationOf(item, root)),
);

/** As drawn, and every configuration that flies. */
export const shapesOf = memo((root: Root): readonly Shape[] => [
  asDrawn(root),
  ...configurationsOf(root)
    .filter(it => !it.ground && it.sound)
    .map(it => shapeIn(root, it)),
]);

function configurationOf(item: Item, root: Root): Configuration {
  const head = item.head as StatementOf<"configuration">;
  const { report, found } = collector();
  const swung = new Map<Assembly, "RH" | "LH" | "both">();
  let sound = true;
  for (const { head: line } of item.items) {
    if (line.kind !== "swing-these") continue;
    for (const path of line.paths) {
      const members = membersAt(root, path.text);
      if (members[0]?.member.kind !== "assembly")
        report("unknown-name", path, `no assembly is called ${path.text}`);
      for (const member of members) {
        if (member.member.kind !== "assembly") continue;
        const assembly = member.member;
        const turn = swingTurn(assembly);
        if (turn === undefined) {
          if (clauseOf(clausesOf(assembly.item), "swing") === undefined)
            report("unknown-name", path, `${path.text} has no swing`);
          sound = false;
          continue;
        }
        const before = swung.get(assembly);
        const side = member.side ?? "both";
        if (before && (before === "both" || side === "both" || before === side))
          report("declared-twice", path, `${path.text} is swung twice`);
        if ("unknown" in turn) report("swing-impossible", path, turn.unknown);
        sound &&= "m" in turn;
        swung.set(assembly, before ? "both" : side);
      }
    }
  }
  return {
    item,
    name: head.name?.text ?? "",
    title: head.title?.text,
    ground: head.ground,
    at: head.name ?? head,
    swung,
    sound: sound && found().length === 0,
    faults: found(),
  };
}

/**
 * The aircraft with something swung: as drawn, less what is swung where it was, with it where it goes
 * (the sums are exact, so nothing is lost in between).
 */
export function shapeIn(root: Root, { name, swung }: Configuration): Shape {
  const drawn = asDrawn(root);
  const change = changeIn(root.aircraft, swung);
  const with_ = (totals: Totals, ...changes: readonly Totals[]) => {
    const sum = none();
    merge(sum, totals);
    for (const it of changes) merge(sum, it);
    return sum;
  };
  const turns = turnsOf(root.aircraft, swung);
  return {
    ...drawn,
    configuration: name,
    basic: with_(drawn.basic, change.basic),
    growth: with_(drawn.growth, change.growth),
    predicted: with_(drawn.predicted, change.basic, change.growth, change.reserve),
    moved: (station, place, side) => {
      const turn = turns.get(station)?.[side === 1 ? 0 : 1] ?? (side === 1 ? still : mirror);
      return turned(turn, place);
    },
  };
}

/** What swinging changes in the sums of an assembly that does not swing itself. */
function changeIn(assembly: Assembly, swung: Swung): Sum {
  const change: Sum = { basic: none(), growth: none(), reserve: none() };
  for (const member of assembly.members) {
    if (member.kind !== "assembly" || !holdsSwung(member, swung)) continue;
    const now = movedSum(member, still, undefined, swung);
    const { basic, growth, reserve } = weightOf(member);
    for (const [key, before] of [
      ["basic", basic],
      ["growth", growth],
      ["reserve", reserve],
    ] as const) {
      merge(change[key], now[key]);
      subtract(change[key], before);
    }
  }
  return change;
}

/** How the places of tanks, seats and bays inside what swings move: the right-hand ones, and the left. */
function turnsOf(aircraft: Assembly, swung: Swung): ReadonlyMap<Station, readonly [Turn, Turn]> {
  const turns = new Map<Station, readonly [Turn, Turn]>();
  const walk = (assembly: Assembly, outer: Turn, side: Side) => {
    for (const [turn, at] of sidesOf(assembly, outer, side, swung))
      for (const member of assembly.members)
        if (member.kind === "assembly") walk(member, turn, at);
        else if (member.kind === "tank" || member.kind === "seat" || member.kind === "bay") {
          if (at === "LH") turns.set(member, [turns.get(member)?.[0] ?? still, turn]);
          else turns.set(member, [turn, after(turn, mirror)]);
        }
  };
  if (holdsSwung(aircraft, swung)) walk(aircraft, still, undefined);
  return turns;
}
