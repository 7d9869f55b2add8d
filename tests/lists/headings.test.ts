import { expect, test } from "vitest";
import { headingOf } from "../../server/lists/headings";

test.each([
  ["Mass [kg]", "mass", "kg"],
  ["Weight (lb)", "mass", "lb"],
  ["Weight, lbs", "mass", "lb"],
  ["Gewicht in g", "mass", "g"],
  ["Einzelgewicht [kg/Stk]", "mass", "kg"],
  ["Masse", "mass", undefined],
  ["Poids unitaire (kg)", "mass", "kg"],
  ["Mass_kg", "mass", "kg"],
  ["Total Mass (kg)", "total", "kg"],
  ["Gesamtgewicht", "total", undefined],
  ["Masse totale [g]", "total", "g"],
  ["X", "FS", undefined],
  ["CG X (in)", "FS", "in"],
  ["Xcg [mm]", "FS", "mm"],
  ["Schwerpunkt Y [mm]", "BL", "mm"],
  ["Center of Mass Z", "WL", undefined],
  ["Centre de gravité X (mm)", "FS", "mm"],
  ["Hebelarm [mm]", "FS", "mm"],
  ["FS", "FS", undefined],
  ["Waterline (Zoll)", "WL", "in"],
  ["P/N", "pn", undefined],
  ["Path", "path", undefined],
  ["Basis", "basis", undefined],
  ["PartNumber", "pn", undefined],
  ["Sachnummer", "pn", undefined],
  ["Référence", "pn", undefined],
  ["Benennung", "name", undefined],
  ["Désignation", "name", undefined],
  ["Stückzahl", "qty", undefined],
  ["Qté", "qty", undefined],
  ["Ebene", "level", undefined],
  ["Pos.", "position", undefined],
  ["Material", undefined, undefined],
  ["Density [kg]", undefined, "kg"],
  ["Max. weight (kg)", undefined, "kg"],
])("%s", (heading, meaning, unit) => {
  const said = headingOf(heading);
  expect([said.meaning, said.unit?.name]).toEqual([meaning, unit]);
});
