import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import manifest from "../../package.json";
import { folderOf, PROGRAM, poise } from "./poise";
import { git, put, repositoryOf } from "./repository";

const root = fileURLToPath(new URL("../..", import.meta.url));
const { load } = createRequire(import.meta.url)("js-yaml") as { load: (text: string) => unknown };
const yaml = (path: string) => load(readFileSync(join(root, path), "utf8"));

interface Step {
  readonly uses?: string;
  readonly with?: Record<string, string>;
  readonly name?: string;
  readonly shell?: string;
  readonly env?: Record<string, string>;
  readonly run?: string;
}
interface Action {
  readonly inputs: Record<string, { readonly description: string; readonly default: string }>;
  readonly runs: { readonly using: string; readonly steps: readonly Step[] };
}
const action = yaml(".github/actions/check/action.yml") as Action;
const steps = action.runs.steps.filter(it => it.run !== undefined);

/** A copy of the action beside a built program, as a runner lays it out. */
function actionFolder(): string {
  const folder = folderOf({});
  const own = join(folder, ".github/actions/check");
  mkdirSync(own, { recursive: true });
  cpSync(join(root, ".github/actions/check/action.yml"), join(own, "action.yml"));
  cpSync(dirname(PROGRAM), join(folder, "dist"), { recursive: true });
  return own;
}

/** Runs the action's own scripts as a runner does: `bash --noprofile --norc -eo pipefail FILE`. */
function run(folder: string, given: Record<string, string> = {}, env: Record<string, string> = {}) {
  const temp = folderOf({});
  const summary = join(temp, "summary.md");
  const inputs = Object.entries(action.inputs).map(([name, it]) => [name, it.default]);
  const values: Record<string, string> = { ...Object.fromEntries(inputs), ...given };
  const place = actionFolder();
  const filled = (text: string) =>
    text.replace(/\$\{\{ *(\S+) *\}\}/g, (_, name: string) => {
      if (name === "github.action_path") return place;
      const value = values[name.replace(/^inputs\./, "")];
      if (value === undefined) throw new Error(`${name} has no value`);
      return value;
    });
  let output = "";
  for (const step of steps) {
    const file = join(temp, "step.sh");
    writeFileSync(file, filled(step.run!));
    const own = Object.entries(step.env ?? {}).map(([name, text]) => [name, filled(text)]);
    const { status, stdout, stderr } = spawnSync(
      "bash",
      ["--noprofile", "--norc", "-eo", "pipefail", file],
      {
        cwd: folder,
        encoding: "utf8",
        env: {
          ...{ PATH: process.env["PATH"]!, HOME: folder, RUNNER_TEMP: temp },
          ...{ GITHUB_STEP_SUMMARY: summary, GITHUB_BASE_REF: "" },
          ...Object.fromEntries(own),
          ...env,
        },
      },
    );
    output += stdout + stderr;
    if (status !== 0)
      return { status, output, summary: existsSync(summary) ? readFileSync(summary, "utf8") : "" };
  }
  return { status: 0, output, summary: readFileSync(summary, "utf8") };
}

const wing = (mass: string) =>
  `aircraft teal { units lb, in, gal }\nassembly wing budget 12 lb {\n  part spar calculated ${mass} at FS 20\n}\n`;

/** A branch of a repository whose `origin/main` it left; the checkout a pull request gets. */
function pull(base: string, head: string, branch = "main"): string {
  const origin = repositoryOf([{ does: "Draw the Teal", files: () => ({ "teal.poise": base }) }]);
  if (branch !== "main") git(origin, "branch", branch);
  const folder = folderOf({});
  git(folder, "clone", "--quiet", origin, "work");
  const work = join(folder, "work");
  put(work, { "teal.poise": head });
  git(work, "commit", "--quiet", "--all", "--message", "Change the spar");
  return work;
}

describe("the action", () => {
  test("is a composite one with a shell for each script, and takes values from its environment alone", () => {
    expect(action.runs.using).toBe("composite");
    expect(steps).toHaveLength(2);
    for (const { shell, run } of steps) {
      expect(shell).toBe("bash");
      // an expression in a script would let a value write the script
      expect(run).not.toContain("${{");
    }
    const used = JSON.stringify(action.runs).match(/inputs\.[\w-]+/g);
    expect(new Set(used)).toEqual(new Set(Object.keys(action.inputs).map(it => `inputs.${it}`)));
    for (const { description } of Object.values(action.inputs)) expect(description).not.toBe("");
  });

  test("without a base it judges what is there, and writes the summary where the step failed too", () => {
    const over = folderOf({ "teal.poise": wing("13 lb") });
    const { status, output, summary } = run(over, { sarif: "poise.sarif" });
    expect(status).toBe(1);
    expect(output).toBe(
      "::error file=teal.poise,line=2,endLine=2,col=22,endColumn=27,title=over-budget::wing weighs 13 lb, 1 lb over its budget of 12 lb%0Aspar weighs 13 lb (teal.poise:3)\n",
    );
    expect(summary).toMatch(/^\*\*Not sound\*\*: 1 error/);
    expect(JSON.parse(readFileSync(join(over, "poise.sarif"), "utf8")).version).toBe("2.1.0");
    expect(run(folderOf({ "teal.poise": wing("11 lb") }))).toMatchObject({ status: 0, output: "" });
  });

  test("on a pull request it says what the change does, at the line that did it", () => {
    const work = pull(wing("11 lb"), wing("13 lb"));
    const { status, output, summary } = run(work, {}, { GITHUB_BASE_REF: "main" });
    expect(status).toBe(1);
    expect(output).toContain("::error file=teal.poise,line=3,");
    expect(summary).toContain("1 finding is new");
    expect(summary).toContain("| wing | 11 lb | 13 lb | +2 lb |");
  });

  test("what was there before fails no change that is asked for new findings alone", () => {
    const work = pull(wing("13 lb"), wing("13 lb").replace("FS 20", "FS 21"));
    const asked = { "fail-on": "new", base: "origin/main" };
    expect(run(work, asked).status).toBe(0);
    expect(run(work, { base: "origin/main" }).status).toBe(1);
  });

  test("paths stand one a line, and may have spaces in them", () => {
    const folder = folderOf({ "a b/teal.poise": wing("13 lb"), "c/teal.poise": wing("11 lb") });
    expect(run(folder, { paths: "c\n" }).status).toBe(0);
    expect(run(folder, { paths: "c\n\na b\n" }).output).toContain("file=a b/teal.poise");
  });

  test("a branch that is called like a command, and a path like an option, are names and nothing else", () => {
    const hostile = `x;touch\${IFS}owned;$(touch\${IFS}owned)`;
    const work = pull(wing("11 lb"), wing("13 lb"), hostile);
    const { status, output } = run(work, {}, { GITHUB_BASE_REF: hostile });
    expect(status).toBe(1);
    expect(output).toContain("::error file=teal.poise,line=3,");
    expect(existsSync(join(work, "owned"))).toBe(false);
    const path = run(folderOf({ "-x/teal.poise": wing("13 lb") }), { paths: "-x" });
    expect(path.output).toContain("file=-x/teal.poise,line=2");
  });

  test("what it was called wrongly with is said, and the step fails", () => {
    const wrong = run(folderOf({ "teal.poise": wing("11 lb") }), { date: "yesterday" });
    expect(wrong).toMatchObject({
      status: 2,
      output: "poise: --date is a day such as 2026-09-19\n",
      summary: "",
    });
  });
});

test("the workflow uses the action on an example that is there, with all of its history", () => {
  const { jobs, permissions } = yaml(".github/workflows/example.yml") as {
    jobs: Record<string, { steps: readonly Step[] }>;
    permissions: Record<string, string>;
  };
  expect(permissions).toEqual({ contents: "read" });
  const [checkout, use] = jobs["dunlin"]!.steps;
  expect(checkout).toMatchObject({ uses: "actions/checkout@v4", with: { "fetch-depth": 0 } });
  const { uses, with: given } = use!;
  expect(existsSync(join(root, uses!, "action.yml"))).toBe(true);
  expect(Object.keys(action.inputs)).toEqual(expect.arrayContaining(Object.keys(given!)));
  const { status, summary } = run(root, given);
  expect(summary).toContain("Dunlin");
  expect(status).toBe(poise(["check", given!["paths"]!], { in: root }).status);
});

test("the hooks of pre-commit run commands that there are, on the files they are given", () => {
  const hooks = yaml(".pre-commit-hooks.yaml") as readonly Record<string, string>[];
  expect(hooks.map(it => it["id"])).toEqual(["poise-check", "poise-format"]);
  const folder = folderOf({ "teal.poise": wing("13 lb") });
  const statuses = hooks.map(({ entry, files }) => {
    const [program, ...args] = entry!.split(" ");
    expect(Object.keys(manifest.bin)).toContain(program);
    expect(new RegExp(files!).test("teal.poise")).toBe(true);
    return poise([...args, "teal.poise"], { in: folder }).status;
  });
  expect(statuses).toEqual([1, 0]);
});

test("what npm packs, as pre-commit installs it, has the program and its chunks", () => {
  const { stdout } = spawnSync("npm", ["pack", "--dry-run", "--json", "--ignore-scripts"], {
    cwd: root,
    encoding: "utf8",
  });
  const [{ files }] = JSON.parse(stdout) as [{ files: readonly { path: string }[] }];
  const paths = files.map(it => it.path);
  expect(paths).toEqual(expect.arrayContaining(["dist/poise.js", "package.json"]));
  expect(paths.filter(it => /^(server|tests|client|examples)\//.test(it))).toEqual([]);
});

describe("the problem matchers", () => {
  const ofGitHub = JSON.parse(readFileSync(join(root, ".github/problem-matcher.json"), "utf8"));
  const [inEditor] = manifest.contributes.problemMatchers;
  const [{ owner, pattern }] = ofGitHub.problemMatcher;

  test("of GitHub and of the editor read the same lines", () => {
    expect(owner).toBe("poise");
    // under the server's own name a task would take away what the server has told
    expect(inEditor!.owner).toBe("poise-check");
    expect(pattern).toEqual([inEditor!.pattern]);
  });

  test("find place, severity, code and message in what check prints, and nothing in the rest", () => {
    const folder = folderOf({ "a:b/teal.poise": `${wing("13 lb")}part fin at FS 200\n` });
    const { stdout } = poise(["check", "--format", "concise"], { in: folder });
    const { regexp, ...groups } = inEditor!.pattern;
    const found = stdout.split("\n").flatMap(line => {
      const match = new RegExp(regexp).exec(line);
      return match ? [Object.values(groups).map(group => match[group])] : [];
    });
    expect(found).toEqual([
      ["a:b/teal.poise", "2", "22", "error", "over-budget", expect.stringContaining("wing weighs")],
      ["a:b/teal.poise", "5", "6", "info", "mass-missing", "fin has no mass yet"],
    ]);
  });
});
