import {
  inertiaAbout,
  type MassMoments,
  momentsOf,
  nothing,
  oneSideMoments,
  ownSecond,
  putMoments,
} from "../../compute/inertia";
import { basicBalance, oneSide } from "../../compute/weight";
import type { Assembly, Member } from "../../model/assembly";
import type { Part } from "../../model/part";
import type { Root } from "../../model/root";
import { inertiaUnit } from "../../quantity/derived";
import { show } from "../../quantity/show";
import { sidesOf } from "./certainty";
import { written } from "./figures";
import { line, type Row, type Step, table, type WhyLine } from "./lines";

/** What each member brings about the assembly's CG: its own inertia, and its mass away from there. */
export function inertiaLines(root: Root, assembly: Assembly, side: 1 | -1): readonly WhyLine[] {
  const { fs, bl, wl } = basicBalance(oneSide(assembly));
  if (fs === null || bl === null || wl === null) return [];
  const unit = inertiaUnit(root.units);
  const row = (name: string, moments: MassMoments, at: Row["at"]): readonly Row[] => {
    const it = inertiaAbout(moments, { fs, bl, wl });
    if (it === null) return [];
    const cells = [it.Ixx, it.Iyy, it.Izz, it.Ixy * side, it.Ixz, it.Iyz * side];
    return [{ name, cells: cells.map(x => x / unit.factor || 0), at }];
  };
  const { basic } = oneSideMoments(assembly);
  const whole = assembly.weighed?.mass === undefined ? "basic" : "scaled to what was weighed";
  const total = row(whole, basic, undefined);
  const rows = assembly.members.flatMap(member => {
    const moments = momentsOfMember(member);
    return moments ? row(sidesOf(member), moments, member.head.path) : [];
  });
  if (total.length === 0) return [];
  return [
    ...table(
      "Inertia about the CG",
      names.map(name => [name, unit.name] as const),
      [rows, total],
    ),
    ...(basic.lacks.length > 0 ? [line("  of what has FS, BL and WL; the rest is not in it")] : []),
  ];
}

/** How all pieces of one side lie about their own CG. */
export function bodySteps(root: Root, part: Part): readonly Step[] {
  const { body, mass } = part;
  if (body === undefined || mass === undefined) return [];
  const own = nothing();
  putMoments(own, mass, here, ownSecond(part, mass), false);
  const it = inertiaAbout(own, here);
  const said = written(body.clause);
  if (it === null) return [["from", `${said}: a place in it is not known`, body.clause]];
  const unit = inertiaUnit(root.units);
  const terms = names.flatMap((name): readonly Step[] =>
    it[name] === 0 ? [] : [[name, show(it[name], unit)]],
  );
  return [["from", said, body.clause], ...terms];
}

const here = { fs: 0, bl: 0, wl: 0 };
const names = ["Ixx", "Iyy", "Izz", "Ixy", "Ixz", "Iyz"] as const;

function momentsOfMember(member: Member): MassMoments | undefined {
  if (member.kind === "assembly") return momentsOf(member).basic;
  if ((member.kind !== "part" && member.kind !== "ballast") || member.mass === undefined)
    return undefined;
  const sum = nothing();
  putMoments(sum, member.mass, member.place, ownSecond(member, member.mass), member.mirrored);
  return sum;
}
