// What it costs, with ratios: a cold check against a bare start of Node, and one keystroke in the server.
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { trend } from "./trend.mjs";

process.chdir(fileURLToPath(new URL("../..", import.meta.url)));
const folder = mkdtempSync(join(tmpdir(), "poise-bench-"));

/** An aircraft of so many parts, a hundred an assembly, ten assemblies a group. */
function spec(parts) {
  const rows = ["aircraft big {", "  units lb, in, gal", "  growth calculated 6%", "}"];
  for (let group = 0; group * 1000 < parts; group++) {
    rows.push(`assembly group${group} budget 100000 lb {`);
    for (let assembly = 0; assembly < 10 && group * 1000 + assembly * 100 < parts; assembly++) {
      rows.push(`  assembly a${assembly} budget 400 lb {`);
      for (let part = 0; part < 100; part++)
        rows.push(
          `    part p${part} "Part ${part}" calculated ${(1 + (part % 7) * 0.31).toFixed(2)} lb on 2026-05-0${1 + (part % 9)} at FS ${100 + part}, BL ${part % 40}, WL ${part % 60}`,
        );
      rows.push("  }");
    }
    rows.push("}");
  }
  return rows.join("\n");
}

try {
  mkdirSync(join(folder, ".git"));
  const file = join(folder, "big.poise");
  writeFileSync(file, spec(5000));
  const time = (...args) => {
    const start = process.cpuUsage();
    const began = performance.now();
    spawnSync(process.execPath, args, { stdio: "ignore" });
    void start;
    return performance.now() - began;
  };
  const bare = [];
  const check = [];
  for (let i = 0; i < 15; i++) {
    bare.push(time("-e", "0"));
    check.push(time("dist/poise.js", "check", "--format", "concise", file));
  }
  const [b, c] = [middle(bare), middle(check)];
  console.log(
    `cold check of 5,000 parts: ${c.toFixed(0)} ms, ${(c / b).toFixed(1)} × node -e 0 (${b.toFixed(0)} ms); aim: under 6 ×`,
  );

  const bundle = join(folder, "keystroke.cjs");
  await build({
    entryPoints: ["tests/bench/keystroke.ts"],
    bundle: true,
    platform: "node",
    format: "cjs",
    outfile: bundle,
    logLevel: "warning",
  });
  for (const parts of [1000, 100_000]) {
    const text = join(folder, `${parts}.poise`);
    writeFileSync(text, spec(parts));
    const run = spawnSync(process.execPath, [bundle, text], { encoding: "utf8" });
    process.stdout.write(`${parts.toLocaleString("en-US")} parts: ${run.stdout}${run.stderr}`);
  }
  trend(folder);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function middle(times) {
  return times.sort((a, b) => a - b)[times.length >> 1];
}
