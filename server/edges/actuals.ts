import { memberAt } from "../compute/member-at";
import { errorOfDeviation, type Scatter } from "../compute/scatter";
import type { Assembly } from "../model/assembly";
import { clausesOf } from "../model/clauses";
import { type Root, rootsOf } from "../model/root";
import { show, showNumber } from "../quantity/show";
import type { Unit } from "../quantity/units";
import { type Actuals, actualsOf, type Row, thoughts } from "../shop/actuals";
import { type Proposal, proposalsOf, proposedEdits } from "../shop/propose";
import { ENOUGH, type ToCome, toComeOf } from "../shop/to-come";
import { withoutSide } from "../shop/weighable";
import { type WholeActual, wholeActualsOf } from "../shop/whole-actuals";
import { drawn, jsonText } from "./formats/row";
import { tableOf } from "./formats/table";
import { called, oneOf } from "./options";
import { inShop } from "./shop";
import { writeEdits } from "./write-edits";
import { WrongUse } from "./wrong-use";

/** Prints what parts weighed beside what was thought of them, and what that means for those still to be built. */
export function actuals(args: readonly string[], print: (text: string) => void): 0 {
  const { rest, said, flags } = called("actuals", args, ["--airframe", "--format"], ["--write"]);
  const [file, ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("actuals takes one file or folder: poise actuals kite.poise");
  const format = oneOf("--format", said.get("--format"), ["table", "json"]);
  const { project, root, title } = inShop(file, said.get("--airframe"));
  const roots = rootsOf(root.reach);
  const found = actualsOf(roots);
  const wholes = wholeActualsOf(roots);
  const toCome = toComeOf(root, found);
  const proposals = proposalsOf(roots[0]!, found);
  const edits = proposedEdits(roots[0]!, proposals);
  const writes = flags.has("--write") && edits.length > 0;
  if (format === "json") {
    if (writes) writeEdits(project, edits, { shows: false, writes }, () => {});
    print(jsonText(asJson(title, found, wholes, toCome, proposals), 2));
    return 0;
  }
  const { mass: unit } = root.units;
  print(`${drawn(title)}: what was weighed, against what was thought of it`);
  if (found.all.length + wholes.length === 0) {
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
  if (found.all.length > 0) print("");
  for (const line of remarks(found)) print(line);
  for (const line of wholesTable(wholes, unit)) print(line);
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
  if (proposals.length > 0) {
    print("\nThe aircraft's growth and spread, if what was weighed is like what is to come");
    for (const row of tableOf([
      ["", "now", "from the scale", ""],
      ...proposals.map(it => [
        `${it.what} ${it.basis}`,
        it.now === undefined ? "no plain percentage" : plainPercent(it.now),
        `${it.what === "growth" ? percent(it.found) : plainPercent(it.found)} ± ${plainPercent(it.error)}`,
        verdict(it),
      ]),
    ]))
      print(row);
    for (const line of cautions(roots[0]!, proposals)) print(line);
    if (edits.length > 0) print("");
    writeEdits(project, edits, { shows: true, writes }, text => print(drawn(text)));
    if (edits.length > 0 && !writes) print("nothing is written: --write writes it");
  }
  if (flags.has("--write") && edits.length === 0) print("there is nothing to write");
  return 0;
}

function wholesTable(wholes: readonly WholeActual[], unit: Unit): readonly string[] {
  if (wholes.length === 0) return [];
  return [
    "\nWeighed as a whole, against the sum of the parts in it as they were thought of",
    ...tableOf([
      ["assembly", "of", "pieces", "parts in it", "thought", "weighed", "ratio", ""],
      ...wholes.map(it => [
        it.path,
        it.airframe ?? "the design",
        showNumber(it.pieces, 0),
        showNumber(it.parts, 0),
        show(it.thought, unit),
        show(it.weighed, unit),
        it.unknown > 0 || it.thought === 0 ? "-" : (it.weighed / it.thought).toFixed(3),
        it.unknown > 0 ? `${it.unknown} without a mass` : signed(it.weighed - it.thought, unit),
      ]),
    ]),
    "A whole also holds what no part lists (paint, sealant, hardware), which growth is for.",
  ];
}

const verdict = ({ now, to, found, what }: Proposal) => {
  if (to === undefined)
    return now === undefined ? "to be changed by hand" : "stays: no further off than chance allows";
  return `${plainPercent(to)}${what === "growth" && found < 0 ? ": it came out lighter" : ""}`;
};

function cautions({ aircraft }: Root, proposals: readonly Proposal[]): readonly string[] {
  const less = proposals.some(it => it.what === "growth" && it.to !== undefined && it.to < it.now!);
  const own = ratedInside(aircraft);
  const others =
    own.length > 3 ? `${own.slice(0, 3).join(", ")} and ${own.length - 3} more` : own.join(", ");
  return [
    ...(less
      ? ["Growth also covers what no drawing shows yet, of which what was weighed says nothing."]
      : []),
    ...(own.length > 0 ? [`Growth or spread of their own, which stay: ${drawn(others)}`] : []),
    "spread: scatter ÷ c4 (NIST/SEMATECH 6.3.2), itself ± √(1 - c4²) ÷ c4 of it (JCGM 100:2008, E.4.3).",
  ];
}

/** Assemblies and parts that say how much they grow or how far off they are themselves. */
function ratedInside(assembly: Assembly): readonly string[] {
  return assembly.members.flatMap(it => {
    if (it.kind !== "assembly" && it.kind !== "part") return [];
    const own = clausesOf(it.item).some(({ kind }) => kind === "growth" || kind === "spread");
    return [
      ...(own ? [withoutSide(it.path)] : []),
      ...(it.kind === "assembly" ? ratedInside(it) : []),
    ];
  });
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
    alone === 0 ? [] : [`${alone} weighed, with nothing of the same revision to compare with`];
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

const plainPercent = (share: number) =>
  `${showNumber(100 * share, Math.abs(share) < 0.001 ? 2 : 1)} %`;
const percent = (share: number) => `${share > 0 ? "+" : ""}${plainPercent(share)}`;
const signed = (kg: number, unit: Unit) =>
  Math.abs(kg) < 1e-9 ? "0" : `${kg > 0 ? "+" : "-"}${show(Math.abs(kg), unit)}`;

/** kg and shares; null: too few to say. */
function asJson(
  aircraft: string,
  found: Actuals,
  wholes: readonly WholeActual[],
  toCome: readonly ToCome[],
  proposals: readonly Proposal[],
) {
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
    wholes: wholes.map(it => ({
      ...{ path: it.path, airframe: it.airframe ?? null, pieces: it.pieces, parts: it.parts },
      ...{ thought_kg: it.thought, weighed_kg: it.weighed, without_a_mass: it.unknown },
    })),
    not_weighed: toCome.map(it => ({
      ...{ basis: it.basis, pieces: it.pieces, thought_kg: it.mass, growth_kg: it.growth },
      ...{ would_add_kg: it.adds ?? null, would_add_error_kg: it.error ?? null },
    })),
    proposed: proposals.map(it => ({ ...it, now: it.now ?? null, to: it.to ?? null })),
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
