import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, expect, test } from "vitest";
import { editor } from "./client";

interface Item {
  readonly name: string;
  readonly detail: string;
  readonly uri: string;
  readonly selectionRange: { readonly start: { readonly line: number } };
}
interface Call {
  readonly from: Item;
  readonly to: Item;
  readonly fromRanges: readonly { readonly start: { readonly line: number } }[];
}

let folder: string;
let open: Awaited<ReturnType<typeof editor>>;
beforeEach(async () => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "poise-things-")));
  writeFileSync(
    join(folder, "kite.poise"),
    'aircraft kite "Kite" { units lb, in }\ninclude "wing.poise"\n',
  );
  writeFileSync(
    join(folder, "wing.poise"),
    "assembly wing {\n  part rib calculated 1 lb at FS 100\n  part spar calculated 3 lb at FS 120\n}\n",
  );
  open = await editor({ folders: [folder] });
});
afterEach(async () => {
  expect(await open.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

const said = ({ name, detail, uri, selectionRange: { start } }: Item) =>
  `${name}: ${detail} (${basename(uri)}:${start.line})`;

test("a few letters find what is declared in any file", async () => {
  const found = await open.request<
    readonly { name: string; containerName: string; location: Item }[]
  >("workspace/symbol", { query: "wspar" });
  expect(found.map(it => [it.name, it.containerName, basename(it.location.uri)])).toEqual([
    ["wing.spar", "part", "wing.poise"],
  ]);
});

test("a call hierarchy is what a thing is in and what it contains", async () => {
  const uri = pathToFileURL(join(folder, "wing.poise")).href;
  const [wing] = await open.request<readonly Item[]>("textDocument/prepareCallHierarchy", {
    textDocument: { uri },
    position: { line: 0, character: 10 },
  });
  expect(said(wing!)).toBe("wing: 4 lb · CG FS 115 in (wing.poise:0)");
  const calls = await open.request<readonly Call[]>("callHierarchy/outgoingCalls", { item: wing });
  expect(calls.map(it => said(it.to))).toEqual([
    "spar: 3 lb · FS 120 in (wing.poise:2)",
    "rib: 1 lb · FS 100 in (wing.poise:1)",
  ]);
  expect(calls.map(it => it.fromRanges[0]?.start.line)).toEqual([2, 1]);
  const [around] = await open.request<readonly Call[]>("callHierarchy/incomingCalls", {
    item: wing,
  });
  expect(said(around!.from)).toBe("kite: 4 lb · CG FS 115 in (kite.poise:0)");
});
