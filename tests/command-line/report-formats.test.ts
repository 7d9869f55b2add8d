import { readFileSync } from "node:fs";
import { join } from "node:path";
import schema from "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json";
import { Ajv } from "ajv";
import { expect, test } from "vitest";
import { checks } from "../../server/checks";
import { expectFile } from "./expected";
import { plover, steps } from "./plover";
import { folderOf, poise } from "./poise";
import { git, put, repositoryOf } from "./repository";

const DAY = ["--date", "2026-07-01"];
const machines = ["sarif", "github", "gitlab", "junit", "rdjson", "markdown"] as const;
/** Once for all that look at it: a second run gives the same bytes, as a test below says. */
const onceFor = <A extends readonly string[], R>(run: (...key: A) => R) => {
  const known = new Map<string, R>();
  return (...key: A): R => {
    const name = key.join(" ");
    if (!known.has(name)) known.set(name, run(...key));
    return known.get(name)!;
  };
};
const runDiff = (format: string, base = "before", head = "after") =>
  poise(["diff", base, head, "--format", format, ...DAY], { in: plover() });
const diff = onceFor(runDiff);

/** The state with the breach and a waiver, as `check` sees it. */
const breach = repositoryOf(steps.slice(0, 22));
const runCheck = (format: string) => poise(["check", "--format", format, ...DAY], { in: breach });
const check = onceFor(runCheck);

// ajv knows a later draft of JSON schema; the words this one uses mean the same in both
const { $schema: _, id: __, ...rules } = schema;
const ajv = new Ajv({
  strict: false,
  // one pattern of it has a bracket too many, which the unicode flag refuses
  unicodeRegExp: false,
  formats: {
    uri: /^[a-z][a-z0-9+.-]*:\S+$/i,
    "uri-reference": /^[^\s\\<>"{}|^`]*$/,
    "date-time": /^\d{4}-\d\d-\d\dT/,
  },
});
const valid = ajv.compile(rules);

function sarifOf(text: string) {
  const log = JSON.parse(text);
  valid(log);
  expect(valid.errors).toBeNull();
  return log.runs[0];
}

/** The rules are the registry's pages, told apart below. */
const withoutRules = (format: string, text: string) =>
  format === "sarif" ? text.replace(/"rules": \[.*?\n {5}\]/s, '"rules": []') : text;

test.each([...machines, "full", "concise", "json"])("check --format %s", format => {
  expectFile(`check.${format}`, withoutRules(format, check(format).stdout));
});

test.each(machines)("diff --format %s", format => {
  expectFile(`after.${format}`, withoutRules(format, diff(format).stdout));
  const breach = diff(format, "before", "breach").stdout;
  expectFile(`breach.${format}`, withoutRules(format, breach));
});

test("two runs give the same bytes", () => {
  for (const format of [...machines, "full", "concise", "json"]) {
    expect(runDiff(format)).toEqual(diff(format));
    expect(runCheck(format)).toEqual(check(format));
  }
});

test("the schema refuses what is no SARIF", () => {
  const log = JSON.parse(check("sarif").stdout);
  expect(valid(log)).toBe(true);
  log.runs[0].results[0].level = "terrible";
  expect(valid(log)).toBe(false);
});

test("SARIF says every rule with its help, and what each finding was in the base", () => {
  const run = sarifOf(diff("sarif").stdout);
  const { rules } = run.tool.driver;
  expect(rules.map((it: { id: string }) => it.id)).toEqual(checks.map(it => it.code));
  for (const it of run.results) expect(rules[it.ruleIndex].id).toBe(it.ruleId);
  const told = run.results.map(
    (it: { ruleId: string; baselineState: string; suppressions: unknown[] }) =>
      `${it.baselineState} ${it.ruleId} ${it.suppressions.length}`,
  );
  expect(told).toEqual([
    "new requirement-failed 1",
    "new over-budget 1",
    "absent requirement-at-risk 0",
  ]);
  // a check has no base
  for (const it of sarifOf(check("sarif").stdout).results)
    expect(it).not.toHaveProperty("baselineState");
});

test("SARIF leads from the budget to the figure that tipped it, without a base to the heaviest part", () => {
  type Location = {
    location: { physicalLocation: { region: { startLine: number } }; message: { text: string } };
  };
  const flows = (text: string) =>
    sarifOf(text).results.flatMap(
      (it: { ruleId: string; codeFlows?: { threadFlows: { locations: Location[] }[] }[] }) =>
        it.ruleId !== "over-budget"
          ? []
          : it.codeFlows!.map(flow =>
              flow.threadFlows[0]!.locations.map(
                ({ location: { physicalLocation, message } }) =>
                  `${physicalLocation.region.startLine}: ${message.text}`,
              ),
            ),
    );
  const breaks = "wing weighs 103.9 lb, 3.9 lb over its budget of 100 lb";
  expect(flows(diff("sarif", "before", "breach").stdout)).toEqual([
    ["3: the budget of wing", `10: ${breaks}`],
  ]);
  const folder = folderOf({
    "coot.poise":
      "aircraft coot { units lb, in, gal }\nassembly wing budget 5 lb {\n  part spar weighed 6 lb at FS 20\n}\n",
  });
  expect(flows(poise(["check", "--format", "sarif"], { in: folder }).stdout)).toEqual([
    ["2: wing weighs 6 lb, 1 lb over its budget of 5 lb", "3: spar weighs 6 lb"],
  ]);
});

test("a fingerprint stays as lines move, and as a file is renamed", () => {
  const prints = (folder: string) =>
    sarifOf(poise(["check", "--format", "sarif"], { in: folder }).stdout).results.map(
      (it: { partialFingerprints: unknown }) => it.partialFingerprints,
    );
  const text =
    "aircraft coot { units lb, in, gal }\nassembly wing budget 5 lb { part spar weighed 6 lb at FS 20 }\n";
  const moved = folderOf({ "b.poise": `// two\n\n${text}` });
  expect(prints(moved)).toEqual(prints(folderOf({ "a.poise": text })));
  expect(prints(moved)).toEqual([{ "codeAndPath/v1": "over-budget coot:wing" }]);
});

test("several formats at once, each to its file, one to standard output", () => {
  const folder = folderOf({ "coot.poise": "aircraft coot { units lb, in, gal }\nfrob\n" });
  const run = poise(
    ["check", "--format", "sarif=out.sarif", "--format=junit=a=b.xml", "--format", "concise"],
    { in: folder },
  );
  expect(run.stdout).toContain("coot.poise:2:1: error[syntax]: frob begins no statement");
  expect(sarifOf(readFileSync(join(folder, "out.sarif"), "utf8")).results).toHaveLength(1);
  expect(readFileSync(join(folder, "a=b.xml"), "utf8")).toContain("<failure");
  expect(run.status).toBe(1);
});

const clashes: readonly [string, string][] = [
  [
    "--format full --format json",
    "full and json cannot both go to standard output: give one a file (--format full=FILE)",
  ],
  ["--format sarif=", "--format sarif= names no file"],
  ["--format sarif=a --format json=a", "two formats would be written to a"],
  [
    "--format sarif=teal.poise/x.sarif",
    "teal.poise/x.sarif cannot be written: a file stands where its folder would be",
  ],
  ["--fail-on new", "--fail-on new takes a base to call a finding new: poise check --base main"],
];
test.each(clashes)("poise check %s: status 2", (call, message) => {
  const run = poise(["check", ...call.split(" ")], {
    in: folderOf({ "teal.poise": "aircraft teal {}\n" }),
  });
  expect(run).toEqual({ status: 2, stdout: "", stderr: `poise: ${message}\n` });
});

test("GitHub shows ten of a kind: the heaviest, and a last notice says how many more", () => {
  const assemblies = Array.from(
    { length: 14 },
    (_, i) => `assembly a${i} budget 1 lb { part p weighed ${i + 2} lb at FS 1 }\n`,
  );
  const folder = folderOf({
    "coot.poise": `aircraft coot { units lb, in, gal }\n${assemblies.join("")}`,
  });
  const { stdout } = poise(["check", "--format", "github"], { in: folder });
  const lines = stdout.trimEnd().split("\n");
  expect(lines.filter(it => it.startsWith("::error "))).toHaveLength(10);
  expect(lines[0]).toContain("a13 weighs 15 lb");
  expect(lines.at(-1)).toBe("::notice title=poise::4 errors more: see the whole report");
});

test("a summary never grows beyond 60 kB, and says what is left out", () => {
  const parts = Array.from(
    { length: 3000 },
    (_, i) => `assembly a${i} budget 1 lb { part p weighed ${i + 2} lb at FS 1 }\n`,
  );
  const text = `aircraft coot { units lb, in, gal }\n`;
  const folder = folderOf({ "old/coot.poise": text, "new/coot.poise": text + parts.join("") });
  const { stdout } = poise(["diff", "old", "new", "--format", "markdown"], { in: folder });
  expect(Buffer.byteLength(stdout)).toBeLessThan(60_000);
  expect(stdout).toMatch(/… and \d+ more/);
  expect(stdout.split("<details>").length).toBe(stdout.split("</details>").length);
  expect(stdout.trimEnd().endsWith("the approved documents.")).toBe(true);
});

test("columns count UTF-16 units, in rdjson bytes of UTF-8: °, ± and 🪶 before a finding", () => {
  const row = 'assembly wing "Flügel 🪶 90° ±2" budget 5 lb { part spar weighed 6 lb at FS 20 }';
  const folder = folderOf({ "coot.poise": `aircraft coot { units lb, in, gal }\n${row}\n` });
  const run = (format: string) => poise(["check", "--format", format], { in: folder }).stdout;
  const at = row.indexOf("5 lb");
  const [start, end] = [at + 1, at + 5];
  expect(run("concise")).toContain(`coot.poise:2:${start}: error[over-budget]`);
  expect(JSON.parse(run("json")).findings[0].range).toEqual({
    start: { line: 2, column: start },
    end: { line: 2, column: end },
  });
  const [result] = sarifOf(run("sarif")).results;
  expect(result.locations[0].physicalLocation.region).toEqual({
    ...{ startLine: 2, startColumn: start, endLine: 2, endColumn: end },
  });
  expect(run("github")).toContain(`line=2,endLine=2,col=${start},endColumn=${end}`);
  expect(JSON.parse(run("gitlab"))[0].location.positions).toEqual({
    begin: { line: 2, column: start },
    end: { line: 2, column: end },
  });
  expect(run("junit")).toContain(`coot.poise:2:${start}: error[over-budget]`);
  expect(run("markdown")).toContain(`coot.poise:2:${start}: wing weighs`);
  const before = Buffer.byteLength(row.slice(0, at));
  expect(JSON.parse(run("rdjson")).diagnostics[0].location.range).toEqual({
    start: { line: 2, column: before + 1 },
    end: { line: 2, column: before + 5 },
  });
  // in a terminal this letter is two cells wide, and two UTF-16 units long
  const [, shown, carets] = run("full").split("\n");
  expect(carets!.indexOf("^")).toBe(shown!.indexOf("5 lb"));
});

test("no branch, file or title commands a runner, a page or a terminal", () => {
  const loud =
    "::error::pwned\u001b[2J ##[group]x | <img src=x> [a](https://evil.example) @ada `x`\u009b2J";
  const file = '::warning ::a,b%0A"<b>`@x`](y)\u001b[31m\n::error::z.poise';
  const text = (mass: number) => `aircraft coot "${loud}" { units lb, in, gal }
assembly wing "${loud}" budget 5 lb { part spar weighed ${mass} lb at FS 20 }
require mass(wing) < 1 lb "${loud}"
waive over-budget of wing "${loud}"
`;
  const branch = "-<img/src=x>|@ada;`$(x)`%0A";
  const folder = repositoryOf([{ does: "Be loud", files: () => ({ [file]: text(6) }) }]);
  git(folder, "update-ref", `refs/heads/${branch}`, "HEAD");
  // in the working folder a finding that was waived is not, a budget was raised, and a creep is too much
  const raised = text(7)
    .replace("budget 5 lb", "budget 6 lb creep 0.5 lb")
    .replace(/^waive.*$/m, `waive creep of wing "${loud}"\nwaive creep of coot "${loud}"`);
  put(folder, { [file]: raised });
  const runs = onceFor((format: string) => [
    poise(["check", "--format", format], { in: folder }),
    poise(["diff", `refs/heads/${branch}`, "HEAD", "--format", format], { in: folder }),
    poise(["diff", `refs/heads/${branch}`, "--format", format], { in: folder }),
    poise(["check", "--base", `refs/heads/${branch}`, "--format", format], { in: folder }),
    poise(["diff", `refs/heads/${branch}`, `nowhere\u001b[2J\n::error::x`, "--format", format], {
      in: folder,
    }),
  ]);
  for (const format of [...machines, "full", "concise", "json"])
    for (const { stdout, stderr } of runs(format)) {
      // C0 and C1 controls, but for line ends
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
      expect(stdout + stderr, format).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
      expect(stdout + stderr, format).not.toContain("##[");
      const commands = `${stdout}${stderr}`.split("\n").filter(it => /^\s*::/.test(it));
      if (format === "github")
        for (const it of commands)
          expect(it).toMatch(
            /^::(error|warning|notice) file=%?[^:]*,title=[\w -]+::|^::notice title=poise::/,
          );
      else expect(commands, format).toEqual([]);
    }
  const page = runs("markdown")
    .map(it => it.stdout)
    .join("\n");
  expect(page).not.toMatch(/(?<!\\)<(?!\/?(details|summary)>)/);
  expect(page).not.toMatch(/(?<!\\)\]\(|@ada|https:\/\//);
  for (const { stdout } of runs("junit")) if (stdout) expect(stdout).not.toMatch(/<(img|b)\b/);
  for (const { stdout } of runs("sarif")) if (stdout) sarifOf(stdout);
});
