/** What is asked of somebody who begins an aircraft. */
export interface Beginning {
  /** As people call it: "Kite 2". */
  readonly title: string;
  readonly units: UnitChoice;
  /** From 1 to MOST_SEATS. */
  readonly seats: number;
}

/** By the words of the `units` line: one of each mass, length and volume in kg, m and L. */
export const unitChoices = {
  "lb, in, gal": { mass: 0.45359237, length: 0.0254, volume: 3.785411784, arm: 1, fluid: 6.02 },
  "kg, mm, L": { mass: 1, length: 0.001, volume: 1, arm: 10, fluid: 0.72 },
  "kg, m, L": { mass: 1, length: 1, volume: 1, arm: 0.01, fluid: 0.72 },
} as const;
export type UnitChoice = keyof typeof unitChoices;

export const MOST_SEATS = 6;

/**
 * A spec to be overwritten line by line: every figure in it is a placeholder and marked as an estimate,
 * and all of them together are sound, so that the first finding is of the author's own making.
 * @returns the aircraft's name in the language, and the text of its file
 */
export function newAircraft({ title, units, seats }: Beginning): {
  readonly name: string;
  readonly text: string;
} {
  const name = nameFrom(title);
  const [mass, , volume] = units.split(", ");
  const { mass: kg, length: m, volume: L, arm, fluid } = unitChoices[units];
  const heavy = (x: number) => `${Math.round(x / kg)} ${mass}`;
  const far = (x: number) => String(Number((Math.round(x / m / arm) * arm).toFixed(2)));
  const at = (fs: number, wl: number) => `at FS ${far(fs)}, WL ${far(wl)}`;

  const assemblies = [
    { name: "wing", title: "Wing", of: 45 + 20 * seats, place: at(2, 1) },
    { name: "fuselage", title: "Fuselage", of: 50 + 20 * seats, place: at(2.2, 0.8) },
    { name: "tail", title: "Tail", of: 10 + 3 * seats, place: at(5.5, 1.2) },
    { name: "gear", title: "Landing gear", of: 20 + 6 * seats, place: at(1.9, 0.3) },
    { name: "power", title: "Engine and propeller", of: 70 + 25 * seats, place: at(0.8, 0.8) },
    { name: "systems", title: "Systems", of: 10 + 5 * seats, place: at(1.8, 0.8) },
  ];
  const empty = assemblies.reduce((sum, it) => sum + it.of, 0);
  const people = Array.from({ length: seats }, (_, i) => ({
    name: i === 0 ? "pilot" : `seat_${i + 1}`,
    // two abreast
    fs: 1.9 + 0.8 * Math.floor(i / 2),
    side: seats === 1 ? 0 : i % 2 === 0 ? -0.3 : 0.3,
  }));
  const fuel = 25 * (1 + seats);
  const most = empty * 1.15 + seats * 110 + fuel * 0.72 + 20;
  const quoted = title.replaceAll('"', "'");

  const text = `// ${quoted}, begun from three questions.
// Every figure is a placeholder: put your own in its place, and write what it rests on (estimated,
// calculated, quoted, weighed) and where it comes from.
// A calculated weight and balance does not replace a weighing, the approved documents, local
// regulations, or a licensed mechanic or inspector.
aircraft ${name} "${quoted}" {
  units ${units}
  datum "say which point FS 0 is, so that it can be found again on the aircraft"
  growth estimated 10%, calculated 5%
  budget ${heavy(empty * 1.2)}
}

${assemblies
  .map(
    it => `assembly ${it.name} "${it.title}" budget ${heavy(it.of * 1.15)} {
  part structure estimated ${heavy(it.of)} ${it.place}
}
`,
  )
  .join("\n")}
fluid fuel ${fluid} ${mass}/${volume}
tank main holds ${Math.round(fuel / L)} ${volume} of fuel unusable ${L > 1 ? 0.5 : 2} ${volume} ${at(1.95, 0.9)}
${people
  .map(
    it =>
      `seat ${it.name} at FS ${far(it.fs)}, BL ${far(it.side)}, WL ${far(0.7)} range ${it.name === "pilot" ? heavy(55) : `0 ${mass}`} .. ${heavy(110)}\n`,
  )
  .join("")}bay baggage ${at(2.6, 0.8)} range 0 ${mass} .. ${heavy(20)}

envelope normal {
  takeoff ${heavy(most)}
  cg ${heavy(empty * 0.9)}: FS ${far(1.4)} .. ${far(2.4)}
  cg ${heavy(most)}: FS ${far(1.4)} .. ${far(2.4)}
}

loading solo "Pilot alone, full tank" under normal {
  pilot ${heavy(80)}
  main full
  burn main
}

loading everybody "All seats, full tank" under normal {
${people.map(it => `  ${it.name} ${heavy(80)}\n`).join("")}  baggage ${heavy(10)}
  main full
  burn main
}
`;
  return { name, text };
}

/** A name in the language: "Kite 2" is kite_2. Letters of other alphabets have no place in one. */
export function nameFrom(title: string): string {
  const plain = title
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "_")
    .replace(/^_+|_+$/g, "");
  if (plain === "") return "aircraft_1";
  return /^[a-z]/.test(plain) ? plain : `aircraft_${plain}`;
}
