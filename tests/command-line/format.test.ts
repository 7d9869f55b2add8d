import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const loose = "let a   = 3 lb\npart spar{weighed 3lb;at FS 1}\n";
const neat = "let a = 3 lb\npart spar {\n  weighed 3 lb\n  at FS 1\n}\n";

test("files and folders, and what it did with each", () => {
  const folder = folderOf({ "a.poise": loose, "b/c.poise": loose, "b/d.poise": neat });
  const before = statSync(join(folder, "b/d.poise")).mtimeMs;
  const { status, stdout, stderr } = poise(["format", "a.poise", "b"], { in: folder });
  expect([status, stdout, stderr]).toEqual([0, "a.poise: formatted\nb/c.poise: formatted\n", ""]);
  for (const name of ["a.poise", "b/c.poise", "b/d.poise"])
    expect(readFileSync(join(folder, name), "utf8")).toBe(neat);
  expect(statSync(join(folder, "b/d.poise")).mtimeMs).toBe(before);
});

test("--check writes nothing, and ends with 1 where a file is not formatted", () => {
  const folder = folderOf({ "a.poise": loose, "b.poise": neat });
  const run = poise(["format", "--check", "a.poise", "b.poise"], { in: folder });
  expect([run.status, run.stdout]).toEqual([1, "a.poise is not formatted\n"]);
  expect(readFileSync(join(folder, "a.poise"), "utf8")).toBe(loose);
  expect(poise(["format", "b.poise", "--check"], { in: folder })).toEqual({
    ...{ status: 0, stdout: "", stderr: "" },
  });
});

test.each([
  ["carriage returns", loose.replaceAll("\n", "\r\n"), neat.replaceAll("\n", "\r\n")],
  ["a byte order mark", `\ufeff${loose}`, `\ufeff${neat}`],
  ["no line end behind the last line", loose.trimEnd(), neat.trimEnd()],
  ["no line end at all", "part  a{part b}", "part a {\n  part b\n}"],
  ["line ends of two kinds", "part  a\r\n\n\n\npart  b\r\n", "part a\r\n\npart b\r\n"],
  ["nothing in it", "", ""],
])("a file keeps %s", (_, before, after) => {
  const folder = folderOf({ "a.poise": before });
  expect(poise(["format", "a.poise"], { in: folder }).status).toBe(0);
  expect(readFileSync(join(folder, "a.poise"), "utf8")).toBe(after);
});

test("a file with an error in its text is left alone, and the others are not", () => {
  const broken = "part  a\npart b weighed 3 lb at\n";
  const folder = folderOf({ "a.poise": broken, "b.poise": loose });
  const { status, stdout, stderr } = poise(["format", "."], { in: folder });
  expect([status, stdout]).toEqual([1, "b.poise: formatted\n"]);
  expect(stderr).toBe(
    "poise: a.poise has an error in its text and is left alone; check says where\n",
  );
  expect(readFileSync(join(folder, "a.poise"), "utf8")).toBe(broken);
});

test("standard input to standard output, as it is where it has an error", () => {
  const folder = folderOf({});
  expect(poise(["format", "-"], { in: folder, input: loose })).toMatchObject({
    ...{ status: 0, stdout: neat },
  });
  const checked = poise(["format", "-", "--check"], { in: folder, input: loose });
  expect([checked.status, checked.stdout]).toEqual([1, "standard input is not formatted\n"]);
  const broken = poise(["format", "-"], { in: folder, input: "part  a {" });
  expect([broken.status, broken.stdout]).toEqual([1, "part  a {"]);
});

test.each([
  [["format"], "poise: format takes files: poise format FILE …"],
  [["format", "--chek", "a.poise"], "poise: format has no option --chek; did you mean --check?"],
  [["format", "none.poise"], "poise: none.poise does not exist"],
  [["format", "a.poise"], "poise: a.poise holds a NUL byte at 1, so it is not a text file"],
])("%j ends with 2", (args, message) => {
  const folder = folderOf({ "a.poise": "a\0" });
  const { status, stdout, stderr } = poise(args, { in: folder });
  expect([status, stdout, stderr.trimEnd()]).toEqual([2, "", message]);
});

test("the examples are formatted, as a repository that checks it would have them", () => {
  const examples = fileURLToPath(new URL("../../examples", import.meta.url));
  expect(poise(["format", "--check", "."], { in: examples })).toEqual({
    ...{ status: 0, stdout: "", stderr: "" },
  });
});
