import type { Span } from "../../../grammar/tree";
import { add, rounded } from "../../compute/exact";
import { type Balance, balanceOf, type Totals } from "../../compute/weight";
import type { Root } from "../../model/root";
import { lengthText, massText, momentText, momentUnit, percent } from "./figures";
import type { Heading, Row, Step, WhyLine } from "./lines";

export function headingsOf(root: Root, growth: boolean): readonly Heading[] {
  const { mass, length } = root.units;
  return [
    ["mass", mass.name],
    ["FS", length.name],
    ["BL", length.name],
    ["WL", length.name],
    ["FS moment", momentUnit(root).name],
    ...(growth ? [["growth", mass.name] as const] : []),
  ];
}

/** A contributor, or what contributors add up to: mass, place, moment about the datum. */
export function rowOf(
  root: Root,
  name: string,
  totals: Totals,
  at: Span | undefined,
  rest: {
    side?: 1 | -1;
    growth?: number;
    details?: readonly WhyLine[];
    massUnknown?: boolean;
  } = {},
): Row {
  const { mass, length } = root.units;
  const { side = 1, growth, details = [], massUnknown = false } = rest;
  const { mass: kg, fs, bl, wl } = balanceOf(totals, 0);
  const place = (x: number | null) => (x === null ? ("?" as const) : x / length.factor || 0);
  const cells: Row["cells"] = massUnknown
    ? ["?", "", "", "", ""]
    : [
        kg / mass.factor,
        ...(kg === 0 ? (["", "", ""] as const) : [place(fs), place(bl && bl * side), place(wl)]),
        fs === null
          ? kg === 0
            ? 0
            : ("?" as const)
          : rounded(totals.fs) / momentUnit(root).factor,
      ];
  const grown = growth === undefined ? [] : [growth === 0 ? ("" as const) : growth / mass.factor];
  return { name, cells: [...cells, ...grown], at, details };
}

/** Each coordinate of a CG: moment ÷ the mass that has a place. FS in percent of the chord too. */
export function centreSteps(root: Root, totals: Totals, side: 1 | -1 = 1): readonly Step[] {
  const balance = balanceOf(totals, 0);
  const axis = (name: "FS" | "BL" | "WL", lacking: Totals["mass"]): readonly Step[] => {
    const key = name.toLowerCase() as "fs" | "bl" | "wl";
    const x = balance[key];
    if (x === null) return [[name, "unknown: nothing in it has one"]];
    const placed = [...totals.mass];
    for (const it of lacking) add(placed, -it);
    const turn = name === "BL" ? side : 1;
    const missing = rounded(lacking);
    const left = missing === 0 ? "" : ` (${massText(root, missing)} in it has no ${name})`;
    return [
      [
        name,
        `${momentText(root, turn * rounded(totals[key]))} ÷ ${massText(root, rounded(placed))} = ${lengthText(root, turn * x)}${left}`,
      ],
    ];
  };
  return [
    ...axis("FS", totals.lacksFs),
    ...chordStep(root, balance),
    ...axis("BL", totals.lacksBl),
    ...axis("WL", totals.lacksWl),
  ];
}

function chordStep(root: Root, { fs }: Balance): readonly Step[] {
  if (root.mac === undefined || fs === null) return [];
  const { fs: edge, length } = root.mac;
  const share = percent((fs - edge) / length);
  return [
    [
      "%MAC",
      `(${lengthText(root, fs)} − ${lengthText(root, edge)}) ÷ ${lengthText(root, length)} = ${share}`,
    ],
  ];
}
