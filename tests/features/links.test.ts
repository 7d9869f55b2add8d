import { expect, test } from "vitest";
import { links } from "../../server/features/links";
import { emptyProject, withText } from "../../server/project";

const files = {
  "kite.poise": `aircraft kite { units lb, in }
include "wing.poise"
include "gear/gear.poise"
include "tail.poise"
include "../outside.poise"
include "gear/../wing.poise
include
`,
  "wing.poise": "part wing weighed 3 lb at FS 1\n",
  "gear/gear.poise": 'include "../wing.poise"\n',
};

test("an include leads to its file; one that leads nowhere is no link", () => {
  let project = emptyProject(["/specs"]);
  for (const [name, text] of Object.entries(files))
    project = withText(project, `/specs/${name}`, text);
  const shown = (name: string) =>
    links(project, `/specs/${name}`).map(
      ({ at, file }) => `${at.line.text.slice(at.from, at.to)} -> ${file}`,
    );
  expect(shown("kite.poise")).toEqual([
    '"wing.poise" -> /specs/wing.poise',
    '"gear/gear.poise" -> /specs/gear/gear.poise',
    '"gear/../wing.poise -> /specs/wing.poise',
  ]);
  expect(shown("gear/gear.poise")).toEqual(['"../wing.poise" -> /specs/wing.poise']);
  expect(shown("wing.poise")).toEqual([]);
});
