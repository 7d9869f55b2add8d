import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, poise } from "./poise";

const kite = `aircraft kite "Kite" { units lb, in }
part frame calculated 500 lb at FS 80
airframe sn1 "S/N 1" serial 1 { }
`;

test("a blank form is written as a page, as a block, or shown", () => {
  const folder = folderOf({ "kite.poise": kite, "page.html": "<h1>Mine</h1>" });
  const call = (...more: string[]) =>
    poise(["sheet", "--weighing", "--airframe", "sn1", ...more], { in: folder });
  expect(call("-o", "form.html")).toMatchObject({
    status: 0,
    stdout: "form.html: written, 3 weighing points to be measured\n",
  });
  expect(readFileSync(join(folder, "form.html"), "utf8")).toContain(
    "<h1>Weighing form: Kite, S/N 1</h1>",
  );
  expect(call("-o", "form.html").status).toBe(0);
  expect(call("-o", "first.poise").stdout).toBe("first.poise: written, to type over\n");
  expect(readFileSync(join(folder, "first.poise"), "utf8")).toContain(
    "weighing first of sn1 on 20",
  );
  // what stands there by now is the first
  expect(call().stdout).toContain("\nweighing second of sn1 on 20");
  // what somebody wrote is left alone
  expect(call("-o", "first.poise")).toMatchObject({
    status: 2,
    stderr: "poise: first.poise is there already: name a new file\n",
  });
  expect(call("--html", "page.html")).toMatchObject({
    status: 2,
    stderr: "poise: page.html is no weighing form: it is left alone\n",
  });
  const form = join(folder, "form.html");
  writeFileSync(form, readFileSync(form, "utf8").replace("</h1>", "</h1>ours"));
  expect(call("-o", "form.html")).toMatchObject({
    status: 2,
    stderr:
      "poise: form.html was changed since it was written: it is left alone; name a new file\n",
  });
  expect(readFileSync(form, "utf8")).toContain("</h1>ours");
});

test("the block of an aircraft without an airframe brings one, and check says what is still open", () => {
  const design = `aircraft kite "Kite" { units lb, in }
part wheel mirrored calculated 5 lb at FS 80, BL 30
part tail_wheel calculated 1 lb at FS 200
`;
  const folder = folderOf({ ".git/HEAD": "", "kite.poise": design, "shop/note.txt": "" });
  expect(poise(["sheet", "--weighing", "-o", "shop/first.poise"], { in: folder }).status).toBe(0);
  const text = readFileSync(join(folder, "shop/first.poise"), "utf8");
  expect(text).toMatch(/^include "\.\.\/kite\.poise"\n\n/);
  expect(text).toContain('\nairframe sn001 "S/N 001" serial 1 { }\nweighing first of sn001 on 20');
  const { stdout } = poise(["check", ".", "--format", "concise"], { in: folder });
  expect(stdout.match(/what does this scale read\?/g)).toHaveLength(3);
});

test("which airframe is asked where there are several", () => {
  const more = `${kite}airframe sn2 { }\n`;
  expect(poise(["sheet", "--weighing"], { in: folderOf({ "kite.poise": more }) })).toMatchObject({
    status: 2,
    stderr: "poise: which airframe? there are sn1, sn2: --airframe sn1\n",
  });
  // the only one is meant
  const { stdout } = poise(["sheet", "--weighing"], { in: folderOf({ "kite.poise": kite }) });
  expect(stdout).toContain("\nweighing first of sn1 on 20");
});

test("an airframe that is not there yet: how to write it", () => {
  const folder = folderOf({ "kite.poise": "aircraft kite { part a calculated 1 kg at FS 1 }\n" });
  expect(poise(["progress", "--airframe", "sn1"], { in: folder })).toMatchObject({
    status: 2,
    stderr: "poise: kite has no airframe sn1: write airframe sn1 { } at the top of a file\n",
  });
});
