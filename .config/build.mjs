// Bundles everything that runs: the command line, the language server, the extension; the last two
// once for Node and once for browsers.
// mathjs stands in a chunk of its own, loaded by the first figure that needs it; so do the readers of
// CSV and XLSX, loaded by the commands that take a list.
// Beside them stands whose work they contain.
import { writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { noticesOf } from "./notices.mjs";

process.chdir(fileURLToPath(new URL("..", import.meta.url)));

const common = {
  outdir: "dist",
  bundle: true,
  format: "cjs",
  minify: true,
  keepNames: false,
  logLevel: "warning",
  define: { "process.env.NODE_ENV": '"production"' },
  metafile: true,
};

const forNode = await build({
  ...common,
  entryPoints: {
    poise: "server/edges/main.ts",
    server: "server/edges/server-main.ts",
    extension: "client/node.ts",
    client: "client/node-client.ts",
    mathjs: "server/edges/mathjs-chunk.ts",
    lists: "server/edges/lists-chunk.ts",
  },
  platform: "node",
  target: "node20",
  external: ["vscode", "./mathjs.js", "./lists.js"],
  // import() of a chunk is a require() of it
  supported: { "dynamic-import": false },
  plugins: [chunk(/^\.\/node-client$/, { path: "./client.js", external: true })],
});
const forBrowsers = await build({
  ...common,
  entryPoints: {
    "extension-web": "client/browser.ts",
    "server-worker": "server/edges/worker-main.ts",
  },
  platform: "browser",
  target: "es2022",
  external: ["vscode"],
  // a worker is one file: the chunk stands in it as built, and runs when it is first asked
  plugins: [chunk(/^\.\/mathjs\.js$/, { path: resolve("dist/mathjs.js") })],
});

const { inputs, outputs } = forNode.metafile;
Object.assign(inputs, forBrowsers.metafile.inputs);
Object.assign(outputs, forBrowsers.metafile.outputs);
writeFileSync("dist/THIRD-PARTY-NOTICES.txt", noticesOf({ inputs, outputs }));

/** What an import of a chunk leads to. */
function chunk(filter, found) {
  const leads = ({ kind }) => (kind === "entry-point" ? undefined : found);
  return { name: found.path, setup: ({ onResolve }) => onResolve({ filter }, leads) };
}
