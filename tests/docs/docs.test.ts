import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import { unitWords } from "../../grammar/words";
import manifest from "../../package.json";
import english from "../../package.nls.json";
import { checks } from "../../server/checks";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { check } from "../fixture";
import { faultsOf } from "../grammar/specs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const pages = ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "grammar/language.md"];
const textOf = (page: string) => readFileSync(join(root, page), "utf8");

/** What stands under a heading, up to the next one of its level. */
function section(page: string, heading: string): string {
  const [, after] = textOf(page).split(`\n## ${heading}\n`);
  expect(after, `${page} has a section ${heading}`).toBeDefined();
  return after!.split(/^## /m, 1)[0]!;
}

const blocks = (text: string, language: string) =>
  [...text.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, "gm"))].map(
    it => it[1]!,
  );
const inCode = (text: string) => [...text.matchAll(/`([^`\n]+)`/g)].map(it => it[1]!);

describe("the language's page", () => {
  const codes = section("grammar/language.md", "Codes");
  const severities = { error: "Errors", warning: "Warnings", info: "Information" } as const;

  test.each(Object.entries(severities))("names every %s", (severity, title) => {
    const list = codes.split("\n").find(line => line.startsWith(`${title}: `));
    const registered = checks.filter(it => it.severity === severity).map(it => it.code);
    expect(inCode(list ?? "").sort()).toEqual(registered.sort());
  });

  test("names every unit that is at hand", () => {
    const [, list] =
      textOf("grammar/language.md").match(/at hand: (.*?), and their products/) ?? [];
    const named = list?.split(/[ ·]+/);
    expect(named?.sort()).toEqual([...unitWords].sort());
  });
});

describe("the README", () => {
  const readme = textOf("README.md");

  test("shows five lines of the language that have no finding, and what goes with them", () => {
    const [spec, rest, airframe, ...more] = blocks(readme, "poise");
    expect(airframe).toContain("airframe sn001");
    expect(more).toEqual([]);
    expect(spec!.trimEnd().split("\n")).toHaveLength(5);
    expect(faultsOf(read("kite.poise", spec!))).toEqual([]);
    const { findings, roots } = judge(withText(emptyProject(["/"]), "/kite.poise", spec!));
    expect(findings).toEqual([]);
    // two spars of 9.5 lb and skins of 18.2 lb
    expect(roots.map(it => it.emptyWeight)).toEqual(["37.2 lb"]);
    const whole = judge(withText(emptyProject(["/"]), "/kite.poise", spec! + rest!));
    expect(whole.findings).toEqual([]);
    // and the lead battery of 9 lb, and half a gallon of 6.02 lb that stays
    expect(whole.roots.map(it => it.emptyWeight)).toEqual(["49.21 lb"]);
    const line = /\(`(airframe sn003 [^`]*)`\)/.exec(readme)![1]!;
    const built = judge(withText(emptyProject(["/"]), "/kite.poise", `${spec}${rest}${line}\n`));
    expect(built.findings).toEqual([]);
    expect(built.roots.map(it => it.airframe)).toEqual([undefined, "sn003"]);
  });

  test("shows a builder's file that goes with the first example", () => {
    const [, , airframe] = blocks(readme, "poise");
    let project = emptyProject(["/"]);
    project = withText(project, "/wren.poise", textOf("examples/first-steps/wren.poise"));
    project = withText(project, "/sn001.poise", airframe!);
    const { findings, roots } = judge(project);
    expect(findings.filter(it => it.severity === "error")).toEqual([]);
    // 131.1 + 132.6 + 38.1 lb, the unusable fuel stays, and the radio's half pound
    expect(roots.map(it => it.emptyWeight)).toEqual([expect.any(String), "302.3 lb"]);
  });

  test("lists the commands and settings that the extension has", () => {
    const { commands, configuration, menus } = manifest.contributes;
    const hidden = new Set(menus.commandPalette.map(it => it.command));
    const titles = Object.fromEntries(
      Object.entries(english).map(([key, text]) => [`%${key}%`, text]),
    );
    const words = inCode(section("README.md", "In VS Code"));
    expect(words.filter(it => it.startsWith("Poise: ")).sort()).toEqual(
      commands
        .filter(it => !hidden.has(it.command))
        .map(it => `${it.category}: ${titles[it.title]}`)
        .sort(),
    );
    expect(words.filter(it => it.startsWith("poise.")).sort()).toEqual(
      Object.keys(configuration.properties).sort(),
    );
  });

  test("explains a code that exists", () => {
    const explained = [...readme.matchAll(/ explain ([\w-]+)/g)].map(it => it[1]!);
    expect(explained).not.toEqual([]);
    for (const code of explained) expect(checks.map(it => it.code)).toContain(code);
  });
});

describe("the developers' page", () => {
  const page = textOf("DEVELOPERS.md");

  test("tells the architecture in 500 to 700 words", () => {
    const prose = section("DEVELOPERS.md", "Architecture").replace(/^```[\s\S]*?^```$/m, "");
    const words = prose.match(/[\p{L}\p{N}][\p{L}\p{N}'/.-]*/gu) ?? [];
    expect(words.length).toBeGreaterThanOrEqual(500);
    expect(words.length).toBeLessThanOrEqual(700);
  });

  test("shows a test that passes", () => {
    const [snippet] = blocks(page, "ts");
    const [, fixture] = snippet?.match(/^check\(`([^`]*)`\);$/m) ?? [];
    expect(fixture).toContain("error[over-budget]");
    check(fixture!);
  });

  test("names files that exist", () => {
    const inside = ["edges", "edges/formats", "features", "views/diff"].map(it => `server/${it}`);
    const folders = ["", "grammar", "server", "tests/command-line", ...inside];
    const files = inCode(page).filter(it => /^[\w./-]+\.(ts|md|json)$/.test(it));
    expect(files.length).toBeGreaterThan(15);
    for (const file of files)
      expect(
        folders.some(folder => existsSync(join(root, folder, file))),
        file,
      ).toBe(true);
  });

  test("lists every script there is to call", () => {
    const rows = section("DEVELOPERS.md", "Scripts and configuration");
    const named = [...rows.matchAll(/^\| `npm (?:run )?(\w+)`/gm)].map(it => it[1]!);
    const called = Object.keys(manifest.scripts).filter(it => it !== "prepare");
    expect(named.sort()).toEqual(called.sort());
  });
});

test("the changelog begins with this version", () => {
  expect(textOf("CHANGELOG.md").match(/^## (.+)$/m)?.[1]).toBe(manifest.version);
});

test.each(pages)("the scripts and links of %s lead somewhere", page => {
  const text = textOf(page);
  for (const [, script] of text.matchAll(/npm run (?:--silent )?(\w+)/g))
    expect(Object.keys(manifest.scripts)).toContain(script);
  for (const [, target] of text.matchAll(/\]\(([^)\s]+)\)/g)) {
    if (/^https?:/.test(target!)) continue;
    const [path, anchor] = target!.split("#");
    const file = path === "" ? page : join(dirname(page), path!);
    expect(existsSync(join(root, file)), `${page} links to ${target}`).toBe(true);
    if (anchor) expect(anchorsOf(textOf(file))).toContain(anchor);
  }
});

const anchorsOf = (text: string) =>
  [...text.matchAll(/^#+ (.+)$/gm)].map(([, title]) =>
    title!
      .toLowerCase()
      .replace(/[^\w\s-]/g, "")
      .replaceAll(" ", "-"),
  );

test("an example stands where the README says", () => {
  const said = [...textOf("README.md").matchAll(/examples\/[\w-]+/g)].map(([folder]) => folder);
  expect(said).not.toEqual([]);
  for (const folder of said)
    expect(readdirSync(join(root, folder)).filter(it => it.endsWith(".poise"))).not.toEqual([]);
});
