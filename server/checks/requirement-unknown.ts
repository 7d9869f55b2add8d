import type { Span } from "../../grammar/tree";
import { flightsOf } from "../compute/flights";
import type { Assembly } from "../model/assembly";
import type { Root } from "../model/root";
import type { Check } from "./check";
import { requirementsOf } from "./requirement";

export const requirementUnknown: Check = {
  code: "requirement-unknown",
  severity: "info",
  explain:
    "Whether a requirement holds is not known: something it asks for has no mass or no arm, or is known only within bounds, or there is no loading yet. It is judged as soon as that is there.",
  example: `
aircraft kite { units lb, in }
part airframe weighed 900 lb at FS 100
part radio at FS 60
//   ^^^^^ info[mass-missing]: radio has no mass yet
require mass(kite) <= 950 lb "promised in the brochure"
//      ^^^^^^^^^^^^^^^^^^^^ info[requirement-unknown]: not known to hold: radio has no mass
`,

  *root(root) {
    for (const { basic } of requirementsOf(root)) {
      const { head, holds, faults, text } = basic;
      if (holds !== null || faults.length > 0) continue;
      const [first, last] = [head.sides[0], head.sides.at(-1)];
      if (first === undefined || last === undefined || head.sides.some(it => it.kind === "missing"))
        continue;
      const lack =
        head.everyLoading && flightsOf(root).length === 0
          ? { why: "there is no loading yet" }
          : (lackIn(root.aircraft) ?? { why: whatElse });
      yield {
        at: { line: head.line, from: first.from, to: last.to },
        message: `not known to hold: ${lack.why}`,
        related: "at" in lack ? [{ at: lack.at, message: lack.why }] : [],
        subject: text,
      };
    }
  },
};

const whatElse = "what it asks for is not known, or only within bounds";

/** The first thing without a mass, else the first without an FS. */
function lackIn(assembly: Assembly): { readonly at: Span; readonly why: string } | undefined {
  return (
    firstIn(assembly, it => "mass" in it && it.mass === undefined, "has no mass") ??
    firstIn(
      assembly,
      it =>
        it.kind !== "assembly" &&
        it.kind !== "reserve" &&
        it.place.fs === undefined &&
        !("filled" in it && it.filled.length > 0),
      "has no FS",
    )
  );
}

type Member = Root["aircraft"]["members"][number];

function firstIn(
  assembly: Assembly,
  lacks: (member: Member) => boolean,
  what: string,
): { readonly at: Span; readonly why: string } | undefined {
  for (const member of assembly.members) {
    if (lacks(member))
      return { at: member.head.path ?? member.head, why: `${member.path} ${what}` };
    const inside = member.kind === "assembly" ? firstIn(member, lacks, what) : undefined;
    if (inside) return inside;
  }
  return undefined;
}
