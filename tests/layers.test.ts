import { readdirSync, readFileSync } from "node:fs";
import { dirname, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("..", import.meta.url));

/** From the bottom up. A file may import its own layer and the layers before it. */
const layers = [
  /^grammar\//,
  /^server\/(memo|findings)\.ts$/,
  /^server\/quantity\//,
  /^server\/project\.ts$/,
  /^server\/model\//,
  /^server\/compute\//,
  /^server\/checks\//,
  /^server\/judge\.ts$/,
  /^server\/(features|views|lists|shop)\//,
  /^server\/edges\//,
];

const sources = ["grammar", "server"].flatMap(folder =>
  readdirSync(`${root}/${folder}`, { recursive: true, encoding: "utf8" })
    .filter(file => file.endsWith(".ts"))
    .map(file => `${folder}/${file.replaceAll("\\", "/")}`),
);

const rank = (path: string) => layers.findIndex(layer => layer.test(path));
const textOf = (path: string) => readFileSync(`${root}/${path}`, "utf8");

test("imports only point down", () => {
  expect(sources.length).toBeGreaterThan(50);
  for (const path of sources)
    for (const [, target] of textOf(path).matchAll(/from "(\.[^"]+)"/g)) {
      const imported = relative(root, resolve(root, dirname(path), target!)).replaceAll("\\", "/");
      if (imported === "package.json") continue;
      const file = imported.endsWith(".json")
        ? imported
        : [`${imported}.ts`, `${imported}/index.ts`].find(it => sources.includes(it));
      expect(rank(file ?? ""), `${path} imports ${imported}`).toBeGreaterThanOrEqual(0);
      expect(rank(file!), `${path} may not import ${imported}`).toBeLessThanOrEqual(rank(path));
    }
});

test("only the edges know Node, an editor's protocol or a console", () => {
  for (const path of sources.filter(it => !it.startsWith("server/edges/"))) {
    const text = textOf(path).replace(/\/\/.*|\/\*[\s\S]*?\*\//g, "");
    expect(text, path).not.toMatch(/from "(node:|vscode)|\bconsole\.|\bprocess\./);
  }
});

test("what answers an editor runs where there is no Node", () => {
  const reached = new Set(["server/edges/server.ts"]);
  for (const path of reached)
    for (const [, from, target] of textOf(path).matchAll(/(import type )?[^;]*? from "([^"]+)"/g)) {
      if (target === undefined || from !== undefined) continue;
      expect(target, path).not.toMatch(/^node:|\/node$/);
      const imported = relative(root, resolve(root, dirname(path), target)).replaceAll("\\", "/");
      const file = imported.endsWith(".json")
        ? imported
        : [`${imported}.ts`, `${imported}/index.ts`].find(it => sources.includes(it));
      if (file !== undefined) reached.add(file);
    }
  expect(reached.size).toBeGreaterThan(100);
  expect([...reached]).not.toContain("server/edges/disk.ts");
  for (const path of reached) expect(textOf(path), path).not.toMatch(/\b(process\.|Buffer\b)/);
});

test("the quantities know nothing of the grammar", () => {
  for (const path of sources.filter(it => it.startsWith("server/quantity/")))
    expect(textOf(path)).not.toMatch(/from "\.\.\/\.\.\/grammar/);
});
