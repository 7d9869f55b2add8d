import { existsSync, watch } from "node:fs";
import { join } from "node:path";
import type { Base } from "../features/change-hints";
import { emptyProject, withFile } from "../project";
import type { BaseFor } from "./base";
import { commitOf, mergeBaseOf } from "./git";
import { whenResting } from "./refresh";
import { projectAt } from "./revisions";

/**
 * The folders' build specs at HEAD, or where HEAD left a branch. Read once typing rests, and again after a
 * commit; a folder without git, or where git cannot be had, has none. Nothing is written or fetched.
 */
export const gitBase: BaseFor = (folders, name, changed) => {
  let base: Base | undefined;
  let last = "";
  const own = folders.filter(it => existsSync(join(it, ".git")));
  const look = whenResting(() => {
    const commits = own.map(folder => commitIn(folder, name));
    if (commits.join() === last) return;
    last = commits.join();
    let project = emptyProject(folders);
    for (const [i, folder] of own.entries()) {
      const commit = commits[i];
      if (commit === undefined) continue;
      for (const file of projectAt(folder, commit).files.values())
        project = withFile(project, file);
    }
    base = project.files.size > 0 ? { name, project } : undefined;
    changed();
  });
  const watchers = own.flatMap(folder => {
    try {
      // a commit writes here whatever else it does
      return [watch(join(folder, ".git"), { persistent: false }, look)];
    } catch {
      return [];
    }
  });
  if (own.length > 0) look();
  return {
    now: () => base,
    stop: () => {
      for (const it of watchers) it.close();
    },
  };
};

function commitIn(folder: string, name: string): string | undefined {
  try {
    const head = commitOf(folder, "HEAD");
    return name === "HEAD" ? head : mergeBaseOf(folder, commitOf(folder, name), head);
  } catch {
    // no commit yet, no such branch, no git: there is nothing to compare with
    return undefined;
  }
}
