import { test } from "vitest";
import { check } from "../fixture";

test("an option replaces the budget of the whole aircraft, by its own name", () =>
  check(`aircraft kite { units lb, in; budget 40 lb }
part frame weighed 38 lb at FS 100
choice battery default heavy {
  option light { part battery weighed 1 lb at FS 20 }
  option heavy {
    budget kite 50 lb
    part battery weighed 9 lb at FS 20
  }
}
`));

test("and is held to it", () =>
  check(`aircraft kite { units lb, in; budget 40 lb }
part frame weighed 38 lb at FS 100
choice battery {
  option heavy { budget kite 46 lb; part battery weighed 9 lb at FS 20 }
//                           ^^^^^ error[over-budget]: kite weighs 47 lb, 1 lb over its budget of 46 lb
}
`));
