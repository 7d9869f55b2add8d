import { isWithin, standsInstead, unexplainedCentres } from "../compute/centre-apart";
import type { Weighing } from "../compute/scales";
import { deviationOfPiece } from "../compute/spread";
import { weighingsOf } from "../compute/weighing";
import { emptyDeviation } from "../compute/whole";
import type { Related } from "../findings";
import type { Assembly } from "../model/assembly";
import type { Part } from "../model/part";
import type { Root } from "../model/root";
import { show } from "../quantity/show";
import type { Check, Draft } from "./check";

export const weighingDisagrees: Check = {
  code: "weighing-disagrees",
  severity: "warning",
  explain:
    "An airframe as weighed and the sum of its parts differ by more than twice what both may be off together (the root of the sum of both spreads squared). The unweighed parts that could explain it stand beside the finding, by how many of its own spreads each alone would have to be off. Where the weights agree, the CGs are held against each other in the same way, with 5 mm for how well a station is measured (common practice): then an arm is likely wrong, and where each scale alone would have to stand is said beside it. The weighing governs; find out which one is wrong before anyone relies on either.",
  example: `
aircraft kite { units lb, in; spread calculated 2% }
part hull weighed 800 lb at FS 100
part wing calculated 100 lb at FS 110
airframe sn001 serial 1 { }
weighing first of sn001 on 2026-11-12 {
//       ^^^^^ warning[weighing-disagrees]: sn001: the empty airframe weighs 908 lb and its parts come to 900 lb: 8 lb unexplained, near FS 121.1 in, 4 times what both may be off
  scale front at FS 50 reads 91 lb
  scale rear at FS 107 reads 817 lb
}
`,

  *root(root) {
    const { rolledUp, units } = root;
    for (const it of rolledUp ? weighingsOf(rolledUp) : []) {
      const { unexplained, unexplainedFs, off, balance } = it;
      // parts without a mass make the sum a floor, and parts without a spread say nothing of how far it may be off
      if (it.broken || off === 0 || !it.rolledUp.massKnown) continue;
      const isExplained = Math.abs(unexplained) <= 2 * off;
      const lost = unexplainedFs !== undefined && !isWithin(rolledUp!, "FS", unexplainedFs);
      // a mass that sits somewhere in the aircraft moves the CG as well: that is told once
      if (isExplained || lost) yield* apartIn(rolledUp!, it);
      if (isExplained) continue;
      const station = unexplainedFs === undefined ? "" : show(unexplainedFs, units.length);
      const where = station === "" ? "" : `, near FS ${station}`;
      const times = Number((Math.abs(unexplained) / off).toPrecision(2));
      const isSilent =
        emptyDeviation(it.known).mass === 0 && !unweighed(rolledUp!.aircraft).next().done;
      const sure = isSilent
        ? "more than the scales are off, and of the parts nobody says how far they may be"
        : `${times} times what both may be off`;
      const nowhere = lost ? "; nothing of the aircraft is there: an arm may be wrong" : "";
      const mass = (kg: number) => show(kg, units.mass);
      yield {
        at: it.at,
        message: `the empty airframe weighs ${mass(balance.mass)} and its parts come to ${mass(it.rolledUp.mass)}: ${mass(Math.abs(unexplained))} ${unexplained > 0 ? "unexplained" : "less than that"}${where}, ${sure}${nowhere}`,
        related: candidates(rolledUp!, it),
      };
    }
  },
};

/** A CG that the parts do not explain: most likely an arm, of a scale or of what was aboard. */
function* apartIn(root: Root, weighing: Weighing): Iterable<Draft> {
  const { length } = root.units;
  for (const apart of unexplainedCentres(weighing)) {
    const { axis, by, off } = apart;
    const name = axis === "fs" ? "FS" : "BL";
    const [is, was] = [weighing.balance[axis]!, weighing.rolledUp[axis]!];
    const way =
      axis === "fs" ? (by > 0 ? "aft" : "forward") : by > 0 ? "to the right" : "to the left";
    const times = Number((Math.abs(by) / off).toPrecision(2));
    yield {
      at: weighing.at,
      message: `the empty airframe has its CG at ${name} ${show(is, length)} and its parts have theirs at ${name} ${show(was, length)}: ${show(Math.abs(by), length)} ${way}, ${times} times what both may be off; an arm may be wrong`,
      related: standsInstead(weighing, apart)
        .filter(({ to }) => isWithin(root, name, to))
        .map(({ term, is, to }) => ({
          at: term.at,
          message: `${term.name} alone would have to stand at ${name} ${show(to, length)}, and not ${show(is, length)}`,
        })),
    };
  }
}

/** The parts nobody has weighed that could explain it alone, the likeliest first. */
function candidates(root: Root, { unexplained }: Weighing): readonly Related[] {
  return [...unweighed(root.aircraft)]
    .flatMap(({ part, pieces }) => {
      const spread = deviationOfPiece(part) * pieces;
      return spread > 0 ? [{ part, times: Math.abs(unexplained) / spread }] : [];
    })
    .sort((a, b) => a.times - b.times)
    .slice(0, MOST)
    .map(({ part, times }) => ({
      at: part.head.path ?? part.head,
      message: `${part.path} alone would have to be ${Number(times.toPrecision(2))} of its spreads off`,
    }));
}
const MOST = 3;

function* unweighed(
  assembly: Assembly,
  sides = 1,
): Generator<{ readonly part: Part; readonly pieces: number }> {
  if (assembly.weighed !== undefined) return;
  for (const it of assembly.members)
    if (it.kind === "assembly") yield* unweighed(it, it.mirrored ? 2 : sides);
    else if ((it.kind === "part" || it.kind === "ballast") && it.governing?.basis !== "weighed")
      yield { part: it, pieces: it.qty * (it.mirrored ? 2 : sides) };
}
