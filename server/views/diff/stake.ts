import { flightsOf } from "../../compute/flights";
import { emptyOf } from "../../compute/stages";
import { massOfMember } from "../../compute/weight";
import { memo } from "../../memo";
import type { Root } from "../../model/root";
import type { Turned } from "./difference";
import { assembliesOf } from "./things";

/** kg of what a finding is about: the heaviest is read first. Of what weighs nothing, and of a text, 0. */
export function stakeOf({ root, path }: Turned): number {
  return root === undefined ? 0 : (stakes(root.root).get(path) ?? 0);
}

const stakes = memo((root: Root): ReadonlyMap<string, number> => {
  const empty = emptyOf(root).basic.mass;
  const all = new Map<string, number>([["", empty]]);
  // an envelope is about every loading
  for (const { name } of root.envelopes) all.set(name, empty);
  for (const { loading, stages } of flightsOf(root))
    all.set(loading.name, Math.max(0, ...stages.map(it => it.basic.mass)));
  for (const { assembly } of assembliesOf(root))
    for (const it of assembly.members) all.set(it.path, massOfMember(it));
  return all;
});
