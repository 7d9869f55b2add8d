import type { Say } from "./say";

/** What the status bar says, as plain data: `client/status.ts` puts it on the screen. */
export interface StatusText {
  readonly text: string;
  /** Markdown, with codicons. */
  readonly tooltip: string;
}

export type ServerState = "starting" | "running" | "stopped";

/** One judged aircraft: the design, or an airframe of it. Figures come formatted, with their unit. */
export interface Root {
  readonly name: string;
  readonly airframe?: string;
  /** Where it is declared, a URI. */
  readonly file: string;
  /** Of a design all that it is written in, of an airframe its own. */
  readonly files: readonly string[];
  readonly emptyWeight: string;
  readonly cg?: string;
  readonly complete: boolean;
  readonly errors: number;
  readonly warnings: number;
}

/** `active` is the URI of the file being edited: the aircraft it belongs to goes first. */
export function statusText(
  state: ServerState,
  roots: readonly Root[],
  active: string | undefined,
  say: Say,
): StatusText {
  if (state !== "running") return stateText(state, say);

  const shown = shownOf(roots, active);
  if (!shown) return { text: "$(law) Poise", tooltip: say("No aircraft in this workspace yet.") };

  const others = roots.filter(root => root !== shown);
  return {
    text: `$(law) ${weightOf(shown, say)}`,
    tooltip: [
      described(shown, say),
      ...others.map(it => described(it, say)),
      say("A calculated weight is not a weighing."),
    ].join("\n\n"),
  };
}

/** What stands beside the language: the server's state, and how long it took over the last change. */
export function stateDetail(state: ServerState, ms: number | undefined, say: Say): string {
  if (state === "starting") return say("language server starting");
  if (state === "stopped") return say("language server stopped");
  if (ms === undefined) return say("language server running");
  return say("language server running, last judged in {0} ms", ms < 1 ? "<1" : Math.round(ms));
}

function stateText(state: Exclude<ServerState, "running">, say: Say): StatusText {
  if (state === "starting")
    return { text: "$(sync~spin) Poise", tooltip: say("The language server is starting.") };
  return {
    text: `$(circle-slash) ${say("Poise stopped")}`,
    tooltip: say("The language server is not running. Select to restart it."),
  };
}

const nameOf = ({ name, airframe }: Root) =>
  airframe === undefined ? name : `${name}, ${airframe}`;

function weightOf(root: Root, say: Say): string {
  const { emptyWeight, complete } = root;
  const name = nameOf(root);
  return complete ? `${name} ${emptyWeight}` : say("{0} {1}, incomplete", name, emptyWeight);
}

function described(root: Root, say: Say): string {
  const lines = [
    `**${nameOf(root)}**`,
    say("basic empty weight {0}", root.emptyWeight),
    root.cg === undefined ? say("CG not known") : say("CG at {0}", root.cg),
    ...(root.complete ? [] : [say("incomplete: a mass or an arm is not known yet")]),
    `${errorsText(root.errors, say)}, ${warningsText(root.warnings, say)}`,
  ];
  return lines.join("  \n");
}

function errorsText(count: number, say: Say): string {
  if (count === 0) return say("no errors");
  return count === 1 ? say("1 error") : say("{0} errors", count);
}

function warningsText(count: number, say: Say): string {
  if (count === 0) return say("no warnings");
  return count === 1 ? say("1 warning") : say("{0} warnings", count);
}

/** What is declared in the active file, else what it is a part of; a design before its airframes. */
function shownOf(roots: readonly Root[], active: string | undefined): Root | undefined {
  const inOrder = [
    ...roots.filter(it => it.airframe === undefined),
    ...roots.filter(it => it.airframe !== undefined),
  ];
  if (active === undefined) return inOrder[0];
  return (
    inOrder.find(it => it.file === active) ??
    inOrder.find(it => it.files.includes(active)) ??
    nearest(inOrder, active)
  );
}

/** For a file that no aircraft includes: the one that shares most folders with it; the first among equals. */
function nearest(roots: readonly Root[], active: string): Root | undefined {
  let best = roots[0];
  for (const root of roots)
    if (best && sharedFolders(best.file, active) < sharedFolders(root.file, active)) best = root;
  return best;
}

function sharedFolders(file: string, active: string): number {
  const folders = file.split("/").slice(0, -1);
  const own = active.split("/").slice(0, -1);
  const parts = folders.findIndex((it, depth) => it !== own[depth]);
  return parts < 0 ? folders.length : parts;
}
