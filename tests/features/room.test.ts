import { expect, test } from "vitest";
import { hovered } from "./cursor";

test("what a pound more does, how much more fits, and what breaks then", () => {
  const spec = (cursor: string) =>
    `aircraft kite { units lb, in, gal; budget 1000 lb; growth calculated 10% }
part airframe weighed 860 lb at FS 100
assembly nose budget 30 lb {
  part battery calculated 20 lb at FS 40
}
assembly gear mirrored {
  part wheel weighed 10 lb at FS 98, BL 30
}
seat pilot at FS 100 range 100 lb .. 250 lb
envelope normal { takeoff 1100 lb; cg 800 lb: FS 98 .. 102; cg 1200 lb: FS 98 .. 102 }
loading solo under normal { pilot 180 lb }
`.replace(cursor, `${cursor.slice(0, -1)}$0${cursor.slice(-1)}`);
  // (860 × 100 + 20 × 40 + 20 × 98 + 180 × 100) / 1080 = 98.85 in
  // a pound at FS 40 moves it by (40 − 98.85) / 1080 = −0.054 in
  expect(hovered(spec("battery"))).toContain(
    [
      "1 lb more: 1.1 lb off the aircraft's margin; solo at takeoff 0.054 in nearer to the forward limit (0.852 in inside)  ",
      "room for 10 lb more, then nose is over its budget of 30 lb",
    ].join("\n"),
  );
  expect(hovered(spec("wheel"))).toContain(
    "room for 20 lb more in all, then solo at takeoff is over the takeoff weight",
  );
  expect(hovered(spec("nose").replace("budget 30", "budget 18"))).toContain(
    [
      "to be predicted within its budget, one of these must lose: nose.battery 3.7 lb  ",
      "1 lb more",
    ].join("\n"),
  );
});

test("nothing fits where a weight is over already", () => {
  const text = hovered(`
part fr$0ame weighed 900 lb at FS 100
envelope normal { takeoff 850 lb }
loading bare under normal { bag 0 lb }
bay bag at FS 100`);
  expect(text).toContain("no room for more: bare at takeoff is over the takeoff weight");
});

test("nothing is said inside what is weighed as a whole: there more mass would change nothing", () => {
  const text = hovered(`
assembly tail budget 20 lb {
  weighed 12 lb
  part fi$0n calculated 10 lb at FS 200
}`);
  expect(text).toContain("basic | 10 lb");
  expect(text).not.toContain("more");
});

test("what must go for a budget to be met: growth counted, each side of a mirrored part", () => {
  // predicted 66 lb, 6 lb too much: 6 / 1.1 / 2 = 2.73 lb of each spar, 6 / 1.1 = 5.45 lb of the skin
  const spec = `aircraft kite { units lb, in, gal; growth calculated 10% }
assembly wi$0ng budget 60 lb {
  part spar mirrored calculated 20 lb at FS 100, BL 60
  part skin calculated 12 lb at FS 100
  part tips calculated 5 lb at FS 100
  part bolts qty 30 calculated 0.1 lb at FS 100
}`;
  expect(hovered(spec)).toContain(
    "one of these must lose: wing.spar 2.8 lb on each side or wing.skin 5.5 lb",
  );
});
