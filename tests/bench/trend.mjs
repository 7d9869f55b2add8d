import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { join } from "node:path";

const COMMITS = 1000;
const FILES = 20;
const PARTS = 100;

/**
 * Times `poise trend` over 1,000 commits of an aircraft of 2,000 parts in twenty files, a part changed in
 * each, against a check of the last state.
 */
export function trend(folder) {
  const repository = join(folder, "history");
  mkdirSync(repository);
  git(repository, ["init", "--quiet", "--initial-branch=main"]);
  // as git writes histories itself: a thousand commits in a second
  git(repository, ["fast-import", "--quiet"], history());
  git(repository, ["reset", "--quiet", "--hard", "main"]);
  const poise = (...args) => {
    const began = performance.now();
    const { status, stdout, stderr } = spawnSync(
      process.execPath,
      [join(process.cwd(), "dist/poise.js"), ...args],
      { cwd: repository, encoding: "utf8", maxBuffer: 2 ** 28 },
    );
    if (status !== 0) throw new Error(stderr || stdout);
    return { took: performance.now() - began, stdout };
  };
  const check = [1, 2, 3].map(() => poise("check", ".").took).sort((a, b) => a - b)[1];
  const { took, stdout } = poise("trend", "--format", "csv");
  const rows = stdout.trim().split("\n").length - 1;
  if (rows !== COMMITS) throw new Error(`a row a commit: ${rows}`);
  console.log(
    `trend of ${COMMITS} commits of ${FILES * PARTS} parts: ${(took / 1000).toFixed(1)} s, ${(took / check).toFixed(0)} × a check of the last (${check.toFixed(0)} ms); aim: under 60 s`,
  );
}

function git(folder, args, input = "") {
  const { status, stderr } = spawnSync("git", args, { cwd: folder, input, encoding: "utf8" });
  if (status !== 0) throw new Error(`git ${args[0]}: ${stderr}`);
}

function history() {
  const masses = Array.from({ length: FILES }, (_, file) =>
    Array.from({ length: PARTS }, (_, part) => 1 + ((file + part) % 7) * 0.31),
  );
  const root = [
    "aircraft big { units lb, in, gal growth calculated 6% budget 6000 lb }",
    ...masses.map((_, file) => `include "a${file}.poise"`),
  ].join("\n");
  const text = file =>
    [
      `assembly a${file} budget 260 lb creep 5 lb {`,
      ...masses[file].map(
        (mass, part) =>
          `  part p${part} calculated ${mass.toFixed(4)} lb at FS ${100 + part}, BL ${part % 40}`,
      ),
      "}",
    ].join("\n");
  const data = content => `data ${Buffer.byteLength(content)}\n${content}\n`;
  const put = (name, content) => `M 100644 inline ${name}\n${data(content)}`;
  const commits = [];
  for (let i = 0; i < COMMITS; i++) {
    const [file, part] = [i % FILES, (i * 7) % PARTS];
    if (i > 0) masses[file][part] = 1 + ((i * 37) % 101) / 50 + i / 10_000;
    const files =
      i === 0
        ? [put("big.poise", root), ...masses.map((_, it) => put(`a${it}.poise`, text(it)))]
        : [put(`a${file}.poise`, text(file))];
    const who = `committer Ada <ada@example.org> ${1_700_000_000 + i * 3600} +0000\n`;
    commits.push(`commit refs/heads/main\n${who}${data(`Change part ${part}`)}${files.join("")}`);
  }
  return commits.join("\n");
}
