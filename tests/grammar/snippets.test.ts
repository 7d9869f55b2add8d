import { describe, expect, test } from "vitest";
import snippets from "../../grammar/snippets.json";
import { snippetOffers } from "../../server/features/completion/snippets";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";

interface Snippet {
  readonly prefix: string;
  readonly description: string;
  readonly body: readonly string[];
}
const all = Object.entries<Snippet>(snippets);
const requirements = all.filter(([name]) => name.startsWith("Require: "));

const texts = new Map(
  snippetOffers(new Set(all.map(([, it]) => it.prefix.split("-")[0]!)), "2026-11-12").map(it => [
    it.label,
    it.text!,
  ]),
);

/** The text that is inserted when every placeholder keeps its default; of a choice, its first. */
const expanded = ({ prefix }: Snippet) => texts.get(prefix)!;

/** A two-seater that has what the defaults name, with something to waive; its main wheels stand at this station. */
const kite = (mainWheels: number) => `aircraft kite "Kite" {
  units lb, in, gal
  mac at FS 100 length 50
}
let wing_area = 118 ft^2
assembly wing budget 302 lb growth 2% { part spar calculated 300 lb at FS 128, WL 46 }
part body calculated 590 lb at FS 124, WL 38
assembly gear {
  assembly main mirrored { part wheel quoted 20 lb at FS ${mainWheels}, BL 40, WL 8.7 }
  assembly nose {
    swing 80 deg aft about BL at FS 42, WL 26
    part wheel quoted 12 lb at FS 40, WL 7
  }
  assembly tail { part wheel quoted 6 lb at FS 280, WL 20 }
}
choice battery default light {
  option light { part battery quoted 9 lb at FS 60, WL 20 }
  option heavy { part battery quoted 22 lb at FS 60, WL 20 }
}
fluid avgas 6 lb/gal
tank main_tank holds 24 gal of avgas unusable 0.5 gal at FS 130, WL 46
seat pilot at FS 116, BL -10, WL 30 range 110 lb .. 250 lb
seat copilot at FS 116, BL 10, WL 30 range 0 lb .. 250 lb
envelope normal {
  takeoff 1500 lb
  landing 1450 lb
  cg 900 lb: FS 115 .. 135
  cg 1500 lb: FS 115 .. 135
}
loading most_forward under normal { pilot 200 lb; copilot 180 lb; main_tank 4 gal }
loading most_aft under normal { pilot 120 lb; main_tank full }
airframe sn001 "S/N 001" serial 1 { }
`;

function judged(name: string, text: string) {
  const alone = name === "Aircraft";
  // a tail-wheel aircraft has its main wheels ahead of the CG
  const spec = kite(name.includes("tail-wheel") ? 115 : 140);
  const whole = alone ? text : `${spec}${text}\n`;
  const { findings, roots } = judge(withText(emptyProject(["/"]), "/kite.poise", whole));
  const report = reportOf(roots[0]!) as { requirements: { text: string; holds: boolean | null }[] };
  const wrong = findings.filter(it => it.severity === "error" || it.code === "waiver-unused");
  return { wrong: wrong.map(it => `${it.code}: ${it.message}`), report };
}

describe("what a snippet inserts has no fault", () => {
  test("the aircraft they are tried in has none itself", () => {
    for (const name of ["", "tail-wheel"]) expect(judged(name, "").wrong).toEqual([]);
  });

  test.each(all)("%s", (name, snippet) => {
    const { wrong, report } = judged(name, expanded(snippet));
    expect(wrong).toEqual([]);
    if (!name.startsWith("Require")) return;
    expect(report.requirements.length).toBeGreaterThan(0);
    for (const { text, holds } of report.requirements) expect(holds, text).toBe(true);
  });

  test("all requirements for a nose-wheel aircraft stand side by side", () => {
    const text = requirements
      .filter(([name]) => !name.includes("tail-wheel"))
      .map(([, snippet]) => expanded(snippet))
      .join("\n");
    expect(judged("", text).wrong).toEqual([]);
  });
});

test("a requirement says where it comes from, and to check that", () => {
  expect(requirements.length).toBeGreaterThanOrEqual(11);
  for (const [name, { body }] of requirements) {
    const comment = body.flatMap(line => line.match(/^\/\/ (.*)/)?.[1] ?? []).join(" ");
    expect(comment, name).toMatch(/14 CFR 23\.\d+|[Cc]ommon practice, a rule of thumb/);
    expect(comment, name).toMatch(/check the approved basis/);
    if (comment.includes("14 CFR 23")) expect(comment, name).toMatch(/before amendment 64/);
  }
});

test.each(all)("%s fits the page", (_, snippet) => {
  for (const line of expanded(snippet).split("\n")) expect(line.length, line).toBeLessThan(101);
});

test("each has a prefix of its own, and says what stands in each of its places", () => {
  expect(texts.size).toBe(all.length);
  for (const [name, { body }] of all) {
    const places = body.join("\n").matchAll(/\$(\d+|[A-Z_]+)/g);
    for (const [, place] of places)
      if (place !== "0" && !place!.startsWith("CURRENT_"))
        expect(body.join("\n"), `$${place} of ${name}`).toMatch(new RegExp(`\\$\\{${place}[:|]`));
    expect(expanded(Object.fromEntries(all)[name]!), name).not.toContain("$");
  }
});
