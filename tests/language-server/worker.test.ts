import { mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor, type Setup } from "./client";

const kite = 'aircraft kite "Kite" { units lb, in, gal }\ninclude "wing one.poise"\n';
const wing = "assembly wing budget 40 lb {\n  part spar calculated 42.5 lb at FS 120\n}\n";
const over = "over-budget: wing weighs 42.5 lb, 2.5 lb over its budget of 40 lb";
const missing = "include-missing: there is no file wing one.poise";

let folder: string;
const at = (name: string) => join(folder, name);
const start = (setup: Partial<Setup> = {}) =>
  editor({ folders: [folder], over: "worker", ...setup });

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-worker-")));
  writeFileSync(at("kite.poise"), kite);
  writeFileSync(at("wing one.poise"), wing);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test("where there is no Node, files of folders are read through the editor and judged", async () => {
  mkdirSync(at("node_modules"));
  writeFileSync(at("node_modules/part.poise"), "part x {\n");
  const open = await start();
  await expect.poll(() => open.findings(at("wing one.poise"))).toEqual([over]);
  // and not before all of them were read
  expect(open.sent).toEqual(["wing%20one.poise 1"]);
  expect(open.reads.map(it => it.split("/").at(-1)).sort()).toEqual([
    "kite.poise",
    "wing%20one.poise",
  ]);
  expect(open.statuses.at(-1)!.roots).toMatchObject([{ name: "Kite", emptyWeight: "42.5 lb" }]);
  expect(open.log).toEqual([]);
});

test("a server that has a disk asks the editor for files that are not on it", async () => {
  const open = await start({ over: "ipc", elsewhere: true });
  await expect.poll(() => open.findings(at("wing one.poise"))).toEqual([over]);
  expect(open.reads).toHaveLength(2);
});

test("a keystroke asks for no file again", async () => {
  const open = await start();
  await expect.poll(() => open.findings(at("wing one.poise"))).toEqual([over]);
  await open.open(at("wing one.poise"), wing);
  const before = open.reads.length;
  const [from, to] = [23, 27].map(character => ({ line: 1, character }));
  await open.change(at("wing one.poise"), [from!, to!, "39"]);
  expect(open.findings(at("wing one.poise"))).toEqual([]);
  expect(open.reads).toHaveLength(before);
  await open.close(at("wing one.poise"));
  await expect.poll(() => open.findings(at("wing one.poise"))).toEqual([over]);
});

test("what changes in its file system, also a folder's name, is read again", async () => {
  mkdirSync(at("old"));
  writeFileSync(at("old/kite.poise"), kite);
  writeFileSync(at("old/wing one.poise"), wing);
  const open = await start();
  await expect.poll(() => open.findings(at("old/wing one.poise"))).toEqual([over]);
  renameSync(at("old"), at("new"));
  await open.onDisk([at("old"), "deleted"]);
  await expect.poll(() => open.findings(at("new/wing one.poise"))).toEqual([over]);
  expect(open.findings(at("old/wing one.poise"))).toEqual([]);
  writeFileSync(at("wing one.poise"), wing.replace("40 lb", "50 lb"));
  await open.onDisk([at("wing one.poise"), "changed"]);
  await expect.poll(() => open.findings(at("wing one.poise"))).toEqual([]);
  rmSync(at("wing one.poise"));
  await open.onDisk([at("wing one.poise"), "deleted"]);
  await expect.poll(() => open.findings(at("kite.poise"))).toEqual([missing]);
});

test("a file opened by itself has what it includes, once that is read", async () => {
  const open = await start({ folders: [] });
  await open.open(at("kite.poise"), kite);
  await expect.poll(() => open.findings(at("wing one.poise"))).toEqual([over]);
  expect(open.sent).toEqual(["wing%20one.poise 1"]);
});

test("a text that was never saved, and a unit that only mathjs knows", async () => {
  const open = await start({ folders: [] });
  const text = "aircraft moth { units lb, in, gal }\npart fin quoted 1 stone at FS 9\n";
  await open.open("untitled:Untitled-1", `${text}require mass(fin) < 13 lb\n`);
  expect(open.findings("untitled:Untitled-1")).toEqual([
    expect.stringMatching(/^requirement-failed: .*14 lb/),
  ]);
});

test("a file that is no text is said to be none", async () => {
  writeFileSync(at("wing one.poise"), Buffer.from([0x70, 0xff]));
  const open = await start();
  await expect
    .poll(() => open.findings(at("kite.poise")))
    .toEqual(["include-missing: wing one.poise is not UTF-8 text (byte 0xFF at 1)"]);
});
