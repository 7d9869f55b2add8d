import { basicBalance, oneSide } from "../compute/weight";
import { exceeds } from "../quantity/compare";
import type { Check } from "./check";
import { over } from "./show";

export const cgOffTarget: Check = {
  code: "cg-off-target",
  severity: "warning",
  explain:
    "The CG of an assembly lies outside the range its designer wrote on it. The range is measured in the frame the assembly stands in; it is a target, not a limit of the aircraft.",
  example: `
aircraft kite { units lb, in }
assembly wing {
  cg FS 124 .. 136
//^^^^^^^^^^^^^^^^ warning[cg-off-target]: the CG of wing lies at FS 121 in, 3 in forward of its target of 124 in
  part spar calculated 30 lb at FS 121
}
`,

  *member(member) {
    if (member.kind !== "assembly" || member.target === undefined) return;
    const { axis, low, high, at } = member.target;
    const balance = basicBalance(oneSide(member));
    const value = axis === "FS" ? balance.fs : axis === "BL" ? balance.bl : balance.wl;
    if (value === null || oneSide(member).broken > 0) return;
    const { complete, blComplete, wlComplete } = balance;
    const sure = axis === "FS" ? complete : axis === "BL" ? blComplete : wlComplete;
    const floor = sure ? "" : ` (incomplete: something has no mass or no ${axis})`;
    const { length } = member.core.units;
    const [below, above] = {
      FS: ["forward", "aft"],
      BL: ["left", "right"],
      WL: ["below", "above"],
    }[axis] as [string, string];
    const off =
      low !== undefined && exceeds(low, value)
        ? { limit: low, way: below }
        : high !== undefined && exceeds(value, high)
          ? { limit: high, way: above }
          : undefined;
    if (off === undefined) return;
    const shown = over(value, off.limit, length);
    const of = off.way === below && axis === "WL" ? "" : axis === "WL" ? "" : " of";
    yield {
      at,
      message: `the CG of ${member.name || "the aircraft"} lies at ${axis} ${shown.is}, ${shown.by} ${off.way}${of} its target of ${shown.limit}${floor}`,
      subject: member.path,
    };
  },
};
