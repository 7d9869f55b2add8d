import type { ClauseOf, Item } from "../../grammar/tree";
import { memo } from "../memo";
import { LENGTH, MASS, nameOf, VOLUME } from "../quantity/dimension";
import { type Unit, unitOf, unitTable } from "../quantity/units";
import { clauseOf, clausesOf } from "./clauses";
import type { Units } from "./env";
import type { Setting } from "./evaluate";
import { unitsBeyond } from "./units-beyond";

type Said = ClauseOf<"units">["units"][number];

/** Each unit by itself; `kg mm L` without commas reads as one, and can only mean three. */
const saidUnits = memo((item: Item): readonly Said[] =>
  (clauseOf(clausesOf(item), "units")?.units ?? []).flatMap(said =>
    isRow(said) ? apart(said) : said,
  ),
);

const apart = ({ unit, ...span }: Said): readonly Said[] =>
  unit.map(it => ({ ...span, unit: [it] }));

function isRow(said: Said): boolean {
  const dimensions = apart(said).map(it => dimensionOf(it.unit));
  const known = [MASS, LENGTH, VOLUME].filter(it => dimensions.includes(it));
  return (
    known.length > 1 && known.length === said.unit.length && said.unit.every(it => it.power === 1)
  );
}

const dimensionOf = (unit: Said["unit"]) => {
  const it = unitOf(unit, unitsBeyond);
  return "unknown" in it ? undefined : it.dimension;
};
/** Does it say what a bare coordinate is in? */
export const namesLength = (item: Item): boolean =>
  saidUnits(item).some(it => dimensionOf(it.unit) === LENGTH);

/** kg, m and L where the aircraft says nothing. */
export function unitsOf(item: Item, setting: Setting): Units {
  let mass: Unit = unitTable.get("kg")!;
  let length: Unit = unitTable.get("m")!;
  let volume: Unit = unitTable.get("L")!;
  for (const said of clauseOf(clausesOf(item), "units")?.units ?? [])
    if (isRow(said)) {
      const names = said.unit.map(it => it.name).join(", ");
      setting.report("syntax", said, `commas stand between units: units ${names}`);
    }
  for (const said of saidUnits(item)) {
    const unit = unitOf(said.unit, unitsBeyond);
    if ("unknown" in unit) setting.report("unknown-name", said, `${unit.unknown} is no unit`);
    else if (unit.dimension === MASS) mass = unit;
    else if (unit.dimension === LENGTH) length = unit;
    else if (unit.dimension === VOLUME) volume = unit;
    else
      setting.report(
        "wrong-dimension",
        said,
        `units are those of mass, length and volume, not of ${nameOf(unit.dimension)}`,
      );
  }
  return unitsAlike(mass, length, volume);
}

const unitSets = new Map<string, Units>();
function unitsAlike(mass: Unit, length: Unit, volume: Unit): Units {
  const key = `${mass.name}|${length.name}|${volume.name}`;
  let units = unitSets.get(key);
  if (units === undefined) {
    units = { mass, length, volume };
    unitSets.set(key, units);
  }
  return units;
}
