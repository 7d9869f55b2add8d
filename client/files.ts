import { FileSystemError, FileType, Uri, workspace } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";

interface Question {
  readonly uri: string;
  /** Bytes that are read at most. */
  readonly most: number;
}
type Content = { readonly base64: string } | { readonly none: string };

/** Reads for the server what it cannot reach: the files of a browser, of a repository never cloned. */
export function answerFiles(client: BaseLanguageClient): void {
  client.onRequest<Content, unknown>("poise/read", async (question: Question): Promise<Content> => {
    const file = Uri.parse(question.uri);
    try {
      const { type, size } = await workspace.fs.stat(file);
      if (type & FileType.Directory) return { none: "folder" };
      if (question.most < size) return { none: "large" };
      return { base64: base64Of(await workspace.fs.readFile(file)) };
    } catch (error) {
      const missing = error instanceof FileSystemError && error.code === "FileNotFound";
      return { none: missing ? "missing" : "closed" };
    }
  });
  client.onRequest("poise/list", async ({ uri }: { uri: string }) => {
    const folder = Uri.parse(uri);
    const entries = await workspace.fs.readDirectory(folder);
    // a link may lead back up
    const plain = entries.filter(
      ([, type]) => type !== (FileType.Directory | FileType.SymbolicLink),
    );
    return plain.map(([name, type]) => ({
      uri: Uri.joinPath(folder, name).toString(),
      folder: (type & FileType.Directory) !== 0,
    }));
  });
}

function base64Of(bytes: Uint8Array): string {
  let text = "";
  // all at once is more than a call takes
  for (let at = 0; at < bytes.length; at += 32_768)
    text += String.fromCharCode(...bytes.subarray(at, at + 32_768));
  return btoa(text);
}
