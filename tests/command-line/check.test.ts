import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const sound = `aircraft teal { units lb, in, gal }
part keel weighed 10 lb at FS 20
`;
const heavy = `aircraft coot { units lb, in, gal }
assembly wing budget 5 lb {
  part spar weighed 6 lb at FS 20
}
`;
const broken = "aircraft rail { units lb, in, gal }\nfrob\n";

test("a sound design ends with 0, its numbers on a line and the caution last", () => {
  const { status, stdout, stderr } = poise(["check"], { in: folderOf({ "teal.poise": sound }) });
  expect(stdout).toBe(`teal: basic empty weight 10 lb, CG at FS 20 in
0 errors, 0 warnings, 0 notes in 1 file
A calculated weight and balance does not replace a weighing or the approved documents.
`);
  expect(stderr).toBe("");
  expect(status).toBe(0);
});

test("an error ends with 1", () => {
  const { status, stdout } = poise(["check", "coot.poise", "--format", "concise"], {
    in: folderOf({ "coot.poise": heavy }),
  });
  expect(stdout).toContain("coot.poise:2:22: error[over-budget]: wing weighs 6 lb, 1 lb over");
  expect(stdout).toContain("1 error, 0 warnings, 0 notes in 1 file");
  expect(status).toBe(1);
});

test("a warning alone ends with 0", () => {
  const risky = heavy.replace("weighed 6 lb", "calculated 4.9 lb growth calculated 20%");
  const { status, stdout } = poise(["check", "--format=concise"], {
    in: folderOf({ "coot.poise": risky }),
  });
  expect(stdout).toContain("warning[budget-at-risk]");
  expect(status).toBe(0);
});

test("an error that is waived ends with 0 and says so", () => {
  const waived = `${heavy}waive over-budget of wing "the spar is a prototype"\n`;
  const { status, stdout } = poise(["check", "--format=concise"], {
    in: folderOf({ "coot.poise": waived }),
  });
  expect(stdout).toContain("(waived: the spar is a prototype)");
  expect(stdout).toContain("0 errors, 0 warnings, 0 notes, 1 waived in 1 file");
  expect(status).toBe(0);
});

test("a file is judged with the aircraft that reaches it, wherever that stands", () => {
  const root = 'aircraft coot { units lb, in, gal }\ninclude "parts/wing.poise"\nfrob\n';
  const wing = "assembly wing budget 5 lb {\n  part spar weighed 6 lb at FS 20\n}\n";
  const files = { "coot.poise": root, "parts/wing.poise": wing, "other/rail.poise": broken };
  const { status, stdout } = poise(["check", "parts/wing.poise", "--format", "concise"], {
    in: folderOf(files),
  });
  expect(stdout).toContain("parts/wing.poise:1:22: error[over-budget]");
  expect(stdout).toContain("coot.poise:3:1: error[syntax]");
  expect(stdout).not.toContain("rail");
  expect(status).toBe(1);
});

test("the workspace is the folder that holds .git, from wherever the command is called", () => {
  const root = 'aircraft coot { units lb, in, gal }\ninclude "../parts/keel.poise"\n';
  const folder = folderOf({
    "design/coot.poise": root,
    "parts/keel.poise": "part keel weighed 10 lb at FS 20\n",
  });
  mkdirSync(join(folder, ".git"));
  const { status, stdout } = poise(["check", "keel.poise"], { in: join(folder, "parts") });
  expect(stdout).toContain("coot: basic empty weight 10 lb, CG at FS 20 in");
  expect(status).toBe(0);
});

test("without .git a file outside the current folder has its own folder as workspace", () => {
  const folder = folderOf({ "a/teal.poise": sound, "b/rail.poise": broken });
  const { status, stdout } = poise(["check", "../a/teal.poise"], { in: join(folder, "b") });
  expect(stdout).toContain("0 errors, 0 warnings, 0 notes in 1 file");
  expect(status).toBe(0);
});

test("hidden folders and installed packages are not read unless they are named", () => {
  const folder = folderOf({
    "teal.poise": sound,
    ".old/rail.poise": broken,
    "node_modules/x/rail.poise": broken,
  });
  expect(poise(["check"], { in: folder }).status).toBe(0);
  expect(poise(["check", ".old/rail.poise"], { in: folder }).status).toBe(1);
});

test("a file that no aircraft reaches is still read, and says that it counts nowhere", () => {
  const folder = folderOf({
    "teal.poise": sound,
    "spare.poise": "part spare weighed 1 lb at FS 1\n",
  });
  const { status, stdout } = poise(["check", ".", "--format", "concise"], { in: folder });
  expect(stdout).toContain("spare.poise:1:1: info[no-root]");
  expect(status).toBe(0);
});

test("a folder that no aircraft stands in is judged by nobody, and does not pass", () => {
  const folder = folderOf({
    "spare/spare.poise": "part spare weighed 1 lb at FS 1\n",
    "teal.poise": sound,
  });
  const { status, stderr } = poise(["check", "spare"], { in: folder });
  expect(stderr).toContain("no file in spare belongs to an aircraft: nothing was judged");
  expect(status).toBe(2);
  expect(poise(["check", "."], { in: folder }).status).toBe(0);
  expect(poise(["check", "spare/spare.poise"], { in: folder }).status).toBe(0);
});

test("- is the text on standard input, a file of the current folder", () => {
  const folder = folderOf({ "keel.poise": "part keel weighed 10 lb at FS 20\n" });
  const input = 'aircraft teal { units lb, in, gal }\ninclude "keel.poise"\nfrob\n';
  const { status, stdout } = poise(["check", "-", "--format", "concise"], { in: folder, input });
  expect(stdout).toContain("stdin.poise:3:1: error[syntax]: frob begins no statement");
  expect(stdout).toContain("teal: basic empty weight 10 lb");
  expect(status).toBe(1);
});
