import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { findingsOf } from "../fixture";

const heavy = `aircraft knot budget 262 lb { units lb, in }
part rib weighed 263.99 lb at FS 10
require mass(rib) <= 200 lb "the crane's limit"
`;
const waived = (text: string) =>
  judge(withText(emptyProject(["/specs"]), "/specs/a.poise", text))
    .findings.filter(it => it.waived !== undefined)
    .map(it => it.message);

test("the aircraft's name alone is the aircraft; the difference is that of the figures shown", () => {
  expect(waived(`${heavy}waive over-budget of knot "agreed"\n`)).toEqual([
    "knot weighs 264 lb, 2 lb over its budget of 262 lb",
  ]);
});

test("a requirement is waived by its expression or by its reason", () => {
  for (const quoted of ["mass(rib) <= 200 lb", "the crane's limit"])
    expect(waived(`${heavy}waive requirement-failed of "${quoted}" "agreed"\n`)).toHaveLength(1);
});

test("a finding about an envelope is not waived", () => {
  expect(findingsOf({ "a.poise": `${heavy}waive cg-aft of knot "agreed"\n` })).toContain(
    "waiver-unused: cg-aft stands all the same: findings about envelopes, weights and the text itself are not waived",
  );
});

test("a unit written out is known for what it means", () => {
  const said = (unit: string) =>
    findingsOf({ "a.poise": `aircraft a { units lb, in }\npart p weighed 5 ${unit} at FS 1\n` });
  expect(said("pounds")).toContain("unknown-name: pounds is no unit; did you mean lb?");
  expect(said("max")).toContain(
    "unknown-name: max is no unit; a seat or a bay has a range: range 0 kg .. 110 kg",
  );
  expect(said("kilograms")).toContain("unknown-name: kilograms is no unit; did you mean kg?");
});

test("a swing that lacks something is a swing all the same", () => {
  const text = (swing: string) => `aircraft a { units lb, in }
assembly gear ${swing} { part w weighed 1 lb at FS 3, WL 1 }
configuration up { swing gear }
`;
  const none = "unknown-name: gear has no swing";
  expect(findingsOf({ "a.poise": text("swing 90 aft") })).not.toContain(none);
  expect(findingsOf({ "a.poise": text("") })).toContain(none);
});

test("the limits of a lateral row are left and right", () => {
  const text = `aircraft a { units lb, in }
envelope e { lateral 600 lb: BL 2 .. -2; lateral 700 lb: BL -2 .. 2 }
`;
  expect(findingsOf({ "a.poise": text })).toContain(
    "rows-out-of-order: the left limit lies to the right of the right limit",
  );
});
