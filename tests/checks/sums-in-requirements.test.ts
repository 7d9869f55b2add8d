import { test } from "vitest";
import { check } from "../fixture";

// language.md, fine print 4: a path without a side is of both, masses and budgets summed

test("a path into something mirrored is of both sides unless it names one", () => {
  check(`aircraft kite { units lb, in }
assembly main mirrored budget 20 lb {
  part tire budget 6 lb weighed 5 lb at FS 50, BL 10, WL 2
  assembly leg { part strut weighed 8 lb at FS 40, BL 12, WL 4 }
}
require mass(main) == 26 lb
require mass(main.tire) == 10 lb
require mass(main.RH.tire) == 5 lb
require mass(main.leg) == 16 lb
require mass(main.LH.leg) == 8 lb
require bl(main.tire) == 0 in
require bl(main.LH.tire) == -10 in
require bl(main.leg.strut) == 0 in
require bl(main.RH.leg) == 12 in
require fs(main.leg) == 40 in
require budget(main) == 40 lb
require budget(main.tire) == 12 lb
require budget(main.LH) == 20 lb
`);
});

test("a reserve is in predicted, and has no mass that is basic", () => {
  check(`aircraft kite { units lb, in }
part hull weighed 600 lb at FS 50
reserve held 25 lb at FS 60
reserve loose 5 lb
assembly leg mirrored {
  part strut weighed 8 lb at FS 40, BL 12, WL 4
  reserve paint 2 lb at FS 45
}
require predicted(held) <= 1 lb
//      ^^^^^^^^^^^^^^^^^^^^^^^ error[requirement-failed]: 25 lb is not <= 1 lb
require predicted(loose) == 5 lb
require predicted(leg.paint) == 4 lb
require predicted(leg.LH.paint) == 2 lb
require fs(held) == 60 in
require mass(held) <= 30 lb
//           ^^^^ error[unknown-name]: held is a reserve, in predicted and not in basic: write predicted(held)
`);
});
