import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const notices = readFileSync(join(root, "dist/THIRD-PARTY-NOTICES.txt"), "utf8");
const sections = notices.split(/^={80}$/m).map(it => it.trim());

const licenseText =
  /Permission is hereby granted|Permission to use, copy, modify|Apache License\s+Version|Blue Oak Model License/;

/** The folders of packages that have a byte in one of these bundles. */
async function bundledInto(...entryPoints: string[]): Promise<readonly string[]> {
  const { metafile } = await build({
    absWorkingDir: root,
    entryPoints,
    outdir: "dist",
    bundle: true,
    write: false,
    metafile: true,
    platform: "node",
    minify: true,
    external: ["vscode", "./mathjs.js", "./lists.js"],
  });
  const files = Object.values(metafile.outputs).flatMap(({ inputs }) =>
    Object.keys(inputs).filter(file => inputs[file]!.bytesInOutput > 0),
  );
  // read-excel-file carries a copy of saxen's parser
  const copied = files.some(it => it.includes("/modules/saxen/")) ? ["node_modules/saxen"] : [];
  const folders = files.flatMap(it => it.match(/.*node_modules\/(@[^/]+\/)?[^/]+/)?.[0] ?? []);
  return [...new Set([...folders, ...copied])];
}

test("each package that is bundled has its name, version and license text in the notices", async () => {
  const folders = await bundledInto(
    "client/node.ts",
    "server/edges/server-main.ts",
    "server/edges/main.ts",
    "server/edges/mathjs-chunk.ts",
    "server/edges/lists-chunk.ts",
  );
  const found = folders.map(folder => {
    const { name, version } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
    const section = sections.find(it => it.startsWith(`${name} ${version} (`));
    expect(section, `${name} ${version}`).toMatch(licenseText);
    expect(section!.length, `${name} ${version}`).toBeGreaterThan(500);
    return name;
  });
  expect(found).toEqual(
    expect.arrayContaining(["chevrotain", "csv-parse", "mathjs", "saxen", "vscode-languageclient"]),
  );
  // and names none that is not
  expect(sections).toHaveLength(1 + folders.length);
});

test("the extension carries the notices, and of dist/ nothing but what runs in it", () => {
  const command = ["node_modules/@vscode/vsce/vsce", "ls", "--no-dependencies"];
  const { stdout } = spawnSync(process.execPath, command, { cwd: root, encoding: "utf8" });
  const files = stdout.split("\n").filter(it => it.startsWith("dist/"));
  expect(files.sort()).toEqual([
    "dist/THIRD-PARTY-NOTICES.txt",
    "dist/client.js",
    "dist/extension-web.js",
    "dist/extension.js",
    "dist/mathjs.js",
    "dist/poise.js",
    "dist/server-worker.js",
    "dist/server.js",
  ]);
});
