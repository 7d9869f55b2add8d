import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const files = {
  ".git/HEAD": "",
  "kite.poise": `aircraft kite "Kite" { units lb, in }
part frame calculated 500 lb at FS 80
airframe sn1 "S/N 1" serial 1 { }
`,
  "parts.csv": "Name,Mass [lb],X [in]\nKeel,3,100\n",
  note: "a file",
};

const writing: [string, string][] = [
  ["import parts.csv -o", "new/parts.poise"],
  ["sheet -o", "new/sheet.csv"],
  ["sheet --html", "new/deep/sheet.html"],
  ["sheet --weighing -o", "new/form.html"],
  ["sheet --weighing -o", "new/first.poise"],
  ["freeze sn1 . -o", "as-built/sn1.poise"],
];

test.each(writing)("poise %s %s makes the folder it is to be in", (call, path) => {
  const folder = folderOf(files);
  expect(poise([...call.split(" "), path], { in: folder })).toMatchObject({
    status: 0,
    stderr: "",
  });
  expect(readFileSync(join(folder, path), "utf8")).not.toBe("");
});

test("a report too", () => {
  const folder = folderOf(files);
  poise(["check", ".", "--format", "json=new/found.json"], { in: folder });
  expect(existsSync(join(folder, "new/found.json"))).toBe(true);
});

test.each(writing)("poise %s %s says what stands in its way", (call, path) => {
  const [, name] = path.match(/([^/]+)$/)!;
  const run = poise([...call.split(" "), `note/${name}`], { in: folderOf(files) });
  expect(run.stderr).toBe(
    `poise: note/${name} cannot be written: a file stands where its folder would be\n`,
  );
  expect(run.status).toBe(2);
});
