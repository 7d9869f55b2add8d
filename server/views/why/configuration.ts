import { movedSum } from "../../compute/moved";
import type { Configuration } from "../../compute/shapes";
import { emptyOf } from "../../compute/stages";
import { still } from "../../compute/turn";
import { balanceOf, weightOf } from "../../compute/weight";
import { emptyIn } from "../../compute/whole";
import type { Root } from "../../model/root";
import { show } from "../../quantity/show";
import { unitTable } from "../../quantity/units";
import { lengthText, massText, momentText } from "./figures";
import { line, type Step, section, type WhyLine } from "./lines";

/** What is swung, where each of it goes, and what that does to the basic empty weight. */
export function configurationLines(root: Root, configuration: Configuration): readonly WhyLine[] {
  const { name, title, ground, swung, at, sound } = configuration;
  const head = `${name}${title ? ` "${title}"` : ""}, ${ground ? "on the ground only" : "in flight"}`;
  if (!sound) return [line(`${head}: cannot be swung`, at)];
  const parts = [...swung].flatMap(([assembly, side]): readonly WhyLine[] => {
    const { mass, ...before } = balanceOf(weightOf(assembly).basic, 0);
    const after = balanceOf(
      movedSum(assembly, still, undefined, new Map([[assembly, side]])).basic,
      0,
    );
    const { swing, path, mirrored } = assembly;
    const both = mirrored ? (side === "both" ? ", both sides" : `, ${side} alone`) : "";
    const steps: readonly Step[] = [
      [
        "swing",
        `${show(swing?.angle ?? 0, degrees)} ${swing?.toward ?? "by the right-hand rule"}`,
        swing?.clause,
      ],
      ...axes.flatMap(([axis, key]): readonly Step[] => {
        const [from, to] = [before[key], after[key]];
        if (from === null || to === null || Math.abs(to - from) < 1e-9) return [];
        const moment = momentText(root, mass * (to - from));
        return [
          [
            axis,
            `${lengthText(root, from)} to ${lengthText(root, to)}: ${massText(root, mass)} × ${lengthText(root, to - from)} = ${moment}`,
          ],
        ];
      }),
    ];
    return section(`${path}${both}`, steps);
  });
  const drawn = emptyOf(root).basic;
  const { balance } = emptyIn(root, configuration);
  const empty = axes.flatMap(([axis, key]): readonly Step[] => {
    const [from, to] = [drawn[key], balance[key]];
    if (from === null || to === null) return [];
    return [[axis, `${lengthText(root, from)} to ${lengthText(root, to)}`]];
  });
  return [
    line(head, at),
    ...parts,
    ...section(`CG of the basic empty weight, ${massText(root, drawn.mass)}`, empty),
  ];
}

const degrees = unitTable.get("deg")!;
const axes = [
  ["FS", "fs"],
  ["BL", "bl"],
  ["WL", "wl"],
] as const;
