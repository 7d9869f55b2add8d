import { expect, test } from "vitest";
import { allLoadingsOf } from "../../server/compute/all-loadings";
import { judge } from "../../server/judge";
import { emptyProject, withText } from "../../server/project";
import { reportOf } from "../../server/views/report";
import { AT, check } from "../fixture";

const hull = `aircraft kite { units kg, mm, L; mac at FS 1500 length 1200 }
part hull weighed 300 kg at FS 1800
seat pilot at FS 1700 range 60 kg .. 110 kg
`;

test("an envelope without CG limits along FS vouches for no loading", () => {
  const spec = `${hull}envelope bare { }
//       ^^^^ warning[no-cg-limits]: bare has no CG limits: no loading is known to be inside it
envelope weights { takeoff 560 kg }
//       ^^^^^^^ warning[no-cg-limits]: weights has no CG limits: no loading is known to be inside it
envelope across { takeoff 560 kg; lateral BL -50 .. 50 }
//       ^^^^^^ warning[no-cg-limits]: across has no CG limits: no loading is known to be inside it
envelope sound { cg 280 kg: FS 1700 .. 1900; cg 560 kg: FS 1700 .. 1900 }
envelope box { takeoff 560 kg; cg FS 1700 .. 1900 }
loading solo { pilot 80 kg }
`;
  check(spec);
  expect(insideIn(spec)).toEqual({
    ...{ bare: [null, null], weights: [true, null], across: [true, null] },
    ...{ sound: [true, true], box: [true, true] },
  });
  expect(verdictsIn(spec)).toEqual({ sound: "inside", box: "inside" });
});

test("what such an envelope forbids is forbidden all the same", () =>
  check(
    `${hull}envelope weights { takeoff 360 kg }
loading solo { pilot 80 kg }
//      ^^^^ error[above-weight-limit]: solo at takeoff weighs 380 kg, 20 kg over the takeoff weight of 360 kg (weights)
`,
    ["no-cg-limits"],
  ));

test("nothing lands that is too heavy to take off", () =>
  check(`${hull}envelope normal {
  ramp 560 kg; takeoff 560 kg; landing 600 kg; zero_fuel 500 kg; cg FS 1700 .. 1900
//                             ^^^^^^^^^^^^^^ warning[figure-suspect]: the landing weight of 600 kg is above the takeoff weight of 560 kg
}
envelope level { ramp 560 kg; takeoff 560 kg; landing 560 kg; cg FS 1700 .. 1900 }
`));

test("a weight without its unit is one error, and what depends on the row is not known", () => {
  const spec = `${hull}envelope normal {
  takeoff 560 kg
  cg 280: 15 %MAC .. 38 %MAC
//   ^^^ error[unit-missing]: the weight of a row needs its unit
  cg 560 kg: 15 %MAC .. 38 %MAC
}
loading solo under normal { pilot 80 kg }
`;
  check(spec);
  expect(insideIn(spec)).toEqual({ normal: [null, null] });
  expect(verdictsIn(spec)).toEqual({});
});

const judged = (spec: string) => {
  const text = spec.replace(/^\/\/ .*\n/gm, "");
  return judge(withText(emptyProject(["/specs"]), AT, text)).roots[0]!;
};

/** Its one loading at takeoff, by the envelope: whether it is inside, and its CG. */
function insideIn(spec: string) {
  const { loadings } = reportOf(judged(spec)) as { loadings: readonly Flown[] };
  return Object.fromEntries(
    loadings.map(({ envelope, stages }) => {
      const { inside, cg_inside } = stages.find(it => it.stage === "takeoff")!;
      return [envelope, [inside, cg_inside]];
    }),
  );
}
interface Flown {
  readonly envelope: string;
  readonly stages: readonly {
    readonly stage: string;
    readonly inside: boolean | null;
    readonly cg_inside: boolean | null;
  }[];
}

const verdictsIn = (spec: string) =>
  Object.fromEntries(
    allLoadingsOf(judged(spec).root).flatMap(({ envelope, verdict }) =>
      verdict ? [[envelope.name, verdict]] : [],
    ),
  );
