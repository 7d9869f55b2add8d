import {
  type Disposable,
  LanguageStatusSeverity,
  l10n,
  languages,
  MarkdownString,
  StatusBarAlignment,
  Uri,
  window,
} from "vscode";
import type { Listener } from "./server";
import { type Root, type ServerState, stateDetail, statusText } from "./status-text";
import { whenSeen } from "./when-seen";

/** The aircraft's empty weight in the status bar; the server's state beside the language too. */
export function statusItems(): Omit<Listener, "pictureChanged"> & Disposable {
  let state: ServerState = "starting";
  let roots: readonly Root[] = [];
  let took: number | undefined;

  const bar = window.createStatusBarItem("poise.status", StatusBarAlignment.Left, 10);
  bar.name = l10n.t("Poise: Empty Weight");
  const language = languages.createLanguageStatusItem("poise.state", { language: "poise" });
  language.name = "Poise";

  const draw = () => {
    const { text, tooltip } = statusText(
      state,
      roots,
      window.activeTextEditor?.document.uri.toString(true),
      l10n.t,
    );
    bar.text = text;
    bar.tooltip = new MarkdownString(tooltip, true);
    bar.accessibilityInformation = { label: spoken(`${text}, ${tooltip}`) };
    bar.command = state === "stopped" ? "poise.restart" : "workbench.actions.view.problems";
    language.text = spoken(text);
    language.detail = stateDetail(state, took, l10n.t);
    language.busy = state === "starting";
    language.severity =
      state === "stopped" ? LanguageStatusSeverity.Warning : LanguageStatusSeverity.Information;
    language.command =
      state === "stopped"
        ? { command: "poise.restart", title: l10n.t("Restart") }
        : { command: "poise.log", title: l10n.t("Show Log") };
  };

  const detail = whenSeen(
    () => {
      language.detail = stateDetail(state, took, l10n.t);
    },
    READER_FOLLOWS,
    true,
  );
  const moves = window.onDidChangeActiveTextEditor(draw);
  draw();
  bar.show();

  return {
    serverIs(now) {
      state = now;
      // What a stopped server last said may no longer hold.
      if (now !== "running") roots = [];
      draw();
    },
    judgedIn(ms) {
      took = ms;
      detail.changed();
    },
    rootsAre(now) {
      roots = now.map(it => ({ ...it, file: asEditor(it.file), files: it.files.map(asEditor) }));
      draw();
    },
    dispose() {
      detail.stop();
      moves.dispose();
      bar.dispose();
      language.dispose();
    },
  };
}

/** Server and editor do not escape the same letters. */
const asEditor = (uri: string) => Uri.parse(uri).toString(true);

/** Milliseconds between two figures while somebody types: each is a message to the editor. */
const READER_FOLLOWS = 500;

/** Without icons and emphasis, for who listens. */
function spoken(text: string): string {
  return text.replace(/\$\([^)]*\) ?|\*/g, "");
}
