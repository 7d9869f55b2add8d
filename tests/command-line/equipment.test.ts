import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const kite = `aircraft kite "Kite" { units lb, in }
assembly panel kind required {
  part compass pn "C-2" quoted 0.5 lb at FS 60
  part radio "VHF" kind optional quoted 2 lb at FS 61
}
assembly wing mirrored kind structure { part spar calculated 20 lb at FS 80, BL 40 }
part strap qty 2 kind optional at FS 90
part engine quoted 150 lb at FS 20
airframe sn1 "S/N 1" { sn engine "E-7"; sn panel.radio "R-1" }
`;
const folder = folderOf({ "kite.poise": kite });
const rows = (...more: string[]) =>
  poise(["equipment", ...more], { in: folder })
    .stdout.split("\n")
    .slice(1);

test("the equipment list of an airframe, by kind, with part and serial numbers", () => {
  // by hand: 0.5 × 60, 2 × 61, 150 × 20 lb in
  expect(rows("--airframe", "sn1")).toEqual([
    "item               part number  serial number  pieces  weight     arm       moment       kind",
    "panel.compass      C-2                         1       0.5 lb     FS 60 in  30 lb in     required",
    'panel.radio "VHF"               R-1            1       2 lb       FS 61 in  122 lb in    optional',
    "strap                                          2       not known  FS 90 in               optional",
    "engine                          E-7            1       150 lb     FS 20 in  3,000 lb in",
    "4 items, 152.5 lb, 1 of them without a weight",
    "To be checked against the aircraft and signed by whoever may: no approved equipment list.",
    "",
  ]);
});

test("one kind, all parts, and JSON in SI units", () => {
  expect(rows("--kind", "required")[1]).toMatch(/^panel.compass /);
  expect(rows("--kind", "structure")[1]).toMatch(/^wing.spar .* 2 .*40 lb/);
  expect(rows("--all")).toHaveLength(1 + 5 + 3);
  const json = JSON.parse(
    poise(["equipment", "--format", "json", "--airframe=sn1"], { in: folder }).stdout,
  );
  expect(json.equipment[1]).toMatchObject({
    path: "panel.radio",
    title: "VHF",
    sn: "R-1",
    pn: null,
  });
  expect(json.equipment[2]).toMatchObject({ mass_kg: null, moment_kg_m: null, pieces: 2 });
});

test("the record lists what is fitted by its number, and a frozen airframe keeps it", () => {
  const { stdout } = poise(["history", "."], { in: folder });
  expect(stdout).toContain(`
Fitted now, by serial number:
  engine       E-7
  panel.radio  R-1
`);
  expect(poise(["freeze", "sn1"], { in: folder }).stdout).toContain('sn engine "E-7"');
  expect(poise(["why", "kite.poise", "sn1.engine"], { in: folder }).stdout).toContain(
    "  S/N E-7\n",
  );
  const sheet = poise(["sheet", "--airframe", "sn1"], { in: folder }).stdout;
  expect(sheet).toContain("\r\npanel.radio,,R-1,VHF,1,2,,lb,,,");
});

test("what has no equipment, or is called wrongly, says so", () => {
  const bare = folderOf({ "a.poise": "aircraft a { part b calculated 1 kg at FS 1 }\n" });
  expect(poise(["equipment"], { in: bare }).stdout).toContain(
    "No part says that it is equipment: write kind required, optional or consumable, or --all\n",
  );
  expect(poise(["equipment", "--kind", "vital"], { in: folder })).toMatchObject({
    status: 2,
    stderr: "poise: --kind is one of required, optional, consumable, structure\n",
  });
});

test.each([
  ["change vhf of sn1 on 2999-01-20 { remove panel.radio }", "change vhf"],
  ["weighing first of sn1 on 2999-01-20 { scale hook at FS 40 reads 200 lb }", "weighing first"],
  ["change old of sn1 on 2001-01-20 { remove panel.compass weighed 0.4 lb }", ""],
])("a list or a frozen spec that holds what is still to come says so: %s", (line, what) => {
  const later = folderOf({ "kite.poise": `${kite}${line}\n` });
  const first = (...call: string[]) =>
    poise(call, { in: later })
      .stdout.split("\n")[0]!
      .replace(/on 20\d\d-\d\d-\d\d/, "on DAY");
  const until = `with all that is dated until 2999-01-20 (${what})`;
  expect(first("equipment", "--airframe", "sn1")).toBe(
    what === ""
      ? "Kite, S/N 1: equipment on DAY"
      : `Kite, S/N 1: equipment ${until}, printed on DAY`,
  );
  expect(first("freeze", "sn1")).toBe(
    `// S/N 1 ${what === "" ? "as it stood on DAY" : `${until}, written on DAY`}, from kite.poise.`,
  );
});
