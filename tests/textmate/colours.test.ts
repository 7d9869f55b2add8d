import { test } from "vitest";
import { shows } from "./fixture";

test("a part, its record and its place", () =>
  shows(`
    part spar "Main spar" mirrored calculated 21.4 lb ± 4% at FS 128.5, BL -74 // both sides
//  ^^^^ storage.type.part
//       ^^^^ entity.name.type.part
//            ^^^^^^^^^^^ string.quoted.double
//                        ^^^^^^^^ storage.modifier
//                                 ^^^^^^^^^^ keyword.control.basis.calculated
//                                            ^^^^ constant.numeric
//                                                 ^^ keyword.other.unit
//                                                    ^ keyword.operator.spread
//                                                      ^ constant.numeric
//                                                       ^ keyword.other.unit.percent
//                                                         ^^ keyword.other.clause
//                                                            ^^ entity.other.attribute-name.axis
//                                                                    ^ punctuation.separator.comma
//                                                                         ^ keyword.operator.arithmetic
//                                                                             ^^^^^^^^^^^^^ comment.line.double-slash
`));

test("a thing may be called by a keyword", () =>
  shows(`
    part fuel weighed 4 lb
//       ^^^^ entity.name.type.part
    part takeoff quoted 3 lb
//       ^^^^^^^ entity.name.type.part
    tank ballast holds 9 gal of release
//       ^^^^^^^ entity.name.type.tank
//                              ^^^^^^^ variable.other.reference
    assembly part { }
//  ^^^^^^^^ storage.type.assembly
//           ^^^^ entity.name.type.assembly
    loading landing under takeoff { ballast full; seat 180 lb }
//          ^^^^^^^ entity.name.type.loading
//                        ^^^^^^^ variable.other.reference
//                                  ^^^^^^^ variable.other.reference
//                                          ^^^^ constant.language
//                                                ^^^^ variable.other.reference
    require mass(ballast) <= 40 lb
//               ^^^^^^^ variable.other.reference
`));

test("an option replaces what a path names", () =>
  shows(`
    part électrique.battery weighed 8.9 lb
//       ^^^^^^^^^^^^^^^^^^ entity.name.type.part
    weighed wing.outer.LH.aileron 4.02 lb on 2026-09-21 by "bench scale 2"
//  ^^^^^^^ keyword.control.basis.weighed
//          ^^^^^^^^^^^^^^^^^^^^^ variable.other.reference
//                    ^ punctuation.accessor
//                     ^^ constant.language.side
//                                        ^^ keyword.other.clause
//                                           ^^^^^^^^^^ constant.numeric.date
    budget electrical 46 lb
//         ^^^^^^^^^^ variable.other.reference
    remove cabin.paddle, cabin.carpet
//  ^^^^^^ keyword.control.fit
//                     ^ punctuation.separator.comma
//                       ^^^^^^^^^^^^ variable.other.reference
    choose battery option
//         ^^^^^^^ variable.other.reference
//                 ^^^^^^ variable.other.reference
`));

test("an overtaken figure is struck out, its date and note stay readable", () =>
  shows(`
    was weighed 6.92 lb on 2026-06-14 note "rev A"
//  ^^^^^^^^^^^^^^^^^^^ markup.strikethrough.history
//  ^^^ storage.modifier
//      ^^^^^^^ keyword.control.basis.weighed
//              ^^^^ constant.numeric
//                      ^^ keyword.other.clause
//                                         ^^^^^^^ string.quoted.double
    calculated 7.3 lb
//  ^^^^^^^^^^ keyword.control.basis.calculated
`));

test("quantities: compound, fraction, rate, power, any other unit", () =>
  shows(`
    let a = 5 lb 3 oz + 2 ft 3 1/2 in
//      ^ entity.name.variable.let
//        ^ keyword.operator.assignment
//            ^^ keyword.other.unit
//                 ^^ keyword.other.unit
//                             ^ constant.numeric
//                              ^ keyword.operator.arithmetic
//                                 ^^ keyword.other.unit
    let skin = 2 * area * 0.17 lb/ft^2
//               ^ keyword.operator.arithmetic
//                 ^^^^ variable.other
//                             ^^^^^^^ keyword.other.unit
    inertia Ixx 12 kg m^2, Iyy 2.2 slug ft^2
//          ^^^ entity.other.attribute-name.inertia
//                 ^^^^^^ keyword.other.unit
    let paste = 350 cm^3 * sealant + 3 stone
//                  ^^^^ keyword.other.unit
//                         ^^^^^^^ variable.other
//                                     ^^^^^ keyword.other.unit
    units lb, in, gal
//        ^^ keyword.other.unit
//            ^^ keyword.other.unit
`));

test("ranges and envelope rows", () =>
  shows(`
    cg 1400 lb: FS 124.2 .. 18 %MAC
//            ^ punctuation.separator.row
//                       ^^ keyword.operator.range
//                          ^^ constant.numeric
//                             ^^^^ keyword.other.unit.mac
    extent FS 0..290
//            ^ constant.numeric
//             ^^ keyword.operator.range
//               ^^^ constant.numeric
    takeoff 1650 lb; landing 1600 lb
//  ^^^^^^^ keyword.other.weight-limit
//                 ^ punctuation.terminator.statement
`));

test("functions touch their parenthesis, keywords and units among them", () =>
  shows(`
    require max(mass(wing), takeoff(normal)) >= min(a.b, 3 lb) for every loading "why"
//  ^^^^^^^ keyword.control.rule
//          ^^^ support.function
//                   ^^^^ variable.other.reference
//                          ^^^^^^^ support.function
//                                           ^^ keyword.operator.comparison
//                                              ^^^ support.function
//                                                             ^^^ keyword.control.rule
    let h = wetted(hull)
//          ^^^^^^ entity.name.function
    let g = (takeoff)
//           ^^^^^^^ keyword.other.weight-limit
`));

test("swings, waivers, weighings", () =>
  shows(`
    swing 84 deg outboard about FS at FS 144
//        ^^ constant.numeric
//           ^^^ keyword.other.unit
//               ^^^^^^^^ constant.language.direction
    configuration wheels_up ground { swing gear.main, gear.nose }
//                ^^^^^^^^^ entity.name.type.configuration
//                                         ^^^^^^^^^ variable.other.reference
    waive over-budget of wing until 2026-12-01 "agreed"
//        ^^^^^^^^^^^ support.constant.code
//                       ^^^^ variable.other.reference
    scale left at FS 144.2, BL -40 reads 463.6 lb tare 2 lb
//        ^^^^ entity.name.type.scale
//                                 ^^^^^ keyword.other.clause
`));

test("a text that is not closed ends with its line", () =>
  shows(`
    part spar "Main
//            ^^^^^ string.quoted.double
    part rib weighed 2 lb
//  ^^^^ storage.type.part
`));
