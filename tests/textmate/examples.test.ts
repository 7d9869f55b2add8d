import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { uncoloured } from "./fixture";

const specs = ["../../examples/", "../editor-host/workspace/"].flatMap(folder => {
  const base = new URL(folder, import.meta.url);
  const files = readdirSync(base, { recursive: true, encoding: "utf8" });
  return files.filter(file => file.endsWith(".poise")).map(file => new URL(file, base));
});

test.each(specs)("%s has no bare word, and nothing runs on past its end", file => {
  expect(uncoloured(readFileSync(file, "utf8"))).toEqual([]);
});
