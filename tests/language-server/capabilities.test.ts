import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { editor } from "./client";

const page = readFileSync(fileURLToPath(new URL("../../DEVELOPERS.md", import.meta.url)), "utf8");

/** What is written behind the provider's name, as the protocol says it. */
const said: Readonly<Record<string, (it: Record<string, unknown>) => unknown>> = {
  "with resolve": it => it.resolveProvider,
  "with prepare": it => it.prepareProvider,
  full: it => it.full,
  delta: it => (it.full as { delta?: boolean }).delta,
  range: it => it.range,
  "documents pulled": () => true,
  "the workspace pulled": it => it.workspaceDiagnostics,
};

test("the table of language features is true of the server, and leaves none out", async () => {
  const open = await editor({
    folders: [],
    textDocument: {
      diagnostic: {},
      codeAction: { dataSupport: true, resolveSupport: { properties: ["edit"] } },
    },
  });
  const { capabilities } = open;
  await open.stop();
  const rows = [...page.matchAll(/^\| `(\w+Provider)`(?:, ([\w ]+?))? +\| (yes|no) /gm)];
  expect(rows.length).toBeGreaterThan(25);
  for (const [row, name, what, answer] of rows) {
    const provider = capabilities[name!];
    const has = what ? provider && said[what]!(provider as Record<string, unknown>) : provider;
    expect(has ? "yes" : "no", row).toBe(answer);
  }
  const named = new Set(rows.map(([, name]) => name));
  const own = Object.keys(capabilities).filter(it => it.endsWith("Provider"));
  expect(own.filter(it => !named.has(it))).toEqual([]);
});
