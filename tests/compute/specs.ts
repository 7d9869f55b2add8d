import fc from "fast-check";

/** Small aircraft in random figures, kg, m and L: what they may load, and what limits it. */

const milli = (low: number, high: number) =>
  fc.integer({ min: Math.round(low * 1000), max: Math.round(high * 1000) }).map(it => it / 1000);
const often = fc.constantFrom(true, true, true, false);
const seldom = fc.constantFrom(true, false, false, false);
const never = fc.constantFrom(true, ...Array<boolean>(9).fill(false));

const place = fc.tuple(milli(1, 4), milli(-0.8, 0.8), milli(0, 1));

const seat = fc
  .record({
    ...{ place, mirrored: seldom, fsRange: seldom, blRange: never, least: often, swung: never },
    most: fc.integer({ min: 20, max: 130 }),
  })
  .map(({ place: [fs, bl, wl], mirrored, fsRange, blRange, least, most, swung }) => ({
    swung: swung && !mirrored,
    text: (name: string) => {
      const at = [
        `FS ${fs}${fsRange ? ` .. ${fs + 0.25}` : ""}`,
        `BL ${mirrored ? Math.abs(bl) : bl}${blRange ? ` .. ${bl + 1}` : ""}`,
        `WL ${wl}`,
      ];
      const range = `range ${least ? 0 : Math.floor(most / 2)} kg .. ${most} kg`;
      return `seat ${name}${mirrored ? " mirrored" : ""} at ${at.join(", ")} ${range}`;
    },
    mirrored,
  }));

const tank = fc
  .record({
    ...{ place, mirrored: seldom, unusable: seldom, elsewhere: seldom, operating: never },
    ...{ rows: seldom, bent: milli(-0.6, 0.6), fuel: often, swung: never },
    holds: fc.integer({ min: 20, max: 150 }),
  })
  .map(it => ({
    swung: it.swung && !it.mirrored,
    mirrored: it.mirrored,
    text: (name: string) => {
      const [fs, bl, wl] = it.place;
      const fluid = it.fuel ? "mogas" : "water";
      const where = it.elsewhere ? ` at FS ${fs + 0.5}, WL ${wl}` : "";
      const lines = [
        `at FS ${fs}, BL ${it.mirrored ? Math.abs(bl) : bl}, WL ${wl}`,
        ...(it.rows
          ? [
              `filled ${it.holds / 2} L at FS ${fs}`,
              `filled ${it.holds} L at FS ${(fs + it.bent).toFixed(3)}`,
            ]
          : []),
      ];
      const words = [
        `tank ${name}${it.mirrored ? " mirrored" : ""} holds ${it.holds} L of ${fluid}`,
        it.unusable ? `unusable ${it.holds / 10} L${where}` : "",
        it.operating ? "operating" : "",
      ];
      return `${words.join(" ")} {\n${lines.join("\n")}\n}`;
    },
  }));

const rows = (word: string, key: string, middle: number, width: number) =>
  fc
    .record({
      keys: fc.constantFrom(
        [300, 1400],
        [300, 700, 1400],
        [380, 700, 700, 1400],
        [420, 800],
        [300, 640],
      ),
      lows: fc.array(milli(-width, 0), { minLength: 4, maxLength: 4 }),
      highs: fc.array(milli(0, width), { minLength: 4, maxLength: 4 }),
    })
    .map(({ keys, lows, highs }) =>
      keys.map((weight, i) => {
        const at = key === "kg" ? `${weight} kg` : `FS ${weight / 300}`;
        const [low, high] = [lows[i]!, highs[i]!].map(it => (middle + it).toFixed(3));
        return `${word} ${at}: ${word === "cg" ? "FS" : "BL"} ${low} .. ${high}`;
      }),
    );

const envelope = fc
  .record({
    ...{ takeoff: often, ramp: never, zeroFuel: seldom, lateral: seldom, byStation: never },
    cg: fc.oneof(rows("cg", "kg", 2.2, 0.5), rows("cg", "kg", 2.3, 1.4)),
    across: fc.oneof(rows("lateral", "kg", 0, 0.2), rows("lateral", "kg", 0, 0.8)),
    along: fc.oneof(rows("lateral", "FS", 0, 0.3), rows("lateral", "FS", 0, 1.5)),
    weight: fc.integer({ min: 480, max: 800 }),
  })
  .map(it => [
    ...(it.takeoff ? [`takeoff ${it.weight} kg`] : []),
    ...(it.ramp ? [`ramp ${it.weight - 10} kg`] : []),
    ...(it.zeroFuel ? [`zero_fuel ${it.weight - 60} kg`] : []),
    ...it.cg,
    ...(it.lateral ? it.across : []),
    ...(it.byStation ? it.along : []),
  ]);

const limit = fc.record({
  most: fc.integer({ min: 30, max: 150 }),
  of: fc.uniqueArray(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 3 }),
  side: seldom,
  inside: seldom,
});

export const specs = fc
  .record({
    seats: fc.array(seat, { maxLength: 3 }),
    tanks: fc.array(tank, { maxLength: 2 }),
    limits: fc.array(limit, { maxLength: 2 }),
    ...{ envelope, burns: often, configuration: seldom },
    parts: fc.array(fc.tuple(fc.integer({ min: 60, max: 220 }), place), {
      minLength: 2,
      maxLength: 3,
    }),
  })
  .filter(it => it.seats.length + it.tanks.length > 0)
  .map(({ seats, tanks, limits, parts, envelope, burns, configuration }) => {
    const places = [
      ...seats.map((it, i) => ({ ...it, line: it.text(`seat${i}`), name: `seat${i}` })),
      ...tanks.map((it, i) => ({ ...it, line: it.text(`tank${i}`), name: `tank${i}` })),
    ];
    const path = (it: (typeof places)[number]) => (it.swung ? `boom.${it.name}` : it.name);
    const limited = limits.map(({ most, of, side, inside }) => {
      const named = [...new Set(of.map(i => places[i % places.length]!))];
      const paths = named.map((it, i) =>
        side && it.mirrored && i === 0 ? `${path(it)}.RH` : path(it),
      );
      return { inside, line: `limit ${most} kg of ${paths.join(", ")}` };
    });
    const burnt = places.find(it => it.name.startsWith("tank") && it.line.includes("of mogas"));
    return [
      "aircraft kite { units kg, m, L }",
      "fluid mogas 0.72 kg/L",
      "fluid water 1 kg/L",
      ...parts.map(
        ([mass, [fs, bl, wl]], i) =>
          `part part${i} weighed ${mass} kg at FS ${fs}, BL ${bl / 4}, WL ${wl}`,
      ),
      "assembly boom swing 70 deg aft about BL at FS 2, WL 0.2 {",
      "part arm weighed 40 kg at FS 1.9, WL 1",
      ...places.filter(it => it.swung).map(it => it.line),
      "}",
      ...(configuration ? ["configuration folded { swing boom }"] : []),
      ...places.filter(it => !it.swung).map(it => it.line),
      ...limited.filter(it => !it.inside).map(it => it.line),
      "envelope normal {",
      ...limited.filter(it => it.inside).map(it => it.line),
      ...envelope,
      "}",
      ...(burns && burnt ? [`loading trip under normal { burn ${path(burnt)} }`] : []),
      "",
    ].join("\n");
  });
