import type { Span } from "../../../grammar/tree";
import { type Contents, empty, fluidAt, type State } from "../../compute/contents";
import { asDrawn } from "../../compute/stages";
import { balanceOf, merge, none, put, type Totals, weightOf } from "../../compute/weight";
import { clauseOf, clausesOf } from "../../model/clauses";
import type { Root } from "../../model/root";
import type { Station } from "../../model/station";
import { VOLUME } from "../../quantity/dimension";
import { show } from "../../quantity/show";
import { densityUnit, massText } from "./figures";
import { line, type Row, section, table, type WhyLine } from "./lines";
import { centreSteps, headingsOf, rowOf } from "./sums";
import { levelSteps, weighedLines } from "./weighing";

/** The parts, and what is in each tank, seat and bay: rows that add up to the aircraft in that state. */
export interface Aboard {
  readonly basic: Totals;
  readonly predicted: Totals;
  readonly lines: readonly WhyLine[];
}

/** The basic empty weight: the parts, unusable fluid and full operating tanks. */
export function emptyLines(root: Root): readonly WhyLine[] {
  const { basic, predicted, lines } = emptyAboard(root);
  const grows = balanceOf(predicted, 0).mass !== balanceOf(basic, 0).mass;
  const weighed = weighedLines(root);
  return [
    line(
      `empty: the basic empty weight of ${root.airframe?.title ?? root.airframe?.name ?? root.title ?? root.name}`,
      root.aircraft.head.path,
    ),
    ...weighed,
    ...lines,
    ...section(
      "CG, basic empty weight: moment ÷ mass",
      weighed.length > 0 ? levelSteps(root, basic, basic) : centreSteps(root, basic),
    ),
    ...(grows ? section("CG, predicted", centreSteps(root, predicted)) : []),
  ];
}

const emptyAboard = (root: Root) =>
  aboard(root, empty(root), "basic empty weight", it => {
    const clauses = clausesOf(it.item);
    return { at: clauseOf(clauses, it.operating ? "operating" : "unusable") ?? it.head.path };
  });

/** Where what is in a place is written, and what it says where that is in another unit. */
export interface Said {
  readonly at: Span | undefined;
  readonly text?: string | undefined;
}

export function aboard(
  root: Root,
  state: State,
  name: string,
  said: (station: Station) => Said,
): Aboard {
  const weight = weightOf(root.aircraft);
  const basic = none();
  merge(basic, weight.basic);
  const rows: Row[] = [rowOf(root, "parts", weight.basic, root.aircraft.head.path)];
  for (const [station, contents] of state) {
    const totals = contentsIn(root, station, contents);
    if (totals.mass.length === 0) continue;
    merge(basic, totals);
    const { at, text } = said(station);
    const own = station.kind === "tank" || !text ? [] : [line(`    ${text}`, at)];
    const details = [...own, ...amountLines(root, station, contents)];
    rows.push(rowOf(root, station.path, totals, at, { details }));
  }
  const predicted = none();
  for (const it of [basic, weight.growth, weight.reserve]) merge(predicted, it);
  const coming = [
    ["growth", weight.growth],
    ["reserves", weight.reserve],
  ] as const;
  const more = coming.flatMap(([what, it]) =>
    balanceOf(it, 0).mass === 0 ? [] : [rowOf(root, what, it, undefined)],
  );
  const floor =
    weight.unknown > 0
      ? [line(`  ${weight.unknown} parts without a mass: every sum is a floor`)]
      : [];
  return {
    basic,
    predicted,
    lines: [
      ...table(name.startsWith("at ") ? `Aboard ${name}` : "Aboard", headingsOf(root, false), [
        rows,
        [rowOf(root, name, basic, undefined)],
        more,
        more.length > 0 ? [rowOf(root, "predicted", predicted, undefined)] : [],
      ]),
      ...floor,
    ],
  };
}

function contentsIn(root: Root, station: Station, { right, left, place }: Contents): Totals {
  const totals = none();
  const { moved } = asDrawn(root);
  const one = (mass: number, side: 1 | -1) => {
    if (mass === 0) return;
    const parts =
      station.kind === "tank"
        ? fluidAt(station, mass, root)
        : ([[mass, place ?? station.place]] as const);
    for (const [part, from] of parts) put(totals, part, moved(station, from, side), false);
  };
  one(right, 1);
  if (station.mirrored) one(left, -1);
  return totals;
}

/** "2 × 14 gal of mogas, 6.02 lb/gal"; of a mass that is all in one place there is no more to say. */
function amountLines(root: Root, station: Station, contents: Contents): readonly WhyLine[] {
  const { right, left } = contents;
  const { fluid, holds, mirrored } = station;
  const known = fluid && root.fluids.get(fluid.text);
  const density = known?.density;
  const volume = holds?.dimension === VOLUME && density !== undefined;
  const of = (mass: number) =>
    volume ? show(mass / density, holds.unit ?? root.units.volume) : massText(root, mass);
  const sides = mirrored
    ? right === left
      ? `2 × ${of(right)}`
      : `${of(right)} right, ${of(left)} left`
    : of(right);
  if (!volume) return mirrored ? [line(`    ${sides}`)] : [];
  return [
    line(`    ${sides} of ${fluid!.text}, ${show(density, densityUnit(root))}`, known?.head.path),
  ];
}
