import type { Quantity } from "../quantity/quantity";
import { show } from "../quantity/show";
import { escaped, printed } from "./html";
import { sidesOf, type WeighingForm } from "./weighing-form";

/** How the page begins: what else is called so is not overwritten. */
export const heading = "Weighing form: ";

/**
 * A form for the weighing of an airframe, to be filled in with a pen on one or two sheets. What is asked
 * for stands in the order and under the words in which a weighing is written in the language.
 * @param title "Dunlin two-seat amphibian, S/N 003", @param on ISO: when it was printed
 */
export function weighingPage(form: WeighingForm, title: string, on: string): string {
  const { units, points, from, tanks, places } = form;
  const [mass, length] = [escaped(units.mass.name), escaped(units.length.name)];
  const item = (text: string) => `<li>${text}</li>`;
  const blank = (wide = 8) => `<i style="width:${wide}rem"></i>`;
  const list = places.length > 0 ? ` (${escaped(places.join(", "))})` : "";
  const { level, datum } = {
    level: form.levelling ? `Level by: <b>${escaped(form.levelling)}</b>.` : `Level by ${blank()}.`,
    datum: form.datum ? `Datum: <b>${escaped(form.datum)}</b>.` : `Datum ${blank()}.`,
  };
  const body = `<p>Printed ${on}. Weighed on ${blank(6)} at ${blank(9)} Registration ${blank(6)} ${
    form.serial === undefined ? `Serial ${blank(4)}` : `Serial <b>${form.serial}</b>`
  } Reason ${blank(9)}</p>
<h2>Before</h2>
<ul>
${[
  "Approved data for this weighing, and the equipment list of the day, at hand.",
  "Clean and dry, inside a closed hangar, no draft; brakes off on the scales.",
  `Scales within their calibration, warmed up, zeroed; chocks and stands weighed as tare.`,
  `${level} ${datum} Unit of arms: ${length}; FS aft of the datum, BL to the right.`,
  "Jacks, ramps and slings within their load and locked; nobody on or under it while it is lifted.",
  `Flaps ${blank(5)} Doors, canopy ${blank(5)} Gear ${blank(5)} Other ${blank(6)}`,
  `Nobody and nothing on seats and in bays${list}, or it stands below under aboard.`,
]
  .map(item)
  .join("\n")}
</ul>
${table(
  `Scales <small>${escaped(from)} · scale … at … reads … tare … by</small>`,
  [
    ["Point", 9],
    ["At", 10],
    ["FS measured", 10],
    ["BL measured", 10],
    [`Reads, ${mass}`, 9],
    ["again", 9],
    ["again", 9],
    ["Tare", 8],
    ["Net", 9],
    ["Moment", 9],
    ["Scale, calibrated until", 11],
  ],
  [
    ...points.map(it => [`<b>${escaped(it.name)}</b>`, escaped(it.at).replace(", ", "<br>")]),
    ["<b>Sum</b>", ...Array.from({ length: 7 }, () => none)],
  ],
)}
${
  tanks.length === 0
    ? ""
    : table(
        "Fluids <small>whole contents, unusable included · aboard TANK amount of FLUID</small>",
        [
          ["Tank", 18],
          ["Holds", 12],
          ["Unusable", 11],
          ["Drained", 9],
          ["Full", 7],
          ["Amount in it", 13],
          ["Density measured", 12],
          [`Weight, ${mass}`, 9],
          ["Moment", 9],
        ],
        tanks.flatMap(it => {
          const notes = [it.fluid?.text, it.operating ? "operating" : undefined];
          const name = (path: string) =>
            `<b>${escaped(path)}</b><br><small>${escaped(notes.filter(Boolean).join(", "))}</small>`;
          const cells = [quantity(it.holds), quantity(it.unusable), box, box];
          return sidesOf(it).map(path => [name(path), ...cells]);
        }),
      )
}
<div class="pair">
${loose("Aboard and no part of it", "aboard NAME mass at FS …", mass)}
${loose("Missing", "missing PATH", mass)}
</div>
${table(
  "Basic empty weight <small>moments about the datum: net weight × arm</small>",
  [
    ["", 52],
    [`Weight, ${mass}`, 16],
    [`Arm, ${length}`, 14],
    ["Moment", 18],
  ],
  [
    ["Sum of the scales, net"],
    ["less what was aboard: all contents of tanks, and the rest"],
    ["plus unusable fluid, and operating fluids full"],
    ["plus what was missing"],
    [`<b>Basic empty weight and CG</b>${form.chord ? ", and % MAC" : ""}`],
    [
      "<small>Its parts come to, to compare with afterwards</small>",
      escaped(expected(form).weight),
      escaped(expected(form).arm),
      "",
    ],
  ],
)}
<p>note ${blank(44)}</p>
<p>The scales read again empty: ${blank(6)} A difference to its parts beyond what both may be off: weigh again, then look for the cause.</p>
${table(
  "",
  [
    ["", 16],
    ["Name", 28],
    ["License or authority", 22],
    ["Date", 12],
    ["Signature", 22],
  ],
  [["Weighed by"], ["Witnessed by"], ["Checked and released by"]],
)}
<footer>The approved data and the regulations of the place govern how an aircraft is weighed and who may do and sign it. This form is no weight and balance report: whoever is licensed for it makes and releases that. The readings become a record with <b>weighing ${escaped(form.name)} of ${escaped(form.airframe ?? "…")} on …</b> in the spec.</footer>`;
  return printed(heading + title, style, body);
}

function table(
  caption: string,
  columns: readonly (readonly [string, number])[],
  rows: readonly (readonly string[])[],
): string {
  const cells = (row: readonly string[]) =>
    columns.map((_, i) => `<td>${row[i] ?? ""}</td>`).join("");
  return `<table class="keep">
${caption && `<caption>${caption}</caption>\n`}<colgroup>${columns.map(([, wide]) => `<col style="width:${wide}%">`).join("")}</colgroup>
<thead><tr>${columns.map(([name]) => `<th>${name}</th>`).join("")}</tr></thead>
<tbody>
${rows.map(row => `<tr>${cells(row)}</tr>`).join("\n")}
</tbody>
</table>`;
}

const loose = (caption: string, word: string, mass: string) =>
  table(
    `${caption} <small>${word}</small>`,
    [
      ["What", 46],
      [`Weight, ${mass}`, 18],
      ["FS", 18],
      ["BL", 18],
    ],
    [[], [], [], []],
  );

const none = '<span class="none">–</span>';
const box = '<span class="box"></span>';
const quantity = (of: Quantity | undefined) =>
  of === undefined ? "" : escaped(of.unit ? show(of.value, of.unit) : "");

function expected({ expected: { mass, fs, complete }, units }: WeighingForm) {
  return {
    weight: `${show(mass, units.mass)}${complete ? "" : ", incomplete"}`,
    arm: fs === null ? "" : `FS ${show(fs, units.length)}`,
  };
}

const style = `
h2 { font-size: 11pt; margin: .6rem 0 .2rem; }
ul { margin: .2rem 0; padding-left: 1.2rem; list-style: "\\2610\\00a0\\00a0"; }
p { margin: .35rem 0; line-height: 1.9; }
i { display: inline-block; border-bottom: 1px solid #000; margin-right: .6rem; }
table { margin: .5rem 0; font-size: 9.5pt; }
th { font-size: 7.5pt; padding: .15rem .25rem; }
.none { color: #888; }
td { padding: .15rem .25rem; }
.box { display: inline-block; width: .8rem; height: .8rem; border: 1px solid #000; }
.pair { display: flex; gap: .8rem; }
@media print { .keep { break-inside: avoid; } @page { margin: 11mm; } body { font-size: 9.5pt; } }
`;
