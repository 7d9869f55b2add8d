import { spawnSync } from "node:child_process";
import { expect, test } from "vitest";
import { folderOf, PROGRAM, poise } from "./poise";

const heavy = `aircraft coot { units lb, in, gal }
assembly wing budget 5 lb {
  part spar weighed 6 lb at FS 20
}
`;
const files = { "design/coot.poise": heavy };

test("full draws the line, carets under what is meant, and the places related to it", () => {
  const { stdout } = poise(["check"], { in: folderOf(files) });
  expect(stdout).toContain(`design/coot.poise:2:22:
2 | assembly wing budget 5 lb {
  |                      ^^^^ error[over-budget]: wing weighs 6 lb, 1 lb over its budget of 5 lb
  = design/coot.poise:3:8: spar weighs 6 lb

coot: basic empty weight 6 lb`);
});

test("json counts lines and columns from 1, in UTF-16 units, and says each unit in its key", () => {
  const text = heavy.replace("assembly wing", 'assembly wing "𝄞"');
  const { status, stdout } = poise(["check", "--format", "json"], {
    in: folderOf({ "design/coot.poise": text }),
  });
  const { poise: version, roots, findings } = JSON.parse(stdout);
  expect(version).toBe(1);
  expect(findings).toEqual([
    {
      code: "over-budget",
      severity: "error",
      message: "wing weighs 6 lb, 1 lb over its budget of 5 lb",
      file: "design/coot.poise",
      range: { start: { line: 2, column: 27 }, end: { line: 2, column: 31 } },
      related: [
        {
          message: "spar weighs 6 lb",
          file: "design/coot.poise",
          range: { start: { line: 3, column: 8 }, end: { line: 3, column: 12 } },
        },
      ],
    },
  ]);
  expect(roots).toHaveLength(1);
  const [{ name, file, empty, assemblies }] = roots;
  expect({ name, file }).toEqual({ name: "coot", file: "design/coot.poise" });
  // a pound is 0.45359237 kg, an inch 0.0254 m: both by definition (NIST SP 811, appendix B)
  expect(empty.basic.mass_kg).toBeCloseTo(6 * 0.45359237, 12);
  expect(empty.basic.cg_m[0]).toBeCloseTo(20 * 0.0254, 12);
  expect(assemblies.map(({ path }: { path: string }) => path)).toEqual(["", "wing"]);
  expect(status).toBe(1);
});

test("json is one line and nothing else, also when nothing is wrong", () => {
  const { stdout } = poise(["check", "--format", "json"], {
    in: folderOf({ "spare.poise": "// nothing here yet\n" }),
  });
  expect(stdout).toBe('{"poise":1,"roots":[],"findings":[]}\n');
});

const ESCAPE = "\u001b[";

test("colours go to a terminal only, unless they are asked for", () => {
  const folder = folderOf(files);
  const coloured = (args: string[], env: Record<string, string> = {}) =>
    poise(["check", ...args], { in: folder, env }).stdout.includes(ESCAPE);
  expect(coloured([])).toBe(false);
  expect(coloured(["--color", "always"])).toBe(true);
  expect(coloured([], { FORCE_COLOR: "1" })).toBe(true);
  expect(coloured([], { NO_COLOR: "1" })).toBe(false);
  expect(coloured(["--color", "always"], { NO_COLOR: "1" })).toBe(true);
  expect(coloured(["--color", "never"], { FORCE_COLOR: "1" })).toBe(false);
  expect(coloured(["--color", "always", "--format", "json"])).toBe(false);
});

test("in colour the severity is still said in words", () => {
  const { stdout } = poise(["check", "--color", "always", "--format", "concise"], {
    in: folderOf(files),
  });
  expect(stdout).toContain("error[over-budget]");
});

test("a text cannot command the terminal it is shown on", () => {
  const folder = folderOf({
    "coot.poise": "aircraft coot { units lb, in, gal }\nfrob \u001b[2J\n",
  });
  for (const format of ["full", "concise"]) {
    const { stdout } = poise(["check", "--format", format], { in: folder });
    expect(stdout).toContain("error[syntax]");
    expect(stdout).not.toContain("\u001b");
  }
});

test("a reader that has seen enough ends it quietly", () => {
  const folder = folderOf({ "rail.poise": `aircraft rail {}\n${"frob\n".repeat(20_000)}` });
  const { stdout, stderr } = spawnSync(
    "sh",
    ["-c", '"$0" "$1" check --format concise | head -n 1', process.execPath, PROGRAM],
    { cwd: folder, encoding: "utf8", timeout: 60_000 },
  );
  expect(stdout).toBe("rail.poise:2:1: error[syntax]: frob begins no statement\n");
  expect(stderr).toBe("");
});
