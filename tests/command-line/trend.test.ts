import { expect, test } from "vitest";
import { commitOf, filesOf } from "../../server/edges/git";
import { expectFile } from "./expected";
import { plover } from "./plover";
import { folderOf, poise } from "./poise";
import { repositoryOf, type Step } from "./repository";

const trend = (...args: readonly string[]) => poise(["trend", ...args], { in: plover() });

/** A hash is of the text of this repository, and says nothing. */
const withoutHashes = (text: string) =>
  text.replace(/\b([0-9a-f]{40}|[0-9a-f]{9})\b/g, it => "#".repeat(it.length));

test("a row a commit that touched a spec, and the commits that crossed a budget", () => {
  const { status, stdout } = trend();
  expectFile("trend", withoutHashes(stdout));
  // the one that only touched the notes is left out
  expect(stdout).not.toContain("Say what this folder is");
  expect(status).toBe(0);
});

test("--since begins with a revision, or on a day", () => {
  const { stdout } = trend("--since", "breach", "--format=csv");
  expectFile("trend.csv", withoutHashes(stdout).replaceAll("\r\n", "\n"));
  // as RFC 4180 ends a row
  expect(stdout.split("\r\n").length).toBeGreaterThan(5);
  expect(trend("--since", "2026-06-01").stdout).toBe(trend().stdout);
  expect(trend("--since", "2026-06-02").stderr).toBe("poise: no commit there has an aircraft\n");
});

test("what is over from the start is said to be so already", () => {
  const text = "aircraft coot { units lb, in, gal; budget 5 lb }\npart hull weighed 6 lb at FS 1\n";
  const folder = repositoryOf([{ does: "Begin", files: () => ({ "coot.poise": text }) }]);
  const { stdout } = poise(["trend"], { in: folder });
  expect(stdout).toMatch(
    /^the aircraft is over its budget already at \w{9} \(Begin\): 6 lb of 5 lb$/m,
  );
});

test("a file that stays as it was is not read again", () => {
  const files = (tag: string) =>
    new Map(filesOf(plover(), commitOf(plover(), tag)).map(it => [it.path, it]));
  const [before, after] = [files("before"), files("breach")];
  for (const name of ["plover.poise", "loadings.poise"])
    expect(after.get(`${plover()}/${name}`)).toBe(before.get(`${plover()}/${name}`));
  expect(after.get(`${plover()}/wing.poise`)).not.toBe(before.get(`${plover()}/wing.poise`));
});

test("a subject commands neither a spreadsheet nor a terminal", () => {
  const text = "aircraft coot { units lb, in, gal }\npart hull weighed 6 lb at FS 1\n";
  const loud: readonly Step[] = [
    {
      does: '=HYPERLINK("https://evil.example"), \u001b[2J',
      files: () => ({ "coot.poise": text }),
    },
  ];
  const folder = repositoryOf(loud);
  const csv = poise(["trend", "--format", "csv"], { in: folder }).stdout;
  expect(csv).toContain(`,"'=HYPERLINK(""https://evil.example""), \ufffd[2J",coot,`);
  expect(poise(["trend"], { in: folder }).stdout).not.toContain("\u001b");
});

test("as a picture: weight, budgets and the share weighed, with the commits that crossed a budget", () => {
  const { status, stdout } = trend("--format", "svg");
  expectFile("trend.svg", withoutHashes(stdout));
  expect(status).toBe(0);
  expect(trend("--format", "svg").stdout).toBe(stdout);
});

/** Every element with its attributes; whatever is no well-formed XML throws. */
function elementsOf(svg: string): readonly string[] {
  const open: string[] = [];
  const all: string[] = [];
  const pattern = /<(\/?)([a-z]+)((?: [\w-]+="[^"<]*")*)(\/?)>|([^<]+)/g;
  let end = 0;
  for (const { 0: whole, 1: closes, 2: name, 4: empty, 5: words, index } of svg.matchAll(pattern)) {
    if (index !== end) break;
    end += whole.length;
    if (words !== undefined) expect(words).not.toMatch(/&(?!(amp|lt|gt|quot|apos|#\d+);)/);
    else if (closes) expect(open.pop()).toBe(name);
    else {
      all.push(name!);
      if (!empty) open.push(name!);
    }
  }
  expect(svg.slice(end, end + 60)).toBe("");
  expect(open).toEqual([]);
  return all;
}

test("of a name or a subject nothing is markup in the picture", () => {
  const text = `aircraft coot { units lb, in, gal }
assembly hull budget 5 lb {
  part skin "</text><script>" weighed 6 lb at FS 1
}
`;
  const folder = repositoryOf([
    {
      does: `"><script>alert(1)</script>&x; \u001b[2J \u202e ]]>`,
      files: () => ({ "coot.poise": text }),
    },
  ]);
  const { stdout } = poise(["trend", "--format", "svg"], { in: folder });
  const elements = elementsOf(stdout);
  expect(new Set(elements)).toEqual(
    new Set(["svg", "title", "desc", "style", "rect", "g", "path", "text"]),
  );
  expect(stdout).toContain("hull is over its budget already");
  expect(stdout).toContain("&lt;script&gt;alert(1)&lt;/script&gt;&amp;x;");
  for (const loud of ["\u001b", "\u202e"]) expect(stdout).not.toContain(loud);
});

test("the picture has a title and tells in words what it shows", () => {
  const { stdout } = trend("--format", "svg");
  expect(elementsOf(stdout).slice(0, 3)).toEqual(["svg", "title", "desc"]);
  expect(stdout).toContain('role="img" aria-labelledby="title desc"');
  const [, told] = /<desc id="desc">(.*)<\/desc>/.exec(stdout)!;
  expect(told).toMatch(/^plover: on 2026-06-01 basic empty weight 552.3 lb, .* weighed; on /);
  expect(told).toMatch(/wing goes over its budget at \w{9} \(Thicken the skin\)/);
});

test("of many crossings the last twenty are numbered", () => {
  const hull = (mass: number) =>
    `aircraft coot { units lb, in, gal }\nassembly hull budget 5 lb {\n  part skin weighed ${mass} lb at FS 1\n}\n`;
  const folder = repositoryOf(
    Array.from({ length: 25 }, (_, i) => ({
      does: `Weigh the skin again, ${i}`,
      files: () => ({ "coot.poise": hull(i % 2 === 0 ? 6 : 4) }),
    })),
  );
  const { stdout } = poise(["trend", "--format", "svg"], { in: folder });
  expect(stdout).toContain("… and 5 before: the table has them all");
  expect(stdout).toContain(">20  hull goes over its budget");
  expect(stdout).not.toContain(">21  ");
});

const wrong: readonly [readonly string[], string][] = [
  [["--sinse", "x"], "trend has no option --sinse; did you mean --since?"],
  [["main"], "trend takes paths after --: poise trend -- examples"],
  [["--since", "nowhere"], "there is no revision nowhere here"],
  [["--since"], "--since is a day such as 2026-09-19, or a revision"],
  [["--format", "json"], "--format is one of table, csv, svg"],
  [["--", "docs"], "no commit there has an aircraft"],
];
test.each(wrong)("poise trend %j: status 2", (args, message) => {
  expect(trend(...args)).toEqual({ status: 2, stdout: "", stderr: `poise: ${message}\n` });
});

test("without a repository it says so", () => {
  expect(poise(["trend"], { in: folderOf({}) }).stderr).toBe(
    "poise: this folder is in no git repository, and a trend is read from one\n",
  );
});
