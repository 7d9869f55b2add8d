import { rounded } from "../../compute/exact";
import { sharesOf } from "../../compute/shares";
import {
  chanceOver,
  deviationOf,
  type Errors,
  errorsOfMember,
  oneSideErrors,
  type Source,
} from "../../compute/spread";
import { balanceOf, basicBalance, oneSide } from "../../compute/weight";
import type { Assembly, Member } from "../../model/assembly";
import type { Root } from "../../model/root";
import { chanceText } from "../../quantity/chance";
import { showNumber } from "../../quantity/show";
import { massText, percent } from "./figures";
import type { Step } from "./lines";

/** What an assembly's mass rests on, and how much of it. */
export function basisSteps(root: Root, assembly: Assembly): readonly Step[] {
  const shares = Object.entries(sharesOf(assembly)).filter(([, mass]) => mass > 0);
  const all = shares.reduce((sum, [, mass]) => sum + mass, 0);
  return shares.map(([basis, mass]) => [basis, `${massText(root, mass)}, ${percent(mass / all)}`]);
}

/** One standard deviation: what each member brings by itself, what they share, and the root of the squares. */
export function spreadSteps(root: Root, assembly: Assembly): readonly Step[] {
  const { mass } = deviationOf(assembly);
  if (mass === 0) return [];
  const whole = oneSideErrors(assembly);
  const { weighed } = assembly;
  const alone = (errors: Errors) => `± ${massText(root, independent(errors))}`;
  const own: readonly Step[] = weighed?.mass
    ? [["as weighed", alone(whole), weighed.clause]]
    : assembly.members.flatMap((member): readonly Step[] => {
        const errors = errorsOfMember(member);
        return independent(errors) === 0
          ? []
          : [[sidesOf(member), alone(errors), member.head.path]];
      });
  const shared = [...whole.shared].map(([source, it]): Step => {
    const by = massText(root, Math.abs(rounded(it.mass)));
    return [nameOf(source), `± ${by}, one error of all that rest on it`, placeOf(source)];
  });
  const how = own.length + shared.length > 1 ? ", the root of the sum of squares" : "";
  return [...own, ...shared, ["together", `± ${massText(root, mass)}${how}`]];
}

/** How likely the budget is exceeded: normal, about basic + growth. */
export function chanceSteps(root: Root, assembly: Assembly): readonly Step[] {
  const chance = chanceOver(assembly);
  const { budget } = assembly;
  if (chance === undefined || budget === undefined) return [];
  const weight = oneSide(assembly);
  const [basic, growth] = [basicBalance(weight).mass, balanceOf(weight.growth, 0).mass];
  const { mass } = deviationOf(assembly);
  const expected = basic + growth;
  const [most, about, off] = [budget.mass, expected, mass].map(it => massText(root, it));
  return [
    [
      "expected",
      `${massText(root, basic)} + ${massText(root, growth)} of growth = ${about}; reserves unspent`,
    ],
    ["distance", `(${most} − ${about}) ÷ ${off} = ${showNumber((budget.mass - expected) / mass)}`],
    ["chance", `${chanceText(chance)}, as a normal error goes`],
  ];
}

export const sidesOf = (member: Member) =>
  `${member.name}${member.kind !== "reserve" && member.mirrored ? " (both)" : ""}`;

const independent = (errors: Errors) => Math.sqrt(rounded(errors.mass));

const nameOf = (source: Source) =>
  source.kind === "common" ? `common to ${source.basis}` : `let ${source.name?.text ?? ""}`;
const placeOf = (source: Source) => (source.kind === "common" ? source.said : source.name);
