import { spawn } from "node:child_process";
import { stripVTControlCharacters } from "node:util";
import { PROGRAM } from "./poise";

/** What a terminal sends for these keys. */
export const ENTER = "\r";
export const CTRL_C = "\x03";
export const CTRL_D = "\x04";

/** What is waited for on the screen, and the keys that answer it. */
export type Turn = readonly [shown: string, keys: string];

/**
 * Runs the command line at a terminal of its own, as `script` gives one, and types.
 * @returns the exit status and all that was on the screen
 */
export function poiseAtTerminal(
  args: readonly string[],
  turns: readonly Turn[],
  around: { readonly in: string; readonly before?: (turn: number) => void },
): Promise<{ readonly status: number | null; readonly screen: string }> {
  const command = [process.execPath, PROGRAM, ...args];
  const quoted = command.map(it => `'${it.replaceAll("'", "'\\''")}'`).join(" ");
  // that of BSD takes the command as its arguments, and has its status without being asked for it
  const call =
    process.platform === "darwin" ? ["-q", "/dev/null", ...command] : ["-qec", quoted, "/dev/null"];
  const child = spawn("script", call, {
    cwd: around.in,
    env: { ...process.env, NO_COLOR: "1", TERM: "xterm" },
    timeout: 60_000,
  });
  let [raw, seen, turn] = ["", 0, 0];
  const screen = () => stripVTControlCharacters(raw).replaceAll("\r", "");
  const look = (bytes: Buffer) => {
    raw += bytes.toString();
    const next = turns[turn];
    const at = next === undefined ? -1 : screen().indexOf(next[0], seen);
    if (next === undefined || at < 0) return;
    around.before?.(turn);
    turn++;
    seen = at + next[0].length;
    child.stdin.write(next[1]);
  };
  child.stdout.on("data", look);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", status => resolve({ status, screen: screen() }));
  });
}
