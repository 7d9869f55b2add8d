import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import { draw, erase } from "./draw";
import { print } from "./print";

/**
 * A file of faults holds cases of the form `# what is wrong` and a text with its faults drawn in; where
 * it matters what is made of the text all the same, `==>` and its tree.
 */
const folder = fileURLToPath(new URL("faults", import.meta.url));

describe.each(readdirSync(folder))("%s", file => {
  const [, ...cases] = `\n${readFileSync(`${folder}/${file}`, "utf8")}`.split(/\n# /);
  test.each(cases.map(caseOf))("%s", (_, drawn, tree) => {
    const text = erase(drawn);
    expect(draw(text)).toBe(drawn);
    if (tree !== undefined) expect(print(read("x.poise", text).items)).toBe(tree);
  });
});

function caseOf(text: string): [title: string, drawn: string, tree: string | undefined] {
  const [title] = text.split("\n", 1);
  const [drawn, tree] = text.slice(title!.length + 1).split("\n==>\n");
  return [title!, drawn!.trimEnd(), tree?.trimEnd()];
}
