import { expect, test } from "vitest";
import manifest from "../../package.json";
import type { Token } from "../../server/features/line-tokens";
import { tokens } from "../../server/features/tokens";
import { emptyProject, withText } from "../../server/project";
import { cases } from "../grammar/cases";
import { specs } from "../grammar/specs";
import { scopesIn } from "./fixture";

const [contributed] = manifest.contributes.semanticTokenScopes;
const scopesBySelector: Readonly<Record<string, readonly string[]>> = contributed!.scopes;

/** The scopes an editor looks a token's colour up by. */
function scopesFor({ type, modifiers }: Token): readonly string[] {
  const selectors = [...modifiers.map(it => `${type}.${it}`), type];
  return selectors.flatMap(it => scopesBySelector[it] ?? []);
}

const texts = [...specs.values(), ...cases.flatMap(([, all]) => all.map(it => it.source))];
const tokensOf = (text: string) =>
  tokens(withText(emptyProject(["/"]), "/x.poise", text), "/x.poise");

/** Rows that mean what the letters around a word do not tell. */
const guesses = [
  "  scale at FS 139 reads 400 lb",
  "budget landing cap",
  "units kg, m, kg/m^3, in lb",
  "let a = .5 lb",
];

test("what the server says a word is, its colour without the server says too", () => {
  let count = 0;
  const others: string[] = [];
  for (const text of texts) {
    const scopesAt = scopesIn(text);
    const rows = text.split("\n");
    for (const token of tokensOf(text)) {
      const row = rows[token.row]!;
      if (guesses.includes(row)) continue;
      count++;
      const there = scopesAt(token.row, token.column);
      const fits = (wanted: string) =>
        there.some(it => it === wanted || it.startsWith(`${wanted}.`));
      if (!scopesFor(token).some(fits))
        others.push(`${row.slice(token.column).slice(0, token.length)} ${there} in ${row}`);
    }
  }
  expect(others).toEqual([]);
  expect(count).toBeGreaterThan(10_000);
});

test("a figure that was is struck out with the server as without it", () => {
  let struck = 0;
  // without an aircraft a record is overtaken only where it says so, which is all that colours can know
  for (const text of texts.map(it => it.replaceAll(/^aircraft /gm, "assembly "))) {
    const scopesAt = scopesIn(text);
    for (const { row, column, modifiers } of tokensOf(text)) {
      const old = modifiers.includes("deprecated");
      if (old) struck++;
      expect(scopesAt(row, column).includes("markup.strikethrough.history"), text).toBe(old);
    }
  }
  expect(struck).toBeGreaterThan(10);
});

test("no kind of word is left without a colour", () => {
  const all = texts.flatMap(tokensOf);
  for (const token of all) expect(scopesFor(token), JSON.stringify(token)).not.toEqual([]);
});
