// Serves the workbench with no server behind it, as vscode.dev does: extensions run in a worker of the
// browser, and the files are those of an extension's file system.
import { readdirSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";
import { listFiles, PackageManager } from "@vscode/vsce";
import { quiet } from "./host.mjs";

const path = relative => fileURLToPath(new URL(relative, import.meta.url));
const root = path("../..");
const code = path("node_modules/code-server/lib/vscode");
const page = "out/vs/code/browser/workbench/workbench.html";

/** Of a folder without folders. */
export async function startWebHost(folder) {
  const packaged = new Set(await listFiles({ cwd: root, packageManager: PackageManager.None }));
  const mounts = [
    ["/code/", code, () => true],
    ["/poise/", root, file => packaged.has(file)],
    ["/files/", path("web-files"), () => true],
  ];
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url, "http://host");
    const say = (status, type, body) => {
      const headers = { "Access-Control-Allow-Origin": "*", "Content-Type": type };
      response
        .writeHead(status, { ...headers, "Cross-Origin-Resource-Policy": "cross-origin" })
        .end(body);
    };
    try {
      if (pathname === "/") return say(200, "text/html", workbench(`127.0.0.1:${port}`));
      if (pathname === "/files.json") return say(200, types[".json"], filesIn(folder));
      const [prefix, where, has] = mounts.find(([it]) => pathname.startsWith(it));
      const file = normalize(decodeURIComponent(pathname.slice(prefix.length)));
      if (file.startsWith("..") || !has(file)) throw new Error("not served");
      const bytes = readFileSync(join(where, file));
      say(200, types[extname(file)] ?? "application/octet-stream", patched(file, bytes));
    } catch {
      say(404, "text/plain", "not here");
    }
  });
  await new Promise(done => server.listen(0, "127.0.0.1", done));
  const { port } = server.address();
  return {
    address: `http://127.0.0.1:${port}/`,
    stop: () =>
      new Promise(done => {
        server.close(done);
        server.closeAllConnections();
      }),
  };
}

const types = {
  ".js": "text/javascript",
  ".mjs": "text/javascript",
  ".json": "application/json",
  ".html": "text/html",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".ttf": "font/ttf",
};

/** code-server's workbench takes for granted that its server is there. */
const patches = [
  ["remoteAuthority:location.host", "remoteAuthority:void 0"],
  [
    /([\w$]+)\.file\(this\.userDataPath\)\.with\(\{scheme:([\w$]+)\.vscodeRemote\}\)/,
    "$1.file(this.userDataPath).with({scheme:$2.vscodeUserData})",
  ],
];

function patched(file, bytes) {
  if (!file.endsWith("browser/workbench/workbench.js")) return bytes;
  return patches.reduce((text, [was, now]) => {
    const next = text.replace(was, now);
    if (next === text) throw new Error(`the workbench has no ${was} any more`);
    return next;
  }, bytes.toString("utf8"));
}

function filesIn(folder) {
  const names = readdirSync(folder);
  const files = names.map(name => [name, readFileSync(join(folder, name), "utf8")]);
  return JSON.stringify(Object.fromEntries(files));
}

function workbench(authority) {
  const at = where => ({ scheme: "http", authority, path: where });
  const base = `http://${authority}/code`;
  const configuration = {
    folderUri: { scheme: "hangar", authority: "bay", path: "/" },
    additionalBuiltinExtensions: [at("/files")],
    developmentOptions: { extensions: [at("/poise")] },
    configurationDefaults: quiet,
    enableWorkspaceTrust: false,
    userDataPath: "/",
    isEnabledFileDownloads: true,
    isEnabledFileUploads: true,
    isEnabledCoderGettingStarted: false,
    _wrapWebWorkerExtHostInIframe: false,
    productConfiguration: {
      ...JSON.parse(readFileSync(join(code, "product.json"), "utf8")),
      extensionsGallery: undefined,
      enableTelemetry: false,
      webviewContentExternalBaseUrlTemplate: `${base}/out/vs/workbench/contrib/webview/browser/pre/`,
    },
  };
  const values = {
    WORKBENCH_WEB_CONFIGURATION: escaped(configuration),
    WORKBENCH_WEB_BASE_URL: base,
    WORKBENCH_NLS_URL: `${base}/out/nls.messages.js`,
    WORKBENCH_NLS_FALLBACK_URL: `${base}/out/nls.messages.js`,
    VS_BASE: "/code/resources/server",
  };
  const text = readFileSync(join(code, page), "utf8");
  return text.replace(/\{\{(\w+)\}\}/g, (_, name) => values[name] ?? "");
}

function escaped(value) {
  return JSON.stringify(value).replace(/&/g, "&amp;").replace(/"/g, "&quot;");
}
