import { existsSync } from "node:fs";
import { dirname } from "node:path";
import { judge } from "../judge";
import { emptyProject, withText } from "../project";
import { asOf } from "../shop/as-of";
import { frozen } from "../views/frozen";
import { reportOf } from "../views/report";
import { airframeNamed, rootsAt } from "./airframe-named";
import { plainPath } from "./disk";
import { called, localDate } from "./options";
import { shownPath } from "./places";
import { isIn } from "./uris";
import { newFile } from "./write-file";
import { WrongUse } from "./wrong-use";

/**
 * Writes an airframe as it stands as a spec that includes nothing, after it was judged to be the same. Beside
 * the files it came from it is a second aircraft, which is said.
 */
export function freeze(args: readonly string[], print: (text: string) => void): 0 {
  const { rest, said } = called("freeze", args, ["--output"]);
  const [name, file = ".", ...more] = rest;
  if (name === undefined || more.length > 0)
    throw new WrongUse("freeze takes an airframe, and a file or folder: poise freeze sn003 .");
  const { at, roots } = rootsAt(file);
  const judged = airframeNamed(roots, name, at);
  const { root } = judged;
  const files = judged.files.map(it => shownPath(it));
  const remark = `// ${root.airframe?.title ?? name} ${asOf(root, localDate(new Date()), "written")}, from ${files.join(", ")}.\n// A later change of the design does not reach it.\n\n`;
  const text = remark + frozen(root);

  const alone = judge(withText(emptyProject(["/"]), "/frozen.poise", text));
  const same = alone.roots.find(it => it.airframe === name);
  if (same === undefined || figuresOf(same) !== figuresOf(judged))
    throw new WrongUse(
      `${name} cannot be written as a spec of its own: it would not come to the same figures; please report it`,
    );
  const out = said.get("--output");
  if (out === undefined) {
    print(text.trimEnd());
    return 0;
  }
  const path = plainPath(out);
  if (existsSync(path)) throw new WrongUse(`${shownPath(path)} is there already: name a new file`);
  newFile(path, text);
  print(`${shownPath(path)}: ${judged.summary}`);
  const beside = judged.files.find(it => isIn(path, dirname(it)));
  if (beside !== undefined)
    print(
      `warning: ${shownPath(path)} is an aircraft of its own beside ${shownPath(beside)}: both are checked with their folder, and commands such as weigh and progress ask which file is meant; in a folder of its own it stays apart`,
    );
  return 0;
}

/** All that is reported of it but where it stands. */
const figuresOf = (of: Parameters<typeof reportOf>[0]) =>
  JSON.stringify({ ...reportOf(of), file: "" });
