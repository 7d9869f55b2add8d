import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { expect, test } from "vitest";
import { publisher } from "../../server/edges/publish";
import { reportsOf } from "../../server/edges/reports";
import { outline } from "../../server/features/symbols";
import { judge } from "../../server/judge";
import { emptyProject, withEdit, withText } from "../../server/project";

setFlagsFromString("--expose_gc");
const collect: () => void = runInNewContext("gc");

/** MB held once everything that nothing leads to is gone. */
function held(): number {
  for (let i = 0; i < 3; i++) collect();
  return process.memoryUsage().heapUsed / 2 ** 20;
}

test("ten thousand edits hold no more memory than the first thousand", () => {
  const path = "/specs/kite.poise";
  const parts = Array.from(
    { length: 200 },
    (_, i) => `  part rib_${i} calculated 1.${i % 10} lb at FS ${100 + i}`,
  );
  const rows = [
    "aircraft kite { units lb, in }",
    "assembly wing budget 300 lb {",
    ...parts,
    "}",
    "envelope normal { takeoff 900 lb; cg 200 lb: FS 90 .. 400 }",
    "seat pilot at FS 90 range 0 lb .. 200 lb",
    "loading solo under normal { pilot 180 lb }",
  ];
  const publish = publisher(() => {});
  let project = withText(emptyProject(["/specs"]), path, rows.join("\n"));
  let early = 0;
  for (let i = 0; i < 10_000; i++) {
    const line = 2 + ((i * 7919) % parts.length);
    const character = rows[line]!.indexOf(" lb") - 1;
    const from = { line, character };
    // every fifth key opens a word that the next one closes again
    const text = i % 5 === 0 ? "x" : String(i % 10);
    project = withEdit(project, path, from, { line, character: character + 1 }, text);
    publish(reportsOf(project, judge(project), { fades: true, pages: true }));
    outline(project, path);
    if (i === 1_000) early = held();
  }
  expect(held() / early).toBeLessThan(1.1);
});
