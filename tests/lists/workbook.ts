/** The least that makes a workbook: one sheet, texts in its cells, an archive that is not compressed. */
export function workbook(rows: readonly (readonly (string | number | null)[])[]): Buffer {
  const cells = rows.map((row, r) => {
    const inside = row.map((value, c) => {
      const at = `${String.fromCharCode(65 + c)}${r + 1}`;
      if (value === null) return "";
      if (typeof value === "number") return `<c r="${at}"><v>${value}</v></c>`;
      const text = value.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
      return `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
    });
    return `<row r="${r + 1}">${inside.join("")}</row>`;
  });
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const relations = (target: string, kind: string) =>
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${office}/${kind}" Target="${target}"/></Relationships>`;
  return archive({
    "[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
    "_rels/.rels": relations("xl/workbook.xml", "officeDocument"),
    "xl/workbook.xml": `<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="Parts" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": relations("worksheets/sheet1.xml", "worksheet"),
    "xl/worksheets/sheet1.xml": `<worksheet xmlns="${main}"><sheetData>${cells.join("")}</sheetData></worksheet>`,
  });
}

function archive(files: Readonly<Record<string, string>>): Buffer {
  const bodies: Buffer[] = [];
  const entries: Buffer[] = [];
  let offset = 0;
  for (const [name, text] of Object.entries(files)) {
    const [path, data] = [Buffer.from(name), Buffer.from(text)];
    const facts = Buffer.alloc(26);
    facts.writeUInt16LE(20, 0);
    facts.writeUInt32LE(crc32(data), 10);
    facts.writeUInt32LE(data.length, 14);
    facts.writeUInt32LE(data.length, 18);
    facts.writeUInt16LE(path.length, 22);
    bodies.push(Buffer.from("PK\u0003\u0004"), facts, path, data);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(offset, 10);
    entries.push(Buffer.from("PK\u0001\u0002\u0014\u0000"), facts, place, path);
    offset += 30 + path.length + data.length;
  }
  const end = Buffer.alloc(18);
  end.writeUInt16LE(Object.keys(files).length, 4);
  end.writeUInt16LE(Object.keys(files).length, 6);
  end.writeUInt32LE(Buffer.concat(entries).length, 8);
  end.writeUInt32LE(offset, 12);
  return Buffer.concat([...bodies, ...entries, Buffer.from("PK\u0005\u0006"), end]);
}

function crc32(data: Buffer): number {
  let crc = ~0;
  for (const byte of data) {
    crc ^= byte;
    for (let i = 0; i < 8; i++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc >>> 0;
}
