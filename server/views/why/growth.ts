import type { Basis, Rate } from "../../../grammar/tree";
import type { Assembly } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Part } from "../../model/part";
import type { Root } from "../../model/root";
import { massText, percent } from "./figures";
import type { Found } from "./found";
import type { Step } from "./lines";

/** The share by which a part's mass grows, and who says so; kg of one side. */
export function growthStep(root: Root, found: Found<Part>, mass: number): readonly Step[] {
  const { governing, growth, item } = found.member;
  if (governing === undefined) return [];
  const { basis } = governing;
  const own = clauseOf(clausesOf(item), "growth");
  const said = (own && rateIn(own.rates, basis)) ?? rateAround(found.around, basis);
  if (said === undefined) return [["growth", `none: no growth is said for ${basis}`]];
  const rate = mass === 0 ? 0 : growth / mass;
  return [
    [
      "growth",
      `${percent(rate)} of ${basis} (${said.by ?? "its own"}): ${massText(root, growth)}`,
      said.rate,
    ],
  ];
}

interface Said {
  readonly rate: Rate;
  readonly by: string | undefined;
}

/** A part's own: a rate of the basis before a lone percentage. */
function rateIn(rates: readonly Rate[], basis: Basis): Said | undefined {
  const rate =
    rates.find(it => it.basis === basis) ??
    (basis === "weighed" ? undefined : rates.find(it => it.basis === undefined));
  return rate && { rate, by: undefined };
}

/** The nearest that speaks of the basis; within one assembly the last. */
function rateAround(around: readonly Assembly[], basis: Basis): Said | undefined {
  for (const assembly of [...around].reverse()) {
    const rates = clausesOf(assembly.item).flatMap(it => (it.kind === "growth" ? it.rates : []));
    const rate = rates.findLast(it =>
      it.basis === undefined ? basis !== "weighed" : it.basis === basis,
    );
    if (rate) return { rate, by: assembly.path || assembly.name };
  }
  return undefined;
}
