import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import bundle from "../../client/l10n/bundle.l10n.de.json";
import manifest from "../../package.json";
import german from "../../package.nls.de.json";
import english from "../../package.nls.json";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** What a user reads of the manifest: everything under these keys of what it contributes. */
const read = new Set([
  ...["title", "description", "markdownDescription", "enumDescriptions", "contents"],
]);
const names = new Set([manifest.displayName]);

function textsIn(value: unknown, key = ""): readonly string[] {
  if (typeof value === "string") return read.has(key) ? [value] : [];
  if (Array.isArray(value)) return value.flatMap(it => textsIn(it, key));
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([inner, it]) => textsIn(it, inner));
}

test("every text of the manifest stands in package.nls.json, and no other does", () => {
  const views = Object.values(manifest.contributes.views).flat();
  const texts = [
    ...textsIn(manifest.contributes).filter(it => !names.has(it)),
    ...views.map(it => it.name),
    manifest.description,
  ];
  expect(texts.filter(it => !/^%[\w.]+%$/.test(it))).toEqual([]);
  expect([...new Set(texts)].map(it => it.slice(1, -1)).sort()).toEqual(
    Object.keys(english).sort(),
  );
});

test("German has every text of the manifest, with the same commands and settings in it", () => {
  expect(Object.keys(german).sort()).toEqual(Object.keys(english).sort());
  const fixed = (text: string) => text.match(/\(command:[\w.]+\)|`[#\w.*/]+`/g) ?? [];
  for (const [key, text] of Object.entries(english))
    expect(fixed(german[key as keyof typeof german]), key).toEqual(fixed(text));
});

test("German has every text of the extension, with the same values in it", () => {
  const sources = readdirSync(`${root}/client`).filter(it => it.endsWith(".ts"));
  const used = sources.flatMap(file => {
    const text = readFileSync(`${root}/client/${file}`, "utf8");
    const found = text.matchAll(/(?:l10n\.t|say)\(\s*"((?:[^"\\]|\\.)*)"/g);
    return [...found].map(it => JSON.parse(`"${it[1]}"`) as string);
  });
  expect(used.length).toBeGreaterThan(50);
  expect(Object.keys(bundle).sort()).toEqual([...new Set(used)].sort());
  const values = (text: string) => [...(text.match(/\{\d\}/g) ?? [])].sort();
  for (const [text, translated] of Object.entries(bundle))
    expect(values(translated), text).toEqual(values(text));
});

test("there are fewer than ten settings", () => {
  expect(Object.keys(manifest.contributes.configuration.properties).length).toBeLessThan(10);
});

test("every command is in the palette or, where it needs a row of a tree, in that row's menu", () => {
  const { commands, menus } = manifest.contributes;
  const hidden = menus.commandPalette.filter(it => it.when === "false").map(it => it.command);
  const inRows = menus["view/item/context"].map(it => it.command);
  expect(commands.length).toBeGreaterThan(5);
  for (const command of hidden) expect(inRows).toContain(command);
});
