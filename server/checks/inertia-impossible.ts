import type { Check } from "./check";

export const inertiaImpossible: Check = {
  code: "inertia-impossible",
  severity: "error",
  explain:
    "No body has this inertia: one moment is above the sum of the other two, or a product is larger than its moments allow. Most often a figure of another axis or another unit. Until it is right the inertia above is incomplete.",
  example: `
part engine quoted 150 lb at FS 30, WL 60 inertia Ixx 1.9 slug ft^2, Iyy 2.2 slug ft^2, Izz 5.6 slug ft^2
//                                        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[inertia-impossible]: no body has this inertia: Izz is above the sum of Ixx and Iyy
`,
};
