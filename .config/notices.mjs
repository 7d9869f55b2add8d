// Whose work is bundled: taken from what esbuild put into the bundles, so that no list can go stale.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Name, version and license of every package with a byte in an output of this metafile. */
export function noticesOf({ outputs }) {
  const folders = new Set(
    Object.values(outputs).flatMap(({ inputs }) =>
      Object.keys(inputs)
        .filter(file => 0 < inputs[file].bytesInOutput)
        .flatMap(file => [...(file.match(packageFolder) ?? []), ...copiedFrom(file)]),
    ),
  );
  const notices = new Map([...folders].map(notice));
  return [preamble, ...[...notices.keys()].sort().map(it => notices.get(it))].join(`\n${rule}\n\n`);
}

const preamble = `Poise contains the following packages, each under its own license.\n`;
const rule = "=".repeat(80);

/** The innermost one: a package may bring packages of its own. */
const packageFolder = /^.*\bnode_modules\/(?:@[^/]+\/)?[^/]+/;
/** read-excel-file carries a copy of saxen's parser; saxen itself is installed beside it. */
const copiedFrom = file =>
  file.includes("/read-excel-file/modules/saxen/") ? ["node_modules/saxen"] : [];
const legalFile = /^(licen[cs]e|copying|notice|third-?party-?notices)(\.(md|txt))?$/i;

function notice(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const files = readdirSync(folder).filter(file => legalFile.test(file));
  if (!files.some(file => !/notice/i.test(file))) throw new Error(`${folder} has no license text`);
  const texts = files.map(file => readFileSync(join(folder, file), "utf8").trim());
  const title = `${name} ${version}`;
  return [title, [`${title} (${license})`, ...texts, ""].join("\n\n").trimEnd().concat("\n")];
}
