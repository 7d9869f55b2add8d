import { InputBoxValidationSeverity, l10n, window } from "vscode";
import { applied, type Edits } from "./edits";

/** Asks the language server; undefined: it is not running. */
type Ask = <Answer>(method: string, params: object) => Promise<Answer | undefined>;

interface Tried {
  readonly path: string;
  readonly now: string;
  readonly said: string;
  readonly severity: "information" | "warning" | "error";
  readonly edit: Edits | null;
}
/** Says while you type what another value at the cursor would do; Enter asks what becomes of it. */
export function trying(
  ask: Ask,
  show: (question: { readonly uri: string; readonly path: string }) => Promise<void>,
): () => Promise<void> {
  return async () => {
    const editor = window.activeTextEditor;
    const uri = editor?.document.uri.toString();
    const { line, character } = editor?.selection.active ?? { line: 0, character: 0 };
    const found =
      uri && (await ask<Tried | null>("poise/try", { uri, position: { line, character } }));
    if (!uri || !found) {
      void window.showInformationMessage(
        l10n.t("Place the cursor on a part, a let or a choice first."),
      );
      return;
    }
    const { path, now } = found;
    const tried = (value: string) => ask<Tried | null>("poise/try", { uri, path, value });
    const value = await window.showInputBox({
      ...{ title: path, value: now, ignoreFocusOut: true },
      prompt: l10n.t("Now {0}. A figure, a place as FS … or an option: no file is touched", now),
      validateInput: async text => {
        if (text.trim() === "" || text.trim() === now) return undefined;
        const answer = await tried(text);
        return answer && { message: answer.said, severity: severities[answer.severity] };
      },
    });
    if (value === undefined || value.trim() === "" || value.trim() === now) return;
    const answer = await tried(value);
    if (!answer?.edit) return;
    await decide(answer, { uri, path: `${path} = ${value.trim()}` }, show);
  };
}

async function decide(
  { said, edit }: Tried,
  question: { readonly uri: string; readonly path: string },
  show: (question: { readonly uri: string; readonly path: string }) => Promise<void>,
): Promise<void> {
  const [all, keep, drop] = [
    l10n.t("Show all that changes"),
    l10n.t("Keep it: write it into the file"),
    l10n.t("Drop it"),
  ];
  for (;;) {
    const picked = await window.showQuickPick([all, keep, drop], {
      ...{ title: question.path, placeHolder: said, ignoreFocusOut: true },
    });
    if (picked === keep && edit) await applied(edit);
    if (picked !== all) return;
    await show(question);
  }
}

const severities = {
  information: InputBoxValidationSeverity.Info,
  warning: InputBoxValidationSeverity.Warning,
  error: InputBoxValidationSeverity.Error,
} as const;
