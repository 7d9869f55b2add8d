import { fileURLToPath, pathToFileURL } from "node:url";
import { plainPath } from "./disk";

/** A document as the core calls it: a file by its path, anything else (untitled:) by its address. */
export function pathOf(uri: string): string {
  if (!uri.startsWith("file:")) return uri;
  try {
    return plainPath(fileURLToPath(uri));
  } catch {
    return uri;
  }
}

export function uriOf(path: string): string {
  return path.startsWith("/") || /^[a-z]:/i.test(path) ? pathToFileURL(path).href : path;
}
