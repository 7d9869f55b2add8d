import type { Span } from "../../../grammar/tree";
import type { Root } from "../../model/root";
import { same } from "../../quantity/compare";
import { closestShown, show, showNumber } from "../../quantity/show";
import type { LoadingChange, RootDifference } from "./difference";
import { type PartChange, pathOf } from "./parts";
import type { Nearest, Room } from "./rooms";
import type { AssemblyChange, Sum } from "./sums";

/** A table of a difference: the same rows in a terminal and on a page. */
export interface Section {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly Row[];
}

export interface Row {
  readonly cells: readonly string[];
  /** Where it stands, and in which of the two states of the text. */
  readonly at?: { readonly span: Span; readonly side: "base" | "head" };
}

/** The yardstick first and apart; sections without a row are left out. */
export function sectionsOf(it: RootDifference): readonly Section[] {
  const root = (it.head ?? it.base)!.root;
  const sections: Section[] = [
    {
      title: "The yardstick",
      columns: ["", "what", "base", "head", ""],
      rows: it.yardstick.map(({ base, head, effect, hides }) => {
        const { what, path } = (head ?? base)!;
        const of = path === undefined ? "" : ` of ${path || root.name}`;
        const [was, is] = [base && (base.shown || "there"), head && (head.shown || "there")];
        return {
          cells: [effect, `${what}${of}`, was ?? "none", is ?? "gone", hides ?? ""],
          at: placed(head?.at, base?.at),
        };
      }),
    },
    { title: "Empty weight", columns: changeColumns, rows: emptyRows(it, root) },
    {
      title: "Assemblies",
      columns: [...changeColumns, "basic of budget", "by cause"],
      rows: it.assemblies.map(row => assemblyRow(row, root)),
    },
    {
      title: "Parts",
      columns: ["part", "cause", "base", "head", "difference", ""],
      rows: it.parts.changes.map(row => partRow(row, root)),
    },
    {
      title: "Loadings",
      columns: ["loading", "base", "head"],
      rows: it.loadings.flatMap(row => loadingRows(row, root)),
    },
  ];
  // an airframe that comes or goes has the parts of its design, which are no news
  const comes = it.airframe !== undefined && (it.base === undefined || it.head === undefined);
  const news = comes ? sections.filter(({ title }) => !ofItsDesign.has(title)) : sections;
  return news.filter(section => section.rows.length > 0);
}

const ofItsDesign = new Set(["Assemblies", "Parts"]);

const changeColumns = ["", "base", "head", "difference"];

const placed = (head: Span | undefined, base: Span | undefined) =>
  head ? ({ span: head, side: "head" } as const) : ({ span: base!, side: "base" } as const);

function emptyRows({ empty: { base, head } }: RootDifference, root: Root): readonly Row[] {
  const { mass, length } = root.units;
  const row = (name: string, a = Number.NaN, b = Number.NaN, unit = length) => {
    const [was, is, by] = change(known(a), known(b), unit);
    // a CG moves a little with everything
    const still = unit === length && show(a, unit) === show(b, unit);
    // from nowhere to somewhere is no distance
    const moved = unit === length && (was === "" || is === "") ? "" : by;
    return by === "" || still ? [] : [{ cells: [name, was, is, moved] }];
  };
  const of = (sum: Sum | undefined, which: "basic" | "predicted") => sum?.[which];
  return (["basic", "predicted"] as const).flatMap(which => {
    const [a, b] = [of(base, which), of(head, which)];
    return [
      ...row(which, a?.mass, b?.mass, mass),
      ...row(`${which} CG, FS`, a?.fs ?? undefined, b?.fs ?? undefined),
      ...(which === "basic" ? row("basic CG, BL", a?.bl ?? undefined, b?.bl ?? undefined) : []),
      ...(which === "basic" ? row("basic CG, WL", a?.wl ?? undefined, b?.wl ?? undefined) : []),
    ];
  });
}

const known = (x: number) => (Number.isNaN(x) ? undefined : x);

function assemblyRow({ path, basePath, mirrored, base, head, causes }: AssemblyChange, root: Root) {
  const { mass } = root.units;
  const unit = root.units.mass;
  const called = path || root.name;
  const from = basePath !== undefined && basePath !== path ? ` (was ${basePath})` : "";
  const sum = head ?? base!;
  const share =
    head?.budget === undefined
      ? ""
      : `${showNumber((head.basic.mass / head.budget) * 100, 1)} % of ${show(head.budget, unit)}`;
  const by = Object.entries(causes).map(([cause, kg]) => `${cause} ${signed(kg, unit)}`);
  const predicted = change(base?.predicted.mass, head?.predicted.mass, mass)[2];
  return {
    cells: [
      `${called}${mirrored ? " (each)" : ""}${from}${sum.basic.massKnown ? "" : " (incomplete)"}`,
      ...change(base?.basic.mass, head?.basic.mass, mass),
      share,
      by.length > 0 ? by.join(", ") : predicted === "" ? "" : `predicted ${predicted}`,
    ],
  };
}

function partRow(it: PartChange, root: Root): Row {
  const { base, head, causes } = it;
  const { mass, length } = root.units;
  const details: string[] = [];
  if (base && head) {
    if (base.path !== head.path) details.push(`was ${base.path}`);
    if (base.basis !== head.basis)
      details.push(`${base.basis ?? "none"} → ${head.basis ?? "none"}`);
    if (base.pieces !== head.pieces) details.push(`${base.pieces} → ${head.pieces} pieces`);
    if (causes.includes("moved"))
      for (const axis of ["fs", "bl", "wl"] as const) {
        const [a, b] = [base.place[axis], head.place[axis]];
        if (a === b || (a !== undefined && b !== undefined && same(a, b))) continue;
        const [was, is] = change(a, b, length);
        details.push(`${axis.toUpperCase()} ${was || "unknown"} → ${is || "unknown"}`);
      }
  } else if ((head ?? base)!.basis) details.push((head ?? base)!.basis!);
  const [was, is, by] = change(base?.mass, head?.mass, mass);
  return {
    cells: [pathOf(it), causes.join(", "), was, is, by, details.join(", ")],
    at: placed(head?.at, base?.at),
  };
}

/** A row for what changed, a row a kind of limit. */
function loadingRows({ base, head }: LoadingChange, root: Root): readonly Row[] {
  const { loading, envelope } = (head ?? base)!;
  const row = (masses: string, a: Side, b: Side, kind: "cg" | "weight"): readonly Row[] => {
    const [x, y] = [a?.[kind], b?.[kind]];
    if (x === undefined && y === undefined) return [];
    const unit = kind === "cg" ? root.units.length : root.units.mass;
    const [was, is] = [x, y].map(it => (it ? roomText(it, unit) : ""));
    // a room changes a little with everything
    return was === is ? [] : [{ cells: [`${loading} (${envelope})${masses}`, was!, is!] }];
  };
  const grown = ", predicted";
  return [
    ...row("", base, head, "cg"),
    ...row("", base, head, "weight"),
    ...row(grown, base?.predicted, head?.predicted, "cg"),
    ...row(grown, base?.predicted, head?.predicted, "weight"),
  ];
}

type Side = Pick<Room, "cg" | "weight"> | undefined;

function roomText({ by, what, stage }: Nearest, unit: Root["units"]["mass"]): string {
  return `${show(Math.abs(by), unit)} ${by < 0 ? "outside" : "inside"} ${what}, ${stage.replace("_", " ")}`;
}

/** Before, after and the difference; what is not there or unknown stays empty. */
function change(
  a: number | undefined,
  b: number | undefined,
  unit: Root["units"]["mass"],
): [string, string, string] {
  if (a === undefined || b === undefined) {
    const one = a ?? b;
    const by = one === undefined ? "" : signed(a === undefined ? one : -one, unit);
    return [a === undefined ? "" : show(a, unit), b === undefined ? "" : show(b, unit), by];
  }
  const [was, is] = closestShown(a, b, unit);
  return [was, is, same(a, b) ? "" : signed(b - a, unit)];
}

const signed = (value: number, unit: Root["units"]["mass"]) =>
  `${value > 0 ? "+" : ""}${show(value, unit)}`;
