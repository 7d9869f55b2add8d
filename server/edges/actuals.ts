import { memberAt } from "../compute/member-at";
import { errorOfDeviation, type Scatter } from "../compute/scatter";
import { rootsOf } from "../model/root";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";
import { type Actuals, actualsOf, type Row, thoughts } from "../shop/actuals";
import { ENOUGH, type ToCome, toComeOf } from "../shop/to-come";
import { drawn, jsonText } from "./formats/row";
import { tableOf } from "./formats/table";
import { called, oneOf } from "./options";
import { inShop } from "./shop";
import { WrongUse } from "./wrong-use";

/** Prints what parts weighed beside what was thought of them, and what that means for those still to be built. */
export function actuals(args: readonly string[], print: (text: string) => void): 0 {
  const { rest, said } = called("actuals", args, ["--airframe", "--format"]);
  const [file, ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("actuals takes one file or folder: poise actuals kite.poise");
  const format = oneOf("--format", said.get("--format"), ["table", "json"]);
  const { root, title } = inShop(file, said.get("--airframe"));
  const found = actualsOf(rootsOf(root.reach));
  const toCome = toComeOf(root, found);
  if (format === "json") {
    print(jsonText(asJson(title, found, toCome), 2));
    return 0;
  }
  const { mass: unit } = root.units;
  print(`${drawn(title)}: what was weighed, against what was thought of it`);
  if (found.all.length === 0) {
    print("Nothing is weighed yet, in the design or in an airframe.");
    return 0;
  }
  const table = (name: string, rows: readonly Row[], shown: (it: string) => string) => {
    if (rows.length === 0) return;
    print("");
    for (const row of tableOf([
      [name, ...headings],
      ...rows.map(it => cells(it, shown(it.name), unit)),
    ]))
      print(row);
  };
  const titleOf = (path: string) =>
    path === "" ? "the aircraft itself" : (memberAt(root, path)?.member.head.title?.text ?? path);
  table("against", [...found.byBasis.values()], it => it);
  if (found.byKind.some(it => it.name !== ""))
    table("kind", found.byKind, it => it || "no kind said");
  table("assembly", found.byAssembly, titleOf);
  print("");
  for (const line of remarks(found)) print(line);
  if (toCome.length > 0) {
    print("\nNot weighed yet, and what it would add if it came out alike");
    for (const row of tableOf([
      ["basis", "pieces", "thought", "would add", "growth counts"],
      ...toCome.map(it => [
        it.basis,
        showNumber(it.pieces, 0),
        show(it.mass, unit),
        it.adds === undefined
          ? "too few weighed"
          : `${signed(it.adds, unit)} ± ${show(it.error!, unit)}`,
        signed(it.growth, unit),
      ]),
    ]))
      print(row);
  }
  return 0;
}

const headings = [
  "records",
  "pieces",
  "thought",
  "weighed",
  "ratio",
  "bias",
  "bias by mass",
  "scatter",
];

function cells({ scatter, pieces, thought, weighed }: Row, name: string, unit: Unit) {
  const { count, bias, weighted, weightedError, deviation } = scatter;
  return [
    name,
    showNumber(count, 0),
    showNumber(pieces, 0),
    show(thought, unit),
    show(weighed, unit),
    (1 + weighted).toFixed(3),
    percent(bias),
    weightedError === undefined
      ? percent(weighted)
      : `${percent(weighted)} ± ${plainPercent(weightedError)}`,
    deviation === undefined ? "one alone" : plainPercent(deviation),
  ];
}

/** What the figures are, and which of them rest on too little. */
function remarks({ byBasis, byAssembly, alone }: Actuals): readonly string[] {
  const few = thoughts.flatMap(basis => {
    const count = byBasis.get(basis)?.scatter.count ?? 0;
    if (count === 0 || count >= ENOUGH) return [];
    return `${basis}: ${count} ${count === 1 ? "record is" : "records are"} too few to go by${fewOf(count)}; it takes ${ENOUGH}`;
  });
  const lone =
    alone === 0 ? [] : [`${alone} weighed with nothing of their revision to compare with`];
  if (byAssembly.length === 0) return lone;
  return [
    ...few,
    ...lone,
    "Kinds and assemblies stand against the most mature record before the weighing; a record counts once.",
    "ratio: sum weighed ÷ sum thought. bias: mean of weighed ÷ thought, less 1. bias by mass: ratio less 1,",
    "± its standard error (Cochran, Sampling Techniques, 6.4). scatter: sample standard deviation of",
    "weighed ÷ thought (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6).",
  ];
}

const fewOf = (count: number) =>
  count < 2 ? "" : `, their scatter may be ${Math.round(100 * errorOfDeviation(count))} % off`;

const plainPercent = (share: number) => `${showNumber(100 * share, 1)} %`;
const percent = (share: number) => `${share > 0 ? "+" : ""}${plainPercent(share)}`;
const signed = (kg: number, unit: Unit) =>
  Math.abs(kg) < 1e-9 ? "0" : `${kg > 0 ? "+" : "-"}${show(Math.abs(kg), unit)}`;

/** kg and shares; null: too few to say. */
function asJson(aircraft: string, found: Actuals, toCome: readonly ToCome[]) {
  const row = ({ name, scatter, pieces, thought, weighed }: Row) => ({
    ...{ name, records: scatter.count, pieces, thought_kg: thought, weighed_kg: weighed },
    ...scatterJson(scatter),
  });
  return {
    aircraft,
    against: [...found.byBasis.values()].map(row),
    kinds: found.byKind.map(row),
    assemblies: found.byAssembly.map(row),
    records: found.all.map(it => ({
      ...{ path: it.path, airframe: it.airframe ?? null, kind: it.kind ?? null, pieces: it.pieces },
      weighed_kg: it.weighed.mass,
      thought: it.thought.map(({ basis, mass }) => ({ basis, mass_kg: mass })),
    })),
    not_weighed: toCome.map(it => ({
      ...{ basis: it.basis, pieces: it.pieces, thought_kg: it.mass, growth_kg: it.growth },
      ...{ would_add_kg: it.adds ?? null, would_add_error_kg: it.error ?? null },
    })),
  };
}

const scatterJson = ({ bias, weighted, weightedError, deviation, unbiased }: Scatter) => ({
  ...{
    ratio: 1 + weighted,
    bias,
    bias_by_mass: weighted,
    bias_by_mass_error: weightedError ?? null,
  },
  ...{ scatter: deviation ?? null, scatter_unbiased: unbiased ?? null },
});
