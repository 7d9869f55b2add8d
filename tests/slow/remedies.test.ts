import fc from "fast-check";
import { expect, test } from "vitest";
import { positionsOf } from "../../grammar/source";
import { flightsOf } from "../../server/compute/flights";
import { sensitivityOf } from "../../server/compute/sensitivity";
import { actions } from "../../server/features/actions";
import { membersByHead } from "../../server/features/place";
import { judge } from "../../server/judge";
import { emptyProject, type Project, sourceOf, withEdit, withText } from "../../server/project";

const AT = "/specs/kite.poise";
const everything = { start: { line: 0, character: 0 }, end: { line: 1000, character: 0 } };
const projectOf = (spec: string) => withText(emptyProject(["/specs"]), AT, spec);
const int = (min: number, max: number) => fc.integer({ min, max });

/** A kite with ballast, equipment, bays, a tank whose CG moves, gear that swings, and sloping limits. */
const specs = fc
  .record({
    frame: int(80, 120),
    battery: int(60, 220),
    nose: int(5, 40),
    wheel: int(90, 120),
    rows: fc.array(int(0, 30), { minLength: 3, maxLength: 3 }),
    low: int(-40, 40),
    high: int(-40, 40),
    takeoff: int(1050, 1250),
    baggage: int(0, 100),
    locker: int(0, 40),
    fuel: int(5, 30),
    left: int(0, 5),
    budget: int(940, 1010),
  })
  .map(
    it => `aircraft kite { units lb, in, gal; budget ${it.budget} lb }
fluid mogas 6 lb/gal
part frame weighed 860 lb at FS ${it.frame}, BL 0.2, WL 30
part battery kind required weighed 22 lb at FS ${it.battery}, WL 20
assembly shelf at FS 4 budget ${Math.round(it.takeoff / 60)} lb {
  part radio kind optional weighed 8 lb at FS 60, BL 3, WL 30
  ballast nose 4 lb at FS ${it.nose}, WL 20
}
assembly gear mirrored {
  swing 80 deg aft about BL at FS 100, WL 20
  part wheel weighed 14 lb at FS ${it.wheel}, BL 30, WL 4
}
configuration up { swing gear }
tank aux holds 30 gal of mogas unusable 0.5 gal {
  at FS 100, WL 40
  filled 10 gal at FS ${90 + it.rows[0]!}
  filled 20 gal at FS ${85 + it.rows[1]!}
  filled 30 gal at FS ${85 + it.rows[2]!}
}
bay baggage at FS 140 range 0 lb .. 100 lb
bay locker at FS 40 range 0 lb .. 40 lb
envelope normal {
  takeoff ${it.takeoff} lb
  cg 900 lb: FS ${95 + it.low / 20} .. ${101 + it.high / 20}
  cg 1050 lb: FS 95 .. 102
  cg 1300 lb: FS ${95 - it.low / 20} .. 102
}
loading full under normal {
  baggage ${it.baggage} lb
  ${it.locker < 10 ? "" : `locker ${it.locker} lb`}
  aux ${it.fuel} gal
  burn aux to ${Math.min(it.left, it.fuel) + 0.5} gal
}
`,
  );

const errorsOf = (project: Project) =>
  judge(project)
    .findings.filter(it => it.severity === "error")
    .map(it => `${it.code} ${it.at.line.text.slice(it.at.from, it.at.to)}`);

test("every remedy that is offered ends its finding, brings no error, and goes no farther than it must", () => {
  let [tried, tight] = [0, 0];
  const verbs = new Set<string>();
  fc.assert(
    fc.property(specs, spec => {
      const project = projectOf(spec);
      const before = errorsOf(project);
      for (const { title, finding, edits } of actions(project, AT, everything)) {
        // what can leave the envelope is written down, not mended
        if (finding.code === "loading-can-exceed") continue;
        tried++;
        verbs.add(title.split(" ")[0]!);
        const { at, text } = edits[0]!;
        const { start, end } = positionsOf(sourceOf(project, AT)!, at);
        const word = finding.at.line.text.slice(finding.at.from, finding.at.to);
        const with_ = (amended: string) => errorsOf(withEdit(project, AT, start, end, amended));
        const ends = (after: readonly string[]) =>
          !after.includes(`${finding.code} ${word}`) && after.every(it => before.includes(it));
        expect(ends(with_(text)), `${title}: ${before}, ${with_(text)}`).toBe(true);
        // the figure is rounded to tenths: a little more than one of them back, it is not enough
        const [from, to] = /from (?:FS )?(\S+).* to (?:FS )?(\S+)/.exec(title)?.slice(1) ?? [];
        const change = Number(to) - Number(from);
        if (to === undefined || Math.abs(change) < 1 || Math.abs(change) >= 100) continue;
        const less = `${Number(to) - 0.15 * Math.sign(change)}`;
        expect(ends(with_(text.replace(to, less))), `${title}, or ${less}`).toBe(false);
        tight++;
      }
    }),
    { numRuns: 200, seed: 7 },
  );
  expect(tried).toBeGreaterThan(100);
  expect(tight).toBeGreaterThan(50);
  expect([...verbs].sort()).toEqual(["Load", "Lower", "Move", "Raise"]);
});

test("just below the room for more nothing breaks, just above it what was named", () => {
  const named = new Set<string>();
  const figures = { frame: 860, battery: 22, "shelf.radio": 8, "shelf.nose": 4, "gear.wheel": 14 };
  fc.assert(
    fc.property(specs, spec => {
      const project = projectOf(spec);
      const { root } = judge(project).roots[0]!;
      const before = errorsOf(project);
      for (const member of membersByHead(root.aircraft).values()) {
        if (member.kind !== "part" && member.kind !== "ballast") continue;
        const was = figures[member.path as keyof typeof figures];
        const room = sensitivityOf(root, member)?.room;
        expect(room, member.path).toBeDefined();
        const { mass, breaks } = room!;
        const pounds = mass / 0.45359237 / (member.path === "gear.wheel" ? 2 : 1);
        const basis = member.kind === "ballast" ? "nose" : "weighed";
        const heavier = (by: number) => {
          const name = member.name === "nose" ? "" : `part ${member.name}.*`;
          return errorsOf(
            projectOf(
              spec.replace(
                new RegExp(`(${name}${basis} )${was} lb`),
                (_, head) => `${head}${was + by} lb`,
              ),
            ),
          );
        };
        const code = "budget" in breaks ? "over-budget" : breaks.breach.code;
        named.add(code);
        if (mass > 0) {
          const below = heavier(pounds - Math.min(1e-3, pounds / 2));
          expect(before, `${member.path} below ${pounds}`).toEqual(expect.arrayContaining(below));
        }
        const above = heavier(pounds + 1e-3);
        const count = (list: readonly string[]) => list.filter(it => it.startsWith(code)).length;
        expect(count(above), `${member.path} above ${pounds}: ${code}`).toBeGreaterThanOrEqual(
          mass > 0 ? count(before) + 1 : 1,
        );
      }
      expect(flightsOf(root)).toHaveLength(1);
    }),
    { numRuns: 100, seed: 11 },
  );
  expect([...named].sort()).toEqual(["above-weight-limit", "cg-aft", "cg-forward", "over-budget"]);
});
