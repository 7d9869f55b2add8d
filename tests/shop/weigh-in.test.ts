import { describe, expect, test } from "vitest";
import { read } from "../../grammar/source";
import { judge } from "../../server/judge";
import { spliced } from "../../server/lists/splice";
import { rootsOf } from "../../server/model/root";
import { emptyProject, sourceOf, withText } from "../../server/project";
import { toldOff, toldWithin } from "../../server/shop/off";
import { type Reading, weighIn } from "../../server/shop/weigh-in";
import { AT } from "../fixture";
import { faultsOf } from "../grammar/specs";

const plain: Omit<Reading, "path" | "figure"> = {
  ...{ where: "line 2", pn: "", unit: undefined, on: "2026-11-25", by: "", note: "" },
};

type Given = Partial<Reading> & Pick<Reading, "figure">;

/** Weighs parts of a spec in, in pounds: the new text, and what is said. */
function weigh(text: string, readings: readonly Given[], airframe?: string, sure = false) {
  const project = withText(emptyProject(["/specs"]), AT, text);
  const [judged] = judge(project).roots;
  const root = rootsOf(judged!.root.reach).find(it => it.airframe?.name === airframe);
  expect(root).toBeDefined();
  const all = readings.map((it, i) => ({ ...plain, path: "", where: `line ${i + 2}`, ...it }));
  const { fitting, misfits, edits } = weighIn(root!, all, sure);
  const written = spliced(text, sourceOf(project, AT)!, edits);
  expect(faultsOf(read(AT, written))).toEqual([]);
  return {
    text: written,
    within: fitting.map(it => toldWithin(it.weighable, root!, it.reading.on)),
    told: fitting.map(it => `${it.weighable.path}: ${toldOff(it.weighable, it.off)}`),
    misfits: misfits.map(it => it.why),
  };
}

const wing = `aircraft kite "Kite" { units lb, in; spread calculated 4%, weighed 0.02 lb + 0.1% }

assembly wing "Wing" budget 40 lb {
  part spar   mirrored calculated 9.5 lb at FS 120, BL 60 // oddly spaced
  part aileron "Left and right" mirrored pn "W-31" calculated 3.9 lb ± 4% on 2026-05-03 at FS 149
  part rib qty 6 {
    was estimated 0.5 lb
    calculated 0.4 lb // from the drawing
    at FS 130
  }
  part tip estimated 1.2 lb { at FS 131 }
  part lamp {
    at FS 118
  }
}
ballast lead 5 lb at FS 10
`;

const change = (from: string, to: string) => {
  expect(wing).toContain(from);
  return wing.replace(from, to);
};

describe("a record of a part goes behind its last one, every other byte stays", () => {
  test("on the line of the part, where it fits", () => {
    const { text, told } = weigh(wing, [{ path: "wing.spar", figure: "9.62" }]);
    expect(text).toBe(
      change("calculated 9.5 lb at", "calculated 9.5 lb weighed 9.62 lb on 2026-11-25 at"),
    );
    expect(told).toEqual(["wing.spar: 0.12 lb more, 0.3 spreads off"]);
  });

  test("in braces, one clause a line, where the line would be over 100 columns", () => {
    const reading = { path: "wing.aileron", figure: "4.06 lb", by: "bench scale 2" };
    const { text, told } = weigh(wing, [reading]);
    expect(text).toBe(
      change(
        '"Left and right" mirrored pn "W-31" calculated 3.9 lb ± 4% on 2026-05-03 at FS 149',
        `"Left and right" {
    mirrored
    pn "W-31"
    calculated 3.9 lb ± 4% on 2026-05-03
    weighed 4.06 lb on 2026-11-25 by "bench scale 2"
    at FS 149
  }`,
      ),
    );
    // by hand: 0.16 over the root of (0.04 × 3.9)² + (0.02 + 0.001 × 4.06)², 0.1578
    expect(told).toEqual(["wing.aileron: 0.16 lb more, 1 spread off"]);
  });

  test("on a row of its own, where the records stand so", () => {
    expect(weigh(wing, [{ path: "wing.rib", figure: "6.5 oz", note: 'a "light" one' }]).text).toBe(
      change(
        "// from the drawing\n",
        '// from the drawing\n    weighed 6.5 oz on 2026-11-25 note "a ”light” one"\n',
      ),
    );
  });

  test("behind the name, in the block or behind the figure, where there is no record in it", () => {
    const figure = "1.3 lb";
    expect(weigh(wing, [{ path: "wing.tip", figure }]).text).toBe(
      change("1.2 lb { at", "1.2 lb weighed 1.3 lb on 2026-11-25 { at"),
    );
    expect(weigh(wing, [{ path: "wing.lamp", figure }]).text).toBe(
      change("part lamp {\n", "part lamp {\n    weighed 1.3 lb on 2026-11-25\n"),
    );
    expect(weigh(wing, [{ path: "lead", figure: "5.1 lb" }]).text).toBe(
      change("lead 5 lb at", "lead 5 lb weighed 5.1 lb on 2026-11-25 at"),
    );
  });

  test("as its neighbours are parted, where several stand on a row of a block", () => {
    const row = (clauses: string) => `aircraft a { units lb }\npart x {\n  ${clauses}\n}\n`;
    const weighed = (clauses: string) => weigh(row(clauses), [{ path: "x", figure: "1" }]).text;
    const record = "weighed 1 lb on 2026-11-25";
    expect(weighed('pn "1"; quoted 1.1 lb; at FS 3 m')).toBe(
      row(`pn "1"; quoted 1.1 lb; ${record}; at FS 3 m`),
    );
    expect(weighed("quoted 1.1 lb at FS 3 m")).toBe(row(`quoted 1.1 lb ${record} at FS 3 m`));
  });

  test("with the file's own ends of lines and its mark of byte order", () => {
    const crlf = `\ufeff${wing.replaceAll("\n", "\r\n")}`;
    const { text } = weigh(crlf, [{ path: "wing.rib", figure: "0.41" }]);
    const record = "// from the drawing\r\n    weighed 0.41 lb on 2026-11-25\r\n";
    expect(text).toBe(crlf.replace("// from the drawing\r\n", record));
  });

  test("several at once, one by its part number", () => {
    const { text, told } = weigh(wing, [
      { path: "wing.spar", figure: "4.3 kg" },
      { pn: "W-31", figure: "3 lb 14 oz" },
    ]);
    expect(text).toContain("calculated 9.5 lb weighed 4.3 kg on 2026-11-25 at");
    expect(text).toContain("    weighed 3 lb 14 oz on 2026-11-25\n    at FS 149\n");
    expect(told).toEqual([
      "wing.spar: 0.02 lb less, 0.1 spreads off",
      "wing.aileron: 0.025 lb less, 0.2 spreads off",
    ]);
  });
});

describe("an airframe's record is a line in its block", () => {
  const fitted = (block: string) => `${wing}airframe sn003 "S/N 003" serial 3${block}\n`;
  const line = "weighed wing.spar.LH 9.62 lb on 2026-11-25";
  const lines = (block: string) =>
    weigh(fitted(block), [{ path: "wing.spar.LH", figure: "9.62 lb" }], "sn003").text;

  test.each([
    ["", ` {\n  ${line}\n}`],
    [" { }", ` { ${line} }`],
    [" {\n}", ` {\n  ${line}\n}`],
    [" { remove wing.lamp }", ` { remove wing.lamp; ${line} }`],
    [" {\n\tremove wing.lamp // off\n}", ` {\n\tremove wing.lamp // off\n\t${line}\n}`],
    [
      " {\n  weighed wing.tip 1.3 lb // light\n  remove wing.lamp\n}",
      ` {\n  weighed wing.tip 1.3 lb // light\n  ${line}\n  remove wing.lamp\n}`,
    ],
    [
      " { weighed wing.tip 1.3 lb; remove wing.lamp }",
      ` { weighed wing.tip 1.3 lb; ${line}; remove wing.lamp }`,
    ],
  ])("behind its records, else at its end: %j", (block, expected) => {
    expect(lines(block)).toBe(fitted(expected));
  });

  test("a mirrored part is two pieces there, one it removes is none, and what it installs has its own records", () => {
    const spec = fitted(" {\n  remove wing.lamp\n  install part camera weighed 1 lb at FS 9\n}");
    const { text, misfits } = weigh(
      spec,
      [
        { path: "wing.spar", figure: "9.5 lb" },
        { path: "wing.spar.RH", figure: "9.5 lb" },
        { path: "wing.lamp", figure: "1 lb" },
        { path: "camera", figure: "1.1 lb" },
      ],
      "sn003",
    );
    expect(text).toBe(
      fitted(
        " {\n  remove wing.lamp\n  install part camera weighed 1 lb weighed 1.1 lb on 2026-11-25 at FS 9\n  weighed wing.spar.RH 9.5 lb on 2026-11-25\n}",
      ),
    );
    expect(misfits).toEqual([
      "wing.spar has two sides: say which, wing.spar.RH or wing.spar.LH",
      "sn003 is without wing.lamp",
    ]);
  });

  test("what it chose and what was changed later is what can be weighed, against its own figure", () => {
    const spec = `aircraft kite { units lb, in }
part hull calculated 90 lb at FS 100
choice battery default lithium {
  option agm { part battery quoted 22 lb at FS 20 }
  option lithium { part battery quoted 9 lb at FS 20; part monitor estimated 0.5 lb at FS 20 }
}
airframe sn1 serial 1 {
  choose battery agm
}
change radio of sn1 on 2026-12-01 {
  remove hull
  install part shell calculated 95 lb at FS 100
}
`;
    const { text, told, misfits } = weigh(
      spec,
      [
        { path: "battery", figure: "21.5 lb" },
        { path: "monitor", figure: "0.5 lb" },
        { path: "hull", figure: "90 lb" },
        { path: "shell", figure: "96 lb" },
      ],
      "sn1",
    );
    expect(text).toBe(
      spec
        .replace(
          "choose battery agm",
          "choose battery agm\n  weighed battery 21.5 lb on 2026-11-25",
        )
        .replace("95 lb at", "95 lb weighed 96 lb on 2026-11-25 at"),
    );
    expect(told).toEqual([
      "battery: 0.5 lb less, no spread is declared",
      "shell: 1 lb more, no spread is declared",
    ]);
    expect(misfits).toEqual(["sn1 is without monitor", "sn1 is without hull"]);
  });
});

describe("an assembly is weighed as a whole", () => {
  const tail = `aircraft kite { units lb, in; spread calculated 5%, weighed 0.1 lb }
assembly tail "Tail" pn "T-1" {
  part fin calculated 3 lb at FS 200
  assembly half mirrored {
    part skin calculated 6 lb at FS 210, BL 30 // of one side
    part spar calculated 2 lb at FS 205, BL 30
  }
}
assembly wheel { part tire calculated 4 lb at FS 60; part tube calculated 1 lb at FS 60 }
`;
  const sn1 = (block: string) => `${tail}airframe sn1 serial 1 ${block}\n`;

  test("in its own block, of one side where it has two, against the sum of its parts", () => {
    const { text, told } = weigh(tail, [
      { pn: "T-1", figure: "19.5" },
      { path: "tail.half", figure: "total 16.4 lb" },
      { path: "wheel", figure: "5.1 lb" },
    ]);
    expect(text).toBe(
      tail
        .replace('pn "T-1" {\n', 'pn "T-1" {\n  weighed 19.5 lb on 2026-11-25\n')
        .replace("mirrored {\n", "mirrored {\n    weighed total 16.4 lb on 2026-11-25\n")
        .replace("wheel {", "wheel weighed 5.1 lb on 2026-11-25 {"),
    );
    // by hand: 0.5 over √(0.15² + 0.6² + 0.2² + 0.1²); 0.2 over √(0.3² + 0.1² + 0.05²)
    expect(told).toEqual([
      "tail: 0.5 lb more, 0.8 spreads off",
      "tail.half: 0.2 lb more, 0.6 spreads off",
      "wheel: 0.1 lb more, 0.4 spreads off",
    ]);
  });

  test("in an airframe by its path and side, behind its parts of the same day", () => {
    const { text, misfits } = weigh(
      sn1("{ }"),
      [
        { path: "tail.half.LH", figure: "8.2" },
        { path: "tail.half.LH.skin", figure: "6.1" },
        { path: "tail.half", figure: "8.2" },
      ],
      "sn1",
    );
    expect(text).toBe(
      sn1(
        "{ weighed tail.half.LH.skin 6.1 lb on 2026-11-25; weighed tail.half.LH 8.2 lb on 2026-11-25 }",
      ),
    );
    expect(misfits).toEqual(["tail.half has two sides: say which, tail.half.RH or tail.half.LH"]);
  });

  test("a part in it is told what it does to the whole, and an older reading comes before that", () => {
    const block = (more: string, ahead = "") =>
      sn1(`{\n  ${ahead}weighed wheel 5.2 lb on 2026-11-25\n${more}}`);
    const later = weigh(
      block(""),
      [{ path: "wheel.tire", figure: "4.1", on: "2026-11-26" }],
      "sn1",
    );
    expect(later.text).toBe(block("  weighed wheel.tire 4.1 lb on 2026-11-26\n"));
    expect(later.within).toEqual([
      "; wheel was weighed as a whole on 2026-11-25 and changes by as much",
    ]);
    const older = weigh(
      block(""),
      [{ path: "wheel.tire", figure: "4.1", on: "2026-11-24" }],
      "sn1",
    );
    expect(older.text).toBe(block("", "weighed wheel.tire 4.1 lb on 2026-11-24\n  "));
    expect(older.within).toEqual([
      "; wheel was weighed as a whole on 2026-11-25 and keeps that figure",
    ]);
    const design = tail.replace("wheel {", "wheel weighed 5.2 lb {");
    expect(weigh(design, [{ path: "wheel.tire", figure: "4.1" }]).within).toEqual([
      "; wheel was weighed as a whole and keeps that figure",
    ]);
  });
});

describe("what does not fit is said, and nothing is written of it", () => {
  const why = (...readings: Given[]) => {
    const { text, misfits } = weigh(wing, readings);
    if (misfits.length === readings.length) expect(text).toBe(wing);
    return misfits.at(-1);
  };

  test.each([
    ["wing.spra", "9.5 lb", "nothing is called wing.spra in kite; did you mean wing.spar?"],
    ["rib", "0.4 lb", "nothing is called rib in kite; did you mean wing.rib?"],
    [
      "kite",
      "300 lb",
      "kite is the whole aircraft: what its scales read is a weighing of an airframe, and poise sheet --weighing gives the form for it",
    ],
    ["", "30 lb", "which part?"],
    [
      "wing.spar.LH",
      "9.5 lb",
      "wing.spar.LH is one side: a record of the design is of each, so write wing.spar, or name an airframe",
    ],
    ["wing.spar", "-9.5", "-9.5 lb: a reading is negative"],
    ["wing.spar", "0 lb", "0 lb: nothing lay on the scale"],
    ["wing.spar", "9.5 in", "9.5 in: a reading is a mass, not a length"],
    ["wing.spar", "heavy", "heavy: nothing is called heavy here"],
    ["wing.spar", "9.5 lb; part x", "9.5 lb; part x is no reading, as 4.06 lb is one"],
    [
      "wing.spar",
      "9.5 lb // so",
      "9.5 lb // so says more than a reading: date and scale are said apart",
    ],
    ["wing.spar", "", "no reading"],
    [
      "wing.spar",
      "4.31 lb",
      "4.31 lb is one 2.2th of the 9.5 lb calculated, as pounds are to kilograms",
    ],
    ["wing.spar", "152 lb", "152 lb is 16 times the 9.5 lb calculated, as ounces are to pounds"],
    ["wing.spar", "270", "270 lb is 28 times the 9.5 lb calculated, as grams are to ounces"],
    [
      "wing.rib",
      "2.41",
      "2.41 lb is 6 times the 0.4 lb calculated, as all 6 pieces weigh together: write total 2.41 lb",
    ],
  ])("%s %s", (path, figure, message) => {
    expect(why({ path, figure })).toBe(message);
  });

  // the spar's 9.5 lb may be ± 4 %: the root of 0.38² and (0.02 + 0.001 × 9.5)²
  test.each([
    [
      "4.8 lb",
      "4.8 lb is one 2th of the 9.5 lb calculated, most likely as pounds are to kilograms (2.2 times)",
    ],
    [
      "23.9 lb",
      "23.9 lb is 2.5 times the 9.5 lb calculated, most likely as pounds are to kilograms (2.2 times)",
    ],
    [
      "86 lb",
      "86 lb is 9.1 times the 9.5 lb calculated, most likely as with a decimal point out of place (10 times)",
    ],
    ["4300 lb", "4300 lb is 450 times the 9.5 lb calculated, as grams are to pounds"],
    ["9500 lb", "9500 lb is 1000 times the 9.5 lb calculated, as grams are to kilograms"],
    [
      "9.5 lb / 1000",
      "9.5 lb / 1000 is one 1000th of the 9.5 lb calculated, as grams are to kilograms",
    ],
    [
      "17.9 lb",
      "17.9 lb is 1.9 times the 9.5 lb calculated, most likely as both pieces weigh together: write total 17.9 lb",
    ],
    [
      "12.4 lb",
      "12.4 lb is 2.9 lb more than the 9.5 lb calculated, held against ± 0.381 lb (one spread of both)",
    ],
    [
      "6.5 lb",
      "6.5 lb is 3 lb less than the 9.5 lb calculated, held against ± 0.381 lb (one spread of both)",
    ],
  ])("a spar of 9.5 lb, ± 4 percent, that weighs %s", (figure, message) => {
    expect(why({ path: "wing.spar", figure })).toBe(message);
  });

  test("what nobody said how far it may be off is held against a factor of two", () => {
    expect(why({ path: "wing.tip", figure: "3.6 lb" })).toBe(
      "3.6 lb is 2.4 lb more than the 1.2 lb estimated, and nobody says how far off that may be: held against a factor of two",
    );
    expect(weigh(wing, [{ path: "wing.tip", figure: "2.1 lb" }]).misfits).toEqual([]);
  });

  test("growth that is expected is allowed for, and the more a part may be off the more", () => {
    const text = wing.replace("spread calculated 4%", "growth estimated 18%; spread estimated 4%");
    expect(weigh(text, [{ path: "wing.tip", figure: "1.6 lb" }]).misfits).toEqual([]);
    expect(weigh(text, [{ path: "wing.tip", figure: "1.75 lb" }]).misfits).toEqual([
      "1.75 lb is 0.55 lb more than the 1.2 lb estimated, held against ± 0.0525 lb (one spread of both), growth of 0.216 lb allowed for",
    ]);
    // 10 times, less three spreads of 10 %, is 7.7 times
    const rough = wing.replace("spread calculated 4%", "spread estimated 10%");
    expect(weigh(rough, [{ path: "wing.tip", figure: "9.3 lb" }]).misfits).toEqual([
      "9.3 lb is 7.8 times the 1.2 lb estimated, most likely as with a decimal point out of place (10 times)",
    ]);
  });

  test("a reading within its spreads, its growth or 15 % of what was thought is taken", () => {
    // 18 % growth on 1.2 lb, and 10 % spread: 1.8 lb are 2.5 spreads beyond 1.416 lb
    const text = wing.replace(
      "spread calculated 4%",
      "growth estimated 18%; spread estimated 10%, calculated 4%",
    );
    for (const figure of ["1.8 lb", "1 lb", "0.9 lb"])
      expect(weigh(text, [{ path: "wing.tip", figure }]).misfits).toEqual([]);
    expect(weigh(text, [{ path: "wing.tip", figure: "2.4 lb" }]).misfits).toEqual([
      "2.4 lb is 2 times the 1.2 lb estimated, most likely as pounds are to kilograms (2.2 times)",
    ]);
    expect(weigh(wing, [{ path: "wing.spar", figure: "10.9 lb" }]).misfits).toEqual([]);
  });

  test("the same part twice, a date that is none, a number that two parts have", () => {
    expect(why({ path: "lead", figure: "5 lb" }, { path: "lead", figure: "5.1 lb" })).toBe(
      "lead is read twice, the other time in line 2",
    );
    expect(why({ path: "lead", figure: "5 lb", on: "2026-02-30" })).toBe(
      "the date is written as 2026-09-19 is, not 2026-02-30",
    );
    const twice = wing.replace("part tip", 'part tip pn "W-31"');
    expect(weigh(twice, [{ pn: "W-31", figure: "1 lb" }]).misfits).toEqual([
      "W-31 is the number of wing.aileron, wing.tip: name one by its path",
    ]);
  });

  test("unless whoever weighed it is sure", () => {
    const { text, misfits } = weigh(
      wing,
      [{ path: "wing.spar", figure: "4.31 lb" }],
      undefined,
      true,
    );
    expect(misfits).toEqual([]);
    expect(text).toContain("weighed 4.31 lb");
  });
});

test("a total is of all the pieces, and is compared by the piece", () => {
  const { text, told } = weigh(wing, [{ path: "wing.rib", figure: "total 2.46 lb" }]);
  expect(text).toContain("    weighed total 2.46 lb on 2026-11-25\n");
  expect(told).toEqual(["wing.rib: 0.01 lb more, 0.6 spreads off"]);
});

test("in an airframe a total is of its side, and a number that two sides have needs the path", () => {
  const spec = `${wing}airframe sn003 serial 3 { }\n`;
  const all = [
    { path: "wing.rib", figure: "total 2.46" },
    { pn: "W-31", figure: "4 lb" },
  ];
  const { text, misfits } = weigh(spec, all, "sn003");
  expect(text).toContain("serial 3 { weighed wing.rib total 2.46 lb on 2026-11-25 }");
  expect(misfits).toEqual([
    "W-31 is the number of wing.aileron.RH, wing.aileron.LH: name one by its path",
  ]);
});
