import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withEdit, withText } from "../../server/project";
import { check, findingsOf } from "../fixture";

test("an option that is not chosen is checked in all it holds", () => {
  check(`aircraft kite { units lb, in, gal }
fluid mogas 6 lb/gal
assembly wing { part spar calculated 40 lb at FS 120 }
choice range default short {
  option short { part wing.plug calculated 1 lb at FS 120 }
  option long {
    let more = 3 lb + 2 in
//                  ^ error[wrong-dimension]: a mass and a length cannot be added
    let plenty = 5 gal
    part wing.rib calculated lots at FS 120
//                           ^^^^ error[unknown-name]: nothing is called lots here
    part wing.spar calculated 44 lb at FS 120
//       ^^^^^^^^^ error[declared-twice]: wing.spar is declared twice
    assembly pod {
      let side = 2
      part skin calculated side at FS 90
//                         ^^^^ error[unit-missing]: this mass needs its unit
      part frame calculated 2 lb at FS 3 lb
//                                     ^^^^ error[wrong-dimension]: FS is a length, not a mass
    }
    part pod.plug calculated 1 lb at FS 120
    part pod.lid calculated 1 gal at FS 120
//                          ^^^^^ error[wrong-dimension]: this mass is a mass, not a volume
    part cabin.lamp calculated 1 lb at FS 120
//       ^^^^^^^^^^ error[unknown-name]: there is no assembly cabin
    tank wing.aux holds plenty of avgas at FS 130
//                                ^^^^^ error[unknown-name]: no fluid is called avgas: write fluid avgas and its density
    seat third at FS 150 range 110 .. 250 lb
//                             ^^^ error[unit-missing]: a range needs its unit
    bay shelf at FS 150 range 60 lb .. 0 lb
//                      ^^^^^^^^^^^^^^^^^^^ error[rows-out-of-order]: a range begins with its lower end
    reserve wing.paint 2 in
//                     ^^^^ error[wrong-dimension]: a reserve is a mass, not a length
    ballast shot nothing at FS 20
//               ^^^^^^^ error[unknown-name]: nothing is called nothing here
    budget wing 50 in
//              ^^^^^ error[wrong-dimension]: a budget is a mass, not a length
    budget wing.spar 44
//                   ^^ error[unit-missing]: a budget needs its unit
    budget cabin 30 lb
//         ^^^^^ error[unknown-name]: there is no assembly or part cabin
  }
}
`);
});

test("what is chosen instead does not stand in the way", () => {
  expect(
    findingsOf({
      "kite.poise": `aircraft kite { units lb, in }
assembly electrical { part bus calculated 2 lb at FS 60 }
choice battery default lithium {
  option lithium {
    let pack = 9 lb
    assembly electrical.rack { part shelf calculated 1 lb at FS 160 }
    part electrical.battery quoted pack at FS 160
  }
  option agm {
    let pack = 22 lb
    part electrical.battery quoted pack at FS 160
    part electrical.rack.shelf quoted pack at FS 160
  }
}
`,
    }),
  ).toEqual(["unknown-name: there is no assembly electrical.rack"]);
});

test("a budget in an option replaces that of an assembly or of a part", () => {
  check(`aircraft kite { units lb, in }
assembly wing budget 60 lb {
  part spar budget 50 lb calculated 40 lb at FS 120
}
choice spar {
  option light { let most = 38 lb; budget wing.spar most; budget wing 39 lb }
//                                                  ^^^^ error[over-budget]: spar weighs 40 lb, 2 lb over its budget of 38 lb
//                                                                    ^^^^^ error[over-budget]: wing weighs 40 lb, 1 lb over its budget of 39 lb
}
`);
});

test("nothing that is written is passed over in silence", () => {
  check(`aircraft kite { units lb, in }
assembly wing mirrored {
  part spar calculated 40 lb at FS 120
  fluid mogas 6 lb/gal
//^^^^^^^^^^^^^^^^^^^^ error[syntax]: a fluid does not stand in an assembly: write it at the top of a file, or in the aircraft's block
  choice tips { option round { part tip calculated 1 lb at FS 120 } }
//^^^^^^^^^^^ error[syntax]: a choice does not stand in an assembly: write it at the top of a file, or in the aircraft's block
}
choice prop {
  part hub calculated 4 lb at FS 10
//^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error[syntax]: a part does not stand in a choice: write it in one of its options
  option fixed growth 3% {
//             ^^^^^^^^^ error[syntax]: growth does not stand in an option: write it outside its choice
    fluid oil 7 lb/gal
//  ^^^^^^^^^^^^^^^^^^ error[syntax]: a fluid does not stand in an option: write it outside its choice
    include "oil.poise"
//  ^^^^^^^^^^^^^^^^^^^ error[syntax]: an include does not stand in an option: write it outside its choice
    require mass(wing) < 90 lb
//  ^^^^^^^^^^^^^^^^^^^^^^^^^^ error[syntax]: a requirement does not stand in an option: write it outside its choice
    envelope normal { cg 700 lb: FS 119 .. 121 }
//  ^^^^^^^^^^^^^^^ error[syntax]: an envelope does not stand in an option: write it outside its choice
    budget 30 lb
//  ^^^^^^^^^^^^ error[syntax]: a budget of what? in an option its path stands before the figure
    growth 3%
//  ^^^^^^^^^ error[syntax]: growth does not stand in an option: write it outside its choice
    note "from the catalogue"
    part wing.LH.lamp calculated 1 lb at FS 120, BL -90
    part wing.LH calculated 1 lb at FS 120
//       ^^^^^^^ error[unknown-name]: wing.LH is one side of what is there already
    budget wing.RH 30 lb
//                 ^^^^^ error[over-budget]: wing.RH: wing weighs 40 lb, 10 lb over its budget of 30 lb
  }
  option variable { part wing.LH.lamp calculated 1 lb at FS 120 }
  option cropped { part wing.LH calculated 1 lb at FS 120 }
//                      ^^^^^^^ error[unknown-name]: wing.LH is one side of what is there already
}
`);
});

test("an option not chosen follows every edit", () => {
  const path = "/specs/kite.poise";
  const text = `aircraft kite { units lb, in }
assembly wing { part spar calculated 40 lb at FS 120 }
choice plug { option none { }
  option one { part wing.plug calculated 1 lb at FS 120 } }
`;
  const before = withText(emptyProject(["/specs"]), path, text);
  expect(judge(before).findings).toEqual([]);
  const place = { line: 1, character: 9 };
  const after = withEdit(before, path, place, { ...place, character: 10 }, "W");
  expect(judge(after).findings.map(it => it.message)).toEqual(["there is no assembly wing"]);
});
