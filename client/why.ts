import {
  Disposable,
  DocumentLink,
  EventEmitter,
  Location,
  l10n,
  languages,
  Range,
  type TextEditor,
  Uri,
  window,
  workspace,
} from "vscode";
import {
  addressOf,
  questionIn,
  type Target,
  type WhyAnswer,
  type WhyQuestion,
} from "./why-address";

/** Asks the language server; undefined: it is not running. */
export type Ask = (question: WhyQuestion) => Promise<WhyAnswer | null | undefined>;

export interface WhyDocuments extends Disposable {
  /** Shows how the figure at the cursor came about, or the one that a link names: menus pass other things. */
  show(question?: unknown): Promise<void>;
  /** What they show may have changed. */
  refresh(): void;
}

/**
 * Read-only documents of the scheme `poise-why`. Each asks again when the server has a new picture; what
 * stands behind a line leads to its source by a link, and by go to definition from anywhere on the line.
 */
export function whyDocuments(ask: Ask): WhyDocuments {
  const changed = new EventEmitter<Uri>();
  const answers = new Map<string, WhyAnswer>();
  const linksOf = (uri: Uri) => answers.get(uri.toString())?.links ?? [];

  const content = async (uri: Uri) => {
    const question = questionIn(uri);
    const answer = await ask(question);
    if (answer === undefined) return `${l10n.t("The language server is not running.")}\n`;
    if (answer === null) {
      answers.delete(uri.toString());
      return `${l10n.t("Nothing is called {0} any more.", question.path ?? "")}\n`;
    }
    answers.set(uri.toString(), answer);
    return answer.text;
  };

  const own = Disposable.from(
    changed,
    workspace.registerTextDocumentContentProvider(scheme, {
      onDidChange: changed.event,
      provideTextDocumentContent: content,
    }),
    languages.registerDocumentLinkProvider(
      { scheme },
      {
        provideDocumentLinks: ({ uri }) =>
          linksOf(uri).map(({ line, from, to, target }) => {
            const link = new DocumentLink(new Range(line, from, line, to), addressIn(target));
            link.tooltip = l10n.t("Go to its source");
            return link;
          }),
      },
    ),
    languages.registerDefinitionProvider(
      { scheme },
      {
        provideDefinition: ({ uri }, { line }) => {
          const target = linksOf(uri).find(it => it.line === line)?.target;
          return target && new Location(Uri.parse(target.uri), rangeOf(target));
        },
      },
    ),
    workspace.onDidCloseTextDocument(({ uri }) => answers.delete(uri.toString())),
  );

  return {
    async show(named) {
      const question = isQuestion(named) ? named : atCursor(window.activeTextEditor);
      const answer = question && (await ask(question));
      if (!answer) {
        const why =
          answer === undefined ? l10n.t("Place the cursor in a .poise file first.") : nothing();
        void window.showInformationMessage(why);
        return;
      }
      const document = await workspace.openTextDocument(Uri.from(addressOf(answer)));
      await window.showTextDocument(document, { preview: true });
    },
    refresh: () => {
      for (const { uri } of workspace.textDocuments) if (uri.scheme === scheme) changed.fire(uri);
    },
    dispose: () => own.dispose(),
  };
}

const scheme = "poise-why";
const nothing = () => l10n.t("Nothing with a figure stands here: place the cursor on a name.");

function atCursor(editor: TextEditor | undefined): WhyQuestion | undefined {
  if (editor?.document.languageId !== "poise") return undefined;
  const { line, character } = editor.selection.active;
  return { uri: editor.document.uri.toString(), position: { line, character } };
}

function isQuestion(it: unknown): it is WhyQuestion {
  return typeof it === "object" && it !== null && "uri" in it && typeof it.uri === "string";
}

function rangeOf({ range: { start, end } }: Target): Range {
  return new Range(start.line, start.character, end.line, end.character);
}

/** The editor opens a file at a line by what stands behind the #. */
function addressIn(target: Target): Uri {
  const { start } = target.range;
  return Uri.parse(target.uri).with({ fragment: `L${start.line + 1},${start.character + 1}` });
}
