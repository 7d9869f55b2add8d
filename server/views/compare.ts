import type { StatementOf } from "../../grammar/tree";
import { allLoadingsOf } from "../compute/all-loadings";
import { flightsOf } from "../compute/flights";
import { emptyOf } from "../compute/stages";
import { asWeighed, weighedInstead } from "../compute/weighing";
import { basicBalance, predictedBalance, weightOf } from "../compute/weight";
import { rootFindings } from "../judge";
import { nameOfOption, optionsOf } from "../model/options";
import { type Root, rootChoosing } from "../model/root";
import { show } from "../quantity/show";
import type { Unit } from "../quantity/units";

/** An aircraft with some options chosen, beside it as it is. kg, m. */
export interface Compared {
  /** What is chosen otherwise: choice and option; none: as it is. */
  readonly chosen: readonly (readonly [choice: string, option: string])[];
  readonly empty: number;
  readonly fs: number | null;
  readonly complete: boolean;
  /** Budget of the aircraft less its predicted mass; undefined: it has no budget. */
  readonly left: number | undefined;
  /** Loadings that leave an envelope, and all that are judged. */
  readonly outside: number;
  readonly loadings: number;
  /** By envelope: "inside", "can-exceed", "not-excluded". */
  readonly envelopes: readonly { readonly name: string; readonly verdict: string }[];
  readonly errors: number;
  readonly warnings: number;
}

/**
 * As it is first; then every other option and combination of options, those with errors before others, then
 * those with most loadings outside, then those with the least left of the budget.
 * @param most how many rows at most
 * @param judged how many combinations are looked at before they are put in order, fewest options first
 */
export function compare(root: Root, today: string, most: number, judged = JUDGED): Comparison {
  const base = root.rolledUp ?? root;
  const others = root.statements.choices.map(({ head, items }, i) => {
    const name = (head as StatementOf<"choice">).name?.text ?? "";
    const options = optionsOf(root.statements.choices[i]!).map(nameOfOption);
    return items.length === 0
      ? []
      : options.filter(it => it !== base.chosen.get(name)).map(it => [name, it] as const);
  });
  const all = others.reduce((product, it) => product * (it.length + 1), 1);
  const rows = fewestFirst(others, Math.max(judged, most)).map(it => comparedOf(base, it, today));
  const [asItIs, ...found] = rows;
  const ranked = [asItIs!, ...found.sort(byRelevance)];
  const hidden = ranked.slice(most);
  return {
    rows: ranked.slice(0, most),
    more: all - Math.min(most, rows.length),
    withErrors: hidden.filter(it => it.errors > 0).length,
    notJudged: all - rows.length,
  };
}

const JUDGED = 512;

export interface Comparison {
  readonly rows: readonly Compared[];
  /** Combinations that are not shown. */
  readonly more: number;
  /** Those of them that have errors. */
  readonly withErrors: number;
  /** Those of them that nobody has looked at, because there are too many. */
  readonly notJudged: number;
}

/** What is not shown, in words; undefined: nothing. */
export function hiddenIn({ more, withErrors, notJudged }: Comparison): string | undefined {
  if (more === 0) return undefined;
  const count = (n: number) => n.toLocaleString("en-US");
  const known = more - notJudged;
  const judged =
    known > 0
      ? [
          `${withErrors === 0 ? "none" : count(withErrors)} of ${known === more ? "them" : count(known)} with errors`,
        ]
      : [];
  const open = notJudged > 0 ? [`${count(notJudged)} of them not judged`] : [];
  return `${count(more)} more ${more === 1 ? "combination" : "combinations"}, ${[...judged, ...open].join(", ")}`;
}

type Chosen = Compared["chosen"];

/** Combinations of options, one of a choice at most: none, then each alone, in the order written. */
function fewestFirst(choices: readonly Chosen[], most: number): readonly Chosen[] {
  const rows: Chosen[] = [];
  const add = (from: number, wanted: number, chosen: Chosen) => {
    if (rows.length >= most) return;
    if (wanted === 0) rows.push(chosen);
    else
      for (let i = from; i <= choices.length - wanted; i++)
        for (const it of choices[i]!) add(i + 1, wanted - 1, [...chosen, it]);
  };
  for (let wanted = 0; wanted <= choices.length; wanted++) add(0, wanted, []);
  return rows;
}

/** Sorting keeps the order of what is alike. */
const byRelevance = (a: Compared, b: Compared) =>
  b.errors - a.errors ||
  b.outside - a.outside ||
  (a.left ?? 0) - (b.left ?? 0) ||
  b.warnings - a.warnings;

function comparedOf(base: Root, chosen: Compared["chosen"], today: string): Compared {
  const root =
    chosen.length === 0
      ? asWeighed(base)
      : weighedInstead(base, rootChoosing(base, new Map(chosen)));
  const { basic } = emptyOf(root);
  const whole = weightOf(root.aircraft);
  const { budget } = root.aircraft;
  const flights = flightsOf(root);
  const findings = rootFindings(root, today).filter(it => it.waived === undefined);
  const leaves = flights.filter(({ verdicts }) =>
    verdicts.some(it => it.states.some(({ basic: { breaches } }) => breaches.length > 0)),
  );
  return {
    chosen,
    empty: basic.mass,
    fs: basic.fs,
    complete: basic.complete && basicBalance(whole).massKnown,
    left: budget && budget.mass - predictedBalance(whole).mass,
    outside: leaves.length,
    loadings: flights.length,
    envelopes: allLoadingsOf(root).flatMap(({ envelope, verdict }) =>
      verdict === undefined ? [] : { name: envelope.name, verdict },
    ),
    errors: findings.filter(it => it.severity === "error").length,
    warnings: findings.filter(it => it.severity === "warning").length,
  };
}

/** As a table: the headings, the aircraft as it is, then each other choice beside it. */
export function comparedCells(
  root: Root,
  rows: readonly Compared[],
): readonly (readonly string[])[] {
  const [base] = rows;
  const { mass, length } = root.units;
  const signed = (kg: number, unit: Unit) =>
    Math.abs(kg) < 1e-9 ? "0" : `${kg > 0 ? "+" : "-"}${show(Math.abs(kg), unit)}`;
  const cells = rows.map((row): readonly string[] => [
    row.chosen.length === 0
      ? `as it is: ${[...root.chosen].map(([, option]) => option).join(", ")}`
      : row.chosen.map(([choice, option]) => `${choice} ${option}`).join(", "),
    `${show(row.empty, mass)}${row.complete ? "" : " (incomplete)"}`,
    row === base ? "" : signed(row.empty - base!.empty, mass),
    row.fs === null ? "not known" : `FS ${show(row.fs, length)}`,
    row === base || row.fs === null || base!.fs === null ? "" : signed(row.fs - base!.fs, length),
    row.left === undefined ? "no budget" : signed(row.left, mass),
    row.loadings === 0 ? "none" : `${row.outside} of ${row.loadings}`,
    permitted(row),
    `${row.errors}/${row.warnings}`,
  ]);
  return [headings, ...cells];
}

const headings = [
  ...["chosen", "empty weight", "difference", "CG", "moves", "left of budget"],
  ...["loadings outside", "all permitted loadings", "errors/warnings"],
];

/** The worst of its envelopes. */
function permitted({ envelopes }: Compared): string {
  const verdicts = envelopes.map(it => it.verdict);
  if (verdicts.includes("can-exceed")) return "can be outside";
  if (verdicts.includes("not-excluded")) return "outside is not excluded";
  return verdicts.length > 0 ? "inside" : "not judged";
}
