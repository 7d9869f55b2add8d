import type { Basis } from "../../grammar/tree";
import type { Watch } from "../compute/watches";
import { lastWeighing } from "../compute/weighing";
import { whoIs } from "../features/room";
import type { Root } from "../model/root";
import { chanceText } from "../quantity/chance";
import { show, showNumber } from "../quantity/show";
import { thought } from "../shop/off";
import { type Next, nextOf, type Progress, progressOf } from "../shop/progress";
import { drawn, jsonText } from "./formats/row";
import { tableOf } from "./formats/table";
import { called, oneOf } from "./options";
import { inShop } from "./shop";
import { WrongUse } from "./wrong-use";

/** Prints how much of an aircraft is weighed, quoted, calculated and estimated, and what to weigh next. */
export function progress(args: readonly string[], print: (text: string) => void): 0 {
  const { rest, said } = called("progress", args, ["--airframe", "--format", "--most"]);
  const [file, ...more] = rest;
  if (more.length > 0)
    throw new WrongUse("progress takes one file or folder: poise progress kite.poise");
  const format = oneOf("--format", said.get("--format"), ["table", "json"]);
  const most = Number(said.get("--most") ?? 10);
  if (!Number.isInteger(most) || most < 1)
    throw new WrongUse("--most is a whole number of rows, such as 20");
  const { root, title } = inShop(file, said.get("--airframe"));
  const rows = progressOf(root);
  const next = nextOf(root);
  if (format === "json") {
    print(jsonText(asJson(title, rows, next), 2));
    return 0;
  }
  print(`${drawn(title)}: how much of it is weighed`);
  const whole = lastWeighing(root);
  if (whole) print(`It was weighed as a whole on ${whole.on}; by its parts it stands so:`);
  for (const row of progressTable(rows, root)) print(row);
  if (rows.some(it => it.elsewhere > 0))
    print("weighed elsewhere: as a piece of the design, and not as this airframe's own");
  print("");
  for (const row of nextTable(next, root, most)) print(row);
  return 0;
}

const bases = ["weighed", "quoted", "calculated", "estimated"] as const;

function progressTable(rows: readonly Progress[], root: Root): readonly string[] {
  const { mass: unit } = root.units;
  const elsewhere = rows.some(it => it.elsewhere > 0);
  const unknown = rows.some(it => it.unknown > 0);
  const share = (kg: number, { basic }: Progress) =>
    kg === 0 || basic === 0 ? "-" : percent(kg / basic);
  return tableOf([
    [
      ...["assembly", "basic", "weighed"],
      ...(elsewhere ? ["weighed elsewhere"] : []),
      ...["quoted", "calculated", "estimated"],
      ...(unknown ? ["without a mass"] : []),
    ],
    ...rows.map(it => [
      `${"  ".repeat(it.depth)}${it.depth === 0 ? "the aircraft" : it.assembly.path}`,
      show(it.basic, unit),
      share(it.shares.weighed - it.elsewhere, it),
      ...(elsewhere ? [share(it.elsewhere, it)] : []),
      ...bases.slice(1).map(basis => share(it.shares[basis], it)),
      ...(unknown ? [it.unknown === 0 ? "" : `${it.unknown}`] : []),
    ]),
  ]);
}

/** Less than a percent is not none. */
function percent(share: number): string {
  const whole = Math.round(100 * share);
  if (whole === 0) return "< 1 %";
  return whole === 100 && share < 1 - 1e-9 ? "> 99 %" : `${whole} %`;
}

function nextTable(next: readonly Next[], root: Root, most: number): readonly string[] {
  if (next.length === 0) return ["Every part is weighed."];
  const { mass: unit } = root.units;
  const shown = next.slice(0, most);
  const bears = shown.some(it => it.bears);
  return [
    bears
      ? "What to weigh next: one spread of it moves the chance of what it bears on most"
      : "What to weigh next, the least certain first: no spread bears on a budget or a limit",
    ...(bears || shown.some(it => it.spread > 0)
      ? []
      : [
          "(spread estimated 10%, calculated 4%, quoted 2% … in the aircraft's block says how far off each is)",
        ]),
    ...tableOf([
      [
        "part",
        "pieces",
        "thought",
        "spread of all",
        ...(bears ? ["bears on", "chance", "moves by"] : []),
      ],
      ...shown.map(({ weighable, spread, bears: on }) => [
        weighable.path,
        showNumber(weighable.pieces, 0),
        thought(weighable.before, weighable.before?.unit ?? unit),
        spread === 0 ? "not declared" : `± ${show(spread, weighable.before?.unit ?? unit)}`,
        ...(bears
          ? on
            ? [watchText(on.watch), chanceText(on.watch.chance), points(on.by)]
            : ["", "", ""]
          : []),
      ]),
    ]),
    ...(next.length > most
      ? [`${next.length - most} more: --most ${next.length} shows them all`]
      : []),
    ...(bears
      ? [
          "The chance of exceeding is about basic + growth, reserves unspent; normal, to first order",
          "(JCGM 100:2008, 5.1.2).",
        ]
      : []),
    ...(root.statements.loadings.length > 0 && next.some(it => it.weighable.before === undefined)
      ? [
          "While a part has no mass, no chance of exceeding what it counts in is given, limits among them.",
        ]
      : []),
  ];
}

const points = (by: number) => (by < 0.0005 ? "< 0.1 points" : `${showNumber(100 * by, 1)} points`);

function watchText({ of }: Watch): string {
  if ("budget" in of) return `budget of ${of.budget.path || "the aircraft"}`;
  if ("edge" in of) return `${of.edge.limit.what}, ${whoIs(of.edge.condition)}`;
  return `${of.weight}, ${whoIs(of.condition)}`;
}

/** kg; of an airframe what it weighed itself and what only the design did stand apart. */
function asJson(aircraft: string, rows: readonly Progress[], next: readonly Next[]) {
  return {
    aircraft,
    assemblies: rows.map(it => ({
      ...{
        path: it.assembly.path,
        basic_kg: it.basic,
        weighed_kg: it.shares.weighed - it.elsewhere,
      },
      weighed_elsewhere_kg: it.elsewhere,
      ...sharesJson(it.shares),
      without_a_mass: it.unknown,
    })),
    next: next.map(({ weighable, spread, bears }) => ({
      ...{ path: weighable.path, pieces: weighable.pieces, spread_kg: spread },
      basis: weighable.before?.basis ?? null,
      mass_kg: weighable.before?.mass ?? null,
      bears_on: bears ? watchText(bears.watch) : null,
      chance: bears?.watch.chance ?? null,
      moves_by: bears?.by ?? null,
    })),
  };
}

const sharesJson = ({ quoted, calculated, estimated }: Readonly<Record<Basis, number>>) => ({
  ...{ quoted_kg: quoted, calculated_kg: calculated, estimated_kg: estimated },
});
