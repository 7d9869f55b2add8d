import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";
import { git, put, repositoryOf } from "./repository";

const teal = `aircraft teal { units lb, in, gal }
assembly wing budget 40 lb creep 0.5 lb {
  part spar calculated 21 lb at FS 120
  part skin calculated 12.5 lb at FS 125
}
part keel calculated 20 lb at FS 100
part fin at FS 220
`;

/** A repository whose branch `main` went on after the working folder left it. */
function teals(head: string): string {
  const folder = repositoryOf([
    { does: "Draw the Teal", files: () => ({ "teal.poise": teal }) },
    {
      does: "Thin the keel",
      files: now => ({
        "teal.poise": now("teal.poise").replace("20 lb at FS 100", "18 lb at FS 100"),
      }),
    },
  ]);
  git(folder, "checkout", "--quiet", "-b", "work", "HEAD~1");
  put(folder, { "teal.poise": head });
  return folder;
}

const heavier = teal.replace("calculated 21 lb", "calculated 22.4 lb");

test("with a base a finding stands at what brought it, and creep is judged", () => {
  const { status, stdout } = poise(["check", "--base", "main..."], { in: teals(heavier) });
  expect(stdout).toBe(`teal.poise:3:13:
3 |   part spar calculated 22.4 lb at FS 120
  |             ^^^^^^^^^^^^^^^^^^ warning[creep]: wing gained 1.4 lb, 0.9 lb more than the 0.5 lb that a change may add
  = teal.poise:2:34: what a change may add to wing

teal.poise:7:6:
7 | part fin at FS 220
  |      ^^^ info[mass-missing]: fin has no mass yet

teal: basic empty weight 54.9 lb, CG at FS 113.9 in (incomplete)
1 finding is new, 0 are gone; now 0 errors, 1 warning, 1 note in 1 file
A calculated weight and balance does not replace a weighing or the approved documents.
`);
  expect(status).toBe(0);
});

test("--fail-on new is about what the change brought; what was there before stays a finding", () => {
  const run = (text: string) =>
    poise(["check", "--base", "main...", "--fail-on", "new"], { in: teals(text) }).status;
  expect(run(teal)).toBe(0);
  expect(run(heavier)).toBe(1);
});

test("main itself is another base than where this left main", () => {
  const { stdout } = poise(["check", "--base", "main", "--format", "json"], { in: teals(heavier) });
  const { base, findings } = JSON.parse(stdout);
  expect(base).toBe("main");
  expect(findings.map((it: { state: string; code: string }) => `${it.state} ${it.code}`)).toEqual([
    "new creep",
    "unchanged mass-missing",
  ]);
});

test("what was done to the yardstick is told first", () => {
  const raised = heavier.replace("creep 0.5 lb", "creep 2 lb");
  const folder = teals(raised);
  const told = (format: string) =>
    poise(["check", "--base", "main...", "--format", format], { in: folder }).stdout;
  const hides = "wing gained 1.4 lb, more than the 0.5 lb it had";
  expect(told("full").split("\n").slice(0, 4)).toEqual([
    "The yardstick",
    "          what           base    head",
    `  looser  creep of wing  0.5 lb  2 lb  ${hides}  teal.poise:2:34`,
    "",
  ]);
  expect(told("concise").split("\n")[0]).toBe(
    `the yardstick: looser  creep of wing  0.5 lb  2 lb  ${hides}  teal.poise:2:34`,
  );
  expect(told("github").split("\n")[0]).toContain("title=yardstick looser::creep of wing");
  expect(told("markdown").split("\n")[0]).toContain("the yardstick was loosened in 1 place");
  expect(told("markdown")).toContain(hides);
  expect(told("markdown")).not.toContain("Assemblies");
  const { yardstick } = JSON.parse(told("json"));
  expect(yardstick).toMatchObject([{ aircraft: "teal", effect: "looser", kind: "creep", hides }]);
});

test("github tells what the change brought and nothing else; SARIF says which is which", () => {
  const folder = teals(heavier);
  const told = (format: string) =>
    poise(["check", "--base", "main...", "--format", format], { in: folder }).stdout;
  expect(told("github").trim().split("\n")).toEqual([
    "::warning file=teal.poise,line=3,endLine=3,col=13,endColumn=31,title=creep::wing gained 1.4 lb, 0.9 lb more than the 0.5 lb that a change may add%0Awhat a change may add to wing (teal.poise:2)",
  ]);
  const { results, automationDetails } = JSON.parse(told("sarif")).runs[0];
  expect(automationDetails.id).toBe("poise/check/");
  const states = results.map((it: { ruleId: string; baselineState: string }) => [
    it.ruleId,
    it.baselineState,
  ]);
  expect(states).toEqual([
    ["creep", "new"],
    ["mass-missing", "unchanged"],
  ]);
});

test.each([
  [
    ["--fail-on", "new"],
    "--fail-on new takes a base to call a finding new: poise check --base main",
  ],
  [["--base="], "--base is a git revision, such as main, or main... for where this left it"],
  [
    ["--base", "main..work"],
    "--base is one revision, or main... for where this left main; what is checked stands in the folder",
  ],
  [["--base", "nowhere"], "there is no revision nowhere here"],
  [["--bases", "main"], "check has no option --bases; did you mean --base?"],
])("a base that is none is said in one line: %s", (args, message) => {
  const { status, stdout, stderr } = poise(["check", ...args], { in: teals(teal) });
  expect({ status, stdout, stderr }).toEqual({
    status: 2,
    stdout: "",
    stderr: `poise: ${message}\n`,
  });
});

test("without a repository there is no base", () => {
  const { status, stderr } = poise(["check", "--base", "main"], {
    in: folderOf({ "teal.poise": teal }),
  });
  expect({ status, stderr }).toEqual({
    status: 2,
    stderr: "poise: this folder is in no git repository, and a base is read from one\n",
  });
});

test("an airframe that is new comes with its weight, and not with every part of its design", () => {
  const folder = teals(heavier);
  put(folder, {
    "sn1.poise":
      'include "teal.poise"\nairframe sn1 "S/N 1" serial 1 {\n  weighed keel 20.5 lb\n}\n',
  });
  const { stdout } = poise(["diff", "HEAD"], { in: folder });
  const own = stdout.slice(stdout.indexOf("sn1 is new"));
  // 22.4 + 12.5 + 20.5 lb; where its CG is, is no way it went
  expect(own).toMatch(/^ {2}basic +55\.4 lb +\+55\.4 lb$/m);
  expect(own).toMatch(/^ {2}basic CG, FS +[\d.]+ in$/m);
  expect(own).not.toContain("wing.spar");
  expect(stdout).toContain("wing.spar");
});
