import { execFileSync } from "node:child_process";
import { mkdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, poise, type Run } from "./poise";

const plane = "aircraft teal { units lb, in, gal }\n";

/** Whatever the input: no stack trace, and no fault of ours. */
function calm(run: Run): Run {
  expect(run.stderr).not.toMatch(/^ +at /m);
  expect(run.stderr).not.toContain("Poise failed");
  expect([0, 1, 2]).toContain(run.status);
  return run;
}

const unreadable: [string, Buffer, string][] = [
  ["Latin-1", Buffer.from("aircraft caf\xe9 {}\n", "latin1"), "(byte 0xE9 at 12)"],
  ["Latin-1 further on", Buffer.from("// ééé \xff", "latin1"), "(byte 0xE9 at 3)"],
  ["bad after good", Buffer.concat([Buffer.from("// ééé "), Buffer.of(0xff)]), "(byte 0xFF at 10)"],
  ["cut short", Buffer.concat([Buffer.from("// é"), Buffer.of(0xe2, 0x82)]), "(byte 0xE2 at 5)"],
];

test.each(unreadable)("not UTF-8, %s: says where, status 2", (_, bytes, where) => {
  const folder = folderOf({ "teal.poise": bytes });
  const { status, stdout, stderr } = calm(poise(["check", "teal.poise"], { in: folder }));
  expect(stderr).toBe(`poise: teal.poise is not UTF-8 text ${where}\n`);
  expect(stdout).toBe("");
  expect(status).toBe(2);
});

test("not UTF-8 on standard input", () => {
  const run = calm(poise(["check", "-"], { in: folderOf({}), input: Buffer.of(0x41, 0xff) }));
  expect(run.stderr).toBe("poise: standard input is not UTF-8 text (byte 0xFF at 1)\n");
  expect(run.status).toBe(2);
});

test("a byte order mark is no fault and moves no column", () => {
  const folder = folderOf({ "teal.poise": `\ufeff${plane}frob\n` });
  const { stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain("teal.poise:2:1: error[syntax]");
  expect(stdout).toContain("1 error,");
});

test("a NUL byte: says where, status 2", () => {
  const folder = folderOf({ "teal.poise": "aircraft x {\0}" });
  const { status, stderr } = calm(poise(["check", "teal.poise"], { in: folder }));
  expect(stderr).toContain("teal.poise holds a NUL byte at 12");
  expect(status).toBe(2);
});

test("an include of what is no text is a finding at the include", () => {
  const folder = folderOf({ "teal.poise": `${plane}include "w.poise"\n`, "w.poise": "\0" });
  const { status, stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain(
    "teal.poise:2:9: error[include-missing]: w.poise holds a NUL byte at 0, so it is not a text file",
  );
  expect(status).toBe(1);
});

test("50 MB of one line", () => {
  const folder = folderOf({ "teal.poise": `${plane}${"part a ".repeat(7_500_000)}` });
  const { status, stdout } = calm(poise(["check"], { in: folder }));
  expect(stdout).toContain("teal.poise:2:1:");
  expect(stdout).toContain("error[syntax]: this line has 52,500,000 characters");
  // the line itself is not poured out
  expect(stdout.length).toBeLessThan(2000);
  expect(status).toBe(1);
});

test("larger than 64 MB", () => {
  const folder = folderOf({ "teal.poise": Buffer.alloc(64 * 2 ** 20 + 1, " ") });
  const { status, stderr } = calm(poise(["check", "teal.poise"], { in: folder }));
  expect(stderr).toBe("poise: teal.poise is larger than 64 MB\n");
  expect(status).toBe(2);
});

test("a folder in place of a file", () => {
  const folder = folderOf({ "teal.poise": `${plane}include "wing.poise"\n` });
  mkdirSync(join(folder, "wing.poise"));
  const { status, stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain("teal.poise:2:9: error[include-missing]: wing.poise is a folder");
  expect(status).toBe(1);
});

test("a folder that is named like a spec is looked into", () => {
  const folder = folderOf({ "teal.poise/wing.poise": `${plane}frob\n` });
  const { status, stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain("teal.poise/wing.poise:2:1: error[syntax]");
  expect(status).toBe(1);
});

test("a folder without a spec, and a file that does not exist", () => {
  const folder = folderOf({ "docs/read.me": "" });
  const empty = calm(poise(["check", "docs"], { in: folder }));
  expect(empty).toMatchObject({ status: 2, stderr: "poise: docs holds no .poise file\n" });
  const missing = calm(poise(["check", "teal.poise"], { in: folder }));
  expect(missing).toMatchObject({ status: 2, stderr: "poise: teal.poise does not exist\n" });
});

test("files that include each other", () => {
  const folder = folderOf({
    "teal.poise": `${plane}include "wing.poise"\n`,
    "wing.poise": 'include "teal.poise"\n',
  });
  const { status, stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain("error[include-loop]");
  expect(stdout).toContain("teal.poise → wing.poise → teal.poise");
  expect(status).toBe(1);
});

test("an include out of the workspace folder is not read", () => {
  const folder = folderOf({
    "work/teal.poise": `${plane}include "../keel.poise"\n`,
    "keel.poise": "part keel weighed 10 lb at FS 20\n",
  });
  const run = calm(poise(["check", "--format", "concise"], { in: join(folder, "work") }));
  expect(run.stdout).toContain("teal.poise:2:9: error[include-outside]");
  expect(run.stdout).toContain("teal: basic empty weight 0 lb");
  expect(run.status).toBe(1);
});

test("10,000 nested braces", () => {
  const blocks = Array.from({ length: 10_000 }, (_, i) => `assembly a${i} {\n`).join("");
  const folder = folderOf({ "teal.poise": `${plane}${blocks}${"}\n".repeat(10_000)}` });
  const { status, stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain("error[syntax]: blocks stand more than 100 deep here");
  expect(status).toBe(1);
});

test("10,000 braces in a row that belong to nothing", () => {
  const folder = folderOf({ "teal.poise": `${plane}${"{".repeat(10_000)}` });
  const { status, stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain("teal.poise:2:1: error[syntax]: a block begins here");
  expect(status).toBe(1);
});

test("10,000 nested parentheses", () => {
  const nested = `let x = ${"(".repeat(10_000)}1${")".repeat(10_000)}\n`;
  const folder = folderOf({ "teal.poise": plane + nested });
  const { status, stdout } = calm(poise(["check", "--format", "concise"], { in: folder }));
  expect(stdout).toContain("teal.poise:2:");
  expect(status).toBe(1);
});

test("a folder that links to itself is read once", () => {
  const folder = folderOf({ "design/teal.poise": plane });
  symlinkSync("..", join(folder, "design", "up"));
  symlinkSync("nowhere.poise", join(folder, "design", "gone.poise"));
  const { status, stdout } = calm(poise(["check"], { in: folder }));
  expect(stdout).toContain("0 errors, 0 warnings, 0 notes in 1 file");
  expect(status).toBe(0);
});

test("a pipe that nobody writes to does not hold it up", () => {
  const folder = folderOf({ "teal.poise": plane });
  execFileSync("mkfifo", [join(folder, "pipe.poise")]);
  const { status, stderr } = calm(poise(["check", "pipe.poise"], { in: folder }));
  expect(stderr).toBe("poise: pipe.poise is neither a file nor a folder\n");
  expect(status).toBe(2);
});

test("an empty folder named like a spec holds none", () => {
  const folder = folderOf({});
  mkdirSync(join(folder, "wing.poise"));
  const { status, stderr } = calm(poise(["check", "wing.poise"], { in: folder }));
  expect(stderr).toBe("poise: wing.poise holds no .poise file\n");
  expect(status).toBe(2);
});

test("a file of a named folder that is no text is named, and the rest is judged", () => {
  const folder = folderOf({ "teal.poise": plane, "old/wing.poise": Buffer.of(0x41, 0xff) });
  const { status, stdout, stderr } = calm(poise(["check"], { in: folder }));
  expect(stdout).toContain("teal: basic empty weight 0 lb");
  expect(stderr).toBe("poise: old/wing.poise is not UTF-8 text (byte 0xFF at 1)\n");
  expect(status).toBe(2);
});
