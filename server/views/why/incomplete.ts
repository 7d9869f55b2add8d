import { balanceOf, none, weightOf } from "../../compute/weight";
import type { Assembly } from "../../model/assembly";
import type { Root } from "../../model/root";
import { massText } from "./figures";
import type { Step } from "./lines";

/** What keeps the sums from being sure, each with its place. */
export function incompleteSteps(root: Root, assembly: Assembly): readonly Step[] {
  if (assembly.weighed?.mass !== undefined && assembly.weighedFs !== undefined) return [];
  return assembly.members.flatMap((member): readonly Step[] => {
    if (member.kind === "assembly") {
      const { unknown, basic, vague } = weightOf(member);
      const why = [
        unknown > 0 && `${unknown} without a mass in it: a floor`,
        basic.lacksFs.length > 0 &&
          `${massText(root, balanceOf({ ...none(), mass: basic.lacksFs }, 0).mass)} in it has no FS`,
        vague.fs && "its CG rests on parts without a mass or an FS",
      ].filter(Boolean);
      return why.length > 0 ? [[member.name, why.join("; "), member.head.path]] : [];
    }
    if (member.kind !== "part" && member.kind !== "ballast") return [];
    if (member.mass === undefined)
      return [[member.name, "no mass yet: the sums are floors", member.head.path]];
    return member.place.fs === undefined
      ? [[member.name, "no FS: its mass counts, its moment does not", member.head.path]]
      : [];
  });
}
