import type * as lsp from "vscode-languageserver";
import { type Base, changeHints } from "../features/change-hints";
import { hintKinds } from "../features/hint-figures";
import { type HintKind, hints } from "../features/hints";
import type { Project } from "../project";
import { hintOf } from "./to-lsp";
import { pathOf } from "./uris";

/** Which hints a user wants: those the setting `poise.inlayHints` does not switch off. */
export function hintsWanted(setting: unknown): ReadonlySet<HintKind> {
  const said = typeof setting === "object" && setting !== null ? setting : {};
  return new Set(hintKinds.filter(it => (said as Record<string, unknown>)[it] !== false));
}

export function hintAnswer(
  project: Project,
  { textDocument, range }: lsp.InlayHintParams,
  wanted: ReadonlySet<HintKind>,
  base?: Base,
): lsp.InlayHint[] {
  const path = pathOf(textDocument.uri);
  const changes = base ? changeHints(project, base, path, range) : [];
  return [...hints(project, path, range, wanted), ...changes].map(it => hintOf(project, it));
}
