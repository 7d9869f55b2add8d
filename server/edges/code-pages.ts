import { checkOf } from "../checks";

/** Pages of codes are documents that an editor asks the server for. */
export const CODE_SCHEME = "poise-code";

export const addressOfCode = (code: string) => `${CODE_SCHEME}:/${code}.md`;

/** What a code means, with an example: Markdown that reads well as it is. */
export function codePage(uri: string): string {
  const code = /^[^:]*:\/*([\w-]+)\.md$/.exec(uri)?.[1] ?? "";
  const check = checkOf(code);
  if (check === undefined) return `No finding has the code ${code || "of this page"}.\n`;
  const { severity, explain, example } = check;
  return `# ${code} (${severity})\n\n${explain}\n\n\`\`\`poise\n${example.trim()}\n\`\`\`\n`;
}
