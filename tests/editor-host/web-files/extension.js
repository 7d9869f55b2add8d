// A file system that only the editor can read: the files of one folder, kept in the browser.
const vscode = require("vscode");

exports.activate = async ({ extensionUri, subscriptions }) => {
  const answer = await fetch(new URL("/files.json", extensionUri.toString(true)));
  const files = new Map(
    Object.entries(await answer.json()).map(([name, text]) => [
      `/${name}`,
      new TextEncoder().encode(text),
    ]),
  );
  const changes = new vscode.EventEmitter();
  const isFolder = path => path === "/" || [...files.keys()].some(it => it.startsWith(`${path}/`));
  const bytesOf = uri => {
    const bytes = files.get(uri.path);
    if (bytes === undefined) throw vscode.FileSystemError.FileNotFound(uri);
    return bytes;
  };
  const provider = {
    onDidChangeFile: changes.event,
    watch: () => new vscode.Disposable(() => {}),
    stat: uri => {
      if (isFolder(uri.path))
        return { type: vscode.FileType.Directory, ctime: 0, mtime: 0, size: 0 };
      return { type: vscode.FileType.File, ctime: 0, mtime: 0, size: bytesOf(uri).length };
    },
    readDirectory: uri => {
      const below = uri.path === "/" ? "/" : `${uri.path}/`;
      const inside = [...files.keys()].filter(it => it.startsWith(below));
      const names = new Set(inside.map(it => it.slice(below.length).split("/")[0]));
      return [...names].map(name => [
        name,
        isFolder(below + name) ? vscode.FileType.Directory : vscode.FileType.File,
      ]);
    },
    readFile: bytesOf,
    writeFile: (uri, bytes) => {
      const { Changed, Created } = vscode.FileChangeType;
      const type = files.has(uri.path) ? Changed : Created;
      files.set(uri.path, bytes);
      changes.fire([{ type, uri }]);
    },
    delete: uri => {
      files.delete(uri.path);
      changes.fire([{ type: vscode.FileChangeType.Deleted, uri }]);
    },
    createDirectory: () => {},
    rename: () => {
      throw vscode.FileSystemError.NoPermissions();
    },
  };
  subscriptions.push(vscode.workspace.registerFileSystemProvider("hangar", provider));
};
