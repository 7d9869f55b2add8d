import { mkdtempSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor } from "./client";

const kite = 'aircraft kite "Kite" { units lb, in, gal }\ninclude "wing.poise"\n';
const wing =
  "let area = 10 ft^2\n// What lifts it.\nassembly wing budget 40 lb {\n  part spar calculated 30 lb at FS 120\n  part skin calculated 1.25 lb/ft^2 * area at FS 125\n}\n";
const over = "over-budget: wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb";

let folder: string;
let open: Awaited<ReturnType<typeof editor>>;
const at = (name: string) => join(folder, name);

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "poise-server-"));
  writeFileSync(at("kite.poise"), kite);
  writeFileSync(at("wing.poise"), wing);
  open = await editor(folder);
});
afterEach(async () => {
  await open.stop();
  rmSync(folder, { recursive: true, force: true });
});

test("files that no editor shows are judged too", () => {
  expect(open.findings(at("wing.poise"))).toEqual([over]);
});

test("a keystroke judges anew, and sends only the list that changed, never an empty one between", async () => {
  await open.open(at("wing.poise"), wing);
  const before = open.sent.length;
  await open.change(at("wing.poise"), { line: 3, character: 23 }, { line: 3, character: 25 }, "29");
  expect(open.findings(at("wing.poise"))).toEqual([
    "over-budget: wing weighs 41.5 lb, 1.5 lb over its budget of 40 lb",
  ]);
  expect(open.sent.slice(before)).toEqual(["wing.poise 1"]);
  await open.change(at("wing.poise"), { line: 3, character: 23 }, { line: 3, character: 25 }, "20");
  expect(open.findings(at("wing.poise"))).toEqual([]);
});

test("what was typed and not saved goes when the file closes", async () => {
  await open.open(at("wing.poise"), wing.replace("30 lb", "3 lb"));
  expect(open.findings(at("wing.poise"))).toEqual([]);
  await open.close(at("wing.poise"));
  expect(open.findings(at("wing.poise"))).toEqual([over]);
});

test("a file that is renamed, deleted or changed on disk leaves nothing behind", async () => {
  renameSync(at("wing.poise"), at("wings.poise"));
  await open.onDisk(at("wing.poise"), 3);
  await open.onDisk(at("wings.poise"), 1);
  expect(open.findings(at("wing.poise"))).toEqual([]);
  expect(open.findings(at("kite.poise"))).toEqual(["include-missing: there is no file wing.poise"]);
  writeFileSync(at("kite.poise"), kite.replace("wing", "wings"));
  await open.onDisk(at("kite.poise"), 2);
  expect(open.findings(at("kite.poise"))).toEqual([]);
  expect(open.findings(at("wings.poise"))).toEqual([over]);
});

test("hover tells what an assembly weighs, a part rests on, a let is worth, a word means", async () => {
  const hover = async (line: number, character: number) => {
    const found = await open.ask<{ contents: { value: string } } | null>(
      "hover",
      at("wing.poise"),
      line,
      character,
    );
    return found?.contents.value ?? "";
  };
  const assembly = await hover(2, 11);
  for (const words of [
    "basic",
    "42.5 lb",
    "growth",
    "predicted",
    "budget",
    "40 lb",
    "margin",
    "FS 121.5 in",
    "What lifts it.",
  ])
    expect(assembly).toContain(words);
  expect(await hover(3, 9)).toContain("calculated 30 lb");
  expect(await hover(4, 40)).toContain("area");
  expect(await hover(3, 27)).toContain("a mass");
  expect(await hover(3, 30)).toContain("CG of the piece");
});

test("definition goes to a let, to an included file", async () => {
  const go = async (file: string, line: number, character: number) =>
    (
      await open.ask<readonly { uri: string; range: { start: { line: number } } }[]>(
        "definition",
        at(file),
        line,
        character,
      )
    ).map(it => `${it.uri.split("/").at(-1)}:${it.range.start.line}`);
  expect(await go("wing.poise", 4, 40)).toEqual(["wing.poise:0"]);
  expect(await go("kite.poise", 1, 12)).toEqual(["wing.poise:0"]);
});

test("the outline shows masses", async () => {
  const [area, wingEntry] = await open.symbols(at("wing.poise"));
  expect(area).toMatchObject({ name: "area", detail: "let" });
  expect(wingEntry).toMatchObject({ name: "wing", detail: "42.5 lb" });
  expect(wingEntry!.children.map(it => `${it.name} ${it.detail}`)).toEqual([
    "spar 30 lb",
    "skin 12.5 lb",
  ]);
});
