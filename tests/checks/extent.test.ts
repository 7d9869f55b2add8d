import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withEdit, withText } from "../../server/project";
import { check, findingsOf } from "../fixture";

test("whatever has a place should have it inside the aircraft", () => {
  check(`aircraft kite {
  units lb, in, gal
  extent FS 0 .. 290, BL -60 .. 210, WL 0 .. 999
}
fluid mogas 6 lb/gal
part nose calculated 2 lb at FS 0, BL 210, WL 900
part keel calculated 2 lb at FS -2, WL -1
//                           ^^^^^ warning[figure-suspect]: keel lies at FS -2 in; the aircraft's extent begins at FS 0 in
//                                  ^^^^^ warning[figure-suspect]: keel lies at WL -1 in; the aircraft's extent begins at WL 0 in
part spar calculated 2 lb span FS 10 .. FS 300
//                                      ^^^^^^ warning[figure-suspect]: spar lies at FS 300 in; the aircraft's extent ends at FS 290 in
part tip mirrored calculated 1 lb at FS 120, BL 100
//                                           ^^^^^^ warning[figure-suspect]: the left-hand tip lies at BL -100 in; the aircraft's extent begins at BL -60 in
part sheet weighed 10 lb moment 3000 in lb
//                       ^^^^^^^^^^^^^^^^^ warning[figure-suspect]: sheet lies at FS 300 in; the aircraft's extent ends at FS 290 in
ballast shot 10 lb at FS 25 ft
//                    ^^^^^^^^ warning[figure-suspect]: shot lies at FS 300 in; the aircraft's extent ends at FS 290 in
reserve paint 3 lb at FS 1200
//                    ^^^^^^^ warning[figure-suspect]: paint lies at FS 1,200 in; the aircraft's extent ends at FS 290 in
reserve wiring 3 lb
seat pilot at FS 280 .. 295, BL -10 range 110 lb .. 250 lb
//            ^^^^^^^^^^^^^ warning[figure-suspect]: pilot lies at FS 295 in; the aircraft's extent ends at FS 290 in
bay baggage at FS 290, BL -61 range 0 lb .. 60 lb
//                     ^^^^^^ warning[figure-suspect]: baggage lies at BL -61 in; the aircraft's extent begins at BL -60 in
tank main holds 14 gal of mogas unusable 0.4 gal at FS 291 {
//                                                  ^^^^^^ warning[figure-suspect]: main lies at FS 291 in; the aircraft's extent ends at FS 290 in
  at FS 120
  filled 4 gal at FS 12
  filled 14 gal at FS 1212
//                 ^^^^^^^ warning[figure-suspect]: main lies at FS 1,212 in; the aircraft's extent ends at FS 290 in
}
`);
});

test("a place in a frame is told as the aircraft's", () => {
  check(`aircraft kite { units lb, in; extent FS 0 .. 290, BL -60 .. 60 }
assembly wing mirrored at FS 120, BL 20 {
  part rib calculated 1 lb at FS 30, BL 40
  part cap calculated 1 lb at FS 180, BL 41
//                            ^^^^^^ warning[figure-suspect]: cap lies at FS 300 in; the aircraft's extent ends at FS 290 in
//                                    ^^^^^ warning[figure-suspect]: cap lies at BL 61 in; the aircraft's extent ends at BL 60 in
}
assembly loose at BL 5 { part knob calculated 1 lb at FS 400 }
//                            ^^^^ info[arm-missing]: knob has no FS yet: its mass counts, and the CG is incomplete
`);
});

test("an extent has its lower end first; without one nothing is outside", () => {
  expect(
    findingsOf({
      "kite.poise":
        "aircraft kite { units lb, in; extent FS 290 .. 0 }\npart spar calculated 2 lb at FS 999\n",
    }),
  ).toEqual(["rows-out-of-order: an extent begins with its lower end"]);
});

test("a changed extent judges every part anew", () => {
  const path = "/specs/kite.poise";
  const text =
    "aircraft kite { units lb, in; extent FS 0 .. 290 }\npart spar calculated 2 lb at FS 280\n";
  const before = withText(emptyProject(["/specs"]), path, text);
  expect(judge(before).findings).toEqual([]);
  const at = text.indexOf("290");
  const after = withEdit(
    before,
    path,
    { line: 0, character: at },
    { line: 0, character: at + 1 },
    "1",
  );
  expect(judge(after).findings.map(it => it.message)).toEqual([
    "spar lies at FS 280 in; the aircraft's extent ends at FS 190 in",
  ]);
});
