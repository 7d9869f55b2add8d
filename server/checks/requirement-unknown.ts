import type { Expr } from "../../grammar/tree";
import { flightsOf } from "../compute/flights";
import { memberAt } from "../compute/member-at";
import type { Member } from "../model/assembly";
import type { Root } from "../model/root";
import type { Check } from "./check";
import { firstLack, isStation, type Lack, lacksMass, lacksPlace } from "./lack";
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
          : (lackOf(root, head.sides) ?? { why: whatElse });
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

/** The first thing that a function in it asks for and that has no mass, or no place where one is wanted. */
function lackOf(root: Root, sides: readonly Expr[]): Lack | undefined {
  for (const { asks, path } of asked(sides, root)) {
    const axis = axes.get(asks);
    const within = (members: readonly Member[]) =>
      firstLack(members, lacksMass, "has no mass") ??
      (axis && firstLack(members, it => lacksPlace(it, axis), `has no ${axis.toUpperCase()}`));
    const [name] = path.split(".");
    const flights = flightsOf(root).filter(
      ({ loading }) => name === "loading" || loading.name === name,
    );
    const found =
      path === "empty" || flights.length > 0 || envelopeFunctions.has(asks)
        ? undefined
        : memberAt(root, path)?.member;
    const lack = found
      ? within([found])
      : (within(root.aircraft.members.filter(it => !isStation(it))) ??
        within(
          envelopeFunctions.has(asks)
            ? root.aircraft.stations
            : flights.flatMap(({ loading }) => loading.loads.map(it => it.station)),
        ));
    if (lack) return lack;
  }
  return undefined;
}

/** The functions in expressions and what they are asked of; through lets too. Never as deep as a sum is long. */
function* asked(
  exprs: readonly Expr[],
  root: Root,
): Iterable<{ readonly asks: string; readonly path: string }> {
  const open = [...exprs].reverse();
  const seen = new Set<string>();
  for (let expr = open.pop(); expr !== undefined; expr = open.pop())
    if (expr.kind === "call") {
      const [arg] = expr.args;
      if (expr.args.length === 1 && arg?.kind === "name" && asksOfThings.has(expr.name.text))
        yield { asks: expr.name.text, path: arg.path.text };
      else open.push(...[...expr.args].reverse());
    } else if (expr.kind === "binary") open.push(expr.right, expr.left);
    else if (expr.kind === "negative") open.push(expr.of);
    else if (expr.kind === "name" && !seen.has(expr.path.text)) {
      seen.add(expr.path.text);
      const value = root.scope.byName.get(expr.path.text)?.value;
      if (value) open.push(value);
    }
}

const envelopeFunctions = new Set(["forward", "aft"]);
const axes: ReadonlyMap<string, "fs" | "bl" | "wl"> = new Map([
  ["fs", "fs"],
  ["mac", "fs"],
  ["forward", "fs"],
  ["aft", "fs"],
  ["bl", "bl"],
  ["wl", "wl"],
]);
const asksOfThings = new Set(["mass", "predicted", ...axes.keys()]);
