import { expect, test } from "vitest";
import { whyAt } from "../../server/features/why-at";
import { opened } from "./cursor";

/** The path that the cursor means; in brackets where it only stands in what it declares. */
function meant(files: string): string | undefined {
  const { project, path, position } = opened(files);
  const at = whyAt(project, path, position);
  return at && (at.named ? at.path : `(${at.path})`);
}

const spec = (marked: string) =>
  `aircraft kite { units lb, in, gal }
let area = 3 ft^2
assembly gear mirrored {
  let wall = 2 mm
  part leg calculated area * 2 lb/ft^2 at FS 20
}
seat pilot at FS 80 range 0 lb .. 250 lb
envelope normal {
  takeoff 900 lb
}
loading solo under normal {
  pilot 180 lb
}
configuration up { swing gear }
airframe sn1 { }
weighing first of sn1 on 2026-11-12 { scale nose at FS 20 reads 30 lb }
change refit of sn1 on 2027-01-20 { remove gear.leg }
require mass(gear.LH) < 20 lb
require mass(solo.takeoff) < takeoff(normal)
`.replace(marked.replace("$0", ""), marked);

test.each([
  ["aircraft ki$0te", "kite"],
  ["part l$0eg", "gear.leg"],
  ["calculated ar$0ea", "area"],
  ["let wa$0ll", "gear.wall"],
  ["mass(gear.L$0H)", "gear.LH"],
  ["mass(so$0lo.takeoff)", "solo.takeoff"],
  ["under nor$0mal", "normal"],
  ["pi$0lot 180", "pilot"],
  ["configuration u$0p", "up"],
  ["airframe sn$01 {", "sn1"],
  ["weighing fir$0st of", "sn1.first"],
  ["reads 3$00 lb", "(sn1.first)"],
  ["change ref$0it of", "sn1"],
  ["at FS 2$00\n", "(gear.leg)"],
  ["takeoff 9$000 lb", "(normal)"],
  ["pilot 18$00 lb", "(solo)"],
])("%s means %s", (marked, path) => {
  expect(meant(spec(marked))).toBe(path);
});

test("where nothing has a figure, nothing is meant", () => {
  expect(meant(spec("require ma$0ss(gear.LH)"))).toBeUndefined();
});
