import type { Unit } from "../quantity/units";
import { unitCalled } from "./units";

/** What a column of a list may hold. X, Y and Z are FS, BL and WL. */
export type Meaning =
  | "path"
  | "name"
  | "pn"
  | "qty"
  | "level"
  | "position"
  | "basis"
  | "mass"
  | "total"
  | "FS"
  | "BL"
  | "WL"
  | "rev"
  | "maker";

export interface Heading {
  readonly meaning: Meaning | undefined;
  readonly unit: Unit | undefined;
  /** The smaller, the surer: two columns may claim to be the name. */
  readonly rank: number;
}

/** What a heading says, in English, German or French, with the unit that stands in it. */
export function headingOf(text: string): Heading {
  const whole = text.trim().replace(/\s+/g, " ");
  // `P/N` is no P in newtons
  const exact = exactly(folded(whole));
  if (exact) return { ...exact, unit: undefined };
  const [words, unit] = parted(whole);
  const plain = folded(words);
  const found = exactly(plain);
  if (found) return { ...found, unit };
  for (const [meaning, pattern] of looser)
    if (pattern.test(plain)) return { meaning, unit, rank: 100 };
  return { meaning: undefined, unit, rank: 1000 };
}

function exactly(plain: string): { readonly meaning: Meaning; readonly rank: number } | undefined {
  for (const [meaning, names] of known) {
    const rank = names.indexOf(plain);
    if (rank >= 0) return { meaning, rank };
  }
  const axis = axes.get(withoutFiller(plain));
  return axis && { meaning: axis, rank: 0 };
}

/** A heading's words and its unit: `Mass [kg]`, `Weight, lb`, `Gewicht in g`, `Masse_kg`. */
export function parted(text: string): readonly [string, Unit | undefined] {
  const forms = [
    /^(.+?)\s*[[({<]\s*([^\])}>]+?)\s*[\])}>]\s*$/u,
    /^(.+?)\s+(?:in|en)\s+(\S+)$/iu,
    /^(.+?)\s*[,:;/]\s*([^,:;/]+)$/u,
    /^(.+?)[\s_.-]+([^\s_.-]+)$/u,
  ];
  for (const form of forms) {
    const [, words, last] = text.match(form) ?? [];
    const unit = last && unitCalled(last);
    if (unit) return [words!, unit];
    // `Mass (each)`, `Qty (off)`
    if (last && form === forms[0]) return parted(`${words} ${last}`);
  }
  return [text, undefined];
}

/** Without accents, signs and capitals: `Stückgewicht` is `stuckgewicht`, `P/N` is `p n`. */
export function folded(text: string): string {
  return text
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replaceAll("ß", "ss")
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

const withoutFiller = (plain: string) =>
  plain
    .replace(/^([xyz])(cg|cog|com|sp)$/, "$1")
    .replace(/^(cg|cog|com|sp|s)([xyz])$/, "$2")
    .split(" ")
    .filter(word => !filler.has(word))
    .join(" ");

const filler = new Set(
  (
    "mass cg cog com sp s cdg center centre of mass gravity c g schwerpunkt massenschwerpunkt de du la " +
    "gravite masse coordinate coord koordinate coordonnee pos position axis achse axe lage location"
  ).split(" "),
);

const axes = new Map<string, Meaning>([
  ...["x", "fs", "sta", "station", "fuselage station", "arm", "hebelarm", "arm x"].map(
    it => [it, "FS"] as const,
  ),
  ...["bras", "bras levier", "levier", "x arm", "laengsachse"].map(it => [it, "FS"] as const),
  ...["y", "bl", "buttline", "butt line", "buttock line", "lateral arm"].map(
    it => [it, "BL"] as const,
  ),
  ...["z", "wl", "waterline", "water line", "vertical arm"].map(it => [it, "WL"] as const),
]);

const list = (text: string) => text.split(",").map(it => it.trim());

/** Folded; the surest first. `mass` is of one piece unless the heading says otherwise. */
const known: readonly (readonly [Meaning, readonly string[]])[] = [
  ["path", list("path,part path,pfad,chemin")],
  ["basis", list("basis,mass basis")],
  [
    "pn",
    list(
      "part number,part no,partnumber,partno,p n,pn,part num,number,drawing number,drawing no,dwg no," +
        "teilenummer,teile nr,teilenr,sachnummer,artikelnummer,artikel nr,zeichnungsnummer,zeichnungs nr," +
        "zeichnungsnr,ident nr,materialnummer,reference,ref,numero de piece,no de piece,n de piece," +
        "numero,code article,part id,id",
    ),
  ],
  [
    "name",
    list(
      "name,part,title,description,designation,part name,component,component name,item name,nomenclature," +
        "benennung,bezeichnung,beschreibung,titel,bauteil,teil,teilename,baugruppe,nom,libelle,intitule," +
        "denomination,piece,nom de la piece,composant,instance name,instance",
    ),
  ],
  [
    "qty",
    list(
      "qty,quantity,count,pcs,pieces,no off,off,number off,menge,anzahl,stuckzahl,stuck,stk,quantite,qte,nombre,nb",
    ),
  ],
  [
    "level",
    list(
      "level,lvl,indent,indent level,bom level,depth,ebene,stufe,gliederungsebene,niveau,niv,profondeur",
    ),
  ],
  [
    "position",
    list(
      "item,item no,item number,pos,position,pos nr,posnr,positionsnummer,find no,find number,no,nr,line,repere,rep,wbs,index,structure,struktur,gliederung",
    ),
  ],
  [
    "total",
    list(
      "total mass,total weight,mass total,weight total,extended mass,extended weight,ext weight,ext mass," +
        "gesamtgewicht,gesamtmasse,gewicht gesamt,masse gesamt,masse totale,poids total",
    ),
  ],
  [
    "mass",
    list(
      "unit mass,unit weight,mass each,weight each,each mass,each weight,mass per piece,weight per piece," +
        "einzelgewicht,einzelmasse,stuckgewicht,gewicht einzeln,masse unitaire,poids unitaire," +
        "mass,weight,wt,gewicht,masse,poids,m,mass props mass,net weight,nettogewicht",
    ),
  ],
  [
    "rev",
    list(
      "rev,revision,issue,version,index rev,anderungsindex,anderungsstand,revisionsstand,indice",
    ),
  ],
  ["maker", list("maker,manufacturer,vendor,supplier,hersteller,lieferant,fabricant,fournisseur")],
];

/** What a heading with more words in it is likely to be. */
const looser: readonly (readonly [Meaning, RegExp])[] = [
  ["total", /\b(total|totale|extended|gesamt\w*)\b.*\b(mass|weight|masse|poids|gewicht)\b/],
  ["total", /\b(mass|weight|masse|poids|gewicht)\b.*\b(total|totale|extended|gesamt)\b/],
  ["pn", /\b(part|drawing) ?(no|number|num)\b|\b(teile|sach|artikel|zeichnungs) ?(nr|nummer)\b/],
  [
    "mass",
    /^(?!.*\b(max|min|cent\w*|target|budget|limit|soll|percent|fraction|density|dichte|densite)\b).*\b(mass|weight|masse|poids|gewicht)\b/,
  ],
  ["qty", /\b(qty|quantity|menge|anzahl|quantite|qte)\b/],
  ["name", /\b(name|description|bezeichnung|benennung|designation)\b/],
];
