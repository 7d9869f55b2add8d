import { read } from "../../grammar/source";
import type { SourceFile } from "../project";

/** Of a file that is read. */
export const LARGEST = 64 * 2 ** 20;

/** A file's text, or in words why its bytes are none. */
export function readBytes(path: string, bytes: Uint8Array): SourceFile {
  if (bytes.length > LARGEST) return { path, unreadable: "is larger than 64 MB" };
  const nul = bytes.indexOf(0);
  if (nul >= 0) return { path, unreadable: `holds a NUL byte at ${nul}, so it is not a text file` };
  try {
    return read(path, new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return { path, unreadable: `is not UTF-8 text${badByte(bytes)}` };
  }
}

/** Where the first character begins that UTF-8 does not have, or that the end of the text cuts short. */
function badByte(bytes: Uint8Array): string {
  const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
  const mended = new TextEncoder().encode(text);
  let at = 0;
  while (at < bytes.length - 1 && bytes[at] === mended[at]) at++;
  return ` (byte 0x${bytes[at]!.toString(16).toUpperCase().padStart(2, "0")} at ${at})`;
}
