import { clauseOf, clausesOf } from "../../model/clauses";
import { fullOf, unusableOf } from "../../model/loading";
import type { Root } from "../../model/root";
import type { Station } from "../../model/station";
import { MASS } from "../../quantity/dimension";
import type { Quantity } from "../../quantity/quantity";
import { show } from "../../quantity/show";
import { densityUnit, massText, placeText, written } from "./figures";
import { type Found, titled } from "./found";
import { line, type Step, section, type WhyLine } from "./lines";
import { placeSteps } from "./place";

/** A tank, seat or bay: what may be in it and where that lies. Contents count in loadings, not in assemblies. */
export function stationLines(root: Root, found: Found<Station>): readonly WhyLine[] {
  const { member: station } = found;
  return [
    line(titled(found), station.head.path),
    line(`  a ${station.kind}; what is in it counts in loadings${emptyToo(station)}`),
    ...section(
      station.mirrored ? "Contents, of one side" : "Contents",
      contentSteps(root, station),
    ),
    ...section("Place", placeSteps(root, found, station.place)),
    ...section("Place of the contents, by amount", rowSteps(root, station)),
  ];
}

function emptyToo({ kind, operating, unusable }: Station): string {
  if (kind !== "tank") return "";
  if (operating) return ", full in the basic empty weight too";
  return unusable ? ", its unusable in the basic empty weight too" : "";
}

function contentSteps(root: Root, station: Station): readonly Step[] {
  const clauses = clausesOf(station.item);
  const steps: Step[] = [];
  if (station.holds)
    steps.push([
      "holds",
      amountText(root, station, station.holds, fullOf(station, root)),
      clauseOf(clauses, "holds"),
    ]);
  if (station.unusable)
    steps.push([
      "unusable",
      amountText(root, station, station.unusable, unusableOf(station, root)),
      clauseOf(clauses, "unusable"),
    ]);
  if (station.fluid) {
    const fluid = root.fluids.get(station.fluid.text);
    const density = fluid?.density;
    steps.push([
      station.fluid.text,
      density === undefined ? "density not known" : show(density, densityUnit(root)),
      fluid?.head.path ?? station.fluid,
    ]);
  }
  const range = clauseOf(clauses, "range");
  if (station.range && range) {
    const [low, high] = station.range;
    const text = `${range.low ? written(range.low) : ""} .. ${range.high ? written(range.high) : ""}`;
    const shown = `${massText(root, low.value)} .. ${massText(root, high.value)}`;
    steps.push(["range", text === shown ? text : `${text} = ${shown}`, range]);
  }
  return steps;
}

/** "14 gal × 6.02 lb/gal = 84.3 lb". */
function amountText(
  root: Root,
  { fluid }: Station,
  amount: Quantity,
  mass: number | undefined,
): string {
  const shown = show(amount.value, amount.unit ?? root.units.mass);
  if (mass === undefined) return `${shown}: its mass is not known`;
  if (amount.dimension === MASS)
    return amount.unit?.name === root.units.mass.name
      ? shown
      : `${shown} = ${massText(root, mass)}`;
  const density = fluid && root.fluids.get(fluid.text)?.density;
  const { volume } = root.units;
  const same = amount.unit === undefined || amount.unit.name === volume.name;
  const inVolume = same
    ? shown
    : `${shown} = ${show(amount.value, volume)}, ${show(amount.value, volume)}`;
  return `${inVolume} × ${show(density ?? 0, densityUnit(root))} = ${massText(root, mass)}`;
}

function rowSteps(root: Root, { filled, unusableAt, item, place }: Station): readonly Step[] {
  const rows = filled.map(
    ({ amount, place: at, expr }): Step => [
      `at ${show(amount.value, amount.unit ?? root.units.mass)}`,
      placeText(root, at),
      expr,
    ],
  );
  const elsewhere: Step[] = unusableAt
    ? [["unusable", placeText(root, unusableAt), clauseOf(clausesOf(item), "unusable")]]
    : [];
  if (rows.length === 0)
    return unusableAt ? [...elsewhere, ["the rest", placeText(root, place)]] : [];
  return [...elsewhere, ...rows, ["between", "the moment runs straight, to zero at empty"]];
}
