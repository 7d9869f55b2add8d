import {
  balanceOf,
  basicBalance,
  merge,
  none,
  oneSide,
  predictedBalance,
  predictedOf,
  put,
  type Totals,
  weightOf,
} from "../../compute/weight";
import type { Assembly, Member } from "../../model/assembly";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Root } from "../../model/root";
import { exceeds } from "../../quantity/compare";
import { budgetSteps } from "./budget";
import { basisSteps, chanceSteps, spreadSteps } from "./certainty";
import { asShown, lengthText, massText, placeText } from "./figures";
import { type Found, serialLine, titled } from "./found";
import { incompleteSteps } from "./incomplete";
import { inertiaLines } from "./inertia";
import { line, type Row, type Step, section, table, type WhyLine } from "./lines";
import { centreSteps, headingsOf, rowOf } from "./sums";

/** An assembly: each member, the sums up to predicted, the CG, the budget. Of one side where it has two. */
export function assemblyLines(root: Root, found: Found<Assembly>): readonly WhyLine[] {
  const { member: assembly } = found;
  const side = found.side === "LH" ? -1 : 1;
  const weight = oneSide(assembly);
  const [basic, predicted] = [basicBalance(weight), predictedBalance(weight)];
  const grows = predicted.mass !== basic.mass;
  const { fs, bl, wl } = basic;
  const place = {
    fs: fs ?? undefined,
    bl: bl === null ? undefined : bl * side || 0,
    wl: wl ?? undefined,
  };
  const floor = weight.unknown > 0;
  return [
    line(titled(found), assembly.head.path),
    line(
      `  basic ${massText(root, basic.mass)}, predicted ${massText(root, predicted.mass)}, CG at ${placeText(root, place)}${basic.complete ? "" : " (incomplete)"}`,
    ),
    ...serialLine(root, found),
    ...table("Members", headingsOf(root, true), [
      memberRows(root, assembly, side),
      wholeRows(root, assembly, side),
      [
        ...growthRows(root, weight.growth, side),
        ...reserveRows(root, assembly, weight.reserve, side),
      ],
      grows ? [rowOf(root, "predicted", predictedOf(weight), undefined, { side })] : [],
    ]),
    ...section("Incomplete", incompleteSteps(root, assembly)),
    ...section("CG, basic: moment ÷ mass", [
      ...centreSteps(root, weight.basic, side),
      ...targetStep(root, assembly, basic),
    ]),
    ...(grows ? section("CG, predicted", centreSteps(root, predictedOf(weight), side)) : []),
    ...section("Budget", budgetSteps(root, assembly.budget, basic.mass, predicted.mass, floor)),
    ...section("Basis of the basic mass", basisSteps(root, assembly)),
    ...section("Spread of the basic mass, one standard deviation", spreadSteps(root, assembly)),
    ...section("Chance of exceeding the budget", chanceSteps(root, assembly)),
    ...inertiaLines(root, assembly, side),
    ...(assembly.mirrored && !found.side
      ? section("Both sides", [
          ["basic", `2 × ${massText(root, basic.mass)} = ${massText(root, 2 * basic.mass)}`],
          [
            "predicted",
            `2 × ${massText(root, predicted.mass)} = ${massText(root, 2 * predicted.mass)}`,
          ],
        ])
      : []),
  ];
}

/** What counts in basic; a pair is one row. */
function memberRows(root: Root, { members, weighed }: Assembly, side: 1 | -1): readonly Row[] {
  return members.flatMap((member): readonly Row[] => {
    if (member.kind !== "assembly" && member.kind !== "part" && member.kind !== "ballast")
      return [];
    const { basic, growth } = sumsOf(member);
    const name = `${member.name}${member.mirrored ? " (both)" : ""}`;
    const massUnknown = member.kind !== "assembly" && member.mass === undefined;
    const grown = weighed?.mass === undefined ? growth : 0;
    return [rowOf(root, name, basic, member.head.path, { side, growth: grown, massUnknown })];
  });
}

/** Of everything a member makes, both sides; growth in kg. */
function sumsOf(member: Member): { basic: Totals; growth: number } {
  if (member.kind === "assembly") {
    const weight = weightOf(member);
    return { basic: weight.basic, growth: balanceOf(weight.growth, 0).mass };
  }
  const basic = none();
  if (member.kind !== "part" && member.kind !== "ballast") return { basic, growth: 0 };
  if (member.mass !== undefined) put(basic, member.mass, member.place, member.mirrored);
  return { basic, growth: member.growth * (member.mirrored ? 2 : 1) };
}

/** The parts' sum; or, under it, what the whole weighs on a scale. */
function wholeRows(root: Root, assembly: Assembly, side: 1 | -1): readonly Row[] {
  const { basic, growth } = oneSide(assembly);
  const { weighed, weighedFs, item } = assembly;
  const grown = balanceOf(growth, 0).mass;
  if (weighed?.mass === undefined)
    return [rowOf(root, "basic", basic, undefined, { side, growth: grown })];
  const parts = none();
  for (const member of assembly.members) merge(parts, sumsOf(member).basic);
  const off = weighed.mass - balanceOf(parts, 0).mass;
  const { figure, on, by } = weighed.clause;
  const how = [
    figure && asShown(figure, weighed.mass, root.units.mass),
    on && `on ${on.text}`,
    by && `by ${by.text}`,
  ];
  const details = [
    line(`    ${how.filter(Boolean).join(" ")}: governs over its parts, growth 0`, weighed.clause),
    line(`    ${massText(root, off)} of it is not in the parts (unlisted)`),
    line(
      `    its FS is ${weighedFs === undefined ? "that of its parts" : "the moment ÷ this mass"}`,
      weighedFs === undefined ? undefined : clauseOf(clausesOf(item), "moment"),
    ),
  ];
  return [
    rowOf(root, "parts", parts, undefined, { side }),
    rowOf(root, "basic, as weighed", basic, weighed.clause, { side, details }),
  ];
}

function growthRows(root: Root, growth: Totals, side: 1 | -1): readonly Row[] {
  return balanceOf(growth, 0).mass === 0
    ? []
    : [rowOf(root, "growth", growth, undefined, { side })];
}

/** Those that stand here by name, the ones of the assemblies inside in one row. */
function reserveRows(root: Root, { members }: Assembly, all: Totals, side: 1 | -1): readonly Row[] {
  const total = balanceOf(all, 0).mass;
  if (total === 0) return [];
  const own = members.flatMap(it => (it.kind === "reserve" ? [it] : []));
  const details = own.map(it =>
    line(
      `    ${it.name} ${it.mass === undefined ? "unknown" : massText(root, it.mass)} ${it.place ? `at ${placeText(root, it.place)}` : "at the CG of the parts"}`,
      it.head.path,
    ),
  );
  const inside = members.flatMap(it =>
    it.kind === "assembly" && balanceOf(weightOf(it).reserve, 0).mass > 0
      ? [
          line(
            `    in ${it.name} ${massText(root, balanceOf(weightOf(it).reserve, 0).mass)}`,
            it.head.path,
          ),
        ]
      : [],
  );
  return [rowOf(root, "reserves", all, undefined, { side, details: [...details, ...inside] })];
}

function targetStep(
  root: Root,
  { target }: Assembly,
  basic: { readonly fs: number | null; readonly bl: number | null; readonly wl: number | null },
): readonly Step[] {
  if (target === undefined) return [];
  const { axis, low, high, at } = target;
  const x = basic[axis.toLowerCase() as "fs" | "bl" | "wl"];
  const end = (it: number | undefined) => (it === undefined ? "" : lengthText(root, it));
  const off =
    x !== null &&
    ((low !== undefined && exceeds(low, x)) || (high !== undefined && exceeds(x, high)));
  const verdict = x === null ? "not known" : off ? "outside" : "inside";
  return [["wanted", `${axis} ${end(low)} .. ${end(high)}: ${verdict}`, at]];
}
