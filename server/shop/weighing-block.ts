import { sidesOf, type WeighingForm } from "./weighing-form";

/**
 * A weighing in the language, as far as it is known before: to be typed over, line by line as on the page.
 * Whatever is left open is asked for where it stands. Where there is no airframe yet, one comes first.
 * @param on ISO
 */
export function blockOf(form: WeighingForm, on: string): string {
  const { points, tanks, airframe, name, levelling } = form;
  const rows = [
    ...points.map(it => `scale ${it.name} at ${it.at || "FS"} reads`),
    ...(tanks.length > 0
      ? [
          "// what was in each tank, unusable included; a tank without its line is taken as drained",
          ...tanks.flatMap(it =>
            sidesOf(it).map(path => `aboard ${path}${it.operating ? " full" : ""}`),
          ),
        ]
      : []),
    "// what was on board and is no part of the empty aircraft, and what is part of it and was not there:",
    "// aboard sandbag 12 lb at FS 6".replace("lb", form.units.mass.name),
    "// missing cabin.carpet",
    `note "${levelling ? `level by: ${levelling.replaceAll('"', "")}; ` : ""}"`,
  ];
  return `// As the form has it: readings, as in ${example(form)}.
// What does not apply goes out; poise check says what is still open.
${airframe ? "" : 'airframe sn001 "S/N 001" serial 1 { }\n'}weighing ${name} of ${airframe ?? "sn001"} on ${on} {
${rows.map(it => `  ${it}`).join("\n")}
}
`;
}

const example = ({ units: { mass } }: WeighingForm) =>
  `reads 434.0 ${mass.name}, 434.2 ${mass.name} tare 2.0 ${mass.name} by "scale A, calibrated 2026-06"`;
