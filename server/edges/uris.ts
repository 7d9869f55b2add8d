/**
 * A document as the core calls it: a file on a disk by its path, one of another file system by its
 * address with its path unescaped, so that an include leads from one to the next. Anything else
 * (untitled:, what cannot be unescaped without a doubt) by its address as it is.
 */
export function pathOf(uri: string): string {
  const [, scheme, host, escaped] = /^([a-z][\w+.-]*):\/\/([^/?#]*)(\/[^?#]*)$/i.exec(uri) ?? [];
  const path = escaped && unescaped(escaped);
  if (path === undefined) return uri;
  if (scheme !== "file") return /[?#%]/.test(path) ? uri : `${scheme}://${host}${path}`;
  if (host) return `//${host}${path}`;
  return /^\/[a-z]:/i.test(path) ? path.slice(1) : path;
}

export function uriOf(path: string): string {
  if (path.startsWith("//")) return `file:${encoded(path)}`;
  if (path.startsWith("/")) return `file://${encoded(path)}`;
  if (/^[a-z]:\//i.test(path)) return `file:///${encoded(path)}`;
  const [, place, rest] = /^([a-z][\w+.-]+:\/\/[^/]*)(\/[^?#%]*)$/i.exec(path) ?? [];
  return rest === undefined ? path : place + encoded(rest);
}

/** Is this file or folder the other one, or anywhere in it? */
export function isIn(path: string, folder: string): boolean {
  return path === folder || path.startsWith(folder.endsWith("/") ? folder : `${folder}/`);
}

function encoded(path: string): string {
  return encodeURI(path).replace(/[?#]/g, encodeURIComponent);
}

/** Undefined where it is not escaped UTF-8. */
function unescaped(path: string): string | undefined {
  try {
    return decodeURIComponent(path);
  } catch {
    return undefined;
  }
}
