import type { SourceFile } from "../project";
import { LARGEST, readBytes } from "./bytes";
import { isIn, pathOf, uriOf } from "./uris";
import type { DiskFor } from "./workspace";

/** What an editor answers about a file system that only it can read. */
export interface Editor {
  /** `poise/read`: the bytes in base64, or why there are none. */
  readonly read: (question: { readonly uri: string; readonly most: number }) => Promise<Content>;
  /** `poise/list`: what stands in a folder; links to folders are left out. */
  readonly list: (question: { readonly uri: string }) => Promise<readonly Entry[]>;
}

export type Content =
  | { readonly base64: string }
  | { readonly none: "missing" | "folder" | "large" | "closed" };

export interface Entry {
  readonly uri: string;
  readonly folder: boolean;
}

/**
 * The editor's files: those of a browser, of a repository that was never cloned. What it said last is
 * what is known; a first question for a file or folder is asked by itself, and later ones by `look`.
 */
export function askedDisk({ read, list }: Editor): DiskFor {
  return changed => {
    const known = new Map<string, SourceFile>();
    /** How often each was asked for. */
    const turns = new Map<string, number>();
    const folders = new Set<string>();
    /** First questions that are not answered yet. */
    let waiting = 0;

    const asked = async (path: string) => {
      const turn = (turns.get(path) ?? 0) + 1;
      turns.set(path, turn);
      const question = { uri: uriOf(path), most: LARGEST };
      const content = await read(question).catch((): Content => ({ none: "closed" }));
      // an answer may come in after that to a later question
      if (turns.get(path) === turn) known.set(path, sourceIn(path, content));
    };
    const walked = async (folder: string): Promise<void> => {
      const entries = await list({ uri: uriOf(folder) }).catch(() => []);
      await Promise.all(
        entries.flatMap(it => {
          const path = pathOf(it.uri);
          const name = path.split("/").at(-1)!;
          if (name.startsWith(".") || name === "node_modules") return [];
          const spec = name.endsWith(".poise") ? [asked(path)] : [];
          return it.folder ? [...spec, walked(path)] : spec;
        }),
      );
    };
    const first = (path: string, answer: Promise<void>) => {
      waiting++;
      void answer.then(() => {
        waiting--;
        changed([path]);
      });
    };
    const again = async (path: string) => {
      const below = [...known.keys()].filter(it => isIn(it, path));
      const files = path.endsWith(".poise") ? new Set([path, ...below]) : below;
      await Promise.all([...files].map(asked));
      // a folder that goes may have got another name
      if (below.some(it => it !== path) || folders.has(path))
        await Promise.all([...folders].filter(it => isIn(path, it)).map(walked));
    };

    return {
      file: path => {
        const before = known.get(path);
        if (before !== undefined) return before;
        const unknown: SourceFile = { path, unreadable: "does not exist" };
        known.set(path, unknown);
        first(path, asked(path));
        return unknown;
      },
      folder: folder => {
        if (!folders.has(folder)) {
          folders.add(folder);
          first(folder, walked(folder));
        }
        return [...known.values()].filter(it => isIn(it.path, folder) && !isMissing(it));
      },
      look: paths => void Promise.all(paths.map(again)).then(() => changed(paths)),
      settled: () => waiting === 0,
    };
  };
}

function isMissing(file: SourceFile): boolean {
  return "unreadable" in file && file.unreadable === reasons.missing;
}

function sourceIn(path: string, content: Content): SourceFile {
  if ("none" in content) return { path, unreadable: reasons[content.none] };
  return readBytes(
    path,
    Uint8Array.from(atob(content.base64), it => it.charCodeAt(0)),
  );
}

const reasons = {
  missing: "does not exist",
  folder: "is a folder",
  large: "is larger than 64 MB",
  closed: "cannot be read",
} as const;
