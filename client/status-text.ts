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
): StatusText {
  if (state !== "running") return states[state];

  const design = nearest(
    roots.filter(root => root.airframe === undefined),
    active,
  );
  const shown = design ?? nearest(roots, active);
  if (!shown) return { text: "$(law) Poise", tooltip: `No aircraft in this workspace yet.` };

  const others = roots.filter(root => root !== shown);
  return {
    text: `$(law) ${weightOf(shown)}`,
    tooltip: [
      described(shown),
      ...others.map(described),
      "A calculated weight is not a weighing.",
    ].join("\n\n"),
  };
}

const states = {
  starting: { text: "$(sync~spin) Poise", tooltip: "The language server is starting." },
  stopped: {
    text: "$(circle-slash) Poise stopped",
    tooltip: "The language server is not running. Select to restart it.",
  },
} as const satisfies Record<Exclude<ServerState, "running">, StatusText>;

function weightOf(root: Root): string {
  return `${root.name} ${root.emptyWeight}${root.complete ? "" : ", incomplete"}`;
}

function described(root: Root): string {
  const name = root.airframe === undefined ? root.name : `${root.name}, ${root.airframe}`;
  const lines = [
    `**${name}**`,
    `basic empty weight ${root.emptyWeight}`,
    root.cg === undefined ? "CG not known" : `CG at ${root.cg}`,
    ...(root.complete ? [] : ["incomplete: a mass or an arm is not known yet"]),
    counted(root),
  ];
  return lines.join("  \n");
}

function counted({ errors, warnings }: Root): string {
  return `${plural(errors, "error")}, ${plural(warnings, "warning")}`;
}

function plural(count: number, noun: string): string {
  return `${count === 0 ? "no" : count} ${noun}${count === 1 ? "" : "s"}`;
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
