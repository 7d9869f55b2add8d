import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { draw, erase } from "./draw";

/** A file of faults holds cases of the form `# what is wrong` and a text with its faults drawn in. */
const folder = fileURLToPath(new URL("faults", import.meta.url));

describe.each(readdirSync(folder))("%s", file => {
  const [, ...cases] = `\n${readFileSync(`${folder}/${file}`, "utf8")}`.split(/\n# /);
  test.each(cases.map(it => [it.split("\n", 1)[0]!, it.slice(it.indexOf("\n") + 1).trimEnd()]))(
    "%s",
    (_, drawn) => expect(draw(erase(drawn))).toBe(drawn),
  );
});
