import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { folderOf, poise } from "./poise";

const kite = `// The kit.
aircraft kite { units lb, in; growth calculated 5% }
include "gear.poise"
choice battery default lithium {
  option agm { part battery quoted 22 lb at FS 20 }
  // light
  option lithium { part battery quoted 9 lb at FS 20 effective 3 .. }
}
`;
const gear = `assembly gear at FS 50 {
  part leg mirrored at FS 10, BL 30 {
    calculated 12 lb effective .. 4 // as drawn
    calculated 13.5 lb on 2027-02-01 effective 5 ..
    estimated 11 lb effective .. 4
  }
  part wheel_a calculated 5 lb at FS 12 effective .. 4
  part wheel_b calculated 6 lb at FS 12 effective 5 ..
}
`;
const built = `include "kite.poise"
// the first one
airframe sn1 "S/N 1" serial 1 {
  choose battery agm
  weighed gear.leg.LH 12.3 lb
}
// the sixth
airframe sn6 serial 6 { }
// on its scales
weighing first of sn6 on 2027-05-01 {
  scale nose at FS 20 reads 10 lb
  scale main at FS 70 reads 35 lb
}
airframe sn7 { }
`;
const files = { "kite.poise": kite, "gear.poise": gear, "built.poise": built };

test("what is effective where, as a table", () => {
  const { stdout, stderr, status } = poise(["effectivity"], { in: folderOf(files) });
  expect(stderr).toBe("");
  expect(stdout).toBe(`\
kite: what is effective for which serial numbers
path          what                    effective  as designed  sn1 (1)    sn6 (6)  sn7 (no serial)
gear.leg      calculated 12 lb        .. 4       -            governs    -        -
gear.leg      calculated 13.5 lb      5 ..       governs      -          governs  governs
gear.leg      estimated 11 lb         .. 4       -            on record  -        -
gear.wheel_a  part                    .. 4       -            fitted     -        -
gear.wheel_b  part                    5 ..       fitted       -          fitted   fitted
battery       part of option lithium  3 ..       fitted       -          fitted   fitted
An airframe without a serial number is read as the newest one, as the design is.
`);
  expect(status).toBe(0);
});

test("where nothing is effective for some serials only, that is said", () => {
  const { stdout } = poise(["effectivity", "a.poise"], {
    in: folderOf({ "a.poise": "aircraft a { units lb, in }\npart hull weighed 12 lb at FS 20\n" }),
  });
  expect(stdout).toBe(
    "a: what is effective for which serial numbers\nEverything is for every airframe: nothing says effective.\n",
  );
});

test("an airframe is written as it stands: one file, without what is not of it", () => {
  const { stdout, stderr } = poise(["freeze", "sn1"], { in: folderOf(files) });
  expect(stderr).toBe("");
  expect(stdout.replace(/\d{4}-\d\d-\d\d/, "DAY")).toBe(`\
// S/N 1 as it stood on DAY, from built.poise, gear.poise, kite.poise.
// A later change of the design does not reach it.

assembly gear at FS 50 {
  part leg mirrored at FS 10, BL 30 {
    calculated 12 lb // as drawn
    was calculated 13.5 lb on 2027-02-01
    estimated 11 lb
  }
  part wheel_a calculated 5 lb at FS 12
}

// The kit.
aircraft kite { units lb, in; growth calculated 5% }
choice battery default agm {
  option agm { part battery quoted 22 lb at FS 20 }
}

// the first one
airframe sn1 "S/N 1" serial 1 {
  choose battery agm
  weighed gear.leg.LH 12.3 lb
}
`);
});

test("a redesign reaches the airframe, and not the spec it was written to", () => {
  const folder = folderOf(files);
  const empty = (file: string, airframe: string) => {
    const { stdout } = poise(["check", file, "--format", "json"], { in: folder });
    const roots = JSON.parse(stdout).roots as readonly {
      readonly airframe: string | null;
      readonly empty: { readonly basic: { readonly mass_kg: number } };
    }[];
    return roots.find(it => it.airframe === airframe)!.empty.basic.mass_kg / 0.45359237;
  };
  const { stdout } = poise(["freeze", "sn1", "-o", "sn1-frozen.poise"], { in: folder });
  // (24.3 lb × 60 in + 5 lb × 62 in + 22 lb × 20 in) ÷ 51.3 lb
  const written = "sn1-frozen.poise: S/N 1: basic empty weight 51.3 lb, CG at FS 43.04 in\n";
  expect(stdout.slice(0, written.length)).toBe(written);
  expect(empty("built.poise", "sn1")).toBeCloseTo(12 + 12.3 + 5 + 22, 9);
  const changed = gear.replace("calculated 5 lb", "calculated 8 lb");
  writeFileSync(join(folder, "gear.poise"), changed);
  expect(empty("built.poise", "sn1")).toBeCloseTo(54.3, 9);
  expect(empty("sn1-frozen.poise", "sn1")).toBeCloseTo(51.3, 9);
});

test("beside the files it came from it is a second aircraft, which is said; elsewhere it is not", () => {
  const inside = Object.entries(files).map(([path, text]) => [`design/${path}`, text]);
  const folder = folderOf({ ...Object.fromEntries(inside), "kept/readme.txt": "as built" });
  const run = (...args: string[]) => poise(args, { in: join(folder, "design") });
  const line = "basic empty weight 51.3 lb, CG at FS 43.04 in\n";
  expect(run("freeze", "sn1", "-o", "../kept/sn1.poise").stdout).toBe(
    `../kept/sn1.poise: S/N 1: ${line}`,
  );
  expect(run("progress").status).toBe(0);
  expect(run("freeze", "sn1", "-o", "sn1.poise").stdout).toBe(
    `sn1.poise: S/N 1: ${line}warning: sn1.poise is an aircraft of its own beside built.poise: both are checked with their folder, and commands such as weigh and progress ask which file is meant; in a folder of its own it stays apart\n`,
  );
  expect(run("progress").stderr).toContain("2 aircraft are in this folder");
});

test.each(["sn001", "sn003"])(
  "the example's %s, its weighing and changes with it, comes to the same figures to the bit",
  name => {
    const examples = join(import.meta.dirname, "../../examples/dunlin");
    const { stdout } = poise(["freeze", name, "."], { in: examples });
    const folder = folderOf({});
    const path = join(folder, "alone.poise");
    const alone = judge(withText(emptyProject([folder]), path, stdout));
    expect(alone.findings.filter(it => it.severity === "error")).toEqual([]);
    const json = poise(["check", ".", "--format", "json"], { in: examples }).stdout;
    const before = JSON.parse(json).roots.find((it: { airframe: string }) => it.airframe === name);
    const after = alone.roots.find(it => it.airframe === name)!;
    expect(JSON.parse(JSON.stringify(reportOf(after)))).toEqual({ ...before, file: path });
  },
);

test.each([
  [["freeze"], "freeze takes an airframe, and a file or folder: poise freeze sn003 ."],
  [["freeze", "sn9"], "no airframe is called sn9; did you mean sn1?"],
  [["freeze", "sn1", "-o", "gear.poise"], "gear.poise is there already: name a new file"],
  [
    ["effectivity", "a", "b"],
    "effectivity takes one file or folder: poise effectivity examples/dunlin",
  ],
  [["history", "."], "which airframe? there are sn1, sn6, sn7"],
])("poise %j: status 2", (args, message) => {
  const folder = folderOf(files);
  const { status, stderr, stdout } = poise(args, { in: folder });
  expect(stderr).toBe(`poise: ${message}\n`);
  expect(stdout).toBe("");
  expect(status).toBe(2);
  expect(readFileSync(join(folder, "gear.poise"), "utf8")).toBe(gear);
});
