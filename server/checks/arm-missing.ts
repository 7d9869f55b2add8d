import type { Check } from "./check";

export const armMissing: Check = {
  code: "arm-missing",
  severity: "info",
  explain:
    "A part has a mass and no FS: its mass counts, and every CG above it is of what has a place and is marked incomplete. A tank, seat or bay without an FS: no loading that uses it can be said to be inside.",
  example: `
part bracket calculated 2 lb
//   ^^^^^^^ info[arm-missing]: bracket has no FS yet: its mass counts, and the CG is incomplete
`,

  *member(member) {
    if (member.kind === "tank" || member.kind === "seat" || member.kind === "bay") {
      const places = member.filled.length > 0 ? member.filled.map(it => it.place) : [member.place];
      if (member.broken || places.every(it => it.fs !== undefined)) return;
      yield {
        at: member.head.path ?? member.head,
        message: `${member.name} has no FS yet: no loading that uses it is known to be inside`,
        subject: member.path,
      };
      return;
    }
    if (member.kind !== "part" && member.kind !== "ballast") return;
    if (!member.mass || member.place.fs !== undefined || member.broken) return;
    yield {
      at: member.head.path ?? member.head,
      message: `${member.name} has no FS yet: its mass counts, and the CG is incomplete`,
      subject: member.path,
    };
  },
};
