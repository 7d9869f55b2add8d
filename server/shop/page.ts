import { show } from "../quantity/show";
import type { Unit } from "../quantity/units";
import { escaped, printed } from "./html";
import { expectedOf, type Group } from "./sheet";
import type { Weighable, WeighableWhole } from "./weighable";

/** What stands above the tables. */
export interface About {
  /** "Dunlin two-seat amphibian", with its airframe. */
  readonly title: string;
  /** ISO: when it was printed. */
  readonly on: string;
  readonly unit: Unit;
  /** The title of an assembly, by its path, where it has one. */
  readonly titleOf: (path: string) => string | undefined;
}

/** The sheet as one page that needs no other file, to be printed and filled in with a pen. */
export function pageOf(
  groups: readonly Group[],
  wholes: readonly WeighableWhole[],
  about: About,
): string {
  const { title, on, unit } = about;
  const many = groups.reduce((sum, it) => sum + it.rows.length, 0);
  const known = groups.flatMap(it => it.rows).filter(it => it.before);
  const mass = known.reduce((sum, it) => sum + it.before!.mass * it.pieces, 0);
  const heading = `Weigh sheet: ${title}`;
  const body = `<p>${on}. ${many} ${many === 1 ? "part" : "parts"} not weighed yet${
    mass > 0 ? `, ${escaped(show(mass, unit))} as far as known` : ""
  }. <span>Scale: <i></i></span> <span>Weighed by: <i></i></span></p>
<ul>
<li>A reading is of one piece. Of all pieces at once: write <b>total</b> before the figure.</li>
<li>The unit is ${escaped(unit.name)}. Another one: write it behind the figure, as in 4 lb 1 oz or 1.84 kg.</li>
<li>Check the scale with a known mass before and after, and take the tare off.</li>
<li>A part far from what is expected: weigh it again before you write.</li>
</ul>
${[...groups.map(it => groupTable(it, about)), ...wholesTable(wholes, about)].join("\n")}
<footer>A calculated weight and balance does not replace weighing the aircraft, its approved flight
manual or weight and balance report, local regulations, or a licensed mechanic or inspector.</footer>`;
  return printed(heading, style, body);
}

function groupTable({ path, rows }: Group, about: About): string {
  const called = path === "" ? about.title : (about.titleOf(path) ?? path);
  const beside = path === "" || called === path ? "" : ` <small>${escaped(path)}</small>`;
  return tableOf(rows, path, `${escaped(called)}${beside}`, about);
}

/** In place of its parts an assembly may be weighed as a whole. */
function wholesTable(wholes: readonly WeighableWhole[], about: About): readonly string[] {
  const note =
    "complete and drained; the reading governs over those of the parts in it, and its places are theirs";
  const caption = `Assemblies, each as a whole <small>${note}</small>`;
  return wholes.length === 0 ? [] : [tableOf(wholes, "", caption, about)];
}

function tableOf(
  rows: readonly Weighable[],
  path: string,
  caption: string,
  { unit }: About,
): string {
  const body = rows.map(it => {
    const name = it.path.slice(path === "" ? 0 : path.length + 1);
    const cells = [
      `<b>${escaped(name)}</b>${it.title ? `<br>${escaped(it.title)}` : ""}`,
      `${escaped(it.pn ?? "")}${it.sn ? `<br>S/N ${escaped(it.sn)}` : ""}`,
      it.pieces === 1 ? "" : `${it.pieces}`,
      expectedOf(it, unit),
    ];
    return `<tr>${cells.map(cell => `<td>${cell}</td>`).join("")}${"<td></td>".repeat(3)}</tr>`;
  });
  const heads = ["Part", "P/N", "Pieces", `Expected, ${unit.name}`, `Reading, ${unit.name}`];
  return `<table>
<caption>${caption}</caption>
<thead><tr>${[...heads, "Date", "Scale, note"].map(it => `<th>${escaped(it)}</th>`).join("")}</tr></thead>
<tbody>
${body.join("\n")}
</tbody>
</table>`;
}

const style = `
p span { white-space: nowrap; }
p i { display: inline-block; width: 9rem; border-bottom: 1px solid #000; margin-right: 1rem; }
th:nth-child(1) { width: 24%; } th:nth-child(2) { width: 12%; } th:nth-child(3) { width: 8%; } th:nth-child(4) { width: 11%; } th:nth-child(5) { width: 16%; } th:nth-child(6) { width: 12%; } th:nth-child(7) { width: 17%; }
td:nth-child(3), td:nth-child(4) { text-align: right; font-variant-numeric: tabular-nums; }
`;
