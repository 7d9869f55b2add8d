import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor } from "./client";

const kite = 'aircraft kite "Kite" { units lb, in, gal }\ninclude "wing.poise"\n';
const wing =
  "let area = 10 ft^2\n// What lifts it.\nassembly wing budget 40 lb {\n  part spar calculated 30 lb at FS 120\n  part skin calculated 1.25 lb/ft^2 * area at FS 125\n}\n";
/** The figure of the spar. */
const from = { line: 3, character: 23 };
const to = { line: 3, character: 25 };

let folder: string;
let running: Awaited<ReturnType<typeof editor>>[] = [];
const at = (name: string) => join(folder, name);
const start = async () => {
  const open = await editor({ folders: [folder] });
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

test("formatting: the whole file or some of its lines, whatever the editor's tabs are", async () => {
  const open = await start();
  await open.open(
    at("wing.poise"),
    wing.replace("let area", "let  area").replace("  part", "part"),
  );
  const gap = { range: { start: { line: 0, character: 4 }, end: { line: 0, character: 5 } } };
  const indent = { range: { start: { line: 3, character: 0 }, end: { line: 3, character: 0 } } };
  expect(await open.format(at("wing.poise"))).toEqual([
    { ...gap, newText: "" },
    { ...indent, newText: "  " },
  ]);
  expect(await open.format(at("wing.poise"), 1, 4)).toEqual([{ ...indent, newText: "  " }]);
  expect(await open.format(at("none.poise"))).toEqual([]);
});

test("folds, selections and links of a file that is not open", async () => {
  const open = await start();
  expect(await open.folds(at("wing.poise"))).toEqual([{ startLine: 2, endLine: 4 }]);
  const row = (character: number, end: number) => ({
    start: { line: 3, character },
    end: { line: 3, character: end },
  });
  const [figure] = (await open.selections(at("wing.poise"), from)) as unknown[];
  expect(figure).toMatchObject({
    range: row(23, 25),
    parent: { range: row(23, 28), parent: { range: row(12, 28) } },
  });
  const [link] = await open.links(at("kite.poise"));
  expect(link).toMatchObject({
    range: { start: { line: 1, character: 8 }, end: { line: 1, character: 20 } },
  });
  expect(link!.target.split("/").at(-1)).toBe("wing.poise");
});

test("tokens: all of a file, then what is new, and those of some rows", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing);
  const all = await open.tokens(at("wing.poise"));
  // `let area`: a keyword that declares, then a variable declared
  expect(all.data!.slice(0, 10)).toEqual([0, 0, 3, 4, 1, 0, 4, 4, 10, 1]);
  const rows = [
    { line: 1, character: 0 },
    { line: 2, character: 0 },
  ] as const;
  expect((await open.tokensIn(at("wing.poise"), ...rows)).data!.slice(0, 5)).toEqual([
    1, 0, 17, 0, 0,
  ]);
  await open.change(at("wing.poise"), [from, to, "300"]);
  const { resultId, edits } = await open.tokens(at("wing.poise"), all.resultId);
  const changed = [...all.data!];
  for (const { start: at, deleteCount, data = [] } of edits!) {
    expect(deleteCount + data.length).toBeLessThan(12);
    changed.splice(at, deleteCount, ...data);
  }
  expect(changed).toEqual((await open.tokens(at("wing.poise"))).data);
  // an answer that is forgotten: all of it again
  expect((await open.tokens(at("wing.poise"), `not ${resultId}`)).data).toEqual(changed);
});

test("a very long file gets tokens for the rows that are looked at, and none for all of it", async () => {
  const open = await start();
  await open.open(at("wing.poise"), wing + "// one more\n".repeat(10_000));
  expect((await open.tokens(at("wing.poise"))).data).toEqual([]);
  const [top, below] = [from, { line: 9000, character: 0 }];
  expect((await open.tokensIn(at("wing.poise"), top, top)).data!.length).toBeGreaterThan(20);
  expect((await open.tokensIn(at("wing.poise"), below, below)).data).toEqual([9000, 0, 11, 0, 0]);
});
