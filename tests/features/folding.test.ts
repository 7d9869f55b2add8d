import { expect, test } from "vitest";
import { folding } from "../../server/features/folding";
import { emptyProject, withText } from "../../server/project";
import { specs } from "../grammar/specs";

/** A text with `+ kind` before each row that something folds behind, and what goes drawn with `|`. */
function folded(text: string): string {
  const rows = text.split("\n");
  const folds = folding(withText(emptyProject(["/"]), "/x.poise", text), "/x.poise");
  return rows
    .map((row, i) => {
      const starts = folds.filter(it => it.from === i).map(it => it.kind);
      const depth = folds.filter(it => it.from < i && i <= it.to).length;
      return `${"|".repeat(depth).padEnd(3)} ${row}${starts.map(it => ` + ${it}`).join("")}`;
    })
    .join("\n");
}

test("blocks, runs of comments, and includes whatever comments part them", () =>
  expect(
    folded(`// The aircraft.
// It is invented.
aircraft kite {
  units lb, in
}
include "a.poise"

// half of it
include "b.poise"

// one alone
assembly wing
{
  part spar {
    weighed 3 lb
    at FS 1
  }
  part skin { at FS 1 }
  // first
  // second
}`),
  ).toBe(`    // The aircraft. + comment
|   // It is invented.
    aircraft kite { + block
|     units lb, in
    }
    include "a.poise" + includes
|   
|   // half of it
|   include "b.poise"
    
    // one alone
    assembly wing
    { + block
|     part spar { + block
||      weighed 3 lb
||      at FS 1
|     }
|     part skin { at FS 1 }
|     // first + comment
||    // second
    }`));

test("while a brace is missing, the layout says what folds", () =>
  expect(folded("assembly wing {\n  part spar\n\nassembly tail {\n  part fin\n}")).toBe(
    "    assembly wing { + block\n|     part spar\n    \n    assembly tail { + block\n|     part fin\n    }",
  ));

test("in every spec each fold hides something, and none crosses another", () => {
  let count = 0;
  for (const [path, text] of specs) {
    const folds = folding(withText(emptyProject(["/"]), `/${path}`, text), `/${path}`);
    count += folds.length;
    for (const one of folds) {
      expect(one.from).toBeLessThan(one.to);
      for (const other of folds)
        if (other.from > one.from && other.from <= one.to)
          expect(other.to).toBeLessThanOrEqual(one.to);
    }
  }
  expect(count).toBeGreaterThan(100);
});
