import { exceeds } from "../quantity/compare";
import type { Check } from "./check";
import { basicMass } from "./over-budget";
import { over } from "./show";

/** Of what is built and drawn, not of what is promised: growth has budgets to answer to. */
export const creep: Check = {
  code: "creep",
  severity: "warning",
  explain:
    "A change adds more to an assembly, or to the aircraft, than the `creep` written on it allows in one change. It is found where there is a base to compare with: `poise diff` and `poise check --base`. What counts is the basic mass after the change less the one before, of one side where there are two, whatever brought it: a new part, a revised figure, one that matured and one that was weighed alike, for each of them moves the aircraft as much; a figure that was missing counts whole. Growth and reserves do not count, nor does the weighing of a whole airframe. A `waive` accepts it for the change that writes the waiver, and for no later one. Raising the `creep` itself is shown first, with the yardstick.",
  before: `
assembly wing budget 40 lb creep 0.5 lb {
  part spar estimated 21 lb at FS 120
  part skin calculated 12.5 lb at FS 125
}
`,
  example: `
assembly wing budget 40 lb creep 0.5 lb {
  part spar calculated 22.4 lb at FS 120
//          ^^^^^^^^^^^^^^^^^^ warning[creep]: wing gained 1.4 lb, 0.9 lb more than the 0.5 lb that a change may add
  part skin calculated 12.5 lb at FS 125
}
`,

  *change(base, head) {
    // an airframe on the scales: what that says has a finding of its own
    if (head.creep === undefined || head.scales !== undefined) return;
    const [was, is] = [basicMass(base), basicMass(head)];
    const { mass: most, unit, at } = head.creep;
    if (was === undefined || is === undefined || !exceeds(is, was + most)) return;
    const gained = over(is - was, most, unit);
    yield {
      at,
      message: `${head.name || "the aircraft"} gained ${gained.is}, ${gained.by} more than the ${gained.limit} that a change may add`,
      subject: head.path,
    };
  },
};
