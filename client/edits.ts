import { Range, Uri, WorkspaceEdit, workspace } from "vscode";

/** An edit as the Language Server Protocol has it. */
export interface Edits {
  readonly changes: Readonly<
    Record<
      string,
      readonly {
        readonly range: { readonly start: Position; readonly end: Position };
        readonly newText: string;
      }[]
    >
  >;
}
interface Position {
  readonly line: number;
  readonly character: number;
}

/** Whether the editor made it. */
export async function applied({ changes }: Edits): Promise<boolean> {
  const edit = new WorkspaceEdit();
  for (const [uri, edits] of Object.entries(changes))
    for (const { range, newText } of edits) {
      const { start, end } = range;
      const at = new Range(start.line, start.character, end.line, end.character);
      edit.replace(Uri.parse(uri), at, newText);
    }
  return workspace.applyEdit(edit);
}
