import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { expectFile } from "./expected";
import { plover, steps } from "./plover";
import { folderOf, poise } from "./poise";
import { git, put, repositoryOf } from "./repository";

const DAY = ["--date", "2026-07-01"];
const diff = (...args: readonly string[]) => poise(["diff", ...args, ...DAY], { in: plover() });

test("thirty commits", () => {
  expect(steps.length).toBeGreaterThanOrEqual(30);
  expect(git(plover(), "rev-list", "--count", "HEAD").trim()).toBe(`${steps.length}`);
});

test("comments, layout, units and the file a thing stands in are no change", () => {
  const { status, stdout } = diff("drawn", "same");
  expect(stdout).toBe(`drawn → same

Nothing changed that an aircraft or a check could tell.
0 findings are new, 0 are gone; now 0 errors, 0 warnings, 0 notes
A calculated weight and balance does not replace a weighing or the approved documents.
`);
  expect(status).toBe(0);
});

test("a part is the same under another name, in another assembly, at another place", () => {
  expectFile("moved", diff("same", "moved").stdout);
});

test("an assembly takes what is in it along under its new name", () => {
  expectFile("skid", diff("moved", "skid").stdout);
});

test("a breach: what it is, whose doing, and status 1", () => {
  const { status, stdout } = diff("before", "breach");
  expectFile("breach", stdout);
  expect(status).toBe(1);
});

test("a budget raised to pass is seen first", () => {
  const { status, stdout } = diff("breach", "raised");
  expectFile("raised", stdout);
  // the requirement still fails
  expect(status).toBe(1);
});

test("concise: one line each", () => {
  expectFile("after.concise", diff("before", "after", "--format", "concise").stdout);
});

test("json has the same as figures in SI units", () => {
  const { stdout } = diff("before", "breach", "--format", "json");
  expectFile("breach.json", stdout);
  const { base, head, roots, findings } = JSON.parse(stdout);
  expect({ base, head }).toEqual({ base: "before", head: "breach" });
  const [{ name, airframe, assemblies, parts }] = roots;
  expect({ name, airframe }).toEqual({ name: "plover", airframe: null });
  const wing = assemblies.find((it: { path: string }) => it.path === "wing");
  // 41 lb more skin; a pound is 0.45359237 kg by definition (NIST SP 811, appendix B)
  expect(wing.difference_kg).toBeCloseTo(41 * 0.45359237, 12);
  expect(wing.causes_kg.revised).toBeCloseTo(41 * 0.45359237, 12);
  expect(parts.map((it: { path: string }) => it.path)).toEqual(["wing.skin"]);
  const states = findings.map((it: { state: string; code: string }) => `${it.state} ${it.code}`);
  expect(states).toContain("new over-budget");
});

test("without a head the working folder is compared", () => {
  const folder = repositoryOf(steps.slice(0, 1));
  const wing = git(folder, "show", "HEAD:wing.poise");
  put(folder, { "wing.poise": wing.replace("calculated 24 lb", "calculated 25 lb") });
  const { stdout } = poise(["diff", "HEAD"], { in: folder });
  expect(stdout).toContain("HEAD → the working folder");
  expect(stdout).toMatch(/wing\.skin +revised +24 lb +25 lb +\+1 lb/);
});

test("two folders are compared without git", () => {
  const spar = (mass: string) =>
    `aircraft teal { units lb, in, gal }\npart spar weighed ${mass} at FS 20\n`;
  const folder = folderOf({ "old/teal.poise": spar("10 lb"), "new/teal.poise": spar("11 lb") });
  const { status, stdout } = poise(["diff", "old", "new"], {
    in: folder,
    env: { PATH: "/nowhere" },
  });
  expect(stdout).toContain("old → new");
  expect(stdout).toMatch(/spar +revised +10 lb +11 lb +\+1 lb +new\/teal.poise:2:6/);
  expect(status).toBe(0);
});

test("A...B begins where B left A; A..B is A and B", () => {
  const folder = repositoryOf(steps.slice(0, 1));
  git(folder, "checkout", "--quiet", "-b", "skin");
  const wing = git(folder, "show", "HEAD:wing.poise");
  put(folder, { "wing.poise": wing.replace("calculated 24 lb", "calculated 25 lb") });
  git(folder, "commit", "--quiet", "--all", "--message", "Thicken the skin");
  git(folder, "checkout", "--quiet", "main");
  put(folder, { "wing.poise": wing.replace("estimated 1.5 lb", "estimated 1.75 lb") });
  git(folder, "commit", "--quiet", "--all", "--message", "Brighten the light");
  const forked = poise(["diff", "main...skin"], { in: folder }).stdout;
  expect(forked).toContain("wing.skin");
  expect(forked).not.toContain("wing.light");
  expect(poise(["diff", "main..skin"], { in: folder }).stdout).toContain("wing.light");
});

test("only what stands in the folder it is called in, or is named after --, is compared", () => {
  const aircraft = (name: string, mass: number) =>
    `aircraft ${name} { units lb, in, gal }\npart keel weighed ${mass} lb at FS 20\n`;
  const folder = repositoryOf([
    {
      does: "Two",
      files: () => ({ "a/teal.poise": aircraft("teal", 1), "b/rail.poise": aircraft("rail", 1) }),
    },
  ]);
  put(folder, { "a/teal.poise": aircraft("teal", 2), "b/rail.poise": aircraft("rail", 2) });
  const inside = poise(["diff", "HEAD"], { in: join(folder, "a") }).stdout;
  expect(inside).toContain("teal");
  expect(inside).not.toContain("rail");
  expect(poise(["diff", "HEAD", "--", "b"], { in: folder }).stdout).not.toContain("teal");
});

test("what the head no longer has, and what it alone has", () => {
  const text = "aircraft teal { units lb, in, gal }\npart keel weighed 10 lb at FS 20\n";
  const other = text
    .replace("teal", "rail")
    .concat("assembly tail { part fin weighed 2 lb at FS 90 }\n");
  const folder = folderOf({
    "old/teal.poise": text,
    "old/more.poise": text.replace("teal", "coot"),
    "new/rail.poise": other,
    "new/a.poise": text.replace("teal", "coot"),
  });
  const { stdout } = poise(["diff", "old", "new"], { in: folder });
  // the one that is left on either side was renamed
  expect(stdout).toContain("rail (was teal)");
  expect(stdout).toContain("tail.fin");
  expect(stdout).not.toContain("coot");
});

const unusable: readonly [string, readonly string[], string][] = [
  ["no base", [], "diff takes a base and perhaps a head: poise diff main, or poise diff OLD NEW"],
  [
    "three",
    ["a", "b", "c"],
    "diff takes a base and perhaps a head: poise diff main, or poise diff OLD NEW",
  ],
  ["no such revision", ["nowhere"], "there is no revision nowhere here"],
  ["called like an option", ["HEAD", "--upload-pack"], "diff has no option --upload-pack"],
  ["nothing there", ["HEAD", "--", "docs"], "neither side holds a .poise file there"],
  ["new of a check", ["--fail-on", "newer", "HEAD"], "--fail-on is one of error, warning, new"],
  ["no day", ["HEAD", "--date", "2026-02-30"], "--date is a day such as 2026-09-19"],
];
test.each(unusable)("%s: said on one line, status 2", (_, args, message) => {
  const { status, stdout, stderr } = poise(["diff", ...args], { in: plover() });
  expect(stderr).toBe(`poise: ${message}\n`);
  expect({ stdout, status }).toEqual({ stdout: "", status: 2 });
});

test("no repository, no git, and a shallow clone are explained", () => {
  const outside = poise(["diff", "HEAD"], { in: folderOf({}) });
  expect(outside.stderr).toContain("this folder is in no git repository");
  const without = poise(["diff", "HEAD"], { in: plover(), env: { PATH: "/nowhere" } });
  expect(without.stderr).toContain("git is not installed (or not on the PATH)");
  const clone = folderOf({});
  git(clone, "clone", "--quiet", "--depth", "1", `file://${plover()}`, "shallow");
  const shallow = poise(["diff", "before"], { in: join(clone, "shallow") });
  expect(shallow.stderr).toBe(
    "poise: there is no revision before here; this clone is shallow: git fetch --unshallow brings the rest (in a CI job: a fetch depth of 0)\n",
  );
  for (const { status } of [outside, without, shallow]) expect(status).toBe(2);
  expect(poise(["diff", "HEAD"], { in: join(clone, "shallow") }).status).toBe(0);
});

test("a file of the base that is no text is said, and status 2", () => {
  const folder = repositoryOf([
    { does: "A NUL", files: () => ({ "teal.poise": "aircraft teal {}\n", "odd.poise": "\0" }) },
  ]);
  writeFileSync(join(folder, "odd.poise"), "// mended\n");
  const { status, stderr } = poise(["diff", "HEAD"], { in: folder });
  expect(stderr).toBe("poise: HEAD: odd.poise holds a NUL byte at 0, so it is not a text file\n");
  expect(status).toBe(2);
});

test("--fail-on new forgives what the base had; --fail-on warning forgives nothing", () => {
  expect(diff("breach", "raised", "--fail-on", "new").status).toBe(0);
  expect(diff("before", "breach", "--fail-on", "new").status).toBe(1);
  expect(diff("before", "before").status).toBe(0);
  expect(diff("before", "before", "--fail-on", "warning").status).toBe(1);
});

test("--date is the day that waivers are judged on", () => {
  expect(poise(["diff", "before", "after", "--date", "2026-12-31"], { in: plover() }).status).toBe(
    0,
  );
  const late = poise(["diff", "before", "after", "--date", "2027-01-01"], { in: plover() });
  expect(late.stdout).toContain("this waiver ended on 2026-12-31");
  expect(late.status).toBe(1);
});
