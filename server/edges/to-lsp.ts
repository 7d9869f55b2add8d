import * as lsp from "vscode-languageserver";
import { positionsOf } from "../../grammar/source";
import type { Span } from "../../grammar/tree";
import type { Action } from "../features/actions";
import type { Edit } from "../features/amend";
import type { Fold } from "../features/folding";
import type { TextEdit } from "../features/format";
import type { Hint } from "../features/hints";
import type { Link } from "../features/links";
import type { Range } from "../features/selection";
import type { Outline } from "../features/symbols";
import type { Finding, Severity } from "../findings";
import { type Project, sourceOf } from "../project";
import { uriOf } from "./uris";

/** The one file that speaks both vocabularies. */
export function rangeOf(project: Project, span: Span): lsp.Range {
  const source = sourceOf(project, span.line.file);
  const zero = { line: 0, character: 0 };
  return source ? positionsOf(source, span) : { start: zero, end: zero };
}

export function locationOf(project: Project, span: Span): lsp.Location {
  return { uri: uriOf(span.line.file), range: rangeOf(project, span) };
}

export function diagnosticOf(project: Project, finding: Finding): lsp.Diagnostic {
  return {
    range: rangeOf(project, finding.at),
    severity: severities[finding.severity],
    code: finding.code,
    source: "poise",
    message: finding.message,
    relatedInformation: finding.related.map(({ at, message }) => ({
      location: locationOf(project, at),
      message,
    })),
  };
}

export function actionOf(project: Project, { title, edits, finding }: Action): lsp.CodeAction {
  const diagnostics = [diagnosticOf(project, finding)];
  const edit = editOf(project, edits);
  return { title, kind: lsp.CodeActionKind.QuickFix, diagnostics, edit };
}

export function editOf(project: Project, edits: readonly Edit[]): lsp.WorkspaceEdit {
  const changes: Record<string, lsp.TextEdit[]> = {};
  for (const { at, text } of edits) {
    changes[uriOf(at.line.file)] ??= [];
    changes[uriOf(at.line.file)]!.push({ range: rangeOf(project, at), newText: text });
  }
  return { changes };
}

export function textEditOf({ start, end, text }: TextEdit): lsp.TextEdit {
  return { range: { start, end }, newText: text };
}

export function foldOf({ from, to, kind }: Fold): lsp.FoldingRange {
  const range = { startLine: from, endLine: to };
  if (kind === "block") return range;
  return { ...range, kind: kind === "comment" ? "comment" : "imports" };
}

/** Each range with the next one around it. */
export function selectionOf(steps: readonly Range[], at: lsp.Position): lsp.SelectionRange {
  let outer: lsp.SelectionRange | undefined;
  for (const range of steps.toReversed()) outer = outer ? { range, parent: outer } : { range };
  return outer ?? { range: { start: at, end: at } };
}

export function linkOf(project: Project, { at, file }: Link): lsp.DocumentLink {
  return { range: rangeOf(project, at), target: uriOf(file) };
}

export function hintOf(project: Project, { at, parts }: Hint): lsp.InlayHint {
  return {
    position: rangeOf(project, at).start,
    label: parts.map(({ text, refers, tooltip }) => ({
      value: text,
      ...(tooltip && { tooltip }),
      ...(refers && { location: locationOf(project, refers) }),
    })),
    paddingLeft: true,
  };
}

export const severities: Readonly<Record<Severity, lsp.DiagnosticSeverity>> = {
  error: lsp.DiagnosticSeverity.Error,
  warning: lsp.DiagnosticSeverity.Warning,
  info: lsp.DiagnosticSeverity.Information,
};

export function symbolOf(project: Project, outline: Outline): lsp.DocumentSymbol {
  return {
    name: outline.name,
    detail: outline.detail,
    kind: symbolKinds[outline.kind],
    range: {
      start: rangeOf(project, outline.whole[0]).start,
      end: rangeOf(project, outline.whole[1]).end,
    },
    selectionRange: rangeOf(project, outline.at),
    children: outline.inside.map(it => symbolOf(project, it)),
  };
}

export const symbolKinds: Readonly<Record<Outline["kind"], lsp.SymbolKind>> = {
  assembly: lsp.SymbolKind.Module,
  part: lsp.SymbolKind.Object,
  place: lsp.SymbolKind.Field,
  value: lsp.SymbolKind.Constant,
  rule: lsp.SymbolKind.Event,
};
