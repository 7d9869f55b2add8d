import { readFileSync } from "node:fs";
import { lineAt, listOf } from "../../grammar/lines";
import { publisher } from "../../server/edges/publish";
import { judge } from "../../server/judge";
import { emptyProject, sourceOf, withEdit, withText } from "../../server/project";

/** Server CPU of one keystroke in the middle of a file: edit, judge, and what is sent to the editor. */
const path = "/bench/big.poise";
const text = readFileSync(process.argv[2]!, "utf8");
let sent = 0;
const publish = publisher(() => {
  sent++;
});

const opening = performance.now();
let project = withText(emptyProject(["/bench"]), path, text);
publish(project, judge(project));
const opened = performance.now() - opening;

const rows = listOf(sourceOf(project, path)!.lines);
const parts = rows.flatMap((line, row) => (line.text.includes(" part ") ? [row] : []));
const times: number[] = [];
for (let i = 0; i < 300; i++) {
  const row = parts[(i * 7919) % parts.length]!;
  const column = lineAt(sourceOf(project, path)!.lines, row)!.text.indexOf(" lb on") - 1;
  const from = { line: row, character: column };
  const began = process.cpuUsage();
  project = withEdit(project, path, from, { line: row, character: column + 1 }, String(i % 10));
  publish(project, judge(project));
  const { user, system } = process.cpuUsage(began);
  times.push((user + system) / 1000);
}
times.sort((a, b) => a - b);
const at = (share: number) => times[Math.floor(share * (times.length - 1))]!.toFixed(2);
console.log(
  `opened in ${opened.toFixed(0)} ms; a keystroke costs ${at(0.5)} ms of CPU, ${at(0.99)} ms at the 99th percentile (1/${(opened / Number(at(0.5))).toFixed(0)} of opening; ${sent} lists sent)`,
);
