import { extension } from "./extension";
import { checkTasks } from "./tasks";

/** Where there is Node, the language server is a child process, and a task another. */
export const { activate, deactivate } = extension(
  () => import("./node-client"),
  context => [checkTasks(context)],
);
