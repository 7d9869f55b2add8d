import { mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor, type Over, type Setup } from "./client";

const kite = 'aircraft kite "Kite" { units lb, in, gal }\ninclude "wing.poise"\n';
const wing =
  "let area = 10 ft^2\n// What lifts it.\nassembly wing budget 40 lb {\n  part spar calculated 30 lb at FS 120\n  part skin calculated 1.25 lb/ft^2 * area at FS 125\n}\n";
const over = "over-budget: wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb";
/** The figure of the spar. */
const from = { line: 3, character: 23 };
const to = { line: 3, character: 25 };

let folder: string;
let running: Awaited<ReturnType<typeof editor>>[] = [];
const at = (name: string) => join(folder, name);
const start = async (setup: Partial<Setup> = {}) => {
  const open = await editor({ folders: [folder], ...setup });
  running.push(open);
  return open;
};

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-server-")));
  writeFileSync(at("kite.poise"), kite);
  writeFileSync(at("wing.poise"), wing);
});
afterEach(async () => {
  for (const open of running) expect(await open.stop()).toBe(0);
  running = [];
  rmSync(folder, { recursive: true, force: true });
});

test.each<Over>(["stdio", "ipc", "poise lsp"])(
  "over %s: files that no editor shows are judged too",
  async way => {
    const open = await start({ over: way });
    expect(open.findings(at("wing.poise"))).toEqual([over]);
    expect(open.diagnostics(at("wing.poise"))[0]).toMatchObject({ severity: 1, source: "poise" });
  },
);

test("a keystroke judges anew, and sends only the list that changed, never an empty one between", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing);
  const before = open.sent.length;
  await open.change(at("wing.poise"), [from, to, "29"]);
  expect(open.findings(at("wing.poise"))).toEqual([
    "over-budget: wing weighs 41.5 lb, 1.5 lb over its budget of 40 lb",
  ]);
  expect(open.sent.slice(before)).toEqual(["wing.poise 1"]);
  await open.change(at("wing.poise"), [from, to, "20"]);
  expect(open.findings(at("wing.poise"))).toEqual([]);
});

test("several edits of one message stand one after the other, and a whole text in place of all", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing);
  const first = { line: 0, character: 0 };
  await open.change(
    at("wing.poise"),
    [first, first, "// typed above\n"],
    [{ ...from, line: 4 }, { ...to, line: 4 }, "31"],
  );
  expect(open.findings(at("wing.poise"))).toEqual([
    over.replace("42.5", "43.5").replace("2.5", "3.5"),
  ]);
  expect(open.diagnostics(at("wing.poise"))[0]!.range.start.line).toBe(3);
  await open.replace(at("wing.poise"), wing);
  expect(open.findings(at("wing.poise"))).toEqual([over]);
});

test("an edit in one file moves the finding in another", async () => {
  const open = await start();
  await open.open(at("kite.poise"), kite);
  const end = { line: 2, character: 0 };
  await open.change(at("kite.poise"), [end, end, "require mass(wing) < 50 lb\n"]);
  expect(open.findings(at("kite.poise"))).toEqual([]);
  await open.open(at("wing.poise"), wing);
  await open.change(at("wing.poise"), [from, to, "60"]);
  expect(open.findings(at("kite.poise"))).toHaveLength(1);
});

test("what was typed and not saved goes when the file closes", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing.replace("30 lb", "3 lb"));
  expect(open.findings(at("wing.poise"))).toEqual([]);
  // the editor's text counts while it is open, whatever happens on disk
  await open.onDisk([at("wing.poise"), "changed"]);
  expect(open.findings(at("wing.poise"))).toEqual([]);
  await open.close(at("wing.poise"));
  expect(open.findings(at("wing.poise"))).toEqual([over]);
});

test("a file that is renamed, deleted or changed on disk leaves nothing behind", async () => {
  const open = await start();
  renameSync(at("wing.poise"), at("wings.poise"));
  await open.onDisk([at("wing.poise"), "deleted"], [at("wings.poise"), "created"]);
  expect(open.findings(at("wing.poise"))).toEqual([]);
  expect(open.findings(at("kite.poise"))).toEqual(["include-missing: there is no file wing.poise"]);
  writeFileSync(at("kite.poise"), kite.replace("wing", "wings"));
  await open.onDisk([at("kite.poise"), "changed"]);
  expect(open.findings(at("kite.poise"))).toEqual([]);
  expect(open.findings(at("wings.poise"))).toEqual([over]);
  expect(open.told).toEqual(["wing.poise deleted", "wings.poise created", "kite.poise changed"]);
});

test("a file deleted while it is open is judged until it closes", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing);
  rmSync(at("wing.poise"));
  await open.onDisk([at("wing.poise"), "deleted"]);
  expect(open.findings(at("wing.poise"))).toEqual([over]);
  await open.close(at("wing.poise"));
  expect(open.findings(at("wing.poise"))).toEqual([]);
  expect(open.findings(at("kite.poise"))).toEqual(["include-missing: there is no file wing.poise"]);
});

test("a folder that goes takes its files along, and one that is renamed brings them back", async () => {
  mkdirSync(at("old"));
  writeFileSync(at("old/kite.poise"), kite);
  writeFileSync(at("old/wing.poise"), wing);
  const open = await start();
  expect(open.findings(at("old/wing.poise"))).toEqual([over]);
  renameSync(at("old"), at("new"));
  await open.onDisk([at("old"), "deleted"]);
  expect(open.findings(at("old/wing.poise"))).toEqual([]);
  expect(open.findings(at("new/wing.poise"))).toEqual([over]);
});

test("another branch under it: every file changes at once", async () => {
  const open = await start();
  writeFileSync(at("wing.poise"), wing.replace("40 lb", "50 lb"));
  writeFileSync(
    at("tail.poise"),
    "assembly tail budget 1 lb {\n  part fin quoted 2 lb at FS 9\n}\n",
  );
  writeFileSync(at("kite.poise"), `${kite}include "tail.poise"\n`);
  await open.onDisk(
    [at("wing.poise"), "changed"],
    [at("tail.poise"), "created"],
    [at("kite.poise"), "changed"],
  );
  expect(open.findings(at("wing.poise"))).toEqual([]);
  expect(open.findings(at("tail.poise"))).toEqual([
    "over-budget: tail weighs 2 lb, 1 lb over its budget of 1 lb",
  ]);
});

test("an event that changes nothing sends nothing", async () => {
  const open = await start();
  const before = [open.sent.length, open.statuses.length];
  await open.open(at("wing.poise"), wing);
  await open.onDisk([at("wing.poise"), "changed"], [at("notes.txt"), "deleted"]);
  await open.close(at("wing.poise"));
  expect([open.sent.length, open.statuses.length]).toEqual(before);
});

test("two folders are two workspaces; one that leaves takes its findings along", async () => {
  mkdirSync(at("a"));
  mkdirSync(at("b"));
  for (const name of ["a", "b"]) {
    writeFileSync(at(`${name}/kite.poise`), kite);
    writeFileSync(at(`${name}/wing.poise`), wing);
  }
  writeFileSync(at("b/wing.poise"), 'include "../a/wing.poise"\n');
  const open = await start({ folders: [at("a"), at("b")] });
  expect(open.findings(at("a/wing.poise"))).toEqual([over]);
  expect(open.findings(at("b/wing.poise"))).toEqual([
    "include-outside: ../a/wing.poise leads out of the workspace folder",
  ]);
  await open.folders([], [at("b")]);
  expect(open.findings(at("b/wing.poise"))).toEqual([]);
  expect(open.findings(at("a/wing.poise"))).toEqual([over]);
  await open.folders([at("b")], [at("a")]);
  expect(open.findings(at("a/wing.poise"))).toEqual([]);
  expect(open.findings(at("b/wing.poise"))).toHaveLength(1);
});

test("what the user excludes, hidden folders and packages are not read, also when they change", async () => {
  for (const name of ["archive", ".old", "node_modules"]) {
    mkdirSync(at(name));
    writeFileSync(at(`${name}/part.poise`), "part x {\n");
  }
  const open = await start({ exclude: ["archive/**"] });
  for (const name of ["archive", ".old", "node_modules"]) {
    await open.onDisk([at(`${name}/part.poise`), "changed"]);
    expect(open.findings(at(`${name}/part.poise`)), name).toEqual([]);
  }
});

test("a folder's own place does not exclude it", async () => {
  const inside = at("archive");
  mkdirSync(inside);
  writeFileSync(join(inside, "kite.poise"), kite);
  writeFileSync(join(inside, "wing.poise"), wing);
  const open = await start({ folders: [inside], exclude: ["archive/**"] });
  expect(open.findings(join(inside, "wing.poise"))).toEqual([over]);
});

test("a file opened without a folder still has what it includes", async () => {
  const open = await start({ folders: [] });
  expect(open.findings(at("wing.poise"))).toEqual([]);
  await open.open(at("kite.poise"), kite);
  expect(open.findings(at("kite.poise"))).toEqual([]);
  expect(open.findings(at("wing.poise"))).toEqual([over]);
  await open.close(at("kite.poise"));
  expect(open.findings(at("wing.poise"))).toEqual([]);
});

test("a text that was never saved is judged by itself", async () => {
  const open = await start();
  await open.open("untitled:Untitled-1", `aircraft moth { units lb, in, gal }\n${wing}`);
  expect(open.findings("untitled:Untitled-1")).toEqual([over]);
  await open.close("untitled:Untitled-1");
  expect(open.findings("untitled:Untitled-1")).toEqual([]);
});

test("names with spaces, brackets and letters of any alphabet", async () => {
  const inside = at("Flügel #1 [alt]");
  mkdirSync(inside);
  writeFileSync(join(inside, "kite.poise"), kite);
  writeFileSync(join(inside, "wing.poise"), wing);
  const open = await start();
  const [uri] = open.statuses.at(-1)!.roots.map(it => it["file"] as string);
  expect(decodeURIComponent(uri!)).toContain("Flügel #1 [alt]/kite.poise");
  await open.open(join(inside, "wing.poise"), wing.replace("40 lb", "50 lb"));
  expect(open.findings(join(inside, "wing.poise"))).toEqual([]);
});

test("a file with a thousand findings: the worst hundred, errors first, and how many more", async () => {
  const parts = Array.from({ length: 500 }, (_, i) => `part p${i}\n`).join("");
  writeFileSync(at("wing.poise"), `${parts}part last quoted 3 kt at FS 1\n`);
  const open = await start();
  const shown = open.diagnostics(at("wing.poise"));
  expect(shown).toHaveLength(101);
  expect(shown[0]).toMatchObject({ severity: 1, range: { start: { line: 500 } } });
  expect(shown.at(-1)!.message).toMatch(/^\d+ more findings in this file/);
});

test("the status: each aircraft, what it weighs empty, and what is wrong with it", async () => {
  const open = await start();
  expect(open.statuses.at(-1)!.roots).toMatchObject([
    {
      name: "Kite",
      file: `file://${at("kite.poise")}`,
      files: ["wing.poise", "kite.poise"].map(it => `file://${at(it)}`),
      emptyWeight: "42.5 lb",
      cg: "FS 121.5 in",
      complete: true,
      errors: 1,
      warnings: 0,
    },
  ]);
});

test("shop: what can be weighed; a reading and the edit it would be, as the documents stand now", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing);
  expect(await open.shop(at("none.poise"))).toBeNull();
  expect(await open.shop(at("wing.poise"), "sn001")).toBeNull();
  expect(await open.shop(at("wing.poise"))).toMatchObject({
    title: "Kite",
    unit: "lb",
    airframes: [],
    parts: [
      { path: "wing.spar", thought: "30 lb calculated", weighed: false },
      { path: "wing.skin", thought: "12.5 lb calculated", weighed: false },
      { path: "wing", thought: "42.5 lb by its parts", weighed: false, whole: true },
    ],
  });
  const reading = (figure: string) =>
    open.reading(at("kite.poise"), { path: "wing.spar", figure, by: "scale A" });
  expect(await reading("heavy")).toEqual({
    said: "heavy: nothing is called heavy here",
    severity: "error",
    edit: null,
  });
  expect(await reading("13.6")).toMatchObject({
    said: "13.6 lb is one 2.2th of the 30 lb calculated, as pounds are to kilograms",
    severity: "warning",
  });
  const whole = await open.reading(at("kite.poise"), { path: "wing", figure: "43.25", by: "" });
  expect(whole!.said).toBe("43.25 lb: 0.75 lb more, no spread is declared");
  expect(Object.keys(whole!.edit!.changes!).map(it => it.split("/").at(-1))).toEqual([
    "wing.poise",
  ]);
  // a row more above it: the edit follows
  const top = { line: 0, character: 0 };
  await open.change(at("wing.poise"), [top, top, "// new\n"]);
  const { said, edit } = (await reading("30.5"))!;
  expect(said).toBe("30.5 lb: 0.5 lb more, no spread is declared");
  const [changes] = Object.values(edit!.changes!);
  const place = { line: 4, character: 28 };
  expect(changes).toEqual([
    {
      range: { start: place, end: place },
      newText: expect.stringMatching(/^ weighed 30\.5 lb on \d{4}-\d\d-\d\d by "scale A"$/),
    },
  ]);
  await open.change(at("wing.poise"), [top, top, "}\n"]);
  expect(await reading("30.5")).toEqual({
    said: "wing.poise has errors in its text: mend them first",
    severity: "error",
    edit: null,
  });
});

test("why: how the figure at a position comes about, and where each line leads", async () => {
  const open = await start();
  const answer = await open.why(at("wing.poise"), from);
  expect(answer).toMatchObject({ path: "wing.spar" });
  expect(answer!.uri.split("/").at(-1)).toBe("kite.poise");
  const lines = answer!.text.split("\n");
  const source = lines.findIndex(it => it.includes("calculated  30 lb"));
  expect(lines[source]).toBe("  calculated  30 lb  governs  wing.poise:4:13");
  const link = answer!.links.find(it => it.line === source)!;
  expect(lines[source]!.slice(link.from, link.to)).toBe("wing.poise:4:13");
  expect(link.target.uri.split("/").at(-1)).toBe("wing.poise");
  expect(link.target.range).toEqual({
    start: { line: 3, character: 12 },
    end: { line: 3, character: 28 },
  });
});

test("why by its path, after each change again; a client that never asked is told of none", async () => {
  const [open, other] = [await start(), await start()];
  await open.open(at("wing.poise"), wing);
  await other.open(at("wing.poise"), wing);
  expect((await open.why(at("kite.poise"), "wing"))!.text).toContain("basic 42.5 lb");
  const change = [from, to, "29"] as const;
  await open.change(at("wing.poise"), change);
  await other.change(at("wing.poise"), change);
  expect([open.changes(), other.changes()]).toEqual([1, 0]);
  expect((await open.why(at("kite.poise"), "wing"))!.text).toContain("basic 41.5 lb");
  expect(await open.why(at("kite.poise"), "wing.gone")).toBeNull();
  expect(await open.why(at("none.poise"), "wing")).toBeNull();
});

test("a hover links to how its figure comes about, for an editor that can follow it", async () => {
  const [plain, linked] = [await start(), await start({ linksWhy: true })];
  const spar = { line: 3, character: 8 };
  expect(await plain.hover(at("wing.poise"), spar)).not.toContain("command:");
  const [, args] =
    (await linked.hover(at("wing.poise"), spar)).match(/\(command:poise\.why\?(\S+)\)$/) ?? [];
  const [question] = JSON.parse(decodeURIComponent(args!));
  expect(question).toMatchObject({ path: "wing.spar" });
  expect(question.uri.split("/").at(-1)).toBe("kite.poise");
  // a unit has no derivation
  expect(await linked.hover(at("wing.poise"), { line: 3, character: 27 })).not.toContain(
    "command:",
  );
});

test("hover, definition and outline of a file that is not open", async () => {
  const open = await start();
  expect(await open.hover(at("wing.poise"), { line: 2, character: 11 })).toContain("42.5 lb");
  expect(await open.hover(at("wing.poise"), { line: 1, character: 4 })).toBe("");
  expect(await open.definition(at("wing.poise"), { line: 4, character: 40 })).toBe("wing.poise:0");
  expect(await open.definition(at("kite.poise"), { line: 1, character: 12 })).toBe("wing.poise:0");
  const [area, whole] = await open.symbols(at("wing.poise"));
  expect(area).toMatchObject({ name: "area", detail: "10 ft^2" });
  expect(whole).toMatchObject({
    name: "wing",
    detail: "42.5 lb",
    range: { start: { line: 2, character: 0 }, end: { line: 5, character: 1 } },
  });
  expect(whole!.children.map(it => `${it.name} ${it.detail}`)).toEqual([
    "spar 30 lb",
    "skin 12.5 lb",
  ]);
});

test("positions behind the end, files that are none and edits of them are answered and survived", async () => {
  const open = await start();
  const far = { line: 900, character: 900 };
  expect(await open.hover(at("wing.poise"), far)).toBe("");
  expect(await open.definition(at("none.poise"), far)).toBeNull();
  expect(await open.symbols("/nowhere/at/all.txt")).toEqual([]);
  await open.change(at("never-opened.poise"), [far, far, "part x"]);
  await open.close(at("never-opened.poise"));
  await open.open(at("wing.poise"), wing);
  await open.change(at("wing.poise"), [far, far, "// behind the end"]);
  expect(open.findings(at("wing.poise"))).toEqual([over]);
  expect(open.log.filter(it => it.includes("failed"))).toEqual([]);
});

test("a quick fix: what it ends, and the edit that does", async () => {
  const open = await start();
  const rig = [
    "bay baggage at FS 200 range 0 lb .. 100 lb",
    "envelope normal { cg 40 lb: FS 100 .. 130; cg 200 lb: FS 100 .. 130 }",
    "loading heavy under normal {",
    "  baggage 50 lb",
    "}",
  ];
  await open.open(at("kite.poise"), kite + rig.join("\n"));
  const [, outside] = open.findings(at("kite.poise"));
  expect(outside).toContain("cg-aft: heavy at takeoff");
  const [fix, ...others] = await open.fixes(at("kite.poise"), { line: 4, character: 10 });
  expect(others).toEqual([]);
  // 30 lb at FS 120 and 12.5 lb at FS 125: (5162.5 + 200 b) / (42.5 + b) = 130, b = 5.18 lb
  expect(fix).toEqual({
    title: "Lower baggage from 50 lb to 5.1 lb",
    ends: ["cg-aft"],
    edits: [
      {
        range: { start: { line: 5, character: 10 }, end: { line: 5, character: 15 } },
        newText: "5.1 lb",
      },
    ],
  });
  expect(await open.fixes(at("kite.poise"), { line: 0, character: 0 })).toEqual([]);
});
