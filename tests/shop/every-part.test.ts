import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { read, textOf } from "../../grammar/source";
import { judge } from "../../server/judge";
import { spliced } from "../../server/lists/splice";
import { emptyProject, type Project, sourceOf, withText } from "../../server/project";
import { weighIn } from "../../server/shop/weigh-in";
import { weighablesOf } from "../../server/shop/weighable";
import { faultsOf } from "../grammar/specs";

const examples = fileURLToPath(new URL("../../examples", import.meta.url));

function projectIn(folder: string): Project {
  return readdirSync(join(examples, folder))
    .filter(it => it.endsWith(".poise"))
    .reduce(
      (project, file) =>
        withText(project, `/specs/${file}`, readFileSync(join(examples, folder, file), "utf8")),
      emptyProject(["/specs"]),
    );
}

/** Without layout: braces may have been put around clauses, and rows broken. */
const bare = (text: string) => text.replace(/[\s{}]/g, "");

test.each(readdirSync(examples))(
  "every part of %s weighed at once: its record governs, nothing else moves",
  folder => {
    const before = projectIn(folder);
    const { root } = judge(before).roots[0]!;
    const readings = weighablesOf(root).map(it => ({
      ...{ where: "", path: it.path, pn: "", unit: undefined, note: "" },
      ...{ figure: "1.2345 kg", on: "2099-01-01", by: "the scale that the test has" },
    }));
    expect(readings.length).toBeGreaterThan(5);
    const { misfits, edits } = weighIn(root, readings, true);
    expect(misfits).toEqual([]);

    let after = before;
    for (const path of before.files.keys()) {
      const source = sourceOf(before, path)!;
      const own = edits.filter(it => it.at.line.file === path);
      const text = spliced(textOf(source), source, own);
      const record = 'weighed 1.2345 kg on 2099-01-01 by "the scale that the test has"';
      expect(text.split(record).length - 1).toBe(own.length);
      expect(bare(text.replaceAll(record, ""))).toBe(bare(textOf(source)));
      expect(faultsOf(read(path, text))).toEqual([]);
      after = withText(after, path, text);
    }
    const now = weighablesOf(judge(after).roots[0]!.root);
    expect(now.map(it => it.path)).toEqual(readings.map(it => it.path));
    expect(now.every(it => it.weighed && it.before?.mass === 1.2345)).toBe(true);
    expect(now.map(it => it.part.qty)).toEqual(weighablesOf(root).map(it => it.part.qty));
    expect(now.map(it => it.part.place)).toEqual(weighablesOf(root).map(it => it.part.place));
  },
);
