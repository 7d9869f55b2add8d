import type { Basis } from "../../grammar/tree";
import { memo } from "../memo";
import type { Assembly } from "../model/assembly";
import { add, addAll, doubled, type Exact, rounded } from "./exact";

/** How much of a basic mass is guess, calculation, quotation or scale: kg, of one side. */
export type Shares = Readonly<Record<Basis, number>>;

export const sharesOf = memo((assembly: Assembly): Shares => {
  const sums = oneSideShares(assembly);
  return {
    estimated: rounded(sums.estimated),
    calculated: rounded(sums.calculated),
    quoted: rounded(sums.quoted),
    weighed: rounded(sums.weighed),
  };
});

type Sums = Readonly<Record<Basis, Exact>>;

/** A ballast's own figure counts as calculated; what is weighed as a whole is weighed. */
const oneSideShares = memo((assembly: Assembly): Sums => {
  const sums: Sums = { estimated: [], calculated: [], quoted: [], weighed: [] };
  if (assembly.weighed?.mass !== undefined) {
    add(sums.weighed, assembly.weighed.mass);
    return sums;
  }
  for (const member of assembly.members)
    if (member.kind === "assembly") {
      const inside = oneSideShares(member);
      for (const basis of bases)
        addAll(sums[basis], member.mirrored ? doubled(inside[basis]) : inside[basis]);
    } else if ((member.kind === "part" || member.kind === "ballast") && member.mass !== undefined)
      add(
        sums[member.governing?.basis ?? "calculated"],
        member.mirrored ? 2 * member.mass : member.mass,
      );
  return sums;
});

const bases = ["estimated", "calculated", "quoted", "weighed"] as const;
