import type { Declaration, StatementOf } from "../../../grammar/tree";
import { requirementsOf } from "../../checks/requirement";
import { flightsOf } from "../../compute/flights";
import { loadLimitsOf } from "../../compute/load-limits";
import type { Root } from "../../model/root";
import { show } from "../../quantity/show";
import { type Mark, mark } from "./mark";
import { marksOfEnvelope, marksOfLoading } from "./marks-of-flight";
import { marksOfMember } from "./marks-of-members";
import { defaultOf, extentOf } from "./marks-of-premises";
import { assembliesOf } from "./things";

/** Everything a design is judged by: budgets, creep, growth, spreads, reserves, limits, ranges, swings, default options, requirements, waivers. */
export function marksOf(root: Root): readonly Mark[] {
  return [
    ...assembliesOf(root).flatMap(({ assembly }) => [
      ...marksOfMember(assembly, root),
      ...assembly.members.flatMap(it => (it.kind === "assembly" ? [] : marksOfMember(it, root))),
    ]),
    ...extentOf(root),
    ...root.statements.choices.flatMap(defaultOf),
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
    ...[...root.fluids].flatMap(([name, { density, head }]) => fluid(name, density, head)),
    ...root.statements.waives.map(it => waiver(it, root)),
  ];
}

function fluid(name: string, density: number | undefined, head: Declaration): readonly Mark[] {
  const { figure } = head;
  if (density === undefined || figure === undefined) return [];
  const shown = figure.line.text.slice(figure.from, figure.to);
  const rest = { values: [density], senses: [0] as const, presence: 0 as const, shown, at: figure };
  return [mark("range", undefined, `density of ${name}`, rest)];
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
