import {
  type ExtensionContext,
  ProcessExecution,
  Task,
  TaskGroup,
  tasks,
  type WorkspaceFolder,
  workspace,
} from "vscode";

/** `poise check` as a task of each folder: in a terminal what CI says, by the program that came along. */
export function checkTasks({ extensionUri }: ExtensionContext) {
  const program = `${extensionUri.fsPath}/dist/poise.js`;
  const check = (folder: WorkspaceFolder, path: string): Task => {
    const task = new Task(
      { type: TYPE, path },
      folder,
      path === "." ? "check" : `check ${path}`,
      "poise",
      // the editor itself is a Node: none needs to be installed
      new ProcessExecution(process.execPath, [program, "check", path, "--format", "concise"], {
        cwd: folder.uri.fsPath,
        env: { ELECTRON_RUN_AS_NODE: "1" },
      }),
      // the server has told of every file already
      [],
    );
    task.group = TaskGroup.Test;
    return task;
  };
  return tasks.registerTaskProvider(TYPE, {
    provideTasks: () =>
      (workspace.workspaceFolders ?? [])
        .filter(it => it.uri.scheme === "file")
        .map(it => check(it, ".")),
    resolveTask({ definition, scope }) {
      const folder =
        typeof scope === "object" && "uri" in scope ? scope : workspace.workspaceFolders?.[0];
      const { path } = definition as { path?: unknown };
      return folder && check(folder, typeof path === "string" ? path : ".");
    },
  });
}

const TYPE = "poise";
