import type { Check } from "./check";

export const unknownName: Check = {
  code: "unknown-name",
  severity: "error",
  explain: "A name or a unit that nothing declares. Paths are always absolute from the aircraft.",
  example: `
let area = 12 ft^2
part skin calculated aera * 0.2 lb/ft^2 at FS 120
//                   ^^^^ error[unknown-name]: nothing is called aera here; did you mean area?
`,
};
