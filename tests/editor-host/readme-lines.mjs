// The lines a user copies from the README into the set-up of an editor.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));

/** Those in a language, with the command line's place on this machine. */
export function readmeLines(language) {
  const readme = readFileSync(path("../../README.md"), "utf8");
  const [, lines] = new RegExp(`^\`\`\`${language}\\n(.*?)^\`\`\`$`, "ms").exec(readme) ?? [];
  const here = lines
    ?.replaceAll("/path/to/poise/dist/poise.js", path("../../dist/poise.js"))
    .replaceAll('"node"', JSON.stringify(process.execPath));
  if (!here?.includes(process.execPath)) throw new Error(`the README sets up no ${language}`);
  return here;
}
