import type { Basis, Span, StatementOf } from "../../../grammar/tree";
import type { Assembly } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import { noSpread, type Off, type Spread, type Spreads } from "../../model/env";
import { chosenOption } from "../../model/options";
import { noSums, type Part } from "../../model/part";
import { spreadIn } from "../../model/rates";
import type { Root } from "../../model/root";
import type { Station } from "../../model/station";
import { show, showNumber } from "../../quantity/show";
import { type Mark, mark } from "./mark";

/**
 * What a verdict rests on and neither allows more nor less by itself. A spread is one: a smaller one makes
 * a budget look surer, a larger one lets a weighing disagree by more.
 */
export function spreadsOf(member: Assembly | Part, root: Root): readonly Mark[] {
  const clauses = clausesOf(member.item).flatMap(it => (it.kind === "spread" ? [it] : []));
  if (clauses.length === 0) return [];
  const said = new Set<Basis>();
  for (const { basis } of clauses.flatMap(it => it.rates))
    for (const it of basis ? [basis] : (["estimated", "calculated", "quoted"] as const))
      said.add(it);
  const report = () => {};
  const none: Spreads = {
    ...{ estimated: noSpread, calculated: noSpread },
    ...{ quoted: noSpread, weighed: noSpread },
  };
  const scope = member.kind === "assembly" ? member.scope : root.scope;
  const spreads = spreadIn(none, clauses, { scope, report, ask: noSums(report) });
  return [...said].map(basis => {
    const spread = spreads[basis];
    const { own, common } = spread;
    return mark("spread", member.path, `spread ${basis}`, {
      ...{ values: [own.share, own.mass, common.share, common.mass], senses: [], presence: 0 },
      ...{ shown: spreadText(spread, root), at: clauses.at(-1)! },
    });
  });
}

function spreadText({ own, common }: Spread, { units }: Root): string {
  const off = ({ share, mass }: Off) =>
    [
      ...(share > 0 || mass === 0 ? [`${showNumber(share * 100)} %`] : []),
      ...(mass > 0 ? [show(mass, units.mass)] : []),
    ].join(" + ");
  return common.share + common.mass > 0 ? `${off(own)}, common ${off(common)}` : off(own);
}

/** Where a tank's contents lie, row by row: an amount in another unit is the same one. */
export function rowsOfTank({ path, filled }: Station, { units }: Root): readonly Mark[] {
  return filled.map(({ amount, place, expr }, i) => {
    const at = amount.unit ? show(amount.value, amount.unit) : showNumber(amount.value);
    const shown = (["fs", "bl", "wl"] as const).flatMap(axis => {
      const x = place[axis];
      return x === undefined ? [] : `${axis.toUpperCase()} ${show(x, units.length)}`;
    });
    return mark("filled", path, `filled, row ${i + 1}`, {
      ...{ values: [amount.value, place.fs, place.bl, place.wl], senses: [], presence: 0 },
      ...{ shown: `${at} at ${shown.join(", ")}`, at: expr },
    });
  });
}

/** How far an assembly moves, and about what: every configuration rests on it. */
export function swingOf({ path, swing }: Assembly): readonly Mark[] {
  if (swing === undefined) return [];
  const { clause, hinge, axis, angle } = swing;
  return [
    mark("swing", path, "swing", {
      ...{ values: [angle, ...hinge, ...axis], senses: [], presence: 0 },
      ...{ shown: textOf(clause).replace(/\s+/g, " ").slice("swing ".length), at: clause },
    }),
  ];
}

/** A figure outside it is looked at twice: a wider one lets more pass. */
export function extentOf({ aircraft, units }: Root): readonly Mark[] {
  const clause = clauseOf(clausesOf(aircraft.item), "extent");
  const { extent } = aircraft.core;
  if (clause === undefined || extent === undefined) return [];
  return (["FS", "BL", "WL"] as const).flatMap(axis => {
    const { low, high } = extent[axis] ?? {};
    if (low === undefined && high === undefined) return [];
    const end = (x: number | undefined) => (x === undefined ? "" : show(x, units.length));
    return mark("extent", undefined, `extent ${axis}`, {
      ...{ values: [low, high], senses: [-1, 1], presence: -1 },
      ...{ shown: `${end(low)} .. ${end(high)}`.trim(), at: clause },
    });
  });
}

/** Which option counts where nobody chooses: every verdict on the design is of that one. */
export function defaultOf({
  head,
  ...choice
}: Root["statements"]["choices"][number]): readonly Mark[] {
  const { name, standard } = head as StatementOf<"choice">;
  const option = chosenOption({ head, ...choice }, new Map());
  const said = option && "path" in option.head ? option.head.path?.text : undefined;
  if (name === undefined || said === undefined) return [];
  return [
    mark("choice", undefined, `default of ${name.text}`, {
      ...{ values: [], senses: [], presence: 0, shown: said, at: standard ?? name },
    }),
  ];
}

const textOf = ({ line, from, to }: Span) => line.text.slice(from, to);
