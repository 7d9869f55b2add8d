import { cpSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
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

describe("the table for a spreadsheet, which import takes back", () => {
  const examples = fileURLToPath(new URL("../../examples", import.meta.url));

  function back(folder: string, file: string, edit: (csv: string) => string, ...which: string[]) {
    const csv = poise(["equipment", file, "--all", "--format", "csv", ...which], { in: folder });
    expect(csv.status).toBe(0);
    writeFileSync(join(folder, "list.csv"), edit(csv.stdout));
    const texts = () =>
      readdirSync(folder)
        .filter(it => it.endsWith(".poise"))
        .map(it => readFileSync(join(folder, it), "utf8"));
    const before = texts();
    const { stdout } = poise(["import", "list.csv", "-o", file, "--on", "2027-03-01"], {
      in: folder,
    });
    const said = stdout.split("\n").filter(it => /^(changed|new|left|no longer|row)/.test(it));
    return { said, isSame: texts().join() === before.join(), text: texts().join() };
  }

  test.each([
    ["dunlin", "dunlin.poise"],
    ["first-steps", "wren.poise"],
    ["sandmartin", "sandmartin.poise"],
    ["nuthatch", "nuthatch.poise"],
    ["leafcutter", "leafcutter.poise"],
  ])("of %s changes nothing", (example, file) => {
    const folder = folderOf({});
    cpSync(join(examples, example), folder, { recursive: true });
    expect(back(folder, file, it => it)).toMatchObject({ said: [], isSame: true });
  });

  const small = `aircraft kite "Kite" { units lb, in }
assembly wing mirrored {
  part spar pn "W-1" rev "B" maker "own" calculated 20 lb on 2026-01-01 at FS 80, BL 40
  part rib qty 6 estimated 1/3 * 0.5 lb at FS 84, BL 50
}
ballast lead 3 lb at FS 10
choice prop { option wood { part blade quoted 4 lb at FS 2 } }
`;
  const head =
    "path,name,part number,rev,maker,serial number,kind,qty,basis,mass [lb],FS [in],BL [in],WL [in]\n";

  test("has a row a part: pieces of both sides, mass and place of one", () => {
    const { stdout } = poise(["equipment", "--all", "--format=csv"], {
      in: folderOf({ "kite.poise": small }),
    });
    expect(stdout).toBe(`${head}wing.spar,,W-1,B,own,,,2,calculated,20,80,40,
wing.rib,,,,,,,12,estimated,0.166666666667,84,50,
lead,,,,,,,1,calculated,3,10,0,
blade,,,,,,,1,quoted,4,2,0,
`);
  });

  test("brings back what was changed in it, and what is new where its path says", () => {
    const folder = folderOf({ "kite.poise": small });
    const edited = (csv: string) =>
      `${csv
        .replace("2,calculated,20,80", "2,calculated,21,81")
        .replace("12,est", "10,est")
        .replace("1,quoted,4", "1,quoted,5")
        .replace("1,calculated,3", "1,calculated,2")}wing.tip,,,,,,,2,quoted,1.5,85,90,\n`;
    const { said, text } = back(folder, "kite.poise", edited);
    expect(said).toEqual([
      "changed: wing.spar: 20 lb becomes 21 lb",
      "changed: wing.spar: FS 80 becomes 81",
      "changed: wing.rib: qty 6 becomes 5",
      "new: wing: tip",
      "left as it is: lead: it is ballast; it is not changed",
      "left as it is: blade: it stands in an option; it is not changed",
    ]);
    expect(text).toContain(
      'part tip quoted 1.5 lb on 2027-03-01 by "list.csv" at FS 85 in, BL 90 in\n}',
    );
  });

  test("of an airframe has its two sides in two rows, which are one part of the design", () => {
    const text = `${small}airframe sn1 { weighed wing.LH.spar 20.5 lb on 2026-02-01 }\n`;
    const folder = folderOf({ "kite.poise": text });
    const seen: string[] = [];
    const found = back(
      folder,
      "kite.poise",
      csv => {
        seen.push(csv);
        return csv;
      },
      "--airframe=sn1",
    );
    expect(seen[0]).toContain("\nwing.RH.spar,,W-1,B,own,,,1,calculated,20,80,40,\n");
    expect(seen[0]).toContain("\nwing.LH.spar,,W-1,B,own,,,1,weighed,20.5,80,-40,\n");
    expect(found).toMatchObject({
      isSame: true,
      said: [
        "left as it is: wing.spar: its rows say 20 lb and 20.5 lb, and what is mirrored has one figure for both",
      ],
    });
  });
});
