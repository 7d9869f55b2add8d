/** A page that needs no other file, to be printed. */
export function printed(heading: string, style: string, body: string): string {
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(heading)}</title>
<style>${base}${style}</style>
</head>
<body>
<h1>${escaped(heading)}</h1>
${body}
</body>
</html>
`;
}

export const escaped = (text: string) =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");

const base = `
body { font: 11pt/1.35 system-ui, sans-serif; color: #000; background: #fff; margin: 1.5rem auto; max-width: 60rem; padding: 0 1rem; }
h1 { font-size: 15pt; margin: 0 0 .3rem; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; margin: 1rem 0; }
caption { text-align: left; font-weight: bold; padding: .2rem 0; }
small { font-weight: normal; color: #444; }
th, td { border: 1px solid #777; padding: .25rem .4rem; text-align: left; vertical-align: top; }
td { overflow-wrap: anywhere; height: 1.9rem; }
th { font-size: 9pt; background: #eee; }
footer { font-size: 9pt; border-top: 1px solid #777; padding-top: .4rem; }
@media print {
  @page { margin: 14mm; }
  body { margin: 0; padding: 0; max-width: none; font-size: 10pt; }
  thead { display: table-header-group; }
  tr { break-inside: avoid; }
  caption { break-after: avoid; }
}
`;
