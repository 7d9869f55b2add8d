/** Does a path fit one of the patterns? `*` within a folder, `**` over folders, `?` one letter. */
export function globs(patterns: readonly string[]): (path: string) => boolean {
  const tests = patterns.map(pattern => new RegExp(`(^|/)${source(pattern)}(/|$)`));
  return path => tests.some(test => test.test(path));
}

function source(pattern: string): string {
  return pattern
    .replace(/^(\*\*\/|\/)+|\/+$/g, "")
    .replace(/\*\*\/|\*\*|[*?]|[.+^${}()|[\]\\]/g, it =>
      it === "**/"
        ? "(.*/)?"
        : it === "**"
          ? ".*"
          : it === "*"
            ? "[^/]*"
            : it === "?"
              ? "[^/]"
              : `\\${it}`,
    );
}
