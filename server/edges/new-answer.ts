import { MOST_SEATS, newAircraft, type UnitChoice, unitChoices } from "../views/new-aircraft";

/** Without a title: only what may be chosen is asked. */
export interface NewQuestion {
  readonly title?: string;
  readonly units?: string;
  readonly seats?: number;
}

export interface NewAnswer {
  readonly units: readonly string[];
  readonly mostSeats: number;
  /** The file, once everything was said. */
  readonly file: { readonly name: string; readonly text: string } | null;
}

export function newAnswer({ title, units, seats }: NewQuestion): NewAnswer {
  const chosen = unitNames.find(it => it === units);
  const fits = seats !== undefined && Number.isInteger(seats) && 0 < seats && seats <= MOST_SEATS;
  const said = title !== undefined && chosen !== undefined && fits;
  const { name, text } = said ? newAircraft({ title, units: chosen, seats }) : nothing;
  return {
    units: unitNames,
    mostSeats: MOST_SEATS,
    file: said ? { name: `${name}.poise`, text } : null,
  };
}

const unitNames = Object.keys(unitChoices) as UnitChoice[];
const nothing = { name: "", text: "" };
