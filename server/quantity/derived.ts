import * as dim from "./dimension";
import { type Unit, unitOf, unitTable } from "./units";

/**
 * What a figure without a unit of its own is shown in: products of the author's units of mass and length,
 * such as lb/in^2. Undefined for what reaches beyond masses, lengths, times, angles and currents.
 */
export function derivedUnit(
  dimension: dim.Dimension,
  own: { readonly mass: Unit; readonly length: Unit; readonly volume: Unit },
): Unit | undefined {
  const { mass, length, time, angle, current, other } = dimension;
  if (dimension === dim.PLAIN || other !== "") return undefined;
  if (dimension === dim.VOLUME) return own.volume;
  const us = imperial.has(own.mass.name);
  if (dimension === dim.FORCE) return unitTable.get(us ? "lbf" : "N");
  if (dimension === dim.PRESSURE) return unitTable.get(us ? "psi" : "kPa");
  const perVolume = dimension === dim.DENSITY;
  const powers = [
    { name: own.mass.name, power: mass },
    { name: own.length.name, power: perVolume ? 0 : length },
    { name: own.volume.name, power: perVolume ? -1 : 0 },
    { name: "s", power: time },
    { name: "deg", power: angle },
    { name: "A", power: current },
  ].filter(it => it.power !== 0);
  const names = new Map([own.mass, own.length, own.volume, ampere].map(it => [it.name, it]));
  const unit = unitOf(powers, name => names.get(name));
  return "unknown" in unit ? undefined : unit;
}

const imperial = new Set(["lb", "oz", "slug"]);
const ampere: Unit = { name: "A", factor: 1, dimension: dim.CURRENT };

/** slug ft² beside pounds, as flight mechanics has it; else kg m². */
export function inertiaUnit({ mass }: { readonly mass: Unit }): Unit {
  const names = imperial.has(mass.name) ? (["slug", "ft"] as const) : (["kg", "m"] as const);
  const [m, l] = names.map(name => unitTable.get(name)!) as [Unit, Unit];
  return {
    name: `${names[0]} ${names[1]}^2`,
    dimension: dim.INERTIA,
    factor: m.factor * l.factor ** 2,
  };
}
