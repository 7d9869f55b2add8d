import * as lsp from "vscode-languageserver";
import { actions } from "../features/actions";
import { fileOffers, offersAt } from "../features/refactor";
import { proved } from "../features/refactor/proof";
import type { Offer, Rewrite } from "../features/refactor/rewrite";
import type { Project } from "../project";
import { localDate } from "./options";
import { actionOf } from "./to-lsp";
import { pathOf, uriOf } from "./uris";

const kinds: Readonly<Record<Offer["kind"], string>> = {
  extract: lsp.CodeActionKind.RefactorExtract,
  inline: lsp.CodeActionKind.RefactorInline,
  rewrite: lsp.CodeActionKind.RefactorRewrite,
  move: `${lsp.CodeActionKind.Refactor}.move`,
  units: `${lsp.CodeActionKind.Source}.units`,
  fixAll: `${lsp.CodeActionKind.SourceFixAll}.poise`,
};

export const actionKinds = [lsp.CodeActionKind.QuickFix, ...Object.values(kinds)];

/** What an editor can do with an edit. */
export interface EditorEdits {
  /** It asks for an action's edit when it is chosen. */
  readonly asksLater: boolean;
  /** It makes and removes files. */
  readonly files: boolean;
  /** It shows an edit first and asks, where it is told to. */
  readonly asksFirst: boolean;
}

export function editorEdits({ workspace, textDocument }: lsp.ClientCapabilities): EditorEdits {
  const {
    documentChanges,
    resourceOperations = [],
    changeAnnotationSupport,
  } = workspace?.workspaceEdit ?? {};
  const later = textDocument?.codeAction;
  return {
    asksLater:
      later?.dataSupport === true && later.resolveSupport?.properties.includes("edit") === true,
    files:
      documentChanges === true &&
      resourceOperations.includes("create") &&
      resourceOperations.includes("delete"),
    asksFirst: documentChanges === true && changeAnnotationSupport !== undefined,
  };
}

/** Which offer an action is, to be found again when it is chosen. */
interface Chosen {
  readonly uri: string;
  readonly position: lsp.Position;
  readonly title: string;
}

/** Quick fixes with their edits; what rewrites the text without them, for an editor that asks later. */
export function actionsAnswer(
  project: Project,
  { textDocument: { uri }, range, context: { only } }: lsp.CodeActionParams,
  editor: EditorEdits,
): lsp.CodeAction[] {
  const wants = (kind: string) =>
    only?.some(it => kind === it || kind.startsWith(`${it}.`) || it === "") ?? true;
  const path = pathOf(uri);
  const fixes = wants(lsp.CodeActionKind.QuickFix)
    ? actions(project, path, range).map(it => actionOf(project, it))
    : [];
  // what is of a whole file is not offered at every place
  const whole = only?.some(it => it.startsWith(lsp.CodeActionKind.Source))
    ? fileOffers(project, path)
    : [];
  const offers = [...offersAt(project, path, range.start, localDate(new Date())), ...whole];
  return [
    ...fixes,
    ...offers
      .filter(it => wants(kinds[it.kind]))
      .flatMap((offer): readonly lsp.CodeAction[] => {
        const { title, kind } = offer;
        const data: Chosen = { uri, position: range.start, title };
        if (editor.asksLater) return [{ title, kind: kinds[kind], data }];
        const edit = editFor(project, offer, editor);
        return typeof edit === "string" ? [] : [{ title, kind: kinds[kind], edit }];
      }),
  ];
}

/** The edit of an action that was chosen, or in words why there is none. */
export function chosenEdit(
  project: Project,
  chosen: unknown,
  editor: EditorEdits,
): lsp.WorkspaceEdit | string {
  const { uri, position, title } = chosen as Chosen;
  const path = pathOf(uri);
  const offer = [
    ...offersAt(project, path, position, localDate(new Date())),
    ...fileOffers(project, path),
  ].find(it => it.title === title);
  return offer ? editFor(project, offer, editor) : "the text has changed meanwhile";
}

function editFor(project: Project, offer: Offer, editor: EditorEdits): lsp.WorkspaceEdit | string {
  const result = proved(project, offer);
  if ("refused" in result) return result.refused;
  const { rewrite, differences } = result;
  const { created = [], deleted = [] } = rewrite;
  if (!editor.files && created.length + deleted.length > 0)
    return "this editor makes and removes no files";
  return workspaceEdit(rewrite, editor, differences);
}

/** What is not quite as it was stands beside the edit, and the editor asks before it makes it. */
export function workspaceEdit(
  { edits, created = [], deleted = [] }: Rewrite,
  { files, asksFirst }: EditorEdits,
  differences: readonly string[],
): lsp.WorkspaceEdit {
  const ask = asksFirst && differences.length > 0;
  const note = ask ? { annotationId: "differences" } : {};
  const byFile = new Map<string, lsp.TextEdit[]>();
  for (const { path, start, end, text } of edits) {
    const uri = uriOf(path);
    if (!byFile.has(uri)) byFile.set(uri, []);
    byFile.get(uri)!.push({ range: { start, end }, newText: text, ...note });
  }
  if (!files && !ask) return { changes: Object.fromEntries(byFile) };
  const top = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  return {
    documentChanges: [
      ...created.flatMap(({ path, text }) => [
        { kind: "create" as const, uri: uriOf(path) },
        {
          textDocument: { uri: uriOf(path), version: null },
          edits: [{ range: top, newText: text }],
        },
      ]),
      ...[...byFile].map(([uri, own]) => ({
        textDocument: { uri, version: null },
        edits: own,
      })),
      ...deleted.map(path => ({ kind: "delete" as const, uri: uriOf(path) })),
    ],
    ...(ask
      ? {
          changeAnnotations: {
            differences: {
              label: "Figures rewritten",
              needsConfirmation: true,
              description: differences.join("; "),
            },
          },
        }
      : {}),
  };
}
