import { l10n, Uri, window, workspace } from "vscode";

/** Asks the language server; undefined: it does not run. */
type Ask = <Answer>(method: string, params: object) => Promise<Answer | undefined>;

interface Answer {
  readonly units: readonly string[];
  readonly mostSeats: number;
  readonly file: { readonly name: string; readonly text: string } | null;
}

/** Asks for a name, units and seats, writes a sound spec with placeholders, and opens it. */
export function newAircraft(ask: Ask): () => Promise<void> {
  return async () => {
    const choices = await ask<Answer>("poise/new", {});
    if (!choices) {
      void window.showWarningMessage(l10n.t("The language server is not running."));
      return;
    }
    const title = await window.showInputBox({
      title: l10n.t("New aircraft (1 of 3)"),
      prompt: l10n.t("What is it called?"),
      placeHolder: "Kite 2",
      ignoreFocusOut: true,
      validateInput: text => (text.trim() === "" ? l10n.t("A name is needed.") : undefined),
    });
    if (title === undefined) return;
    const units = await window.showQuickPick([...choices.units], {
      title: l10n.t("New aircraft (2 of 3)"),
      placeHolder: l10n.t("In which units are its figures written?"),
      ignoreFocusOut: true,
    });
    if (units === undefined) return;
    const counts = Array.from({ length: choices.mostSeats }, (_, i) => String(i + 1));
    const seats = await window.showQuickPick(counts, {
      title: l10n.t("New aircraft (3 of 3)"),
      placeHolder: l10n.t("How many seats has it?"),
      ignoreFocusOut: true,
    });
    if (seats === undefined) return;
    const question = { title: title.trim(), units, seats: Number(seats) };
    const file = (await ask<Answer>("poise/new", question))?.file;
    if (file) await opened(file);
  };
}

/** In the folder that is open or picked, under a name that is free; without a folder as a text not saved yet. */
async function opened({ name, text }: NonNullable<Answer["file"]>): Promise<void> {
  const folders = workspace.workspaceFolders ?? [];
  const folder = folders.length > 1 ? await window.showWorkspaceFolderPick() : folders[0];
  if (folders.length === 0) {
    const document = await workspace.openTextDocument({ language: "poise", content: text });
    await window.showTextDocument(document);
    return;
  }
  if (folder === undefined) return;
  const file = await freeIn(folder.uri, name);
  await workspace.fs.writeFile(file, new TextEncoder().encode(text));
  await window.showTextDocument(file);
}

async function freeIn(folder: Uri, name: string): Promise<Uri> {
  for (let nth = 1; ; nth++) {
    const file = Uri.joinPath(folder, nth === 1 ? name : name.replace(/\.poise$/, `-${nth}.poise`));
    const there = await workspace.fs.stat(file).then(
      () => true,
      () => false,
    );
    if (!there) return file;
  }
}
