import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { version } from "../../package.json";
import { checks } from "../../server/checks";
import { folderOf, PROGRAM, poise } from "./poise";

const here = { in: folderOf({ "teal.poise": "aircraft teal { units lb, in, gal }\n" }) };

test("it has been built, and can be called by its name", () => {
  expect(existsSync(PROGRAM)).toBe(true);
  expect(readFileSync(PROGRAM, "utf8").startsWith("#!/usr/bin/env node\n")).toBe(true);
});

const formats = "full, concise, json, sarif, github, gitlab, junit, rdjson, markdown";
const wrong: [string, string][] = [
  ["wyh", "there is no command wyh; did you mean why?"],
  ["chekc", "there is no command chekc; did you mean check?"],
  ["check --fromat json", "check has no option --fromat; did you mean --format?"],
  ["check --format yaml", `--format is one of ${formats}`],
  ["check --format", `--format is one of ${formats}`],
  ["check --color=blue", "--color is one of auto, always, never"],
  ["explain over-bugdet", "no finding has the code over-bugdet; did you mean over-budget?"],
  ["explain syntax over-budget", "explain takes one code"],
  ["lsp", "lsp speaks over --stdio: say so"],
];

test.each(wrong)("poise %s: said on one line of standard error, status 2", (call, message) => {
  const { status, stdout, stderr } = poise(call.split(" "), here);
  expect(stderr).toBe(`poise: ${message}\n`);
  expect(stdout).toBe("");
  expect(status).toBe(2);
});

test("without a command it shows what there is, as an error", () => {
  const { status, stdout, stderr } = poise([], here);
  expect(stderr).toContain("poise check [FILE|FOLDER …]");
  expect(stdout).toBe("");
  expect(status).toBe(2);
});

test.each(["--help", "-h", "help"])("poise %s", call => {
  const { status, stdout } = poise(call.split(" "), here);
  expect(stdout).toContain("poise check [FILE|FOLDER …]");
  expect(stdout).toContain("does not replace weighing the aircraft");
  expect(status).toBe(0);
});

test.each(["check --help", "trend -h", "lsp --help"])("poise %s tells that command alone", call => {
  const { status, stdout } = poise(call.split(" "), here);
  const commands = stdout.split("\n").filter(it => it.startsWith("  poise "));
  expect(commands.map(it => it.split(" ")[3])).toEqual([call.split(" ")[0]]);
  expect(stdout.match(/does not replace weighing the aircraft/g)).toHaveLength(1);
  expect(status).toBe(0);
});

test("poise --version is the package's", () => {
  expect(poise(["--version"], here)).toEqual({ status: 0, stdout: `${version}\n`, stderr: "" });
});

test("explain says what a finding means, with an example", () => {
  const { status, stdout } = poise(["explain", "over-budget"], here);
  const { explain, example } = checks.find(it => it.code === "over-budget")!;
  expect(stdout).toBe(`over-budget (error)\n\n${explain}\n\n${example.trim()}\n`);
  expect(status).toBe(0);
});

test("explain without a code lists them all", () => {
  const { stdout } = poise(["explain"], here);
  expect(stdout.trimEnd().split("\n")).toEqual(
    checks.map(({ code, severity }) => `${code} (${severity})`),
  );
});

test("what goes wrong in the program itself is one line, and a stack only when asked for", () => {
  // a disk that is full, as Linux plays it
  const full = (env: Record<string, string>) =>
    spawnSync("sh", ["-c", '"$0" "$1" --version > /dev/full', process.execPath, PROGRAM], {
      encoding: "utf8",
      env: { ...process.env, ...env },
    });
  const { status, stderr } = full({ POISE_DEBUG: "" });
  expect(stderr).toMatch(/^Poise failed: ENOSPC.*; please report it\n$/);
  expect(status).toBe(2);
  expect(full({ POISE_DEBUG: "1" }).stderr).toMatch(/\n +at /);
});
