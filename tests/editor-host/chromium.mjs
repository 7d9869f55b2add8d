import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";

/** The path of a browser that is installed already, if there is one. */
export function chromium() {
  return ["chromium", "chromium-browser", "google-chrome"].map(onPath).find(Boolean);
}

/** The path of a program, if it is installed. */
export function onPath(program) {
  return (process.env.PATH ?? "")
    .split(delimiter)
    .map(folder => join(folder, program))
    .find(file => existsSync(file));
}

export const chromiumFlags = [
  "--headless=new",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
