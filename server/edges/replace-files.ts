import {
  chmodSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** A file with what stood in it when it was read, and what is to stand in it. */
export interface Replacement {
  readonly path: string;
  readonly before: Buffer;
  /** Undefined: it stays, and the others rest on what stands in it. */
  readonly text: string | undefined;
}

/**
 * Puts new texts in the place of the old ones, each at once: whoever reads a file meanwhile sees the one or
 * the other. Where one of them has changed on the disk since it was read, none is written.
 */
export function replaceFiles(replacements: readonly Replacement[]): void {
  const written: { readonly fresh: string; readonly target: string }[] = [];
  try {
    for (const { path, text } of replacements) {
      if (text === undefined) continue;
      // a link keeps leading where it led
      const target = realpathSync(path);
      const fresh = join(dirname(target), `.${basename(target)}.${process.pid}.new`);
      written.push({ fresh, target });
      writeFileSync(fresh, text, { flag: "wx" });
      chmodSync(fresh, statSync(target).mode);
    }
    for (const { path, before } of replacements)
      if (!readFileSync(path).equals(before))
        throw new WrongUse(
          `${shownPath(path)} has changed on the disk since it was read: nothing is written`,
        );
    for (const { fresh, target } of written) renameSync(fresh, target);
  } catch (error) {
    for (const { fresh } of written) rmSync(fresh, { force: true });
    throw error;
  }
}
