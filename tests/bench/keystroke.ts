import { readFileSync } from "node:fs";
import { lineAt, listOf } from "../../grammar/lines";
import { publisher } from "../../server/edges/publish";
import { reportsOf } from "../../server/edges/reports";
import { hintKinds } from "../../server/features/hint-figures";
import { hints } from "../../server/features/hints";
import { lenses, lensText } from "../../server/features/lenses";
import { judge } from "../../server/judge";
import { emptyProject, type Project, sourceOf, withEdit, withText } from "../../server/project";

/** Server CPU of one keystroke in the middle of a file: edit, judge, and what is sent to the editor. */
const path = "/bench/big.poise";
const text = readFileSync(process.argv[2]!, "utf8");
let sent = 0;
const send = publisher(() => {
  sent++;
});
const publish = (picture: Project) =>
  send(reportsOf(picture, judge(picture), { fades: true, pages: true }));

const opening = performance.now();
let project = withText(emptyProject(["/bench"]), path, text);
publish(project);
const opened = performance.now() - opening;

const rows = listOf(sourceOf(project, path)!.lines);
const parts = rows.flatMap((line, row) => (line.text.includes(" part ") ? [row] : []));
const times: number[] = [];
const figures: number[] = [];
for (let i = 0; i < 300; i++) {
  const row = parts[(i * 7919) % parts.length]!;
  const column = lineAt(sourceOf(project, path)!.lines, row)!.text.indexOf(" lb on") - 1;
  const from = { line: row, character: column };
  const began = process.cpuUsage();
  project = withEdit(project, path, from, { line: row, character: column + 1 }, String(i % 10));
  publish(project);
  const { user, system } = process.cpuUsage(began);
  times.push((user + system) / 1000);
  const asked = process.cpuUsage();
  inView(row);
  const told = process.cpuUsage(asked);
  figures.push((told.user + told.system) / 1000);
}
const at = (share: number, of = times) =>
  of.sort((a, b) => a - b)[Math.floor(share * (of.length - 1))]!.toFixed(2);

/** What an editor asks for once typing rests: the figures of the rows it shows, and the lenses there. */
function inView(row: number): void {
  const rows = { start: { line: row - 30, character: 0 }, end: { line: row + 30, character: 0 } };
  hints(project, path, rows, new Set(hintKinds));
  for (const lens of lenses(project, path).slice(0, 3)) lensText(project, path, lens);
}
console.log(
  `opened in ${opened.toFixed(0)} ms; a keystroke costs ${at(0.5)} ms of CPU, ${at(0.99)} ms at the 99th percentile (1/${(opened / Number(at(0.5))).toFixed(0)} of opening; ${sent} lists sent); the figures in view ${at(0.5, figures)} ms`,
);
