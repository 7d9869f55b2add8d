import { readFileSync } from "node:fs";
import { read, type Source } from "../../grammar/source";
import { readBytes } from "./bytes";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** A spec that is to be written to: its bytes, and its text as it stands with all its ends of lines. */
export interface SpecFile {
  readonly path: string;
  readonly bytes: Buffer;
  readonly text: string;
  readonly source: Source;
}

/** A file with errors in its text is left alone. */
export function specAt(path: string): SpecFile {
  const bytes = readFileSync(path);
  const source = readBytes(path, bytes);
  if ("unreadable" in source) throw new WrongUse(`${shownPath(path)} ${source.unreadable}`);
  if (source.faulty.length > 0 || source.braceFaults.length > 0)
    throw new WrongUse(
      `${shownPath(path)} has errors in its text: poise check shows them; it is left alone`,
    );
  const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
  return { path, bytes, text, source };
}

/** What is written can be read again, or nothing is. */
export function sound(path: string, text: string): string {
  const { faulty, braceFaults } = read(path, text);
  const [fault] = [...faulty.flatMap(it => it.faults), ...braceFaults];
  if (fault) throw new Error(`the spec it made does not read: ${fault.message}`);
  return text;
}
