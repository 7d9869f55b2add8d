import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** A file of trees holds cases of the form `# what it shows`, a text, `==>` and the text's tree. */
export interface Case {
  readonly title: string;
  readonly source: string;
  readonly tree: string;
}

const folder = fileURLToPath(new URL("trees", import.meta.url));

export const cases: readonly (readonly [file: string, cases: readonly Case[]])[] = readdirSync(
  folder,
).map(file => {
  const [, ...texts] = `\n${readFileSync(`${folder}/${file}`, "utf8")}`.split(/\n# /);
  return [file.replace(".txt", ""), texts.map(caseOf)] as const;
});

function caseOf(text: string): Case {
  const [, title, source, tree] = /^(.*)\n([\s\S]*)\n==>\n([\s\S]*)$/.exec(text)!;
  return { title: title!, source: source!, tree: tree!.trimEnd() };
}
