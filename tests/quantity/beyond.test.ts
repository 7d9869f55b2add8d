import { beforeEach, expect, test, vi } from "vitest";
import * as chunk from "../../server/edges/mathjs-chunk";
import { loadUnitsFrom, unitsBeyond } from "../../server/edges/units-mathjs";
import * as dim from "../../server/quantity/dimension";
import { unitOf, unitTable } from "../../server/quantity/units";

beforeEach(() => loadUnitsFrom(() => chunk));

test.for([
  ["mi", 1609.344, dim.LENGTH],
  ["kgf", 9.80665, dim.FORCE],
  ["millivolt", 0.001, dim.dimension({ mass: 1, length: 2, time: -3, current: -1 })],
  ["floz", 29.5735295625e-6, dim.VOLUME],
  ["mA", 0.001, dim.CURRENT],
  ["arcmin", Math.PI / 10800, dim.ANGLE],
  ["degR", 5 / 9, dim.dimension({ temperature: 1 })],
  ["kelvin", 1, dim.dimension({ temperature: 1 })],
  ["cd", 1, dim.dimension({ "luminous intensity": 1 })],
  ["mol", 1, dim.dimension({ "amount of substance": 1 })],
  ["bytes", 8, dim.dimension({ bit: 1 })],
] as const)("mathjs knows %s", ([name, factor, dimension]) => {
  const unit = unitsBeyond(name);
  expect(unit).toMatchObject({ name, factor: expect.closeTo(factor, 12) });
  expect(unit?.dimension).toBe(dimension);
});

test("of what both know, mathjs has the dimension the table has", () => {
  const both = [...unitTable.values()].filter(it => chunk.unit(it.name) && it.name !== "kt");
  for (const unit of both) expect(unitsBeyond(unit.name)?.dimension).toBe(unit.dimension);
  expect([...unitTable.values()].filter(it => !both.includes(it)).map(it => it.name)).toEqual([
    "%",
    "slug",
    "impgal",
    "kt",
  ]);
});

test("the table comes first: kt is the knot, to mathjs the kilotonne", () => {
  expect(unitsBeyond("kt")?.dimension).toBe(dim.MASS);
  expect(unitOf([{ name: "kt", power: 1 }], unitsBeyond)).toBe(unitTable.get("kt"));
});

test.for(["degC", "degF", "celsius", "fahrenheit", "kVAR"])(
  "%s has no factor and is refused",
  name => {
    expect(unitsBeyond(name)).toBeUndefined();
  },
);

test.for([
  "",
  "furlongish",
  "lb oz",
  "5",
  "5lb",
  "lb^2",
  "(lb)",
  "m/s",
  "lb ",
  "constructor",
  "e3",
])("%o is no unit, and not read as several", name => {
  expect(unitsBeyond(name)).toBeUndefined();
});

test("a unit beyond the table multiplies with those in it", () => {
  const powers = [
    { name: "mi", power: 1 },
    { name: "h", power: -1 },
  ];
  expect(unitOf(powers, unitsBeyond)).toMatchObject({ name: "mi/h", factor: 1609.344 / 3600 });
});

test("the chunk is loaded at the first question, and asked once for a name", () => {
  const unit = vi.fn(chunk.unit);
  const load = vi.fn(() => ({ unit }));
  loadUnitsFrom(load);
  expect(load).not.toHaveBeenCalled();

  expect(unitsBeyond("mi")).toBe(unitsBeyond("mi"));
  unitsBeyond("nothing");
  unitsBeyond("nothing");
  expect(unit.mock.calls).toEqual([["mi"], ["nothing"]]);
});
