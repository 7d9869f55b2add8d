import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { expect } from "vitest";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

/**
 * Spec text, and under a line what is coloured there:
 *
 *     part spar weighed 4 lb
 *  // ^^^^ storage.type.part
 *  //      ^^^^ entity.name.type.part
 *
 * Carets mark the whole stretch that carries a scope: one column more or less is a failure.
 */
export function shows(fixture: string): void {
  expect(drawn(fixture)).toBe(fixture);
}

/** The scopes of the last such word of one line: the innermost last, without `source.poise` and endings. */
export function scopesOf(line: string, word: string): string[] {
  const from = line.lastIndexOf(word);
  const { tokens } = grammar.tokenizeLine(line, textmate.INITIAL);
  const found = tokens.find(token => token.startIndex <= from && from < token.endIndex);
  expect(line.slice(found?.startIndex, found?.endIndex).trim()).toBe(word);
  return (found?.scopes ?? []).slice(1).map(withoutEnding);
}

/** What of a file has no scope but the file's own; at its end also a block left open. */
export function uncoloured(text: string): string[] {
  let stack = textmate.INITIAL;
  const bare = text.split("\n").flatMap(line => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
    stack = ruleStack;
    return tokens
      .filter(token => token.scopes.length < 2)
      .map(token => line.slice(token.startIndex, token.endIndex).trim())
      .filter(word => word !== "");
  });
  return 1 < stack.depth ? [...bare, "a block left open"] : bare;
}

/** The scopes at a place of a text, rows and columns from 0; without endings. */
export function scopesIn(text: string): (row: number, column: number) => readonly string[] {
  let stack = textmate.INITIAL;
  const rows = text.split("\n").map(line => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
    stack = ruleStack;
    return tokens;
  });
  return (row, column) => {
    const token = rows[row]?.find(it => it.startIndex <= column && column < it.endIndex);
    return (token?.scopes ?? []).map(withoutEnding);
  };
}

const remark = /^( *\/\/ *)(\^+) (.+)$/;

function drawn(fixture: string): string {
  let stack = textmate.INITIAL;
  let line = "";
  let tokens: readonly { startIndex: number; endIndex: number; scopes: string[] }[] = [];
  return fixture
    .split("\n")
    .map(row => {
      const [, lead, carets, scope] = remark.exec(row) ?? [];
      if (!lead || !carets || !scope) {
        line = row;
        const result = grammar.tokenizeLine(row, stack);
        stack = result.ruleStack;
        tokens = result.tokens;
        return row;
      }
      const from = lead.length;
      const carries = (column: number) =>
        column < line.length &&
        tokens.some(
          token =>
            token.startIndex <= column &&
            column < token.endIndex &&
            token.scopes.map(withoutEnding).includes(scope),
        );
      if (!carries(from)) return `${lead}${carets} ${innermost(tokens, from)}`;
      let start = from;
      while (carries(start - 1)) start--;
      let end = from;
      while (carries(end)) end++;
      return start < from
        ? `${lead}${carets} ${scope} began at column ${start}`
        : `${lead}${"^".repeat(end - start)} ${scope}`;
    })
    .join("\n");
}

function innermost(
  tokens: readonly { startIndex: number; endIndex: number; scopes: string[] }[],
  column: number,
): string {
  const token = tokens.find(it => it.startIndex <= column && column < it.endIndex);
  return token ? withoutEnding(token.scopes.at(-1) ?? "") : "nothing";
}

function withoutEnding(scope: string): string {
  return scope.replace(/\.poise$/, "");
}

const require = createRequire(import.meta.url);
await oniguruma.loadWASM(readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm")));

const registry = new textmate.Registry({
  onigLib: Promise.resolve({
    createOnigScanner: patterns => new oniguruma.OnigScanner(patterns),
    createOnigString: text => new oniguruma.OnigString(text),
  }),
  loadGrammar: async () => {
    const file = new URL("../../grammar/poise.tmLanguage.json", import.meta.url);
    return textmate.parseRawGrammar(readFileSync(file, "utf8"), "poise.tmLanguage.json");
  },
});
const grammar = (await registry.loadGrammar("source.poise"))!;
