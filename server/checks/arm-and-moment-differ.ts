import { exceeds, same } from "../quantity/compare";
import { closestShown } from "../quantity/show";
import type { Check } from "./check";

export const armAndMomentDiffer: Check = {
  code: "arm-and-moment-differ",
  severity: "info",
  explain:
    "A part has an arm and a moment, and the moment divided by the mass is another arm than the one written, by more than the printed digits of arm, mass and moment allow. The moment governs: on a weighing sheet it is the figure that was added up.",
  example: `
aircraft kite { units lb, in }
part tray weighed 12.0 lb at FS 40.5 moment 510 in lb
//                           ^^^^^^^ info[arm-and-moment-differ]: tray stands at FS 40.5 in here, its moment gives 42.5 in
part shelf weighed 12.0 lb at FS 42.5 moment 510 in lb
`,

  *member(member) {
    if (member.kind !== "part" && member.kind !== "ballast") return;
    if (member.arms === undefined) return;
    const { at, momentAt, said, given, unit, off, slack } = member.arms;
    if (same(said, given) || !exceeds(off, slack)) return;
    const [arm, other] = closestShown(said, given, unit);
    yield {
      at,
      message: `${member.name} stands at FS ${arm} here, its moment gives ${other}`,
      related: [{ at: momentAt, message: "the moment, which governs" }],
      subject: member.path,
    };
  },
};
