import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { version } from "../../package.json";

/**
 * Holds an output to `expected/NAME.txt`, byte for byte but for the version. POISE_DRAW=1 writes the files
 * anew: read what changed in them before it is committed.
 */
export function expectFile(name: string, output: string): void {
  const file = fileURLToPath(new URL(`expected/${name}.txt`, import.meta.url));
  const text = output.replaceAll(`"${version}"`, '"VERSION"');
  if (process.env["POISE_DRAW"] === "1") writeFileSync(file, text);
  expect(text).toBe(readFileSync(file, "utf8"));
}
