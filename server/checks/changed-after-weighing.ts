import { memberAt } from "../compute/member-at";
import { lastWeighing } from "../compute/weighing";
import type { Assembly } from "../model/assembly";
import { clausesOf } from "../model/clauses";
import type { Part } from "../model/part";
import { dateOf } from "../model/records";
import { fittedIn } from "../model/root";
import { same } from "../quantity/compare";
import { show } from "../quantity/show";
import type { Check } from "./check";

export const changedAfterWeighing: Check = {
  code: "changed-after-weighing",
  severity: "info",
  explain:
    "A record of the design, dated after an airframe was weighed, gives a part of that airframe another mass, or the first it has. Its weighed empty weight stays as it is. Where the part was made otherwise from then on, say for which serial numbers (effective 4 ..), and the airframe keeps what it was built with; where the same part is only better known, there is nothing to do.",
  example: `
aircraft kite { units lb, in }
part hull weighed 900 lb on 2026-08-01 at FS 100
part skid calculated 12 lb at FS 60 calculated 14.5 lb on 2027-02-01 by "stress report 7"
//                                  ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ info[changed-after-weighing]: sn001: skid is 2.5 lb heavier by a record of 2027-02-01, and was weighed with the airframe on 2026-11-12
airframe sn001 serial 1 { }
weighing first of sn001 on 2026-11-12 {
  scale front at FS 50 reads 110 lb
  scale rear at FS 107 reads 802 lb
}
`,

  *root({ rolledUp }) {
    const weighing = rolledUp && lastWeighing(rolledUp);
    if (rolledUp === undefined || weighing === undefined) return;
    const fitted = fittedIn(rolledUp);
    for (const { part, sides } of partsIn(rolledUp.aircraft)) {
      const { governing, item, path, mass } = part;
      if (governing === undefined || dateOf(governing) <= weighing.on) continue;
      // what the airframe itself says of its parts is no change of the design
      if (fitted.has(item) || !clausesOf(item).includes(governing.clause)) continue;
      const then = memberAt(weighing.known, path)?.member;
      if (mass === undefined || then === undefined || !("records" in then)) continue;
      const before = then.mass;
      const related = [{ at: weighing.at, message: "the weighing" }];
      if (before === undefined) {
        const message = `${path} has no figure before the record of ${dateOf(governing)}: nothing says what it was when the airframe was weighed on ${weighing.on}, and the comparison is without it`;
        yield { at: governing.clause, message, related };
        continue;
      }
      if (same(mass, before)) continue;
      const difference = Math.abs(mass - before) * sides;
      const word = mass > before ? "heavier" : "lighter";
      yield {
        at: governing.clause,
        message: `${path} is ${show(difference, part.unit)} ${word} by a record of ${dateOf(governing)}, and was weighed with the airframe on ${weighing.on}`,
        related,
      };
    }
  },
};

function* partsIn(
  assembly: Assembly,
  sides = 1,
): Iterable<{ readonly part: Part; readonly sides: number }> {
  for (const it of assembly.members)
    if (it.kind === "assembly") yield* partsIn(it, it.mirrored ? 2 : sides);
    else if (it.kind === "part" || it.kind === "ballast")
      yield { part: it, sides: it.mirrored ? 2 : sides };
}
