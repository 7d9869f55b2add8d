import { expect, test } from "vitest";
import { findingsOf } from "../fixture";

test("an airframe in a file that includes the design says that it is not judged yet", () => {
  const found = findingsOf({
    "kite.poise": "aircraft kite { units lb, in }\npart airframe weighed 900 lb at FS 100\n",
    "sn001.poise": 'include "kite.poise"\nairframe sn001 serial 1 {\n  remove airframe\n}\n',
    "sn002.poise": 'include "kite.poise"\nairframe sn002 serial 2 {\n}\n',
  });
  expect(found).toEqual([
    "not-judged-yet: airframes, weighings and changes are read and not judged yet: 2 in this aircraft",
  ]);
});
