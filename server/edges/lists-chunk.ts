// Bundled by itself as dist/lists.js, so that only the commands that take a list load the readers of CSV and XLSX.
export { parse } from "csv-parse/sync";
export { default as readWorkbook } from "read-excel-file/universal";
