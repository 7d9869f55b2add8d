import type { Basis, Clause } from "../../../grammar/tree";
import type { Assembly, Member } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Rates } from "../../model/env";
import { noSums, type Part } from "../../model/part";
import { growthIn } from "../../model/rates";
import type { Root } from "../../model/root";
import type { Station } from "../../model/station";
import { show } from "../../quantity/show";
import { amounts, band, type Mark, mark, rate } from "./mark";
import { rowsOfTank, spreadsOf, swingOf } from "./marks-of-premises";

/** Of an assembly or what stands in one: its budget, margin, creep, growth and CG target, what is held back, what may be loaded. */
export function marksOfMember(member: Member, root: Root): readonly Mark[] {
  const { path, head } = member;
  const found: Mark[] = [];
  if ("budget" in member && member.budget) {
    const { mass, unit, at, margin } = member.budget;
    found.push(
      mark("budget", path, "budget", {
        ...{ values: [mass], senses: [1], presence: -1, shown: show(mass, unit), at },
      }),
    );
    if (margin !== undefined) found.push(rate("budget", path, "margin", margin, at));
  }
  if (member.kind === "reserve")
    found.push(
      mark("reserve", path, "reserve", {
        ...{ values: [member.mass], senses: [-1], presence: -1 },
        ...{ shown: member.mass === undefined ? "unknown" : show(member.mass, member.unit) },
        at: head.figure ?? head,
      }),
    );
  if (member.kind === "assembly" && member.creep) {
    const { mass, unit, at } = member.creep;
    found.push(
      mark("creep", path, "creep", {
        ...{ values: [mass], senses: [1], presence: -1, shown: show(mass, unit), at },
      }),
    );
  }
  if (member.kind === "assembly" && member.target) {
    const { axis, low, high, at } = member.target;
    found.push(band("limit", path, `cg target ${axis}`, low, high, root.units.length, at));
  }
  if ("growth" in member || member.kind === "assembly")
    found.push(...growthOf(member, root), ...spreadsOf(member, root));
  if (member.kind === "assembly") found.push(...swingOf(member));
  if ("range" in member) found.push(...marksOfStation(member, root));
  return found;
}

/** What may be loaded is what the proof over all loadings is about: a narrower range proves less. */
function marksOfStation(station: Station, root: Root): readonly Mark[] {
  const { units } = root;
  const { path, head, range, holds, unusable, ends } = station;
  const clause = clauseOf(clausesOf(station.item), "range") ?? head;
  const arms = ends.flatMap(it => it.fs ?? []);
  const [low, high] = [Math.min(...arms), Math.max(...arms)];
  return [
    ...(range ? [amounts(path, "range", range, [1, -1], clause)] : []),
    ...rowsOfTank(station, root),
    ...(holds ? [amounts(path, "holds", [holds], [0], head)] : []),
    ...(unusable ? [amounts(path, "unusable", [unusable], [0], head)] : []),
    ...(low < high
      ? [
          mark("range", path, "arms", {
            ...{ values: [low, high], senses: [1, -1], presence: 0 },
            ...{ shown: `${show(low, units.length)} .. ${show(high, units.length)}`, at: head },
          }),
        ]
      : []),
  ];
}

function growthOf(member: Assembly | Part, root: Root): readonly Mark[] {
  const clauses = clausesOf(member.item).flatMap(it => (it.kind === "growth" ? [it] : []));
  if (clauses.length === 0) return [];
  const said = new Set<Basis>();
  for (const { basis } of clauses.flatMap(it => it.rates))
    for (const it of basis ? [basis] : (["estimated", "calculated", "quoted"] as const))
      said.add(it);
  const rates = member.kind === "assembly" ? member.core.growth : ownRates(clauses, root);
  return [...said].map(basis =>
    rate("growth", member.path, `growth ${basis}`, rates[basis], clauses.at(-1)!),
  );
}

/** A part keeps its growth only for the basis that governs; what is written for the others is a promise too. */
function ownRates(clauses: readonly Clause[], { scope }: Root): Rates {
  const report = () => {};
  const none = { estimated: 0, calculated: 0, quoted: 0, weighed: 0 };
  return growthIn(none, clauses, { scope, report, ask: noSums(report) });
}
