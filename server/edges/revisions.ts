import { existsSync } from "node:fs";
import { join } from "node:path";
import { emptyProject, type Project, withFile } from "../project";
import { commitOf, filesOf, mergeBaseOf } from "./git";
import { WrongUse } from "./wrong-use";

/** Every build spec of a revision, named as if it stood in the folder. */
export function projectAt(folder: string, commit: string): Project {
  let project = emptyProject([folder]);
  for (const file of filesOf(folder, commit)) project = withFile(project, file);
  return project;
}

/** @param what what is read from one: "a trend is read from one" */
export function needsRepository(folder: string, what: string): void {
  if (!existsSync(join(folder, ".git")))
    throw new WrongUse(`this folder is in no git repository, and ${what}`);
}

/** Two revisions, or one and the working folder, and what they are called. */
export interface Ends {
  readonly base: string;
  readonly baseName: string;
  readonly head: string | undefined;
  readonly headName: string | undefined;
}

/** `A` alone, `A..B`, or `A...B`, which begins where B left A; an end that is left out is HEAD. */
export function endsOf(folder: string, first: string, second?: string): Ends {
  const found = /^(.+?)(\.{2,3})(.*)$/.exec(first);
  const dotted = second === undefined && found !== null;
  const [from, headName, dots] = dotted
    ? [found[1]!, found[3] || "HEAD", found[2]]
    : [first, second, undefined];
  const start = commitOf(folder, from);
  const head = headName === undefined ? undefined : commitOf(folder, headName);
  const forked = dots === "...";
  return {
    base: forked ? mergeBaseOf(folder, start, head!) : start,
    baseName: forked ? `${from}...${headName}` : from,
    ...{ head, headName },
  };
}
