import type * as lsp from "vscode-languageserver";
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
): lsp.InlayHint[] {
  return hints(project, pathOf(textDocument.uri), range, wanted).map(it => hintOf(project, it));
}
