import * as lsp from "vscode-languageserver";
import { type Token, tokenModifiers, tokenTypes } from "../features/line-tokens";
import { tokens } from "../features/tokens";
import { type Project, sourceOf } from "../project";
import { pathOf } from "./uris";

export const tokenLegend: lsp.SemanticTokensLegend = {
  tokenTypes: [...tokenTypes],
  tokenModifiers: [...tokenModifiers],
};

export interface TokenAnswers {
  readonly whole: (project: Project, uri: string) => lsp.SemanticTokens;
  /** What is new since an answer, or all where that one is forgotten. */
  readonly since: (
    project: Project,
    uri: string,
    before: string,
  ) => lsp.SemanticTokens | lsp.SemanticTokensDelta;
  readonly some: (project: Project, uri: string, rows: lsp.Range) => lsp.SemanticTokens;
  readonly forget: (uri: string) => void;
}

/**
 * Editors ask for all tokens after every key. In longer files that would keep findings waiting; they
 * keep the colours they have without a server, which say the same but for what is struck out.
 */
const MOST_LINES = 10_000;

/** The tokens of open documents as editors want them: each by how far it stands from the one before. */
export function tokenAnswers(): TokenAnswers {
  const builders = new Map<string, lsp.SemanticTokensBuilder>();
  const all = (project: Project, uri: string) => {
    const path = pathOf(uri);
    const lines = sourceOf(project, path)?.lines.length ?? 0;
    return lines > MOST_LINES ? [] : tokens(project, path);
  };
  const builderOf = (uri: string) => {
    const known = builders.get(uri);
    if (known !== undefined) return known;
    const fresh = new lsp.SemanticTokensBuilder();
    builders.set(uri, fresh);
    return fresh;
  };
  return {
    whole: (project, uri) => {
      // a builder that built before keeps what it built
      const builder = new lsp.SemanticTokensBuilder();
      builders.set(uri, builder);
      return filled(builder, all(project, uri)).build();
    },
    since: (project, uri, before) => {
      const builder = builderOf(uri);
      builder.previousResult(before);
      return filled(builder, all(project, uri)).buildEdits();
    },
    some: (project, uri, rows) =>
      filled(new lsp.SemanticTokensBuilder(), tokens(project, pathOf(uri), rows)).build(),
    forget: uri => void builders.delete(uri),
  };
}

function filled(
  builder: lsp.SemanticTokensBuilder,
  found: readonly Token[],
): lsp.SemanticTokensBuilder {
  for (const { row, column, length, type, modifiers } of found) {
    const bits = modifiers.reduce((sum, it) => sum | (1 << tokenModifiers.indexOf(it)), 0);
    builder.push(row, column, length, tokenTypes.indexOf(type), bits);
  }
  return builder;
}
