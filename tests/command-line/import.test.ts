import { existsSync, readFileSync, utimesSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { workbook } from "../lists/workbook";
import { folderOf, poise } from "./poise";

/** What `check` says of a spec: its numbers, or its faults. */
const checked = (folder: string, file: string) =>
  poise(["check", file, "--format=concise"], { in: folder }).stdout;

/** Imports one list into a new spec. */
function imported(name: string, content: string | Buffer, ...options: string[]) {
  const folder = folderOf({ [name]: content });
  const args = ["import", name, "-o", "kite.poise", "--on", "2026-03-01", ...options];
  const { status, stdout, stderr } = poise(args, { in: folder });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(checked(folder, "kite.poise")).toContain("0 errors");
  return { folder, stdout, text: readFileSync(join(folder, "kite.poise"), "utf8") };
}

test("an English CSV whose names are indented, its headings below a title", () => {
  const { stdout, text } = imported(
    "kite.csv",
    `Weights of the kite,,,,,
Part Name,Part No.,Qty,Mass [lb],CG X (in),CG Z (in)
Wing,W-1,1,23.5,,
  Spar,W-11,2,9.5,118,40
  Rib set,W-12,1,,,
    Rib,W-121,12,0.375,120,40
Tail,T-1,1,TBD,240,60
`,
  );
  expect(text).toBe(`aircraft kite { units lb, in }

assembly wing "Wing" pn "W-1" {
  part spar "Spar" {
    pn "W-11"
    qty 2
    calculated 9.5 lb on 2026-03-01 by "kite.csv"
    at FS 118 in, WL 40 in
  }
  assembly rib_set "Rib set" pn "W-12" {
    part rib "Rib" {
      pn "W-121"
      qty 12
      calculated 0.375 lb on 2026-03-01 by "kite.csv"
      at FS 120 in, WL 40 in
    }
  }
}
part tail "Tail" pn "T-1" at FS 240 in, WL 60 in
`);
  expect(stdout).toBe(`kite.csv: "," between cells, UTF-8
headings in row 2, decimal point, levels by indent
  A  Part Name  name, and the levels
  B  Part No.   part number
  C  Qty        number of pieces
  D  Mass [lb]  mass of one piece, in lb
  E  CG X (in)  FS, in in
  F  CG Z (in)  WL, in in
kite.poise: written, 3 parts in 2 assemblies, 1 without a mass
`);
});

test("a German list: semicolons, decimal comma, a mark of byte order, numbers for levels", () => {
  const { stdout, text } = imported(
    "stückliste.csv",
    "\ufeffPos.;Benennung;Teilenummer;Stückzahl;Gewicht in g;Schwerpunkt X [mm];Schwerpunkt Y [mm]\r\n" +
      "1;Flügel;F-1;1;;;\r\n1.1;Holm;F-11;2;1.234,5;1285,5;0\r\n1.1.2;Niete;F-112;1400;0,9;1300;12,5\r\n" +
      "2;Leitwerk;L-1;1;unbekannt;4100;\r\n;Summe;;;2494;;\r\n",
  );
  expect(text).toContain("aircraft kite { units kg, mm }");
  expect(text).toContain('assembly flügel "Flügel" pn "F-1" {\n  assembly holm "Holm" pn "F-11" {');
  // two spars of 1400 rivets each
  expect(text).toContain("      qty 2800\n      calculated 0.9 g on");
  expect(text).toContain("at FS 1300 mm, BL 12.5 mm");
  expect(text).toContain('part leitwerk "Leitwerk" pn "L-1" at FS 4100 mm\n');
  expect(stdout).toContain("decimal comma, levels by position");
  expect(stdout).toContain('row 3: 2 of "Holm": the parts in it are counted as often');
  expect(stdout).toContain('"Holm" is said to weigh 2469 g, the parts in it weigh 2520 g');
  expect(stdout).toContain('row 6: "Summe" is taken for a sum of the list');
});

test("a French list in the letters of older Windows, units by --units", () => {
  const { stdout, text } = imported(
    "liste.csv",
    Buffer.from(
      "Désignation;Référence;Qté;Masse totale;X\nLongeron;V11;2;1250;120\nDérive;D1;1;750,5;410\n",
      "latin1",
    ),
    "--units=g,cm",
  );
  expect(text).toContain(
    '{\n  pn "V11"\n  qty 2\n  calculated total 1250 g on 2026-03-01 by "liste.csv"\n',
  );
  expect(text).toContain('part dérive "Dérive" pn "D1" calculated 750.5 g');
  expect(text).toContain("at FS 410 cm");
  expect(stdout).toContain("not UTF-8, read as Windows-1252");
  expect(stdout).toContain("mass of all its pieces, in g (as asked)");
});

test("a workbook with a row of units; its numbers are numbers whatever the decimal mark", () => {
  const sheet = workbook([
    ["Level", "Name", "Part Number", "Mass", "X", "Y", "Z"],
    [null, null, null, "kg", "mm", "mm", "mm"],
    [1, "Wing", "W-1", null, null, null, null],
    [2, "Spar & web", "W-11", 9.299999999999999, 1200, null, 40],
    [2, "Skin", "W-12", "n/a", 1250, -3.5, null],
  ]);
  const { stdout, text } = imported("kite.xlsx", sheet);
  expect(text).toBe(`aircraft wing "Wing" pn "W-1" { units kg, mm }

part spar_web "Spar & web" {
  pn "W-11"
  calculated 9.3 kg on 2026-03-01 by "kite.xlsx"
  at FS 1200 mm, WL 40 mm
}
part skin "Skin" pn "W-12" at FS 1250 mm, BL -3.5 mm
`);
  expect(stdout).toContain('kite.xlsx: sheet "Parts"');
  expect(stdout).toContain('row 3: "Wing" holds everything else: it is the aircraft');
});

test("hostile cells stay texts, and what is no figure is listed and never zero", () => {
  const { folder, stdout, text } = imported(
    "bad.csv",
    'name,mass,x\n"a ""q"" // { } \n new",=1+2,3\n"=HYPERLINK(""x"")",2,-5\n3" bolt,1,1\nassembly,1e-7,2\n//,3,3\nassembly,-3,3\n',
    "--units",
    "kg,mm",
  );
  expect(text.split("\n").slice(2)).toEqual([
    'part a_q_new "a ”q” // { } new" at FS 3 mm',
    'part hyperlink_x "=HYPERLINK(”x”)" calculated 2 kg on 2026-03-01 by "bad.csv" at FS -5 mm',
    'part n3_bolt "3” bolt" calculated 1 kg on 2026-03-01 by "bad.csv" at FS 1 mm',
    'part assembly calculated 0.0000001 kg on 2026-03-01 by "bad.csv" at FS 2 mm',
    'part item_6 "//" calculated 3 kg on 2026-03-01 by "bad.csv" at FS 3 mm',
    'part assembly_2 "assembly" at FS 3 mm',
    "",
  ]);
  expect(stdout).toContain(
    'row 2, column B (mass): "=1+2" is no figure; the mass is left unknown\n',
  );
  expect(stdout).toContain("row 7: a mass of -3 kg is left out\n");
  expect(checked(folder, "kite.poise")).not.toContain("syntax");
});

describe("a spec that is there", () => {
  const list = "Name,PN,Mass [kg],X [mm]\nSpar,A-1,3,100\nRib,A-2,1,200\nNut,A-3,0.5,\n";
  const changed = "Name,PN,Mass [kg],X [mm]\nSpar,A-1,3.25,100\nNut,A-3,0.5,150\nPin,A-4,?,\n";

  test.each([
    ["2026-03-01", false],
    ["2999-01-01", true],
  ])("dated %s: a day that is still to come is said", (on, isSaid) => {
    const folder = folderOf({ "a.csv": list });
    const call = ["import", "a.csv", "-o", "kite.poise", "--on", on];
    const { stdout, status } = poise(call, { in: folder });
    const said = `warning: ${on} is still to come, and its records count all the same\n`;
    expect(stdout.includes(said)).toBe(isSaid);
    expect(status).toBe(0);
  });

  test("is brought up to the list, and the second time there is nothing to do", () => {
    const folder = folderOf({ "a.csv": list, "b.csv": changed });
    const run = (file: string, on: string) =>
      poise(["import", file, "-o", "kite.poise", "--on", on], { in: folder });
    run("a.csv", "2026-03-01");
    const path = join(folder, "kite.poise");
    const before = readFileSync(path, "utf8");
    const { status, stdout } = run("b.csv", "2026-06-01");
    const after = readFileSync(path, "utf8");
    expect(after).toBe(
      `${before
        .replace(
          "3 kg on 2026-03-01 by",
          '3 kg on 2026-03-01 by "a.csv" calculated 3.25 kg on 2026-06-01 by',
        )
        .replace('3.25 kg on 2026-06-01 by "a.csv"', '3.25 kg on 2026-06-01 by "b.csv"')
        .replace(
          '0.5 kg on 2026-03-01 by "a.csv"',
          '0.5 kg on 2026-03-01 by "a.csv" at FS 150 mm',
        )}part pin "Pin" pn "A-4"\n`,
    );
    expect(stdout).toContain(`changed: spar: 3 kg becomes 3.25 kg
changed: nut: now at FS 150 mm
new: Pin
no longer in the list, and not deleted: rib (A-2)
kite.poise: 2 changed, 1 new, 1 no longer listed
`);
    expect(status).toBe(0);
    expect(run("b.csv", "2026-06-01").stdout).toContain("kite.poise: nothing to change");
    expect(readFileSync(path, "utf8")).toBe(after);
    expect(checked(folder, "kite.poise")).toContain("kite: basic empty weight 4.75 kg");
  });

  test("with an error in its text is left alone", () => {
    const folder = folderOf({ "a.csv": list, "kite.poise": "aircraft kite {\nfrob\n" });
    const { status, stderr } = poise(["import", "a.csv", "-o", "kite.poise"], { in: folder });
    expect(stderr).toContain("kite.poise has errors in its text");
    expect(status).toBe(2);
    expect(readFileSync(join(folder, "kite.poise"), "utf8")).toBe("aircraft kite {\nfrob\n");
  });

  test("of another name may hold the aircraft that the new one belongs to", () => {
    const aircraft = 'aircraft kite { units kg, mm }\ninclude "parts.poise"\n';
    const folder = folderOf({ "a.csv": list, "kite.poise": aircraft });
    const { stdout } = poise(["import", "a.csv", "-o", "parts.poise"], { in: folder });
    expect(stdout).toContain('once it says include "parts.poise"');
    expect(checked(folder, "kite.poise")).toContain("kite: basic empty weight 4.5 kg");
  });
});

describe("a spec over several files", () => {
  const kite = `aircraft kite { units kg, mm }
include "gear/gear.poise"
part hull pn "H-1" calculated 40 kg on 2026-03-01 by "a.csv" at FS 900
part lead qty 2 quoted 1 kg at FS 100
${[1, 2, 3, 4, 5].map(it => `part bag_${it} estimated 1 kg at FS 800\n`).join("")}`;
  const gear = `// kept by the gear team
assembly gear "Gear" pn "G" {
  part leg "Leg" pn "G-1" calculated 3 kg on 2026-03-01 by "a.csv" at FS 1000 // each
}
`;
  const wheels = `assembly wheels "Wheels" {
  part tire "Tire" calculated 2 kg on 2026-03-01 by "a.csv" at FS 1010
  part tube "Tube" calculated 0.5 kg on 2026-03-01 by "a.csv" at FS 1010
}
seat pin at FS 500
`;
  const files = {
    "kite.poise": kite,
    "gear/gear.poise": `include "wheels.poise"\n${gear}`,
    "gear/wheels.poise": wheels,
    "other.poise": 'include "kite.poise"\nairframe sn1 { weighed hull 41 kg }\n',
    "b.csv": `Level,Name,PN,Mass [kg],X [mm]
0,Hull,H-1,41.5,900
0,Gear,G,,
1,Leg,G-1,3.25,1000
1,Brake,G-2,0.75,1020
0,Wheels,,,
1,Tire,,2.25,1012
0,Pin,P-1,0.1,800
`,
  };
  const run = (folder: string, ...more: string[]) =>
    poise(["import", "b.csv", "-o", "kite.poise", "--on", "2026-06-01", ...more], { in: folder });
  const texts = (folder: string) =>
    Object.keys(files).map(it => readFileSync(join(folder, it), "utf8"));

  test("is brought up where each part stands; what is new stands with its assembly, else in the file named", () => {
    const folder = folderOf(files);
    const { status, stdout, stderr } = run(folder);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(texts(folder)).toEqual([
      `${kite.replace(
        "at FS 900",
        'calculated 41.5 kg on 2026-06-01 by "b.csv" at FS 900',
      )}part pin_2 "Pin" pn "P-1" calculated 0.1 kg on 2026-06-01 by "b.csv" at FS 800 mm\n`,
      files["gear/gear.poise"]
        .replace("at FS 1000", 'calculated 3.25 kg on 2026-06-01 by "b.csv" at FS 1000')
        .replace(
          "// each\n",
          '// each\n  part brake "Brake" pn "G-2" calculated 0.75 kg on 2026-06-01 by "b.csv" at FS 1020 mm\n',
        ),
      wheels.replace("at FS 1010", 'calculated 2.25 kg on 2026-06-01 by "b.csv" at FS 1012'),
      files["other.poise"],
      files["b.csv"],
    ]);
    expect(stdout.slice(stdout.indexOf("changed"))).toBe(`\
changed in kite.poise: hull: 40 kg becomes 41.5 kg
changed in gear/gear.poise: gear.leg: 3 kg becomes 3.25 kg
changed in gear/wheels.poise: wheels.tire: 2 kg becomes 2.25 kg
changed in gear/wheels.poise: wheels.tire: FS 1010 becomes 1012
new in gear/gear.poise: gear: Brake
new in kite.poise: Pin
no longer in the list, and not deleted in gear/wheels.poise: wheels.tube
not from a list in kite.poise: lead, bag_1, bag_2, bag_3, bag_4 and 1 more
kite.poise: 4 changed, 2 new, 1 no longer listed
gear/wheels.poise: written
gear/gear.poise: written
kite.poise: written
`);
    const before = texts(folder);
    expect(run(folder).stdout).toContain("kite.poise: nothing to change\n");
    expect(texts(folder)).toEqual(before);
    expect(checked(folder, "kite.poise")).toContain("0 errors");
  });

  test("a dry run shows the rows of each file, and writes none", () => {
    const folder = folderOf(files);
    const { status, stdout } = run(folder, "--dry-run");
    expect(stdout).toContain(`gear/wheels.poise:2
-   part tire "Tire" calculated 2 kg on 2026-03-01 by "a.csv" at FS 1010
+   part tire "Tire" calculated 2 kg on 2026-03-01 by "a.csv" calculated 2.25 kg on 2026-06-01 by "b.csv" at FS 1012
gear/gear.poise:4
`);
    expect(stdout).toMatch(/\nnothing is written: this was a dry run\n$/);
    expect(texts(folder)).toEqual(Object.values(files));
    expect(status).toBe(0);
  });

  test("of a file that is included, what stands elsewhere in the aircraft is not added again", () => {
    const folder = folderOf({
      ...files,
      "b.csv":
        "Level,Name,PN,Mass [kg]\n0,Fairings,,\n1,Hull,H-1,41.5\n0,Leg,G-1,3.25\n0,Seat,,2\n0,Hull,,1\n",
    });
    const args = ["import", "b.csv", "-o", "gear/gear.poise", "--on", "2026-06-01"];
    const { stdout } = poise(args, { in: folder });
    expect(stdout).toContain(`\
left as it is in kite.poise: hull: H-1 is not added again; the file that is named does not include it
`);
    expect(stdout).toContain("gear/gear.poise: 1 changed, 2 new, 2 no longer listed\n");
    const alone = poise(["import", "b.csv", "-o", "gear/wheels.poise"], { in: folder }).stdout;
    expect(alone).toContain("left as it is in gear/gear.poise: gear.leg: G-1 is not added again");
    // neither an empty assembly around it, nor a second thing of one name
    expect(readFileSync(join(folder, "gear/gear.poise"), "utf8").split("}\n")[1]).toBe(
      'part seat "Seat" calculated 2 kg on 2026-06-01 by "b.csv"\npart hull_2 "Hull" calculated 1 kg on 2026-06-01 by "b.csv"\n',
    );
    expect(checked(folder, "kite.poise")).toContain("0 errors");
  });

  test.each([
    [
      "an include leads nowhere",
      { "gear/wheels.poise": undefined },
      "gear/gear.poise: there is no file wheels.poise; what stands there would be taken for new, so nothing is written",
    ],
    [
      "an included file has an error in its text",
      { "gear/wheels.poise": `${wheels}frob\n` },
      "gear/wheels.poise has errors in its text: poise check shows them; it is left alone",
    ],
  ])("none of it is written where %s", (_, changed, why) => {
    const now = Object.entries({ ...files, ...changed }).filter(it => it[1] !== undefined);
    const folder = folderOf(Object.fromEntries(now) as Record<string, string>);
    const { status, stdout, stderr } = run(folder);
    expect({ status, stdout, stderr }).toEqual({
      status: 2,
      stdout: "",
      stderr: `poise: ${why}\n`,
    });
    expect(readFileSync(join(folder, "kite.poise"), "utf8")).toBe(kite);
  });
});

test("without -o the spec goes to standard output and the rest to the other; the date is the file's", () => {
  const folder = folderOf({ "a.csv": "Name;Gewicht [kg]\nSpar;3,5\n" });
  const day = new Date(2026, 1, 3, 12);
  utimesSync(join(folder, "a.csv"), day, day);
  const { status, stdout, stderr } = poise(["import", "a.csv", "--basis=estimated"], {
    in: folder,
  });
  expect(stdout).toContain('part spar "Spar" estimated 3.5 kg on 2026-02-03 by "a.csv"\n');
  expect(stderr).toContain("no column for it: FS (X)");
  expect(status).toBe(0);
  expect(existsSync(join(folder, "stdout.poise"))).toBe(false);
});

test.each([
  ["import", "import takes one list"],
  ["import gone.csv", "gone.csv does not exist"],
  ["import a.csv --unit kg", "import has no option --unit; did you mean --units?"],
  ["import a.csv --units kg,gal", "gal is neither"],
  ["import a.csv --on 2026-02-30", "--on is a date such as 2026-09-19, not 2026-02-30"],
  ["import a.csv --basis guessed", "--basis is one of estimated, calculated, quoted, weighed"],
  ["import prose.csv", "no row of prose.csv has headings"],
  ["import broken.xlsx", "broken.xlsx cannot be read as a workbook"],
  ["import old.xls", "old.xls is an old .xls: save it as .xlsx or .csv"],
  ["import empty.csv", "no row of empty.csv has headings"],
])("poise %s ends with 2 and says why", (call, why) => {
  const folder = folderOf({
    "a.csv": "name,mass\nspar,3\n",
    "prose.csv": "it was a dark night\n",
    "broken.xlsx": "PK\u0003\u0004 and no more",
    "old.xls": Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1]),
    "empty.csv": "",
  });
  const { status, stdout, stderr } = poise(call.split(" "), { in: folder });
  expect(stderr).toContain(why);
  expect(stderr).not.toContain("please report it");
  expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
});

describe("a list with a broken line writes nothing", () => {
  const head = "Name,PN,Mass [kg],X [mm]";
  test.each([
    [
      "a quote that nothing closes",
      `${head}\nSpar,"A-1,3,100\nRib,A-2,1,200\n`,
      "line 2: a quote that nothing closes; nothing is written",
    ],
    [
      "a quote that only the next one closes",
      `${head}\n"a\nb",A-0,1,1\nSpar,"A-1,3,100\nRib,"A-2",1,200\n`,
      "line 4: a quote that nothing closes; nothing is written",
    ],
    [
      "a decimal comma between commas",
      `${head}\nSpar,A-1,3,25,100\n`,
      "line 2: 5 cells where the headings are 4\n       nothing is written",
    ],
    [
      "a cell that is missing, below one on two lines",
      `${head}\n"a\nb",A-0,1,1\nSpar,3,100\n`,
      "line 4: 3 cells where the headings are 4\n       nothing is written",
    ],
  ])("%s", (_, list, why) => {
    const folder = folderOf({ "a.csv": list });
    const run = poise(["import", "a.csv", "-o", "kite.poise"], { in: folder });
    expect(run).toEqual({ status: 2, stdout: "", stderr: `poise: a.csv: ${why}\n` });
    expect(existsSync(join(folder, "kite.poise"))).toBe(false);
  });

  test("but titles, empty rows and empty cells at the end are none", () => {
    const list = `Kite,\n${head}\nThe wing\n,,,\nSpar,A-1,3,100,,\n3" bolt,A-2,1,200\n`;
    expect(imported("a.csv", list).text).toContain(
      'part n3_bolt "3” bolt" pn "A-2" calculated 1 kg',
    );
  });
});
