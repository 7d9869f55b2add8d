import { trialLines, trialOf } from "../views/trial";
import { nearestPath } from "../views/why";
import { withPlaces } from "../views/why-places";
import { oneAircraft } from "./airframe-named";
import { shownPath } from "./places";
import { WrongUse } from "./wrong-use";

/** Prints what another value would do to the aircraft; no file is touched. */
export function tryValue(args: readonly string[], print: (text: string) => void): 0 {
  const [value, path, file, ...more] = args.toReversed();
  if (value === undefined || path === undefined || more.length > 0)
    throw new WrongUse(
      'try takes perhaps a file, a path and a value: poise try wing.spar "20.6 lb"',
    );
  const { project, roots } = oneAircraft(file);
  const { root } = roots[0]!;
  const trial = trialOf(project, root, path, value);
  if ("why" in trial) {
    const near = trial.why === `nothing is called ${path}` ? nearestPath(root, path) : undefined;
    if (near === path)
      throw new WrongUse(
        `${path} has no value of its own: try a part, a seat or another place, a let or a choice`,
      );
    throw new WrongUse(`${trial.why}${near ? `; did you mean ${near}?` : ""}`);
  }
  for (const { text } of withPlaces(project, trialLines(project, trial), shownPath)) print(text);
  return 0;
}
