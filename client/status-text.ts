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
  /** The root's file, as a URI or a path. */
  readonly file: string;
  readonly emptyWeight: string;
  readonly cg?: string;
  readonly complete: boolean;
  readonly errors: number;
  readonly warnings: number;
}

/** `active` is the URI of the file being edited: its own aircraft goes first. */
export function statusText(
  state: ServerState,
  roots: readonly Root[],
  active: string | undefined,
  say: Say,
): StatusText {
  if (state !== "running") return stateText(state, say);

  const design = nearest(
    roots.filter(root => root.airframe === undefined),
    active,
  );
  const shown = design ?? nearest(roots, active);
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

function weightOf({ name, emptyWeight, complete }: Root, say: Say): string {
  return complete ? `${name} ${emptyWeight}` : say("{0} {1}, incomplete", name, emptyWeight);
}

function described(root: Root, say: Say): string {
  const name = root.airframe === undefined ? root.name : `${root.name}, ${root.airframe}`;
  const lines = [
    `**${name}**`,
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

/** The root that shares the longest run of folders with the active file; the first among equals. */
function nearest(roots: readonly Root[], active: string | undefined): Root | undefined {
  if (active === undefined) return roots[0];
  let best = roots[0];
  for (const root of roots)
    if (best && sharedFolders(best.file, active) < sharedFolders(root.file, active)) best = root;
  return best;
}

// A path may be relative to the workspace, so folders are counted where the active file's end.
function sharedFolders(file: string, active: string): number {
  const folders = file.split("/").slice(0, -1);
  for (let depth = folders.length; 0 < depth; depth--)
    if (`/${active}`.includes(`/${folders.slice(0, depth).join("/")}/`)) return depth;
  return 0;
}
