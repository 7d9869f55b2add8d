import type { Basis, Span, StatementOf } from "../../../grammar/tree";
import { requirementsOf } from "../../checks/requirement";
import { flightsOf } from "../../compute/flights";
import { loadLimitsOf } from "../../compute/load-limits";
import type { Assembly, Member } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Envelope, Row } from "../../model/envelope";
import type { Loading } from "../../model/loading";
import type { Part } from "../../model/part";
import type { Root } from "../../model/root";
import type { Quantity } from "../../quantity/quantity";
import { show, showNumber } from "../../quantity/show";
import type { Unit } from "../../quantity/units";
import { assembliesOf } from "./things";

/** One thing an aircraft is measured by, as far as it can be made looser or tighter. */
export interface Mark {
  readonly kind:
    | "budget"
    | "growth"
    | "reserve"
    | "limit"
    | "range"
    | "loading"
    | "requirement"
    | "waiver";
  /** What it is of, where that is a path; else it is told by `what` alone. */
  readonly path: string | undefined;
  /** In words, without the path: "budget". */
  readonly what: string;
  /** SI; undefined is left open. */
  readonly values: readonly (number | undefined)[];
  /** For each value: 1, a higher one allows more; -1, a lower one does; 0, neither is said. */
  readonly senses: readonly (1 | 0 | -1)[];
  /** Whether there being one at all allows more (1) or less (-1). */
  readonly presence: 1 | 0 | -1;
  readonly shown: string;
  readonly at: Span;
}

/** Everything a design is judged by: budgets, growth, reserves, limits, ranges, requirements, waivers. */
export function marksOf(root: Root): readonly Mark[] {
  return [
    ...assembliesOf(root).flatMap(({ assembly }) => [
      ...marksOfMember(assembly, root),
      ...assembly.members.flatMap(it => (it.kind === "assembly" ? [] : marksOfMember(it, root))),
    ]),
    ...root.envelopes.flatMap(it => marksOfEnvelope(it, root)),
    ...loadLimitsOf(root).limits.map(({ statement, most, unit, spots, under }) =>
      mark("limit", undefined, `limit of ${namesOf(spots)}${under ? ` in ${under.name}` : ""}`, {
        ...{ values: [most], senses: [1], presence: -1 },
        ...{ shown: show(most, unit), at: statement.amount ?? statement },
      }),
    ),
    ...flightsOf(root).flatMap(({ loading }) => marksOfLoading(loading, root)),
    ...requirementsOf(root).map(({ basic: { text, head } }) =>
      mark("requirement", undefined, `require ${text}`, {
        ...{ values: [], senses: [], presence: -1, shown: head.why?.text ?? "", at: head },
      }),
    ),
    ...root.statements.waives.map(it => waiver(it, root)),
  ];
}

function waiver(at: StatementOf<"waive">, root: Root): Mark {
  const { code, of, requirement, until } = at;
  const what = `waive ${code?.text ?? ""}${requirement ? ` of ${requirement.text}` : ""}`;
  return mark("waiver", of?.text === root.name ? "" : of?.text, what, {
    // one without an end outlasts every date
    values: [until ? Date.parse(until.text) : Number.POSITIVE_INFINITY],
    ...{ senses: [1], presence: 1, shown: until ? `until ${until.text}` : "without an end", at },
  });
}

const namesOf = (spots: readonly { station: { path: string }; side: string | undefined }[]) =>
  spots
    .map(({ station, side }) => (side ? `${station.path}.${side}` : station.path))
    .sort()
    .join(", ");

type Rest = Omit<Mark, "kind" | "path" | "what">;
const mark = (kind: Mark["kind"], path: string | undefined, what: string, rest: Rest): Mark => ({
  ...{ kind, path, what },
  ...rest,
});

function marksOfMember(member: Member, root: Root): readonly Mark[] {
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
  if (member.kind === "assembly" && member.target) {
    const { axis, low, high, at } = member.target;
    found.push(band("limit", path, `cg target ${axis}`, low, high, root.units.length, at));
  }
  if ("growth" in member || member.kind === "assembly") found.push(...growthOf(member));
  if ("range" in member) {
    const clause = clauseOf(clausesOf(member.item), "range") ?? head;
    // what may be loaded is what the proof over all loadings is about: a narrower range proves less
    if (member.range) found.push(amounts(path, "range", member.range, [1, -1], clause));
    if (member.holds) found.push(amounts(path, "holds", [member.holds], [0], head));
  }
  return found;
}

function growthOf(member: Assembly | Part): readonly Mark[] {
  const clauses = clausesOf(member.item).flatMap(it => (it.kind === "growth" ? [it] : []));
  if (clauses.length === 0) return [];
  if (member.kind !== "assembly") {
    const { mass, growth, path } = member;
    return mass ? [rate("growth", path, "growth", growth / mass, clauses[0]!)] : [];
  }
  const said = new Set<Basis>();
  for (const { basis } of clauses.flatMap(it => it.rates))
    for (const it of basis ? [basis] : (["estimated", "calculated", "quoted"] as const))
      said.add(it);
  return [...said].map(basis =>
    rate("growth", member.path, `growth ${basis}`, member.core.growth[basis], clauses.at(-1)!),
  );
}

function marksOfEnvelope(envelope: Envelope, root: Root): readonly Mark[] {
  const { name } = envelope;
  const weights = (["ramp", "takeoff", "landing", "zero_fuel"] as const).flatMap(kind => {
    const limit = envelope[kind];
    if (limit === undefined) return [];
    return mark("limit", undefined, `${kind.replace("_", "-")} weight of ${name}`, {
      ...{ values: [limit.mass], senses: [1], presence: -1 },
      ...{ shown: show(limit.mass, limit.unit), at: limit.clause },
    });
  });
  const { mass, length } = root.units;
  return [
    ...weights,
    ...rows(envelope.rows, `cg of ${name}`, mass, length),
    ...rows(envelope.lateral, `lateral of ${name}`, mass, length),
    ...rows(envelope.lateralByStation, `lateral of ${name}`, length, length),
  ];
}

/** What a loading puts aboard is a premise of its verdict; one that is gone is judged no more. */
function marksOfLoading({ name, at, loads }: Loading, { units }: Root): readonly Mark[] {
  return [
    mark("loading", undefined, `loading ${name}`, {
      ...{ values: [], senses: [], presence: -1, shown: "", at },
    }),
    ...loads.map(({ station, side, mass, place, at: there }) => {
      const where = place?.fs === undefined ? "" : ` at FS ${show(place.fs, units.length)}`;
      return mark("loading", station.path, `${name}:${side ? ` ${side}` : ""} load`, {
        ...{ values: [mass, place?.fs], senses: [0, 0], presence: 0 },
        ...{ shown: show(mass, units.mass) + where, at: there },
      });
    }),
  ];
}

function rows(list: readonly Row[], of: string, keyUnit: Unit, length: Unit): readonly Mark[] {
  return list.map((row, i) => {
    const { key, low, high, clause } = row;
    // two rows of one weight make a step
    const again = list.slice(0, i).filter(it => it.key === key).length;
    const at = key === undefined ? "" : ` at ${show(key, keyUnit)}`;
    const name = `${of}${at}${again > 0 ? ` (${again + 1})` : ""}`;
    const found = band("limit", undefined, name, low, high, length, clause);
    // one corner less may cut the band or widen it
    return { ...found, presence: key === undefined ? -1 : 0 };
  });
}

function band(
  kind: Mark["kind"],
  path: string | undefined,
  what: string,
  low: number | undefined,
  high: number | undefined,
  unit: Unit,
  at: Span,
): Mark {
  const end = (x: number | undefined) => (x === undefined ? "" : show(x, unit));
  const shown = `${end(low)} .. ${end(high)}`.trim();
  return mark(kind, path, what, { values: [low, high], senses: [-1, 1], presence: -1, shown, at });
}

function rate(kind: Mark["kind"], path: string, what: string, value: number, at: Span): Mark {
  const shown = `${showNumber(value * 100)} %`;
  return mark(kind, path, what, { values: [value], senses: [-1], presence: -1, shown, at });
}

function amounts(
  path: string,
  what: string,
  values: readonly Quantity[],
  senses: Mark["senses"],
  at: Span,
): Mark {
  const shown = values.map(it => (it.unit ? show(it.value, it.unit) : showNumber(it.value)));
  return mark("range", path, what, {
    ...{ values: values.map(it => it.value), senses, presence: 0, shown: shown.join(" .. "), at },
  });
}
