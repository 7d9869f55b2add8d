import { slipOf, timesText } from "../compute/slips";
import { weighingsOf } from "../compute/weighing";
import { readingSlips } from "../compute/weighing-slips";
import type { Envelope } from "../model/envelope";
import type { Outside } from "../model/extent";
import type { Part } from "../model/part";
import { exceeds } from "../quantity/compare";
import { closestShown, show } from "../quantity/show";
import type { Check, Draft } from "./check";

export const figureSuspect: Check = {
  code: "figure-suspect",
  severity: "warning",
  explain:
    "A new figure stands to the one before it as two units stand to each other, or as a misplaced decimal point would make it; so does a reading of a weighing to the others of its scale, or to what would agree with the parts in weight and moment; or something lies outside the extent the aircraft says it has, or an envelope lets more land than take off: most likely a slip of the pen.",
  example: `
aircraft kite {
  units lb, in
  extent FS 0 .. 290
}
part fin calculated 6 lb at FS 2740
//                          ^^^^^^^ warning[figure-suspect]: fin lies at FS 2,740 in; the aircraft's extent ends at FS 290 in
part bracket {
  calculated 1.2 lb on 2026-03-02
  weighed 12 lb on 2026-06-14
//        ^^^^^ warning[figure-suspect]: 12 lb is 10 times the 1.2 lb before it, as with a decimal point out of place
  at FS 124
}
`,

  *member(member) {
    if ("records" in member) yield* slipsIn(member);
    if ("outside" in member)
      for (const it of member.outside) yield { ...told(it, member.name), subject: member.path };
  },

  *root(root) {
    const { rolledUp, envelopes } = root;
    for (const envelope of envelopes) yield* weightsOutOfOrder(envelope);
    for (const { outside } of weighingsOf(rolledUp ?? root))
      for (const { name, outside: it } of outside) yield told(it, name);
    for (const weighing of rolledUp ? weighingsOf(rolledUp) : [])
      for (const { at, quantity, times, what, beside, all } of readingSlips(weighing)) {
        const now = show(quantity.value, quantity.unit ?? rolledUp!.units.mass);
        const who = all ? "all scales read" : `${now} is`;
        const than = beside ? "what this scale reads else" : "what would agree with the parts";
        yield {
          at,
          message: `${who} ${timesText(times)} ${than}, ${what}`,
          related: beside ? [{ at: beside, message: "another reading of it" }] : [],
        };
      }
  },
};

/** What lands or is without fuel took off once: neither may be above what takes off. */
function* weightsOutOfOrder(envelope: Envelope): Iterable<Draft> {
  const more = envelope.takeoff;
  for (const late of ["landing", "zero_fuel"] as const) {
    const less = envelope[late];
    if (!less || !more || !exceeds(less.mass, more.mass)) continue;
    const [is, most] = closestShown(less.mass, more.mass, less.unit);
    yield {
      at: less.clause,
      message: `the ${late.replace("_", "-")} weight of ${is} is above the takeoff weight of ${most}`,
      related: [{ at: more.clause, message: "the takeoff weight" }],
    };
  }
}

function* slipsIn(member: Part): Iterable<Draft> {
  for (let i = 1; i < member.records.length; i++) {
    const [before, record] = [member.records[i - 1]!, member.records[i]!];
    if (!before.mass || !record.mass || record.history) continue;
    const slip = slipOf(record.mass, before.mass);
    if (slip === undefined) continue;
    const [now, then] = [
      show(record.mass, record.unit ?? member.unit),
      show(before.mass, before.unit ?? member.unit),
    ];
    yield {
      at: record.clause.figure ?? record.clause,
      message: `${now} is ${slip.words} the ${then} before it, ${slip.what}`,
      related: [{ at: before.clause.figure ?? before.clause, message: "the figure before it" }],
      subject: member.path,
    };
  }
}

/** In the aircraft's own stations, whatever frame the figure was written in. */
function told({ at, axis, value, limit, end, left, unit }: Outside, name: string): Draft {
  const [is, most] = closestShown(value, limit, unit);
  const which = left ? `the left-hand ${name}` : name;
  return {
    at,
    message: `${which} lies at ${axis} ${is}; the aircraft's extent ${end} at ${axis} ${most}`,
  };
}
