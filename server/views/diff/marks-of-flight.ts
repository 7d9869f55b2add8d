import type { Envelope, Row } from "../../model/envelope";
import type { Loading } from "../../model/loading";
import type { Root } from "../../model/root";
import { show } from "../../quantity/show";
import type { Unit } from "../../quantity/units";
import { band, type Mark, mark } from "./mark";

/** Weight limits, and each row of the CG limits by its weight or station. */
export function marksOfEnvelope(envelope: Envelope, root: Root): readonly Mark[] {
  const { name } = envelope;
  const weights = (["ramp", "takeoff", "landing", "zero_fuel"] as const).flatMap(kind => {
    const limit = envelope[kind];
    if (limit === undefined) return [];
    return mark("limit", undefined, `${kind.replace("_", "-")} weight of ${name}`, {
      ...{ values: [limit.mass], senses: [1], presence: -1 },
      ...{ shown: show(limit.mass, limit.unit), at: limit.clause },
    });
  });
  const { mass, length } = root.units;
  return [
    ...weights,
    ...rows(envelope.rows, `cg of ${name}`, mass, length),
    ...rows(envelope.lateral, `lateral of ${name}`, mass, length),
    ...rows(envelope.lateralByStation, `lateral of ${name}`, length, length),
  ];
}

function rows(list: readonly Row[], of: string, keyUnit: Unit, length: Unit): readonly Mark[] {
  return list.map((row, i) => {
    const { key, low, high, clause } = row;
    // two rows of one weight make a step
    const again = list.slice(0, i).filter(it => it.key === key).length;
    const at = key === undefined ? "" : ` at ${show(key, keyUnit)}`;
    const name = `${of}${at}${again > 0 ? ` (${again + 1})` : ""}`;
    const found = band("limit", undefined, name, low, high, length, clause);
    // one corner less may cut the band or widen it
    return { ...found, presence: key === undefined ? -1 : 0 };
  });
}

/** What a loading puts aboard is a premise of its verdict; one that is gone is judged no more. */
export function marksOfLoading({ name, at, loads }: Loading, { units }: Root): readonly Mark[] {
  return [
    mark("loading", undefined, `loading ${name}`, {
      ...{ values: [], senses: [], presence: -1, shown: "", at },
    }),
    ...loads.map(({ station, side, mass, place, at: there }) => {
      const where = place?.fs === undefined ? "" : ` at FS ${show(place.fs, units.length)}`;
      return mark("loading", station.path, `${name}:${side ? ` ${side}` : ""} load`, {
        ...{ values: [mass, place?.fs], senses: [0, 0], presence: 0 },
        ...{ shown: show(mass, units.mass) + where, at: there },
      });
    }),
  ];
}
