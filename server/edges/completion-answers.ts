import * as lsp from "vscode-languageserver";
import { completion } from "../features/completion";
import { explain } from "../features/completion/explain";
import type { Doc, Offer, OfferKind } from "../features/completion/offer";
import type { Project } from "../project";
import { localDate } from "./options";
import { pathOf } from "./uris";

/** Words are asked for as they are typed; these stand in front of one. */
export const completionProvider: lsp.CompletionOptions = {
  triggerCharacters: [".", "(", "-"],
  resolveProvider: true,
};

/** What an editor's list shows and inserts. */
export interface EditorList {
  readonly snippets: boolean;
  readonly labelDetails: boolean;
  readonly insertReplace: boolean;
  readonly markdown: boolean;
}

export function editorList({ textDocument }: lsp.ClientCapabilities): EditorList {
  const item = textDocument?.completion?.completionItem;
  return {
    snippets: item?.snippetSupport === true,
    labelDetails: item?.labelDetailsSupport === true,
    insertReplace: item?.insertReplaceSupport === true,
    markdown: item?.documentationFormat?.includes(lsp.MarkupKind.Markdown) === true,
  };
}

export function completionAnswer(
  project: Project,
  { textDocument, position }: lsp.CompletionParams,
  editor: EditorList,
): lsp.CompletionList {
  const today = localDate(new Date());
  const found = completion(project, pathOf(textDocument.uri), position, today);
  if (found === undefined) return { isIncomplete: false, items: [] };
  const { line, character } = position;
  const range = (offer: Offer, end: number): lsp.Range => ({
    start: { line, character: character - found.typed.length - (offer.back ?? 0) },
    end: { line, character: end },
  });
  return {
    isIncomplete: found.more,
    items: found.offers.map((offer, i): lsp.CompletionItem => {
      const { label, kind, detail, title, typedAs, doc } = offer;
      const asSnippet = editor.snippets && offer.snippet !== undefined;
      const newText = (asSnippet ? offer.snippet : offer.text) ?? label;
      const insert = range(offer, character);
      return {
        ...{ label, kind: kinds[kind], sortText: String(i).padStart(4, "0") },
        textEdit: editor.insertReplace
          ? { newText, insert, replace: range(offer, character + found.rest) }
          : { newText, range: insert },
        ...(asSnippet && { insertTextFormat: lsp.InsertTextFormat.Snippet }),
        ...(typedAs && { filterText: typedAs }),
        ...said(detail, title, editor),
        ...(doc && { data: doc }),
      };
    }),
  };
}

function said(
  detail: string | undefined,
  title: string | undefined,
  { labelDetails }: EditorList,
): Partial<lsp.CompletionItem> {
  if (labelDetails)
    return {
      labelDetails: {
        ...(detail && { detail: ` ${detail}` }),
        ...(title && { description: title }),
      },
    };
  const words = [detail, title].filter(Boolean).join(", ");
  return words ? { detail: words } : {};
}

/** With what there is to read about it. */
export function completionDocs(
  project: Project,
  item: lsp.CompletionItem,
  { markdown }: EditorList,
): lsp.CompletionItem {
  const value = item.data && explain(project, item.data as Doc);
  if (!value) return item;
  const kind = markdown ? lsp.MarkupKind.Markdown : lsp.MarkupKind.PlainText;
  return { ...item, documentation: { kind, value } };
}

const is = lsp.CompletionItemKind;
const kinds: Readonly<Record<OfferKind, lsp.CompletionItemKind>> = {
  keyword: is.Keyword,
  unit: is.Unit,
  function: is.Function,
  value: is.Constant,
  snippet: is.Snippet,
  assembly: is.Module,
  part: is.Field,
  place: is.Variable,
  side: is.EnumMember,
  loading: is.Struct,
  stage: is.Property,
  envelope: is.Interface,
  fluid: is.Value,
  choice: is.Enum,
  option: is.EnumMember,
  airframe: is.Class,
  code: is.Event,
};
