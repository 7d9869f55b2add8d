import type { Clause } from "../../grammar/tree";
import type { Report } from "./fault";

/**
 * A clause that may stand only once in a declaration and stands there again: of two, one would have
 * to be passed over in silence. Records, notes, rates and rows may repeat.
 * Not for envelopes, where `cg` is a row.
 */
export function reportAgain(clauses: readonly Clause[], report: Report): void {
  // a mask, not a set: every part is read with every file
  let seen = 0;
  for (const clause of clauses) {
    const bit = bits[clause.kind] ?? 0;
    if (bit === 0 || isOfPath(clause)) continue;
    if ((seen & bit) !== 0) {
      const first = clauses.find(it => bits[it.kind] === bit)!;
      const message =
        first.kind === clause.kind
          ? `${clause.kind} stands here twice`
          : `${clause.kind} stands beside ${first.kind}: one of them says how the mass lies`;
      report("declared-twice", clause, message, [{ at: first, message: "the other one" }]);
    }
    seen |= bit;
  }
}

/** May a clause of some kind not stand beside those that are there? */
export function standsAlready(kind: string, clauses: readonly Clause[]): boolean {
  const bit = bits[kind as Clause["kind"]] ?? 0;
  return bit !== 0 && clauses.some(it => bits[it.kind] === bit && !isOfPath(it));
}

const isOfPath = (clause: Clause) => clause.kind === "budget" && clause.of !== undefined;

const once: readonly Clause["kind"][] = [
  ...(["inertia", "at", "span", "moment", "qty", "mirrored", "effective", "kind"] as const),
  ...([
    "budget",
    "margin",
    "creep",
    "cg",
    "swing",
    "range",
    "holds",
    "unusable",
    "operating",
  ] as const),
  ...(["pn", "rev", "maker", "sn", "levelling", "datum", "extent", "units", "mac"] as const),
];
const bits: Readonly<Partial<Record<Clause["kind"], number>>> = {
  ...Object.fromEntries(once.map((kind, i) => [kind, 1 << i])),
  // two ways to say one thing
  shape: 1 << once.indexOf("inertia"),
};
