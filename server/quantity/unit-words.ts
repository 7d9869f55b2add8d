/** The unit that a word written out means; undefined for any other word. */
export const unitMeant = (word: string): string | undefined => words.get(word.toLowerCase());

const words = new Map(
  Object.entries({
    lb: "lbs pound pounds",
    kg: "kgs kilo kilos kilogram kilograms kilogramme kilogrammes",
    g: "gram grams gramme grammes",
    oz: "ounce ounces",
    slug: "slugs",
    t: "tonne tonnes",
    in: "inch inches",
    ft: "foot feet",
    yd: "yard yards",
    m: "metre metres meter meters",
    cm: "centimetre centimetres centimeter centimeters",
    mm: "millimetre millimetres millimeter millimeters",
    gal: "gallon gallons",
    qt: "quart quarts",
    pt: "pint pints",
    L: "litre litres liter liters",
    deg: "degree degrees",
    rad: "radian radians",
    h: "hour hours",
    min: "minute minutes",
    s: "second seconds",
  }).flatMap(([unit, said]) => said.split(" ").map(word => [word, unit] as const)),
);
