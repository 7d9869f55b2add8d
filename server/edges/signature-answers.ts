import type * as lsp from "vscode-languageserver";
import { signatures } from "../features/signatures";
import type { Project } from "../project";
import { pathOf } from "./uris";

export const signatureOptions: lsp.SignatureHelpOptions = {
  triggerCharacters: ["(", ",", " "],
  retriggerCharacters: [" ", ",", "."],
};

export function signatureAnswer(
  project: Project,
  { textDocument, position, context }: lsp.SignatureHelpParams,
): lsp.SignatureHelp | null {
  // a blank is typed all the time: by itself it brings help only behind a keyword
  const first = context?.triggerCharacter === " " && context.isRetrigger !== true;
  const found = signatures(project, pathOf(textDocument.uri), position, first);
  if (found === undefined) return null;
  return {
    signatures: found.all.map(({ label, help, parameters }) => ({
      label,
      ...(help && { documentation: help }),
      parameters: parameters.map(({ from, to, help: of }) => ({
        label: [from, to],
        ...(of && { documentation: of }),
      })),
    })),
    activeSignature: found.active,
    activeParameter: found.parameter,
  };
}
