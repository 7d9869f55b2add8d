import type { Check } from "./check";

export const armMissing: Check = {
  code: "arm-missing",
  severity: "info",
  explain:
    "A part has a mass and no FS. Its mass counts; every CG above it is of what has a place, and is marked incomplete.",
  example: `
part bracket calculated 2 lb
//   ^^^^^^^ info[arm-missing]: bracket has no FS yet: its mass counts, and the CG is incomplete
`,

  *member(member) {
    if (member.kind !== "part" && member.kind !== "ballast") return;
    if (!member.mass || member.place.fs !== undefined || member.faults.length > 0) return;
    yield {
      at: member.head.path ?? member.head,
      message: `${member.name} has no FS yet: its mass counts, and the CG is incomplete`,
      subject: member.path,
    };
  },
};
