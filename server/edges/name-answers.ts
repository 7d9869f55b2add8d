import * as lsp from "vscode-languageserver";
import { highlights, references } from "../features/names";
import { renamable, rename } from "../features/rename";
import type { Project } from "../project";
import { type EditorEdits, workspaceEdit } from "./action-answers";
import { locationOf, rangeOf } from "./to-lsp";
import { pathOf } from "./uris";

export function referencesAnswer(
  project: Project,
  { textDocument, position, context }: lsp.ReferenceParams,
): lsp.Location[] {
  return references(project, pathOf(textDocument.uri), position)
    .filter(it => context.includeDeclaration || !it.declares)
    .map(({ at }) => locationOf(project, at));
}

export function highlightAnswer(
  project: Project,
  { textDocument, position }: lsp.DocumentHighlightParams,
): lsp.DocumentHighlight[] {
  return highlights(project, pathOf(textDocument.uri), position).map(({ at, declares }) => ({
    range: rangeOf(project, at),
    kind: declares ? lsp.DocumentHighlightKind.Write : lsp.DocumentHighlightKind.Read,
  }));
}

export function prepareRenameAnswer(
  project: Project,
  { textDocument, position }: lsp.PrepareRenameParams,
): lsp.PrepareRenameResult | null {
  const word = renamable(project, pathOf(textDocument.uri), position);
  return word ? { range: rangeOf(project, word), placeholder: word.text } : null;
}

/** The edit, or why there is none, as an answer that an editor shows. */
export function renameAnswer(
  project: Project,
  { textDocument, position, newName }: lsp.RenameParams,
  editor: EditorEdits,
): lsp.WorkspaceEdit | lsp.ResponseError {
  const result = rename(project, pathOf(textDocument.uri), position, newName);
  if ("refused" in result)
    return new lsp.ResponseError(lsp.LSPErrorCodes.RequestFailed, `${result.refused}.`);
  return workspaceEdit(result, editor, []);
}
