import type { Basis, Clause, ClauseOf, Item, Rate } from "../../grammar/tree";
import { errorOfDeviation } from "../compute/scatter";
import type { Edit } from "../features/amend";
import { clausesOf } from "../model/clauses";
import type { Root } from "../model/root";
import { showNumber } from "../quantity/show";
import type { Actuals, Thinking } from "./actuals";
import { clauseBehind, clauseIn } from "./insert";
import { ENOUGH } from "./to-come";

/** A rate of the aircraft beside what the scale says of it; shares. */
export interface Proposal {
  readonly what: "growth" | "spread";
  readonly basis: Thinking;
  /** As the aircraft's own block has it; undefined: it is no plain percentage. */
  readonly now: number | undefined;
  readonly found: number;
  /** One standard deviation of `found`. */
  readonly error: number;
  /** Undefined: it stays. */
  readonly to: number | undefined;
}

/**
 * What the aircraft's growth and spread would be if what was weighed is like what is to come: growth is the
 * bias by mass, for it acts on sums, and never below nothing; spread is the scatter without its bias for
 * small samples. A rate stays that is within two standard errors of what was found, or that is no plain
 * percentage; of fewer than `ENOUGH` records nothing is proposed.
 * @param root the aircraft as designed
 */
export function proposalsOf(root: Root, { byBasis }: Actuals): readonly Proposal[] {
  const item = root.reach.aircraft;
  return [...byBasis].flatMap(([basis, { scatter }]): readonly Proposal[] => {
    const { count, weighted, weightedError, unbiased } = scatter;
    if (count < ENOUGH || weightedError === undefined || unbiased === undefined) return [];
    const proposal = (what: "growth" | "spread", found: number, error: number): Proposal => {
      const { share: now } = rateNow(item, what, basis, root);
      const to = roundedShare(Math.max(0, found));
      // a spread of nothing would say that nothing is known
      const stays =
        now === undefined ||
        Math.abs(now - found) <= 2 * error ||
        to === roundedShare(now) ||
        (what === "spread" && to === 0);
      return { what, basis, now, found, error, to: stays ? undefined : to };
    };
    return [
      proposal("growth", weighted, weightedError),
      proposal("spread", unbiased, unbiased * errorOfDeviation(count)),
    ];
  });
}

/** What writes them into the aircraft's block; every other byte stays. */
export function proposedEdits(root: Root, proposals: readonly Proposal[]): readonly Edit[] {
  const item = root.reach.aircraft;
  const edits: Edit[] = [];
  let anchor: Clause | undefined = clausesOf(item).findLast(it => rateKinds.has(it.kind));
  for (const what of ["growth", "spread"] as const) {
    const fresh: string[] = [];
    for (const { basis, to } of proposals.filter(it => it.what === what)) {
      if (to === undefined) continue;
      const { rate } = rateNow(item, what, basis, root);
      if (rate?.value && rate.basis) edits.push({ at: rate.value, text: percent(to) });
      else fresh.push(`${basis} ${percent(to)}`);
    }
    if (fresh.length === 0) continue;
    const last = ratesIn(item, what).at(-1);
    if (last?.rates.every(it => it.basis !== undefined)) {
      const at = { line: last.line, from: last.to, to: last.to };
      edits.push({ at, text: `, ${fresh.join(", ")}` });
    } else {
      const text = `${what} ${fresh.join(", ")}`;
      const behind = last ?? anchor;
      edits.push(behind ? clauseBehind(behind, text) : clauseIn(item, text));
    }
    anchor = last ?? anchor;
  }
  return edits;
}

/** Behind which a rate may stand. */
const rateKinds: ReadonlySet<Clause["kind"]> = new Set(["units", "growth", "spread", "budget"]);

const ratesIn = (item: Item, what: "growth" | "spread") =>
  clausesOf(item).filter((it): it is ClauseOf<"growth"> => it.kind === what);

/** What counts for a basis in the aircraft's own block, and the rate that says so; the later wins. */
function rateNow(
  item: Item,
  what: "growth" | "spread",
  basis: Basis,
  { aircraft }: Root,
): { readonly rate: Rate | undefined; readonly share: number | undefined } {
  const rate = ratesIn(item, what)
    .flatMap(it => it.rates)
    .findLast(it => it.basis === basis || it.basis === undefined);
  if (rate && !isPlain(rate)) return { rate, share: undefined };
  const { growth, spread } = aircraft.core;
  return { rate, share: what === "growth" ? growth[basis] : spread[basis].own.share };
}

/** A percentage as it stands, which another may replace. */
function isPlain({ value, common }: Rate): boolean {
  return (
    common === undefined &&
    value?.kind === "quantity" &&
    value.measures.length === 1 &&
    value.line.text.slice(value.from, value.to).endsWith("%")
  );
}

/** Tenths of a percent, hundredths below one. */
const roundedShare = (share: number) => Number(figure(share)) / 100;
const figure = (share: number) =>
  showNumber(100 * share, Math.abs(share) < 0.01 ? 2 : 1).replaceAll(",", "");
const percent = (share: number) => `${figure(share)}%`;
