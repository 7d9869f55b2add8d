import { readFileSync } from "node:fs";
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
  expect(call().stdout).toContain("\nweighing first of sn1 on 20");
  // what somebody wrote is left alone
  expect(call("-o", "first.poise")).toMatchObject({
    status: 2,
    stderr: "poise: first.poise is there already: name a new file\n",
  });
  expect(call("--html", "page.html")).toMatchObject({
    status: 2,
    stderr: "poise: page.html is no weighing form: it is left alone\n",
  });
});
