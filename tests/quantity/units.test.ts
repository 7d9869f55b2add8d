import * as mathjs from "mathjs";
import { expect, test } from "vitest";
import * as dim from "../../server/quantity/dimension";
import { type Unit, unitOf, unitTable } from "../../server/quantity/units";

/** Every unit of the table as mathjs spells it, and the SI unit its factor leads to. */
const inMathjs: Record<string, [text: string, si: string]> = {
  g: ["1 g", "kg"],
  kg: ["1 kg", "kg"],
  mg: ["1 mg", "kg"],
  t: ["1 t", "kg"],
  lb: ["1 lb", "kg"],
  oz: ["1 oz", "kg"],
  slug: ["1 lbf s^2 / ft", "kg"],
  mm: ["1 mm", "m"],
  cm: ["1 cm", "m"],
  m: ["1 m", "m"],
  in: ["1 in", "m"],
  ft: ["1 ft", "m"],
  yd: ["1 yd", "m"],
  mil: ["1 mil", "m"],
  gal: ["1 gallon", "m^3"],
  qt: ["1 quart", "m^3"],
  pt: ["1 pint", "m^3"],
  // NIST SP 811 App. B: the Canadian and U.K. (imperial) gallon, 4.54609 L exactly.
  impgal: ["4.54609 L", "m^3"],
  L: ["1 L", "m^3"],
  mL: ["1 mL", "m^3"],
  cc: ["1 cc", "m^3"],
  deg: ["1 deg", "rad"],
  rad: ["1 rad", "rad"],
  s: ["1 s", "s"],
  min: ["1 minute", "s"],
  h: ["1 h", "s"],
  N: ["1 N", "N"],
  kN: ["1 kN", "N"],
  lbf: ["1 lbf", "N"],
  // mathjs's own psi and hp are rounded after ten digits, so they are held to their definitions.
  psi: ["1 lbf / in^2", "Pa"],
  hp: ["550 ft lbf / s", "W"],
  kPa: ["1 kPa", "Pa"],
  W: ["1 W", "W"],
  kW: ["1 kW", "W"],
  kt: ["1.852 km / h", "m/s"],
  Wh: ["1 Wh", "J"],
  kWh: ["1 kWh", "J"],
  J: ["1 J", "J"],
  Ah: ["1 A h", "C"],
};

test.for(Object.entries(inMathjs))("%s is what mathjs makes of it", ([name, [text, si]]) => {
  const factor = mathjs.unit(text).toNumber(si);
  expect(ulpsApart(unitTable.get(name)!.factor, factor)).toBeLessThanOrEqual(1);
});

test("mathjs has a say on every unit but the percent", () => {
  expect([...unitTable.keys()].filter(name => !(name in inMathjs))).toEqual(["%"]);
  expect(unitTable.get("%")).toMatchObject({ factor: 0.01, dimension: dim.PLAIN });
});

test("mathjs's rounded psi and hp are ours to ten digits", () => {
  expect(mathjs.unit("1 psi").toNumber("Pa") / unitTable.get("psi")!.factor).toBeCloseTo(1, 9);
  expect(mathjs.unit("1 hp").toNumber("W") / unitTable.get("hp")!.factor).toBeCloseTo(1, 9);
});

// NIST SP 811, App. B.8 and BIPM definitions (some of these figures from memory).
test("published factors", () => {
  expect(unitTable.get("lb")!.factor).toBe(0.45359237);
  expect(unitTable.get("in")!.factor).toBe(0.0254);
  expect(unitTable.get("oz")!.factor).toBe(0.028349523125);
  expect(unitTable.get("lbf")!.factor).toBe(4.4482216152605);
  expect(convert(1, "gal", "L")).toBeCloseTo(3.785411784, 12);
  expect(unitTable.get("impgal")!.factor).toBe(4.54609e-3);
  expect(convert(1, "slug", "kg")).toBeCloseTo(14.593902937, 9);
  expect(convert(12.5, "oz", "g")).toBeCloseTo(354.369, 3);
});

// FAA-H-8083-25C, ch. 10, fig. 10-7, labels of the fuel line (40 gal is a misprint there).
test.for([
  [62, 234.7],
  [60, 227.1],
  [50, 189.3],
  [42, 159.0],
  [30, 113.6],
  [20, 75.7],
  [10, 37.9],
])("%d US gallons are printed as %d litres", ([gallons, litres]) => {
  expect(Math.round(convert(gallons!, "gal", "L") * 10) / 10).toBe(litres);
});

// FAA-H-8083-25C, ch. 10, "Standard weights" (pounds a gallon; kilograms a litre derived), and
// FAA-H-8083-30, ch. 4, for turbine fuel at 6.7.
test.for([
  ["gasoline", 6.0, 0.719],
  ["turbine fuel", 6.8, 0.8148],
  ["turbine fuel, the other handbook", 6.7, 0.8028],
  ["oil", 7.5, 0.8987],
  ["water", 8.35, 1.0006],
] as const)("the density of %s", ([, poundsPerGallon, kilogramsPerLitre]) => {
  const from = product({ name: "lb", power: 1 }, { name: "gal", power: -1 });
  const to = product({ name: "kg", power: 1 }, { name: "L", power: -1 });
  const converted = (poundsPerGallon * from.factor) / to.factor;
  expect(Math.abs(converted - kilogramsPerLitre)).toBeLessThan(5e-5);
});

// A trade figure: avgas at 6.0 lb to the US gallon is 7.2 lb to the imperial one.
test("avgas by the imperial gallon", () => {
  expect(6.0 * convert(1, "impgal", "gal")).toBeCloseTo(7.2, 1);
  expect(convert(1, "impgal", "gal")).toBeCloseTo(1.20095, 5);
});

// 14 CFR 1.1 prints 600, 650 and 300 kg beside these: a limit keeps the unit it was declared in.
test.for([
  [1320, 598.74],
  [1430, 648.64],
  [660, 299.37],
])("%d lb are %d kg, which a rule rounds", ([pounds, kilograms]) => {
  expect(convert(pounds!, "lb", "kg")).toBeCloseTo(kilograms!, 2);
});

test("a mass in kilograms at an arm in inches", () => {
  const inertial = product({ name: "kg", power: 1 }, { name: "in", power: 1 });
  expect(120 * 18 * inertial.factor).toBeCloseTo(54.864, 9);
  const poundInches = product({ name: "lb", power: 1 }, { name: "in", power: 1 });
  expect((120 * 18 * inertial.factor) / poundInches.factor).toBeCloseTo(4761.98, 2);
});

test("a product is named as authors write it", () => {
  expect(product({ name: "lb", power: 1 }, { name: "ft", power: -2 })).toEqual({
    name: "lb/ft^2",
    factor: 0.45359237 / 0.3048 ** 2,
    dimension: dim.over(dim.MASS, dim.AREA),
  });
  expect(product({ name: "kg", power: 1 }, { name: "m", power: 2 }).name).toBe("kg m^2");
  expect(product({ name: "lb", power: 1 }, { name: "in", power: 1 }).name).toBe("lb in");
  expect(product({ name: "s", power: -1 }, { name: "m", power: 1 }).name).toBe("m/s");
  expect(product({ name: "J", power: 1 }, { name: "kg", power: -1 }, { name: "s", power: -1 }).name)
    // The grammar has no parenthesis in a unit.
    .toBe("J/kg/s");
  expect(product({ name: "ft", power: -1 }).name).toBe("ft^-1");
  expect(product({ name: "ft", power: 1 }, { name: "ft", power: 1 }).name).toBe("ft^2");
  expect(product({ name: "ft", power: 1 }, { name: "ft", power: -1 }).name).toBe("");
});

test("lb in and in lb are the same unit of the same dimension", () => {
  const [lb, inch] = [{ name: "lb", power: 1 } as const, { name: "in", power: 1 } as const];
  expect(product(lb, inch).factor).toBe(product(inch, lb).factor);
  expect(product(lb, inch).dimension).toBe(dim.MOMENT);
  expect(product(inch, lb).dimension).toBe(dim.MOMENT);
});

test("a single unit is the table's own object", () => {
  expect(product({ name: "lb", power: 1 })).toBe(unitTable.get("lb"));
});

test("the first unknown name is told, and what is beyond the table is asked for it", () => {
  const powers = [
    { name: "lb", power: 1 },
    { name: "mi", power: -1 },
    { name: "fathom", power: 1 },
  ];
  const mile: Unit = { name: "mi", factor: 1609.344, dimension: dim.LENGTH };
  expect(unitOf(powers)).toEqual({ unknown: "mi" });
  expect(unitOf(powers, name => (name === "mi" ? mile : undefined))).toEqual({ unknown: "fathom" });
  expect(unitOf(powers.slice(0, 2), () => mile)).toMatchObject({
    name: "lb/mi",
    factor: 0.45359237 / 1609.344,
  });
});

function product(...powers: { name: string; power: number }[]): Unit {
  const unit = unitOf(powers);
  if ("unknown" in unit) throw new Error(`no unit ${unit.unknown}`);
  return unit;
}

function convert(figure: number, from: string, to: string): number {
  return (figure * unitTable.get(from)!.factor) / unitTable.get(to)!.factor;
}

/** How many doubles lie between two positive ones, the last included. */
function ulpsApart(a: number, b: number): number {
  const [left, right] = new BigInt64Array(new Float64Array([a, b]).buffer);
  return Math.abs(Number(left! - right!));
}
