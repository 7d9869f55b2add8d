import { basicBalance, oneSide } from "../compute/weight";
import { same } from "../quantity/compare";
import { show } from "../quantity/show";
import type { Check } from "./check";

export const unlisted: Check = {
  code: "unlisted",
  severity: "info",
  explain:
    "An assembly was weighed whole, and its parts come to another figure. The weighing governs; the difference is what the list does not know.",
  example: `
assembly rudder {
  weighed 10 lb on 2026-10-08
//        ^^^^^ info[unlisted]: rudder weighs 10 lb; its parts come to 9.2 lb, 0.8 lb unlisted
  part spar calculated 9.2 lb at FS 262
}
`,

  *member(member) {
    if (member.kind !== "assembly" || member.weighed?.mass === undefined) return;
    // a whole airframe that was weighed has a check of its own
    if (member.scales) return;
    const parts = basicBalance(oneSide({ ...member, weighed: undefined })).mass;
    // what an airframe changed inside since is in both
    const whole = basicBalance(oneSide(member)).mass;
    if (parts === 0 || same(parts, whole)) return;
    const unit = member.weighed.unit ?? member.core.units.mass;
    const rest =
      whole > parts
        ? `${show(whole - parts, unit)} unlisted`
        : `${show(parts - whole, unit)} more than it weighs`;
    yield {
      at: member.weighed.clause.figure ?? member.weighed.clause,
      message: `${member.name} weighs ${show(whole, unit)}; its parts come to ${show(parts, unit)}, ${rest}`,
      subject: member.path,
    };
  },
};
