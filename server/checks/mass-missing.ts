import type { Check } from "./check";

export const massMissing: Check = {
  code: "mass-missing",
  severity: "info",
  explain:
    "A part has no mass yet. Every total it belongs to is a floor: it may be said to be over its budget, and not to be within it.",
  example: `
part bracket at FS 124
//   ^^^^^^^ info[mass-missing]: bracket has no mass yet
`,

  *member(member) {
    if ((member.kind !== "part" && member.kind !== "ballast") || member.mass !== undefined) return;
    // a figure that is there and wrong has its own finding
    if (member.broken) return;
    yield {
      at: member.head.path ?? member.head,
      message: `${member.name} has no mass yet`,
      subject: member.path,
    };
  },
};
