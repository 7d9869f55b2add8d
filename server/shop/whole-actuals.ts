import { sumOf } from "../compute/exact";
import type { Assembly } from "../model/assembly";
import type { MassRecord } from "../model/records";
import type { Root } from "../model/root";
import { thoughtsOf } from "./actuals";
import { isOwnRecord, wholesOf, withoutSide } from "./weighable";

/** An assembly that was weighed as a whole beside the parts in it: kg of all its pieces. */
export interface WholeActual {
  readonly path: string;
  /** The airframe whose assembly it is; undefined: the design's. */
  readonly airframe: string | undefined;
  /** How many parts are in one of it. */
  readonly parts: number;
  /** Of these, without a mass: what was thought is a floor. */
  readonly unknown: number;
  /** Two where one record speaks of both sides. */
  readonly pieces: number;
  readonly thought: number;
  readonly weighed: number;
}

/**
 * What was weighed as a whole, in the design and in all its airframes, beside the sum of the parts in it as
 * it was when it was weighed: of each part the most mature record before the scale, else its governing one.
 * @param roots by their parts: the design and its airframes
 */
export function wholeActualsOf(roots: readonly Root[]): readonly WholeActual[] {
  return roots.flatMap(root => {
    const found = new Map<unknown, WholeActual>();
    for (const { assembly, path, item, fitted, pieces } of wholesOf(root)) {
      const record = assembly.weighed;
      if (record?.mass === undefined || !isOwnRecord(root, record, item, fitted)) continue;
      const other = found.get(record.clause);
      const all = pieces + (other?.pieces ?? 0);
      const { masses, parts, unknown } = thoughtIn(assembly.atWeighing ?? assembly, record, 1);
      found.set(record.clause, {
        path: other ? withoutSide(path) : path,
        airframe: root.airframe?.name,
        ...{ parts, unknown, pieces: all },
        thought: sumOf(masses) * all,
        weighed: record.mass * all,
      });
    }
    return [...found.values()];
  });
}

interface Inside {
  readonly masses: number[];
  parts: number;
  unknown: number;
}

function thoughtIn(assembly: Assembly, record: MassRecord, sides: number): Inside {
  const all: Inside = { masses: [], parts: 0, unknown: 0 };
  for (const it of assembly.members)
    if (it.kind === "assembly") {
      const inside = thoughtIn(it, record, it.mirrored ? 2 * sides : sides);
      all.masses.push(...inside.masses);
      all.parts += inside.parts;
      all.unknown += inside.unknown;
    } else if ((it.kind === "part" || it.kind === "ballast") && it.qty > 0) {
      const thought = thoughtsOf(it, record).at(-1)?.mass;
      const one = thought ?? (it.mass === undefined ? undefined : it.mass / it.qty);
      all.parts++;
      if (one === undefined) all.unknown++;
      else all.masses.push(one * it.qty * (it.mirrored ? 2 * sides : sides));
    }
  return all;
}
