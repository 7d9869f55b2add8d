import {
  chmodSync,
  existsSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { replaceFiles } from "../../server/edges/replace-files";
import { workbook } from "../lists/workbook";
import { folderOf, poise } from "./poise";

const kite = `aircraft kite "Kite" { units lb, in; spread calculated 4%, weighed 0.3% }
include "wing.poise"
airframe sn003 "S/N 003" serial 3 {
}
`;
const wing = `assembly wing "Wing" {
  part spar mirrored pn "W-1" calculated 9.5 lb at FS 120, BL 60 // by hand
  part rib qty 6 calculated 0.4 lb at FS 130
}
`;
const files = { "kite.poise": kite, "wing.poise": wing };

const textOf = (folder: string, file: string) => readFileSync(join(folder, file), "utf8");
const sheetOf = (...rows: string[]) =>
  `path,part number,name,pieces,expected,reading,unit,scale,date,note\n${rows.map(it => `${it}\n`).join("")}`;

test("one reading is compared with what was thought, and written as a record", () => {
  const folder = folderOf(files);
  const call = [
    "weigh",
    "wing.spar",
    "9",
    "lb",
    "14",
    "oz",
    "--by",
    "bench scale 2",
    "--on=2026-11-25",
  ];
  const line = 'weighed 9 lb 14 oz on 2026-11-25 by "bench scale 2"';
  const before = '  part spar mirrored pn "W-1" calculated 9.5 lb at FS 120, BL 60 // by hand';
  const { status, stdout, stderr } = poise(call, { in: folder });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  expect(stdout).toBe(`wing.spar  9.5 lb calculated  9 lb 14 oz  0.38 lb more, 1 spread off
wing.poise:2
- ${before}
+   part spar {
+     mirrored
+     pn "W-1"
+     calculated 9.5 lb
+     ${line}
+     at FS 120, BL 60
+   } // by hand
wing.poise: written
`);
  expect(poise(["check", ".", "--format=concise"], { in: folder }).stdout).toContain("0 errors");
  expect(textOf(folder, "kite.poise")).toBe(kite);
});

test("today is the day where none is said, and one side of an airframe has a line in its block", () => {
  const folder = folderOf(files);
  const { status } = poise(["weigh", "wing.spar.LH", "9.6", "--airframe", "sn003"], { in: folder });
  expect(status).toBe(0);
  expect(textOf(folder, "kite.poise")).toMatch(
    /serial 3 \{\n {2}weighed wing\.spar\.LH 9\.6 lb on 20\d\d-\d\d-\d\d\n\}\n$/,
  );
  expect(textOf(folder, "wing.poise")).toBe(wing);
});

const wrong: [string, string][] = [
  [
    "weigh",
    "weigh takes a part and what the scale shows, or a filled sheet: poise weigh wing.spar 21.9 lb, poise weigh --from readings.csv",
  ],
  [
    "weigh wing.spar 9.5 --from a.csv",
    "weigh takes a part and what the scale shows, or a filled sheet: poise weigh wing.spar 21.9 lb, poise weigh --from readings.csv",
  ],
  ["weigh wing.spra 9.5", "nothing is called wing.spra in kite; did you mean wing.spar?"],
  ["weigh wing.spar 9.5 --airframe sn03", "kite has no airframe sn03; did you mean sn003?"],
  [
    "weigh wing.spar 9.5 --airframe sn003",
    "wing.spar has two sides: say which, wing.spar.RH or wing.spar.LH",
  ],
  ["weigh wing.spar -9.5", "-9.5 lb: a reading is negative"],
  ["weigh wing.spar 9.5 --on 25.11.2026", "--on is a date such as 2026-09-19, not 25.11.2026"],
  [
    "weigh wing.spar 9.5 --airfame sn003",
    "weigh has no option --airfame; did you mean --airframe?",
  ],
  [
    "weigh wing.spar 4.31",
    "4.31 lb is one 2.2th of the 9.5 lb calculated, as pounds are to kilograms; --sure takes it as it stands",
  ],
  [
    "weigh wing.spar 270",
    "270 lb is 28 times the 9.5 lb calculated, as grams are to ounces; --sure takes it as it stands",
  ],
  ["weigh --from gone.csv", "gone.csv does not exist"],
  ["weigh gone.poise wing.spar 9.5", "gone.poise does not exist"],
  ["sheet a.poise b.poise", "sheet takes one file: poise sheet kite.poise -o sheet.csv"],
  ["sheet -o wing.poise", "wing.poise is no weigh sheet: it is left alone"],
  ["sheet --html wing.poise", "wing.poise is no weigh sheet: it is left alone"],
];

test.each(wrong)("poise %s: said, status 2, nothing is written", (call, message) => {
  const folder = folderOf(files);
  const { status, stdout, stderr } = poise(call.split(" "), { in: folder });
  expect({ status, stdout, stderr }).toEqual({
    status: 2,
    stdout: "",
    stderr: `poise: ${message}\n`,
  });
  for (const [file, text] of Object.entries(files)) expect(textOf(folder, file)).toBe(text);
});

describe("a reading that is there already", () => {
  const weighs = (folder: string, ...reading: string[]) =>
    poise(["weigh", ...reading, "--on", "2026-11-25"], { in: folder });

  test.each([[[]], [["--airframe", "sn003"]]])("is not written again %j", airframe => {
    const folder = folderOf(files);
    const path = airframe.length === 0 ? "wing.spar" : "wing.spar.LH";
    expect(weighs(folder, path, "9.6", "--by", "scale 1", ...airframe).status).toBe(0);
    const then = [textOf(folder, "kite.poise"), textOf(folder, "wing.poise")];
    const again = weighs(folder, path, "9.60 lb", "--by", "scale 1", ...airframe);
    expect(again).toEqual({
      status: 0,
      stderr: "",
      stdout: `${path}: 9.60 lb on 2026-11-25 by scale 1 is already written\nthere is nothing to write\n`,
    });
    expect([textOf(folder, "kite.poise"), textOf(folder, "wing.poise")]).toEqual(then);
  });

  test("and another one of that day governs, which is said", () => {
    const folder = folderOf(files);
    weighs(folder, "wing.spar", "9.6", "--by", "scale 1");
    const { stdout } = weighs(folder, "wing.spar", "9.7", "--by", "scale 1");
    expect(stdout).toContain(
      "wing.spar  9.6 lb weighed  9.7 lb  0.1 lb more, 2.4 spreads off; weighed on 2026-11-25 already, 9.6 lb by scale 1: this one governs, being the last written\n",
    );
    expect(poise(["why", "kite.poise", "wing.spar"], { in: folder }).stdout).toContain("9.7 lb");
  });

  test("in a filled sheet that was read before: its other rows are written", () => {
    const folder = folderOf({ ...files, "r.csv": sheetOf("wing.rib,,,,,0.41,lb,,,") });
    const from = () => weighs(folder, "--from", "r.csv");
    expect(from().stdout).toContain("wing.poise: written");
    writeFileSync(
      join(folder, "r.csv"),
      sheetOf("wing.rib,,,,,0.41,lb,,,", "wing.spar,,,,,9.6,lb,,,"),
    );
    const { stdout, status } = from();
    expect(stdout).toContain("wing.rib: 0.41 lb on 2026-11-25 is already written\n");
    expect(textOf(folder, "wing.poise").match(/weighed/g)).toHaveLength(2);
    expect(status).toBe(0);
    expect(from().stdout).toContain("there is nothing to write");
  });
});

test("a day that is still to come is asked about", () => {
  const folder = folderOf(files);
  const call = ["weigh", "wing.spar", "9.6", "--on", "2999-01-01"];
  const { stderr, status } = poise(call, { in: folder });
  expect(stderr).toBe("poise: 2999-01-01 is still to come; --sure takes it as it stands\n");
  expect(status).toBe(2);
  expect(textOf(folder, "wing.poise")).toBe(wing);
  expect(poise([...call, "--sure"], { in: folder }).status).toBe(0);
  expect(textOf(folder, "wing.poise")).toContain("weighed 9.6 lb on 2999-01-01");
});

test("of several aircraft in a folder, a file says which", () => {
  const folder = folderOf({
    "a.poise": "aircraft a { units lb }\npart x at FS 1 in\n",
    "b.poise": "aircraft b\n",
  });
  expect(poise(["weigh", "x", "1"], { in: folder }).stderr).toBe(
    "poise: 2 aircraft are in this folder: name a file of the one that is meant, such as a.poise\n",
  );
  expect(poise(["weigh", "a.poise", "x", "1"], { in: folder }).status).toBe(0);
  expect(textOf(folder, "a.poise")).toMatch(/^part x weighed 1 lb on [\d-]+ at FS 1 in$/m);
});

describe("a filled sheet", () => {
  /** Weighs a sheet in, in an aircraft of its own. */
  function from(sheet: string | Buffer, ...options: string[]) {
    const folder = folderOf({ ...files, "r.csv": sheet });
    const call = ["weigh", "--from", "r.csv", "--on", "2026-11-25", ...options];
    const run = poise(call, { in: folder });
    return { ...run, kite: textOf(folder, "kite.poise"), wing: textOf(folder, "wing.poise") };
  }
  const good = "wing.rib,,,6,0.4,6.5 oz,lb,scale B,2026-11-24,";

  test("is written as a whole", () => {
    const { status, stdout, ...now } = from(sheetOf("wing.spar,W-1,,2,9.5,9.5,lb,,,dry", good));
    expect(status).toBe(0);
    expect(stdout).toBe(`wing.spar  9.5 lb calculated  9.5 lb  the same
wing.rib   0.4 lb calculated  6.5 oz  0.006 lb more, 0.4 spreads off
2 readings, 21.44 lb: 0.04 lb more than was thought
wing.poise: written
`);
    expect(now.wing).toContain('weighed 9.5 lb on 2026-11-25 note "dry"');
    expect(now.wing).toContain('weighed 6.5 oz on 2026-11-24 by "scale B" at FS 130');
  });

  test("takes a decimal comma in quotes, and says which cells it took for no reading", () => {
    const { status, stdout, ...now } = from(
      sheetOf('wing.spar,W-1,,2,9.5,"9,62",lb,,,', "wing.rib,,,6,0.4,n/a,lb,,,"),
    );
    expect(status).toBe(0);
    expect(now.wing).toContain("weighed 9.62 lb on 2026-11-25 at");
    expect(stdout).toContain('1 row without a reading\ntaken for no reading: line 3: "n/a"\n');
  });

  test("echoes a date that is none as it was written", () => {
    const { status, stdout } = from(sheetOf("wing.spar,,,,,9.5,lb,,12.13.2026,"));
    expect(stdout).toContain("line 2: the date is written as 2026-09-19 is, not 12.13.2026\n");
    expect(status).toBe(1);
  });

  test("shows in a dry run what it would write", () => {
    const { status, stdout, ...now } = from(sheetOf(good), "--dry-run");
    expect(status).toBe(0);
    expect(stdout).toContain(`wing.poise:3
-   part rib qty 6 calculated 0.4 lb at FS 130
+   part rib qty 6 calculated 0.4 lb weighed 6.5 oz on 2026-11-24 by "scale B" at FS 130
nothing is written: this was a dry run
`);
    expect(now.wing).toBe(wing);
  });

  test("is not written where one reading does not fit, or in part where that is asked for", () => {
    const bad = sheetOf(
      good,
      "wing.spra,,,,,9,lb,,,",
      "wing.spar,,,,,4.3,lb,,,",
      "wing.rib,,,,,0.4,lb,,,",
    );
    const misfits = [
      "does not fit: line 3: nothing is called wing.spra in kite; did you mean wing.spar?",
      "does not fit: line 4: 4.3 lb is one 2.2th of the 9.5 lb calculated, as pounds are to kilograms; --sure takes it as it stands",
      "does not fit: line 5: wing.rib is read twice, the other time in line 2",
    ].join("\n");
    const whole = from(bad);
    expect(whole.stdout).toContain(
      `${misfits}\nnothing is written: 3 of 4 readings do not fit (--partial writes the others)\n`,
    );
    expect(whole.status).toBe(1);
    expect(whole.wing).toBe(wing);
    const partial = from(bad, "--partial");
    expect(partial.stdout).toContain(`${misfits}\nwing.poise:3\n`);
    expect(partial.status).toBe(1);
    expect(partial.wing).toContain('weighed 6.5 oz on 2026-11-24 by "scale B"');
    const sure = from(bad, "--partial", "--sure");
    expect(sure.wing).toContain("weighed 4.3 lb on 2026-11-25");
  });

  test("is not written where a line is broken, even in part", () => {
    const { status, stderr, ...now } = from(sheetOf(good, "wing.spar,,,,,9,5,lb,,,"), "--partial");
    expect(stderr).toBe(`poise: r.csv: line 3: 11 cells where the headings are 10
       nothing is written
`);
    expect(status).toBe(2);
    expect(now.wing).toBe(wing);
    const quote = from(sheetOf(good, '"wing.spar,,,,,9.5,lb,,,', good));
    expect(quote.stderr).toBe(
      "poise: r.csv: line 3: a quote that nothing closes; nothing is written\n",
    );
    expect(from("name,colour\nspar,red\n").stderr).toContain(
      "no row is headed path or part number, and reading",
    );
    expect(from("Part number;Mass [lb]\nW-1;9,5\n").stderr).toContain(
      "r.csv: this is a parts list: no column of masses is headed reading or weighed; poise import takes it in\n",
    );
    expect(from(sheetOf()).stderr).toBe("poise: r.csv has no row below its headings\n");
  });

  test("with semicolons and decimal commas, or as a workbook", () => {
    const comma = from("\ufeffpath;reading;unit\r\nwing.spar;9,62;lb\r\nwing.rib;0,18;kg\r\n");
    expect(comma.wing).toContain("calculated 9.5 lb weighed 9.62 lb on 2026-11-25 at");
    expect(comma.wing).toContain("calculated 0.4 lb weighed 0.18 kg on 2026-11-25 at");
    const book = from(
      workbook([
        ["path", "reading", "note"],
        ["wing.spar", 9.62, null],
        ["wing.rib", null, null],
      ]),
    );
    expect(book.stdout).toContain("1 row without a reading\nwing.poise:2\n");
    expect(book.wing).toContain("weighed 9.62 lb on 2026-11-25 at");
  });
});

test("a sheet goes out, comes back filled, and the next one is empty; all else stays byte for byte", () => {
  const parts = Array.from(
    { length: 50 },
    (_, i) => `  part p${i} pn "P-${i}" calculated ${i + 1}.5 lb at FS ${i}`,
  );
  const assemblies = Array.from(
    { length: 10 },
    (_, i) => `// the ${i}th\nassembly a${i} "A ${i}" {\n${parts.join("\n")}\n}\n`,
  );
  const text = `\ufeffaircraft heron { units lb, in }\n${assemblies.join("\n")}`.replaceAll(
    "\n",
    "\r\n",
  );
  const folder = folderOf({ "heron.poise": text });
  const run = (...args: string[]) => poise(args, { in: folder });
  expect(run("sheet", "-o", "sheet.csv", "--html", "sheet.html").stdout).toBe(
    "sheet.csv: written, 500 parts not weighed yet\nsheet.html: written, 500 parts not weighed yet\n",
  );
  // the pen: what was expected of a part is what the scale shows, and a quarter more; no assembly as a whole
  const filled = textOf(folder, "sheet.csv").replace(
    /(,P-.*),([\d.]+),,lb/g,
    (_, part, it) => `${part},${it},${Number(it) + 0.25},lb`,
  );
  writeFileSync(join(folder, "sheet.csv"), filled);
  expect(run("sheet", "-o", "sheet.csv")).toMatchObject({
    status: 2,
    stderr:
      "poise: sheet.csv has 500 readings in it: it is left alone; weigh --from takes them in\n",
  });

  const { status, stdout } = run("weigh", "--from", "sheet.csv", "--on=2026-11-25", "--by=S 1");
  expect(status).toBe(0);
  expect(stdout).toContain("500 readings, 13,125 lb: 125 lb more than was thought\n");
  expect(stdout).toContain("10 rows without a reading\n");
  const expected = text.replace(
    /calculated (\d+).5 lb/g,
    '$& weighed $1.75 lb on 2026-11-25 by "S 1"',
  );
  expect(textOf(folder, "heron.poise")).toBe(expected);
  expect(run("sheet", "-o", "next.csv").stdout).toBe(
    "next.csv: written, no parts not weighed yet\n",
  );
  expect(textOf(folder, "next.csv")).toBe(
    "path,part number,name,pieces,expected,reading,unit,scale,date,note\r\n",
  );
  expect(readdirSync(folder).sort()).toEqual([
    "heron.poise",
    "next.csv",
    "sheet.csv",
    "sheet.html",
  ]);
});

test("an assembly comes back from its sheet as a whole, and what lies in it is not added twice", () => {
  const text = `aircraft heron { units lb, in }
assembly wheel mirrored {
  part tire calculated 4 lb at FS 60, BL 20
  part tube calculated 1 lb at FS 60, BL 20
}
airframe sn1 serial 1 { }
`;
  const folder = folderOf({ "heron.poise": text });
  const run = (...args: string[]) => poise([...args, "--airframe=sn1"], { in: folder });
  const sheet = run("sheet").stdout;
  expect(sheet).toContain("wheel.LH,,whole assembly,1,5,,lb,,,\n");
  const filled = sheet.replace("1,5,,lb", "1,5,5.5,lb").replace("1,4,,lb", "1,4,4.25,lb");
  writeFileSync(join(folder, "sheet.csv"), filled);
  const { status, stdout } = run("weigh", "--from", "sheet.csv", "--on=2026-11-25");
  expect(stdout).toBe(`\
wheel.RH.tire  4 lb calculated    4.25 lb  0.25 lb more, no spread is declared
wheel.RH       5 lb by its parts  5.5 lb   0.5 lb more, no spread is declared
2 readings, 5.5 lb: 0.5 lb more than was thought
4 rows without a reading
heron.poise: written
`);
  expect(status).toBe(0);
  expect(textOf(folder, "heron.poise")).toBe(
    text.replace(
      "{ }",
      "{ weighed wheel.RH.tire 4.25 lb on 2026-11-25; weighed wheel.RH 5.5 lb on 2026-11-25 }",
    ),
  );
  // the right-hand one is settled, as is all that is in it
  expect(run("sheet").stdout).not.toContain("wheel.RH");
  const late = run("weigh", "wheel.RH.tube", "1.25", "--on=2026-11-26", "--dry-run");
  expect(late.stdout).toContain(
    "; wheel.RH was weighed as a whole on 2026-11-25 and changes by as much",
  );
});

describe("a file is replaced at once", () => {
  test("through a link, with the rights it has", () => {
    const folder = folderOf({ "real.poise": "a" });
    const [real, link] = [join(folder, "real.poise"), join(folder, "link.poise")];
    chmodSync(real, 0o640);
    symlinkSync(real, link);
    replaceFiles([{ path: link, before: Buffer.from("a"), text: "b" }]);
    expect(readFileSync(real, "utf8")).toBe("b");
    expect(statSync(real).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder).sort()).toEqual(["link.poise", "real.poise"]);
  });

  test.each([
    ["is to be replaced too", "new"],
    ["was only read, and the others rest on it", undefined],
  ])("and none is where one has changed since it was read that %s", (_, text) => {
    const folder = folderOf({ "a.poise": "a", "b.poise": "changed" });
    const [a, b] = [join(folder, "a.poise"), join(folder, "b.poise")];
    const replace = () =>
      replaceFiles([
        { path: a, before: Buffer.from("a"), text: "new" },
        { path: b, before: Buffer.from("b"), text },
      ]);
    expect(replace).toThrow(
      "b.poise has changed on the disk since it was read: nothing is written",
    );
    expect([readFileSync(a, "utf8"), readFileSync(b, "utf8")]).toEqual(["a", "changed"]);
    expect(readdirSync(folder).sort()).toEqual(["a.poise", "b.poise"]);
    expect(existsSync(a)).toBe(true);
  });
});
