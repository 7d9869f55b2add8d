// Bundles everything that runs: the command line, the language server, the extension.
// mathjs stands in a chunk of its own, loaded by the first figure that needs it; so do the readers of
// CSV and XLSX, loaded by the commands that take a list.
// Beside them stands whose work they contain.
import { existsSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { noticesOf } from "./notices.mjs";

process.chdir(fileURLToPath(new URL("..", import.meta.url)));

const entries = {
  poise: "server/edges/main.ts",
  server: "server/edges/server-main.ts",
  extension: "client/extension.ts",
  mathjs: "server/edges/mathjs-chunk.ts",
  lists: "server/edges/lists-chunk.ts",
};

const { metafile } = await build({
  entryPoints: Object.fromEntries(Object.entries(entries).filter(([, file]) => existsSync(file))),
  outdir: "dist",
  bundle: true,
  platform: "node",
  target: "node20",
  format: "cjs",
  minify: true,
  keepNames: false,
  external: ["vscode", "./mathjs.js", "./lists.js"],
  logLevel: "warning",
  define: { "process.env.NODE_ENV": '"production"' },
  metafile: true,
});
writeFileSync("dist/THIRD-PARTY-NOTICES.txt", noticesOf(metafile));
